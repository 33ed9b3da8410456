// The two example documents of the contract are read, with every value where it belongs and every span on its text.
#include <gtest/gtest.h>

#include "formula/formula.hpp"

namespace {

using namespace bloomset;

constexpr std::string_view harbour_light = R"toml(bloomset = 1
title    = "Harbour Light"
measures = "metric"
serves   = 6
borrow   = { "house syrup" = "syrups.toml" }
targets  = ["serve.abv 8-11 %", "serve.headroom >= 10 mL"]

[[part]]
name = "orange cloud"
made = "ahead"
  [[part.step]]
  do   = "infuse"
  take = ["230 g orange juice", "36 g honey", "4 piece cardamom pod"]
  at   = "70 C"
  time = "10-12 min"
  [[part.step]]
  do   = "strain"
  leave = ["cardamom pod"]
  [[part.step]]
  do   = "bloom"
  take = ["1.1 % gelatin, gold leaf"]
  in   = "cold water"
  time = "5-30 min"
  [[part.step]]
  do      = "charge"
  vessel  = "siphon, half litre"
  charges = 1
  [[part.step]]
  do    = "rest"
  at    = "4 C"
  time  = "3-5 h"
  keeps = "2 d"

[[part]]
name = "shaken rum"
made = "to order"
step = [
  { do = "shake", take = ["45 mL spirit (40 %vol)", "15 mL orange juice", "15 mL lime juice", "15 mL 'house syrup'"], ice = "200 g ice cubes", leave = ["ice"], time = "10-14 s" },
]

[serve]
vessel = "tall glass, 400 mL"
pour = [
  { take = ["100 g ice cubes", "all 'shaken rum'"] },
  { do = "top", take = ["60 mL ginger soda"] },
  { do = "dispense", take = ["12 g 'orange cloud'"] },
  { do = "garnish", take = ["1 piece mint sprig"], maybe = true },
]
)toml";

constexpr std::string_view syrups = R"toml(bloomset = 1
title = "Syrups"
[[part]]
name = "house syrup"
made = "ahead"
step = [ { do = "dissolve", take = ["100 g sugar", "100 g water"] } ]
)toml";

base::Result<formula::Formula> read(std::string_view text, base::Sources& sources) {
  return formula::read("test.toml", std::string(text), sources, [](const std::string& file) -> std::optional<std::string> {
    if (file == "syrups.toml") return std::string(syrups);
    return std::nullopt;
  });
}

std::string_view at(const base::Sources& sources, base::Span span) { return sources.line(span.source, span.line).substr(span.column - 1, span.length); }

TEST(Reader, reads_the_example_of_the_contract_whole) {
  base::Sources sources;
  const auto f = read(harbour_light, sources);
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  EXPECT_EQ(f->title, "Harbour Light");
  EXPECT_EQ(f->serves, 6);
  ASSERT_EQ(f->parts.size(), 3U);
  const formula::Part& cloud = f->parts[0];
  EXPECT_EQ(cloud.made, formula::Made::ahead);
  ASSERT_EQ(cloud.steps.size(), 5U);
  EXPECT_EQ(cloud.steps[0].act, formula::Act::infuse);
  EXPECT_EQ(cloud.steps[0].takes[0].amount.value.low, 0.23);
  EXPECT_EQ(cloud.steps[0].takes[2].amount.kind, text::AmountKind::pieces);
  EXPECT_EQ(cloud.steps[0].at_c, (text::Range{70.0, 70.0}));
  EXPECT_EQ(cloud.steps[0].time_s, (text::Range{600.0, 720.0}));
  EXPECT_EQ(cloud.steps[1].leave.at(0).text, "cardamom pod");
  EXPECT_EQ(cloud.steps[2].takes[0].amount.kind, text::AmountKind::percent);
  EXPECT_EQ(cloud.steps[2].takes[0].amount.value.low, 0.011);
  EXPECT_EQ(cloud.steps[2].takes[0].thing, "gelatin, gold leaf");
  EXPECT_EQ(cloud.steps[3].charges, 1);
  EXPECT_EQ(cloud.steps[4].keeps_s, (text::Range{172800.0, 172800.0}));
  const formula::Take& spirit = f->parts[1].steps[0].takes[0];
  EXPECT_EQ(spirit.thing, "spirit");
  ASSERT_EQ(spirit.qualifiers.size(), 1U);
  EXPECT_EQ(spirit.qualifiers[0].name, "%vol");
  EXPECT_EQ(spirit.qualifiers[0].value, 40.0);
  EXPECT_EQ(f->parts[1].steps[0].takes[3].kind, formula::ThingKind::made);
  EXPECT_EQ(f->parts[1].steps[0].ice->amount.value.low, 0.2);
  EXPECT_EQ(f->parts[2].name, "house syrup");
  EXPECT_NE(f->parts[2].source, f->source);
  EXPECT_EQ(f->serve->pours[0].act, formula::Act::pour);
  EXPECT_EQ(f->serve->pours[0].takes[1].amount.kind, text::AmountKind::all);
  EXPECT_TRUE(f->serve->pours[3].maybe);
  ASSERT_EQ(f->targets.size(), 2U);
  EXPECT_EQ(f->targets[1].wish, formula::Wish::at_least);
  EXPECT_EQ(f->targets[1].low, 10.0);
}

TEST(Reader, keeps_spans_that_point_at_the_words_of_a_take) {
  base::Sources sources;
  const auto f = read(harbour_light, sources);
  ASSERT_TRUE(f);
  const formula::Take& spirit = f->parts[1].steps[0].takes[0];
  EXPECT_EQ(at(sources, spirit.span), "45 mL spirit (40 %vol)");
  EXPECT_EQ(at(sources, spirit.amount.span), "45 mL");
  EXPECT_EQ(at(sources, spirit.thing_span), "spirit");
  EXPECT_EQ(at(sources, spirit.qualifiers[0].span), "40 %vol");
  EXPECT_EQ(at(sources, f->parts[1].steps[0].takes[3].thing_span), "house syrup");
  EXPECT_EQ(at(sources, f->parts[0].steps[0].act_span), "infuse");
  EXPECT_EQ(at(sources, f->title_span), "Harbour Light");
  EXPECT_EQ(at(sources, f->parts[0].name_span), "orange cloud");
}

TEST(Reader, writes_what_reads_back_as_the_same) {
  base::Sources sources;
  const auto f = read(harbour_light, sources);
  ASSERT_TRUE(f);
  const auto again = read(formula::write(*f), sources);
  ASSERT_TRUE(again) << base::render(again.error().diagnostics, sources);
  EXPECT_EQ(*again, *f);
}

}  // namespace
