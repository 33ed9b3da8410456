// Every example of docs/formula.md is read, and every act and key of the grammar has its place in the page.
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "formula/acts.hpp"
#include "formula/reading.hpp"
#include "larder/larder.hpp"

namespace bloomset::formula::test {
namespace {

std::string page() {
  std::stringstream text;
  text << std::ifstream(std::string(BLOOMSET_SOURCE_DIR) + "/docs/formula.md").rdbuf();
  return text.str();
}

struct Block {
  std::string kind, text;  // kind: "" a whole document, else what it is a piece of
};

std::vector<Block> blocks() {
  std::vector<Block> all;
  std::stringstream lines(page());
  std::string line;
  bool inside = false;
  while (std::getline(lines, line)) {
    if (line.starts_with("```toml")) {
      all.push_back({line.size() > 8 ? line.substr(8) : "", ""});
      inside = true;
    } else if (line.starts_with("```")) {
      inside = false;
    } else if (inside) {
      all.back().text += line + "\n";
    }
  }
  return all;
}

std::string whole(const Block& block) {
  if (block.kind == "head") return with_lines(block.text + small_serve);
  if (block.kind == "part") return with_part(block.text);
  if (block.kind == "serve") return with_serve(block.text);
  if (block.kind == "step") return with_part("name = \"the example\"\nmade = \"ahead\"\n[[part.step]]\n" + block.text);
  return block.text;
}

std::optional<std::string> syrups(const std::string&) {
  return with_part("name = \"house syrup\"\nmade = \"ahead\"\nstep = [ { do = \"dissolve\", take = [\"1 g sugar\"] } ]\n");
}

TEST(Docs, hold_only_examples_that_are_read) {
  const auto all = blocks();
  EXPECT_GT(all.size(), 25U);
  for (const Block& block : all) EXPECT_EQ(said(whole(block), syrups), "") << block.text;
}

// Bought things of every example stand in the built-in larder, and their brackets say what it can use.
TEST(Docs, examples_name_things_that_the_larder_knows) {
  const auto larder = larder::Larder::built_in();
  ASSERT_TRUE(larder.has_value());
  for (const Block& block : blocks()) {
    base::Sources sources;
    const auto formula = read("page.toml", whole(block), sources, syrups);
    ASSERT_TRUE(formula.has_value()) << block.text;
    const auto see = [&](const std::vector<Step>& steps) {
      for (const Step& step : steps)
        for (const Take& take : step.takes) {
          if (take.kind == ThingKind::made || take.thing == "x") continue;  // x stands in the frame around a piece, not in the page
          std::vector<larder::Qualifier> bracket;
          for (const Qualifier& word : take.qualifiers) bracket.push_back({word.name, word.value, word.span});
          const auto thing = larder->resolve(take.thing, bracket, take.thing_span);
          EXPECT_TRUE(thing.has_value()) << take.thing << ": " << (thing ? "" : base::render(thing.error().diagnostics, sources));
        }
    };
    for (const Part& part : formula->parts) see(part.steps);
    if (formula->serve) see(formula->serve->pours);
  }
}

TEST(Docs, name_every_act_key_and_property) {
  const std::string text = page();
  for (const std::string& act : all_act_names()) EXPECT_NE(text.find(act), std::string::npos) << act;
  for (const std::string& target : target_names()) EXPECT_NE(text.find("`" + target + "`"), std::string::npos) << target;
  std::set<std::string> shown;
  for (const Block& block : blocks())
    for (const std::string& key : all_step_keys())
      if (("\n" + block.text).find("\n" + key + " ") != std::string::npos || block.text.find(" " + key + " =") != std::string::npos) shown.insert(key);
  for (const std::string& key : all_step_keys()) EXPECT_TRUE(shown.contains(key)) << key << " has no example";
}

TEST(Docs, give_each_act_the_keys_that_the_reader_gives_it) {
  // The table of own keys, row by row, against the reader's table.
  std::stringstream lines(page());
  std::string line;
  std::size_t acts = 0;
  while (std::getline(lines, line)) {
    if (!line.starts_with("| ") || line.starts_with("| ---") || line.starts_with("| acts")) continue;
    const std::size_t bar = line.find('|', 2);
    std::stringstream names(line.substr(2, bar - 3));
    std::string act_text;
    while (std::getline(names >> std::ws, act_text, ',')) {
      const auto act = act_named(act_text);
      if (!act) continue;
      ++acts;
      KeySet own = keys_of(*act);
      for (const Key key : {Key::take, Key::time, Key::at, Key::to, Key::in, Key::vessel, Key::leave, Key::keeps, Key::hard, Key::split, Key::loss, Key::maybe})
        own.reset(static_cast<std::size_t>(key));
      KeySet written;
      for (std::size_t i = 0; i < key_count; ++i)
        if (line.find("`" + std::string(name(static_cast<Key>(i))) + "`", bar) != std::string::npos) written.set(i);
      EXPECT_EQ(own, written) << act_text;
    }
  }
  EXPECT_EQ(acts, act_count);
}

}  // namespace
}  // namespace bloomset::formula::test
