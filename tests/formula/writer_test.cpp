// read(write(f)) == f for random documents of every act, and the look of what is written.
#include <gtest/gtest.h>

#include "formula/random_formula.hpp"

namespace bloomset::formula {
namespace {

base::Result<Formula> read_back(const std::string& text, base::Sources& sources) {
  return read("written.toml", text, sources, [](const std::string&) { return std::nullopt; });
}

void reads_back_the_same(const test::Choices& choices) {
  const Formula formula = *test::random_formula(choices);
  const std::string text = write(formula);
  base::Sources sources;
  const auto again = read_back(text, sources);
  if (!again) RC_FAIL(text + base::render(again.error().diagnostics, sources));
  for (std::size_t p = 0; p < formula.parts.size(); ++p)
    if (!(again->parts.at(p) == formula.parts[p])) RC_LOG() << "part " << p << "\n" << text;
  RC_ASSERT(*again == formula);
  RC_ASSERT(write(*again) == text);
}

TEST(Writer, writes_any_document_so_that_it_reads_back_as_the_same) {
  EXPECT_TRUE(rc::check([] { reads_back_the_same({}); }));
}

TEST(Writer, writes_plain_documents_of_chosen_acts_so_that_they_read_back_as_the_same) {
  test::Choices choices;
  choices.acts = {Act::combine, Act::warm, Act::strain};
  choices.pour_acts = {Act::pour, Act::top};
  choices.plain = true;
  EXPECT_TRUE(rc::check([choices] {
    const Formula formula = *test::random_formula(choices);
    for (const Part& part : formula.parts)
      for (const Step& step : part.steps) RC_ASSERT(step.act == Act::combine || step.act == Act::warm || step.act == Act::strain);
    base::Sources sources;
    const auto again = read_back(write(formula), sources);
    RC_ASSERT(again.has_value());
    RC_ASSERT(*again == formula);
  }));
}

TEST(Writer, keeps_every_act_and_every_key) {
  // Each act once with all of its keys, so that a key the writer forgets cannot hide behind chance.
  for (std::size_t i = 0; i < act_count; ++i) {
    Formula formula;
    formula.title = "T";
    Part part;
    part.name = "p";
    part.made = Made::ahead;
    Step step;
    step.act = static_cast<Act>(i);
    const KeySet keys = keys_of(step.act);
    Take take;
    take.amount = {text::AmountKind::mass, {0.1, 0.1}, "g", {}};
    take.thing = "water";
    take.at_c = text::Range{20.0, 20.0};
    take.mark = "line";
    step.takes = {take};
    step.at_c = text::Range{4.0, 5.0};
    step.time_s = step.keeps_s = text::Range{600.0, 720.0};
    step.in = step.vessel = Word{"ice bath", {}};
    step.leave = {{"ice", {}}};
    step.hard = Word{"both", {}};
    step.split = step.loss = text::Range{0.25, 0.25};
    step.maybe = true;
    if (has(keys, Key::until)) step.until = Until{Until::What::brix, 65.0, {}};
    if (has(keys, Key::yield)) step.yield_ = text::Range{0.8, 0.8};
    if (has(keys, Key::with)) step.with = Word{"gas torch", {}};
    if (has(keys, Key::by)) step.by = Word{"agar", {}};
    if (has(keys, Key::out)) step.out = {{"clear", text::Range{0.74, 0.8}, {}}, {"curd", std::nullopt, {}}};
    if (has(keys, Key::ice)) {
      step.ice = take;
      step.ice->at_c.reset();
      step.ice->mark.clear();
      step.ice_at_c = text::Range{-18.0, -18.0};
    }
    if (has(keys, Key::bath)) step.bath = Bath{*std::optional<Take>(take), text::Range{0.03, 0.05}};
    if (step.bath) step.bath->in.at_c.reset(), step.bath->in.mark.clear();
    if (has(keys, Key::size)) step.size_m = text::Range{0.015, 0.015};
    if (has(keys, Key::charges)) step.charges = 2;
    if (has(keys, Key::gas)) step.gas = Word{"CO2", {}};
    if (has(keys, Key::pressure)) step.pressure_pa = 250000.0;
    if (has(keys, Key::purged)) step.purged = true;
    part.steps = {step};
    formula.parts = {part};
    base::Sources sources;
    const auto again = read_back(write(formula), sources);
    ASSERT_TRUE(again) << write(formula) << base::render(again.error().diagnostics, sources);
    EXPECT_EQ(*again, formula) << write(formula);
  }
}

TEST(Writer, prints_in_our_order_and_spacing) {
  base::Sources sources;
  const auto f = read_back(R"toml(bloomset = 1
title = "Small"
serves = 2
targets = [ "serve.abv   8-11 %" ]
[serve]
pour = [ { do = "pour", take = [ { at = "4 C", take = "60  mL   soda" } ] }, { maybe = true, do = "garnish", take = ["1 piece mint sprig"] } ]
vessel = "cup, 240 mL"
[[part]]
made = "to order"
name = "base"
step = [ { time = "90 s", take = ["1 1/2 bar spoons syrup (50 brix)", "2 % salt"], do = "dry shake" } ]
)toml",
                           sources);
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  EXPECT_EQ(write(*f), R"toml(bloomset = 1
title = "Small"
serves = 2
targets = ["serve.abv   8-11 %"]

[[part]]
name = "base"
made = "to order"
  [[part.step]]
  do = "dry shake"
  take = ["1.5 bar spoons syrup (50 brix)", "2 % salt"]
  time = "1.5 min"

[serve]
vessel = "cup, 240 mL"
pour = [
  { take = [{ take = "60 mL soda", at = "4 C" }] },
  { do = "garnish", take = ["1 piece mint sprig"], maybe = true },
]
)toml");
}

}  // namespace
}  // namespace bloomset::formula
