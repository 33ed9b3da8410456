// Random changes, several in a row, of every demo document and of random ones, with comments strewn in and lists broken over lines: each text reads back
// as the formula that the change should make, worked out on the formula itself; no comment is lost but with what was taken out.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "formula/patch.hpp"
#include "formula/random_formula.hpp"
#include "text/document.hpp"
#include "text/fold.hpp"

namespace bloomset::formula {
namespace {

const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}
const Borrower beside = [](const std::string& file) { return std::optional(text_of(demo / file)); };

const std::vector<std::string>& demos() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> texts;
    std::set<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(demo))
      if (entry.path().extension() == ".toml") files.insert(entry.path());
    for (const auto& file : files) texts.push_back(text_of(file));
    return texts;
  }();
  return all;
}

// Evenly, however small the trial is.
std::uint32_t pick(std::size_t from, std::size_t below) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(static_cast<std::uint32_t>(from), static_cast<std::uint32_t>(below)));
}
bool chance(std::uint32_t of_ten) { return pick(0, 10) < of_ten; }

// The same document spelt otherwise: items of lists on lines of their own, comments behind lines and between them. A comment is "#c<number>".
std::string respelt(const std::string& text) {
  std::string out, open;
  int comments = 0;
  const bool breaks = chance(5);
  const auto remark = [&] { return " #c" + std::to_string(comments++); };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      const std::size_t from = i;
      for (++i; i < text.size() && text[i] != c; ++i)
        if (c == '"' && text[i] == '\\') ++i;
      out += text.substr(from, i + 1 - from);
    } else if (c == '#') {
      const std::size_t end = text.find('\n', i);
      out += text.substr(i, end - i);
      i = end - 1;
    } else if (c == '\n') {
      if (out.size() > 0 && out.back() != '\n' && out.find('#', out.rfind('\n') + 1) == std::string::npos && chance(3)) out += remark();
      out += c;
      if (chance(1)) out += remark() + "\n";
    } else {
      out += c;
      if (c == '[' || c == '{') open += c;
      if (c == ']' || c == '}') open.pop_back();
      const bool header =
          open.find('{') == std::string::npos && c == '[' &&
          (out.size() == 1 || out.find_last_not_of(" [", out.size() - 1) == std::string::npos || out[out.find_last_not_of(" [", out.size() - 1)] == '\n');
      if (breaks && !header && !open.empty() && open.back() == '[' && (c == ',' || c == '[') && chance(6)) out += (chance(4) ? remark() : "") + "\n      ";
    }
  }
  return out;
}

// Comments by line: those strewn in and the document's own.
std::multiset<std::string> comments_of(const std::string& text) {
  std::multiset<std::string> out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"' || text[i] == '\'') {
      const char quote = text[i];
      for (++i; i < text.size() && text[i] != quote; ++i)
        if (quote == '"' && text[i] == '\\') ++i;
    } else if (text[i] == '#') {
      const std::size_t end = std::min(text.find_first_of("\r\n", i), text.size());
      out.insert(text.substr(i, end - i));
      i = end;
    }
  }
  return out;
}

// Other ends of line, and the mark that some editors put first.
std::string as_other_editors_save(std::string text) {
  if (chance(2))
    for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 2)) text.insert(at, "\r");
  if (chance(2)) text.insert(0, "\xEF\xBB\xBF");
  if (chance(2))
    while (text.ends_with('\n') || text.ends_with('\r')) text.pop_back();
  return text;
}

struct Tried {
  Change change;
  Formula wanted;
  bool takes_out = false;  // comments may go
};

struct Document {
  std::string text;
  Formula formula;
  std::size_t own = 0;  // parts
  std::uint32_t serve() const { return static_cast<std::uint32_t>(formula.parts.size()) + 1; }
};

std::optional<Document> document_of(const std::string& text, std::string* why = nullptr) {
  base::Sources sources;
  auto formula = read("d.toml", text, sources, beside);
  if (!formula) {
    if (why) *why = base::render(formula.error().diagnostics, sources);
    return std::nullopt;
  }
  const auto own =
      static_cast<std::size_t>(std::count_if(formula->parts.begin(), formula->parts.end(), [&](const Part& part) { return part.source == formula->source; }));
  return Document{text, std::move(*formula), own};
}

// Of the serve or of one of the own parts.
std::vector<Step>& steps_of(Formula& formula, std::uint32_t part) {
  return part <= formula.parts.size() ? formula.parts[part - 1].steps : formula.serve->pours;
}

std::uint32_t any_owner(const Document& d) {
  std::vector<std::uint32_t> owners;
  for (std::uint32_t p = 1; p <= d.own; ++p) owners.push_back(p);
  if (d.formula.serve) owners.push_back(d.serve());
  return owners[pick(0, owners.size())];
}

Take salt() {
  text::Faults faults;
  return *read_take("1.5 g salt", {}, text::Measures::metric, faults);
}

void rename(std::vector<Step>& steps, const std::string& from, const std::string& to) {
  bool bought = false;
  const auto each = [&](Take& take) {
    if (take.kind == ThingKind::made && text::fold(take.thing) == text::fold(from)) take.thing = to;
  };
  for (Step& step : steps) {
    for (Take& take : step.takes) {
      each(take);
      bought = bought || (take.kind == ThingKind::bought && text::fold(take.thing) == text::fold(from));
    }
    if (step.ice) each(*step.ice);
    if (step.bath) each(step.bath->in);
  }
  for (Step& step : steps)
    for (Word& word : step.leave)
      if (!bought && text::fold(word.text) == text::fold(from)) word.text = to;
}

// One change that can be done, and the formula it should make. Nothing where the drawn one cannot be done here.
std::optional<Tried> try_change(const Document& d) {
  Tried t;
  t.wanted = d.formula;
  Change& c = t.change;
  c.what = static_cast<Do>(pick(0, do_count));
  c.part = any_owner(d);
  std::vector<Step>& steps = steps_of(t.wanted, c.part);
  const auto count = static_cast<std::uint32_t>(steps.size());
  c.step = pick(1, count + 1);
  Step& step = steps[c.step - 1];
  const auto takes = static_cast<std::uint32_t>(step.takes.size());
  c.take = takes > 0 ? pick(1, takes + 1) : 0;
  c.by = chance(5) ? 1 : -1;
  const bool in_serve = c.part == d.serve();
  switch (c.what) {
    case Do::write: {
      if (takes == 0) return std::nullopt;
      Take& take = step.takes[c.take - 1];
      // A text with escapes has one pen, for the whole of it.
      const bool whole = take.amount.span == take.span || chance(3) || take.charged_as != ChargedAs::unsaid || !take.of_mark.empty();
      c.at = whole ? take.span : take.amount.span;
      c.value = whole ? "1.5 g salt" : "7.5 g";
      if (whole) {
        const std::string mark = take.mark;
        const auto at = take.at_c;
        take = salt();
        take.mark = mark;
        take.at_c = at;
      } else {
        take.amount = {text::AmountKind::mass, {7.5e-3, 7.5e-3}, "g", {}};
      }
      return t;
    }
    case Do::set_serves:
      c.value = std::to_string(t.wanted.serves = *rc::gen::inRange(1, 1000));
      return t;
    case Do::set_title:
      c.value = t.wanted.title = *rc::gen::element<std::string>("Dusk", "back\\slash \"x\"", "it's # not a comment", "crème");
      return t;
    case Do::set_made:
      if (in_serve || t.wanted.parts[c.part - 1].batches != 1.0) return std::nullopt;
      t.wanted.parts[c.part - 1].made = chance(5) ? Made::ahead : Made::to_order;
      c.value = t.wanted.parts[c.part - 1].made == Made::ahead ? "ahead" : "to order";
      return t;
    case Do::set_vessel:
      if (!t.wanted.serve) return std::nullopt;
      c.value = t.wanted.serve->vessel.text = *rc::gen::element<std::string>("cup, 240 mL", "a \"glass\", 200 mL");
      return t;
    case Do::set_name: {
      if (in_serve) return std::nullopt;
      const std::string old = t.wanted.parts[c.part - 1].name;
      c.value = *rc::gen::element<std::string>("new name", "néw, \"name\"", "new \\ name");
      for (const Part& part : t.wanted.parts)
        if (text::fold(part.name) == text::fold(*c.value)) return std::nullopt;
      t.wanted.parts[c.part - 1].name = *c.value;
      for (std::size_t p = 0; p < d.own; ++p) rename(t.wanted.parts[p].steps, old, *c.value);
      if (t.wanted.serve) rename(t.wanted.serve->pours, old, *c.value);
      for (Target& target : t.wanted.targets)
        if (!target.of_serve && text::fold(target.part) == text::fold(old)) target.part = *c.value;
      return t;
    }
    case Do::add_line: {
      std::vector<Step>& into = d.own > 0 ? t.wanted.parts[d.own - 1].steps : t.wanted.serve->pours;
      const auto last = std::find_if(into.rbegin(), into.rend(), [](const Step& s) { return !s.takes.empty(); });
      (last == into.rend() ? into.front() : *last).takes.push_back(salt());
      c.value = "1.5 g salt";
      return t;
    }
    case Do::add_take:
      step.takes.push_back(salt());
      c.value = "1.5 g salt";
      return t;
    case Do::remove_take:
      if (takes == 0 || !step.takes[c.take - 1].mark.empty()) return std::nullopt;
      step.takes.erase(step.takes.begin() + c.take - 1);
      t.takes_out = true;
      return t;
    case Do::move_take: {
      const std::uint32_t other = c.by > 0 ? c.take + 1 : c.take - 1;
      if (takes == 0 || other < 1 || other > takes) return std::nullopt;
      std::swap(step.takes[c.take - 1], step.takes[other - 1]);
      return t;
    }
    case Do::add_step: {
      if (chance(3)) c.step = 0;
      Step added;
      added.act = Act::strain;
      steps.insert(steps.begin() + c.step, added);
      c.value = "strain";
      return t;
    }
    case Do::remove_step:
      if (count == 1 || std::any_of(step.takes.begin(), step.takes.end(), [](const Take& take) { return !take.mark.empty(); })) return std::nullopt;
      steps.erase(steps.begin() + c.step - 1);
      t.takes_out = true;
      return t;
    case Do::move_step: {
      const std::uint32_t other = c.by > 0 ? c.step + 1 : c.step - 1;
      if (other < 1 || other > count) return std::nullopt;
      std::swap(steps[c.step - 1], steps[other - 1]);
      return t;
    }
    case Do::set_condition:
      if (chance(5)) {
        c.key = "time";
        c.value = "7 min";
        step.time_s = text::Range{420.0, 420.0};
      } else if (chance(5)) {
        c.key = "maybe";
        c.value = "true";
        step.maybe = true;
      } else {
        c.key = "vessel";
        if (!step.vessel) return std::nullopt;
        step.vessel.reset();
        t.takes_out = true;
      }
      return t;
    case Do::add_part: {
      c.value = "one more part";
      c.made = "ahead";
      for (const Part& part : t.wanted.parts)
        if (part.name == *c.value) return std::nullopt;
      Part part;
      part.name = *c.value;
      part.made = Made::ahead;
      part.steps.emplace_back();
      t.wanted.parts.insert(t.wanted.parts.begin() + static_cast<std::ptrdiff_t>(d.own), part);
      return t;
    }
    case Do::remove_part:
      if (d.own < 2 || in_serve) return std::nullopt;
      t.wanted.parts.erase(t.wanted.parts.begin() + c.part - 1);
      t.takes_out = true;
      return t;
    case Do::add_target:
    case Do::set_target: {
      text::Faults faults;
      const Target target = *read_target_text({"serve.mass >= 5 g", {}}, text::Measures::metric, faults);
      c.value = "serve.mass >= 5 g";
      if (c.what == Do::add_target) {
        t.wanted.targets.push_back(target);
      } else {
        if (t.wanted.targets.empty()) return std::nullopt;
        c.target = pick(1, t.wanted.targets.size() + 1);
        t.wanted.targets[c.target - 1] = target;
      }
      return t;
    }
    case Do::remove_target:
      if (t.wanted.targets.empty()) return std::nullopt;
      c.target = pick(1, t.wanted.targets.size() + 1);
      t.wanted.targets.erase(t.wanted.targets.begin() + c.target - 1);
      t.takes_out = true;
      return t;
  }
  return std::nullopt;
}

void holds_for(std::string text) {
  auto d = document_of(text);
  RC_PRE(d.has_value());
  for (int i = 0; i < 6; ++i) {
    const auto tried = try_change(*d);
    if (!tried) continue;
    const auto out = changed(d->text, tried->change, beside);
    if (!out) RC_FAIL(std::string(name(tried->change.what)) + ": " + out.error().message + "\n" + d->text);
    std::string why;
    auto next = document_of(*out, &why);
    if (!next) RC_FAIL(std::string(name(tried->change.what)) + "\n" + d->text + "\n--- after\n" + *out + "\n" + why);
    if (!(next->formula == tried->wanted))
      RC_FAIL(std::string(name(tried->change.what)) + " of " + tried->change.key + "\n" + d->text + "\n--- after\n" + *out);
    const auto before = comments_of(d->text), after = comments_of(*out);
    if (tried->takes_out ? !std::includes(before.begin(), before.end(), after.begin(), after.end()) : before != after)
      RC_FAIL(std::string(name(tried->change.what)) + " and comments\n" + d->text + "\n--- after\n" + *out);
    d = std::move(next);
  }
}

TEST(PatchRandom, changes_demo_documents_as_asked_and_in_nothing_else) {
  EXPECT_TRUE(rc::check([] { holds_for(as_other_editors_save(respelt(demos()[pick(0, demos().size())]))); }));
}

TEST(PatchRandom, changes_documents_of_every_act_as_asked_and_in_nothing_else) {
  EXPECT_TRUE(rc::check([] { holds_for(as_other_editors_save(respelt(write(*test::random_formula({}))))); }));
}

// Odd but good TOML: dotted keys, sub-tables, one-line documents, quoted keys, sections that stand apart.
const std::vector<std::string> odd_texts = {
    "bloomset = 1\ntitle = 'T'\nserve.vessel = \"cup\"\nserve.pour = [{take = [\"1 g x\"], bath.in = \"1 g y\"}]\npart = "
    "[{name=\"a\",made=\"ahead\",step=[{do=\"combine\"}]}]",
    "bloomset=1\ntitle=\"\"\"T\nU\"\"\"\n[[part]]\n'name' = \"a\"\n[[part.\"step\"]]\ndo='bloom'\n[part.step.bath]\nin=\"1 g "
    "x\"\n[serve]\nvessel='c'\n[[serve.pour]]\n[[part.step]]\n",
    "title = 3\ntargets = 4\npart = 5\nserve = [1]\n",
    "[[part]]\n[[part]]\nstep = [3, {take = [1, {take = 2}]}]\nname = 4\n[serve]\npour = [[], {leave = [1]}]\n",
    "serve = {}\npart = []\ntargets = [ # none\n]\n",
    "[[serve.pour]]\ntake = []\n[part]\nname = 'x'\n",
    "",
    "\xEF\xBB\xBF# only this"};

Change any_change() {
  const std::vector<std::string> values = {"1.5 g salt", "combine", "true", "7", "a; b", "'", "\"\\", "", "ahead", "to order", "\xC3\xA9", "x\ny"};
  const std::vector<std::string> keys = {"time", "leave", "charges", "maybe", "bath.in", "bath.takes_up", "out.clear", "out", "ice", "take", "do", "x.y", ""};
  Change c;
  c.what = static_cast<Do>(pick(0, do_count));
  c.part = pick(0, 5);
  c.step = pick(0, 4);
  c.take = pick(0, 5);
  c.target = pick(0, 4);
  c.by = chance(5) ? 1 : -1;
  c.key = keys[pick(0, keys.size())];
  c.at = {0, pick(0, 12), pick(0, 40), pick(0, 20)};
  if (chance(9)) c.value = values[pick(0, values.size())];
  return c;
}

TEST(PatchRandom, answers_any_change_of_any_text_with_toml_or_with_a_reason) {
  EXPECT_TRUE(rc::check([] {
    std::string text = chance(5) ? odd_texts[pick(0, odd_texts.size())] : as_other_editors_save(demos()[pick(0, demos().size())]);
    for (std::uint32_t slips = pick(0, 4); slips > 0 && !text.empty(); --slips) {
      const std::size_t at = pick(0, text.size());
      const std::string by = std::string(1, std::string("[]{}\"'#=,.\n a1")[pick(0, 15)]);
      text.replace(at, pick(0, 3), by);
    }
    for (int i = 0; i < 4; ++i) {
      const Change change = any_change();
      const auto out = changed(text, change, beside);
      if (!out) {
        RC_ASSERT(!out.error().message.empty());
        if (out.error().kind == base::ErrorKind::internal) RC_FAIL(std::string(name(change.what)) + " " + change.key + " " + out.error().message + "\n" + text);
        continue;
      }
      text = *out;
    }
  }));
}

TEST(PatchRandom, keeps_the_comments_of_what_stays) {
  // One of two takes goes, and with it its own comment only.
  const std::string text =
      "bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [ # a\n\"1 g x\", # b\n# c\n\"2 g y\" # d\n] "
      "} ] # e\n";
  Change change;
  change.what = Do::remove_take;
  change.part = change.step = 1;
  change.take = 2;
  EXPECT_EQ(comments_of(*changed(text, change, beside)), (std::multiset<std::string>{"# a", "# b", "# c", "# e"}));
}

}  // namespace
}  // namespace bloomset::formula
