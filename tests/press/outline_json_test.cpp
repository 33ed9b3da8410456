// Pens of every demo document: what is shown stands there, written back it changes nothing, and another amount reads back as that amount.
#include "press/outline_json.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>

#include "formula/patch.hpp"
#include "press/demos.hpp"

namespace bloomset::press {
namespace {

using formula::Change;
using formula::Do;
using nlohmann::ordered_json;
using test::beside;
using test::demo;
using test::text_of;

struct Read {
  base::Sources sources;
  std::optional<formula::Formula> formula;
  ordered_json outline;
  explicit Read(const std::string& text) {
    auto read = formula::read("f.toml", text, sources, beside);
    EXPECT_TRUE(read) << (read ? "" : base::render(read.error().diagnostics, sources)) << text;
    if (!read) return;
    formula = std::move(*read);
    outline = ordered_json::parse(outline_json(*formula, sources).print());
  }
};

Change write_at(const ordered_json& place, const std::string& value) {
  Change change;
  change.what = Do::write;
  change.at = {0, place["line"].get<std::uint32_t>(), place["column"].get<std::uint32_t>(), place["length"].get<std::uint32_t>()};
  change.value = value;
  return change;
}

// Calls `see(text, place)` for every pen, condition and target below.
void each_pen(const ordered_json& node, const std::function<void(const std::string&, const ordered_json&)>& see) {
  if (node.is_object() && node.contains("place") && !node["place"].is_null()) see(node["text"], node["place"]);
  if (node.is_structured())
    for (const auto& item : node.items()) each_pen(item.value(), see);
}

// Pens are asked of the text that they are given for; each is written by itself.
std::size_t holds_for(const std::string& text) {
  const Read read(text);
  std::size_t pens = 0;
  each_pen(read.outline, [&](const std::string& shown, const ordered_json& place) {
    ++pens;
    const auto same = formula::changed(text, write_at(place, shown), beside);
    ASSERT_TRUE(same) << shown << ": " << same.error().message;
    EXPECT_EQ(*same, text) << shown;
  });
  return pens;
}

std::vector<std::filesystem::path> demo_files() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(demo))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TEST(OutlineJson, gives_pens_that_change_nothing_when_what_they_show_is_written) {
  for (const auto& file : demo_files()) EXPECT_GT(holds_for(text_of(file)), 8U) << file;
}

TEST(OutlineJson, gives_amounts_that_read_back_as_what_was_written) {
  for (const auto& file : demo_files()) {
    const std::string text = text_of(file);
    const Read read(text);
    for (const auto& part : read.outline["parts"])
      for (const auto& step : part["steps"])
        for (const auto& take : step["takes"]) {
          if (take["amount"].is_null()) continue;
          const auto changed = formula::changed(text, write_at(take["amount"]["place"], "7.5 g"), beside);
          ASSERT_TRUE(changed) << take.dump();
          const Read again(*changed);
          ASSERT_TRUE(again.formula);
          const formula::Step& now = again.formula->parts[part["index"].get<std::size_t>() - 1].steps[step["number"].get<std::size_t>() - 1];
          const std::size_t number = take["number"];
          const formula::Take& changed_take = number <= now.takes.size() ? now.takes[number - 1] : number == now.takes.size() + 1 ? *now.ice : now.bath->in;
          EXPECT_EQ(changed_take.amount, (text::Amount{text::AmountKind::mass, {7.5e-3, 7.5e-3}, "g", {}})) << file << take.dump();
          EXPECT_EQ(formula::label(changed_take), take["label"]);
        }
  }
}

TEST(OutlineJson, says_what_the_demo_says) {
  const Read read(text_of(demo / "08-harbour-light.toml"));
  const ordered_json& outline = read.outline;
  EXPECT_EQ(outline["title"]["text"], "Harbour Light");
  EXPECT_EQ(outline["serves"]["text"], "6");
  EXPECT_EQ(outline["measures"], "metric");
  EXPECT_EQ(
      outline["targets"][0].dump(),
      R"({"text":"serve.abv 8-11 %","place":{"line":8,"column":14,"length":16},"where":"serve","property":"abv","key":"abv_percent","unit":"%","low":8,"high":11,"at_minute":null})");
  EXPECT_EQ(outline["targets"][3]["high"], nullptr);
  const ordered_json& cloud = outline["parts"][0];
  EXPECT_EQ(cloud["name_pen"]["text"], "orange cloud");
  EXPECT_EQ(cloud["made"], "ahead");
  EXPECT_EQ(
      cloud["steps"][0]["takes"][2].dump(),
      R"({"number":3,"kind":"bought","thing":"cardamom pod","label":"cardamom pod","amount":{"text":"4 piece","place":{"line":15,"column":49,"length":7}},)"
      R"("whole":{"text":"4 piece cardamom pod","place":{"line":15,"column":49,"length":20}},"amount_kind":"pieces","unit":"piece","mark":null,"stream":"take:1.1.3"})");
  EXPECT_EQ(cloud["steps"][7]["conditions"][1].dump(), R"({"key":"charges","text":"1","place":{"line":40,"column":13,"length":1}})");
  const ordered_json& shake = outline["parts"][1]["steps"][0];
  EXPECT_EQ(shake["takes"][0]["label"], "cane spirit (40 %vol)");
  EXPECT_EQ(shake["takes"][3]["kind"], "made");
  EXPECT_EQ(shake["takes"][4]["kind"], "ice");
  EXPECT_EQ(shake["takes"][4]["stream"], "take:2.1.5");
  EXPECT_EQ(shake["conditions"][0]["text"], "ice");
  const ordered_json& syrup = outline["parts"][2];
  EXPECT_TRUE(syrup["borrowed"]);
  EXPECT_EQ(syrup["file"], "syrups.toml");
  EXPECT_EQ(syrup["name_pen"], nullptr);
  EXPECT_EQ(syrup["steps"][0]["takes"][0]["whole"], nullptr);
  EXPECT_EQ(outline["serve"]["index"], 4);
  EXPECT_EQ(outline["serve"]["vessel"]["text"], "tall glass, 400 mL");
  EXPECT_EQ(outline["serve"]["steps"][0]["do_pen"], nullptr);
  EXPECT_TRUE(outline["serve"]["steps"][3]["maybe"]);
}

TEST(OutlineJson, has_one_pen_for_a_text_with_escapes_and_reaches_into_tables) {
  const std::string text =
      "bloomset = 1\ntitle = \"\\u00C9t\\u00E9\"\n[[part]]\nname = \"a\"\nmade = \"ahead\"\nstep = [ { do = \"sphere\", take = [\"\\u00BD cup milk\", '1 g "
      "salt'], "
      "bath = { in = \"1 kg water\", takes_up = \"3 %\" }, leave = [\"x\", \"y\"] } ]\n";
  EXPECT_EQ(holds_for(text), 10U);
  const Read read(text);
  const ordered_json& step = read.outline["parts"][0]["steps"][0];
  EXPECT_EQ(step["takes"][0]["amount"], nullptr);
  EXPECT_EQ(step["takes"][0]["whole"]["text"], "½ cup milk");
  EXPECT_EQ(step["takes"][2]["stream"], "take:1.1.4");
  EXPECT_EQ(step["conditions"][0]["key"], "bath.takes_up");
  EXPECT_EQ(step["conditions"][1]["text"], "x; y");
  EXPECT_EQ(read.outline["serves"], nullptr);
  EXPECT_EQ(read.outline["serve"], nullptr);
  const auto changed = formula::changed(text, write_at(step["conditions"][1]["place"], "x; \"z\""), beside);
  ASSERT_TRUE(changed);
  EXPECT_EQ(Read(*changed).outline["parts"][0]["steps"][0]["conditions"][1]["text"], "x; \"z\"");
}

}  // namespace
}  // namespace bloomset::press
