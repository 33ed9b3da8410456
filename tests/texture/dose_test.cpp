// tests/texture/dose_test.cpp - doses of the trade by effect and base, pieces, method, small doses, slips of ten.
#include "texture/dose.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "pantry.hpp"

namespace bloomset::texture {
namespace {

using namespace units;

const Form gold{Agent::gelatin, 200.0, grams(2.0)};

DoseAsked asked(const matter::Composition& base, Agent agent, Effect effect) {
  DoseAsked a;
  a.base = base;
  a.form.agent = agent;
  a.effect = effect;
  return a;
}

bool says(const std::vector<std::string>& lines, const std::string& word) {
  return std::any_of(lines.begin(), lines.end(), [&word](const std::string& line) { return line.find(word) != std::string::npos; });
}

TEST(Dose, AColdFoamOfOrangeJuiceWithGoldLeaf) {
  // Practice: siphon foams take 0.4 to 0.8 % in thin fruit waters and 1.7 % for dense ones.
  DoseAsked a = asked(of("orange juice", 730.0), Agent::gelatin, Effect::cold_foam);
  a.form = gold;
  const auto d = dose(a);
  ASSERT_TRUE(d.has_value());
  EXPECT_EQ(d->kind.kind, BaseKind::juice);
  EXPECT_GE(d->percent_of_base.low, 0.4);
  EXPECT_LE(d->percent_of_base.high, 1.7);
  EXPECT_NEAR(d->mass_g.nominal, 0.01 * d->percent_of_base.nominal * 730.0, 1e-9);
  EXPECT_NEAR(d->pieces->nominal, d->mass_g.nominal / 2.0, 1e-12);
  EXPECT_LT(d->percent_of_total.nominal, d->percent_of_base.nominal);
  EXPECT_EQ(gel_class(mass_percent(d->percent_of_base.nominal), BaseKind::juice).is, GelClass::soft);
  EXPECT_TRUE(says(d->method, "never boil"));
  EXPECT_TRUE(says(d->method, "sieve"));
}

TEST(Dose, OrdinaryJellyOfAgarAndOfGelatin) {
  // Accepted answer on a cooks' site: 3 g of agar set 600 mL (0.5 %); 1.5 % of gelatin, 9 g; by weight about one to three.
  const auto agar = dose(asked(water(600.0), Agent::agar, Effect::soft_gel));
  const auto gelatin = dose(asked(water(600.0), Agent::gelatin, Effect::soft_gel));
  ASSERT_TRUE(agar && gelatin);
  EXPECT_NEAR(agar->mass_g.nominal, 3.0, 0.5);
  EXPECT_NEAR(gelatin->mass_g.nominal, 9.0, 0.5);
  EXPECT_TRUE(says(agar->method, "Boil"));
}

TEST(Dose, ClarifyingLimeJuiceTakesSixTenthsOfAGram) {
  // Three write-ups: 2 g a litre. 200 g of juice and 100 g of water: 0.6 g; a printed 2 % (6 g) is a slip of ten.
  const auto d = dose(asked(of("lime juice", 200.0) + water(100.0), Agent::agar, Effect::clarify));
  ASSERT_TRUE(d.has_value());
  EXPECT_NEAR(d->mass_g.nominal, 0.6, 0.05);
  EXPECT_TRUE(says(d->method, "45 C"));
  const auto odd = odd_dose(Agent::agar, Effect::clarify, BaseKind::acid, mass_percent(2.0));
  ASSERT_TRUE(odd.has_value());
  EXPECT_NE(odd->says.find("slip of ten"), std::string::npos);
  EXPECT_FALSE(odd_dose(Agent::agar, Effect::clarify, BaseKind::acid, mass_percent(0.2)).has_value());
}

TEST(Dose, FourPercentOfLecithinIsASlipOfTen) {
  // A supplier's text says 4 %, its own recipes 0.3 to 0.4 %.
  const auto odd = odd_dose(Agent::lecithin, Effect::froth, BaseKind::juice, mass_percent(4.0));
  ASSERT_TRUE(odd.has_value());
  EXPECT_NE(odd->says.find("slip of ten"), std::string::npos);
  EXPECT_FALSE(odd_dose(Agent::lecithin, Effect::froth, BaseKind::juice, mass_percent(0.4)).has_value());
}

TEST(Dose, AnotherBloomKeepsTheFirmness) {
  EXPECT_TRUE(rc::check([] {
    DoseAsked a = asked(water(400.0), Agent::gelatin, Effect::firm_gel);
    a.form.bloom = *rc::gen::inRange(60, 300);
    const auto d = dose(a), of_200 = dose(asked(water(400.0), Agent::gelatin, Effect::firm_gel));
    RC_ASSERT(d.has_value() && of_200.has_value());
    const double ratio =
        gelatin_force_g(mass_percent(d->percent_of_base.nominal), a.form.bloom) / gelatin_force_g(mass_percent(of_200->percent_of_base.nominal), 200.0);
    RC_ASSERT(std::abs(ratio - 1.0) < 1e-9);
  }));
}

TEST(Dose, GoesWithTheMassOfTheBase) {
  EXPECT_TRUE(rc::check([] {
    const double g = *rc::gen::inRange(50, 5000);
    const auto one = dose(asked(of("orange juice", g), Agent::agar, Effect::firm_gel)),
               two = dose(asked(of("orange juice", 2.0 * g), Agent::agar, Effect::firm_gel));
    RC_ASSERT(one.has_value() && two.has_value());
    RC_ASSERT(std::abs(two->mass_g.nominal / one->mass_g.nominal - 2.0) < 1e-9);
    RC_ASSERT(one->mass_g.low < one->mass_g.nominal && one->mass_g.nominal < one->mass_g.high);
  }));
}

TEST(Dose, StrongAcidTakesMoreAndCreamLess) {
  const auto nominal = [](const matter::Composition& base) { return dose(asked(base, Agent::gelatin, Effect::cold_foam))->percent_of_base.nominal; };
  const double juice = nominal(of("orange juice", 300.0)), acid = nominal(of("lemon juice", 300.0)), cream = nominal(of("cream", 300.0));
  // Practice: strong acid needs 10 to 50 % more.
  EXPECT_TRUE(acid / juice >= 1.1 && acid / juice <= 1.5) << acid / juice;
  EXPECT_LT(cream, juice);
}

TEST(Dose, SpiritTakesTwentyToFiftyPercentMore) {
  const auto jelly = [](const matter::Composition& base) { return dose(asked(base, Agent::gelatin, Effect::soft_gel)); };
  const auto strong = jelly(water(300.0) + spirit(300.0, 40.0)), plain = jelly(water(600.0));
  EXPECT_EQ(strong->kind.kind, BaseKind::spirit);
  EXPECT_TRUE(strong->percent_of_base.nominal / plain->percent_of_base.nominal >= 1.2 &&
              strong->percent_of_base.nominal / plain->percent_of_base.nominal <= 1.5);
  EXPECT_TRUE(says(strong->method, "below 40 C"));
  EXPECT_TRUE(std::any_of(strong->causes.begin(), strong->causes.end(), [](const Cause& c) { return c.code == base::Code::too_strong; }));
}

TEST(Dose, LowConfidenceAndNearBordersAreSaid) {
  const auto d = dose(asked(of("lemon juice", 300.0), Agent::gelatin, Effect::soft_gel));
  EXPECT_EQ(d->cited.confidence, Confidence::low);
  EXPECT_TRUE(std::any_of(d->notes.begin(), d->notes.end(), [](const Note& n) { return n.says.find("low confidence") != std::string::npos; }));
}

TEST(Dose, TooSmallForTheScaleGetsAStock) {
  DoseAsked a = asked(water(300.0), Agent::xanthan, Effect::thickened);
  a.scale_step = grams(0.1);
  const auto d = dose(a);
  ASSERT_TRUE(d.has_value());
  EXPECT_TRUE(d->weighing->too_small);
  EXPECT_TRUE(d->weighing->stock.has_value());
  EXPECT_TRUE(std::any_of(d->causes.begin(), d->causes.end(), [](const Cause& c) { return c.code == base::Code::dose_below_scale; }));
}

TEST(Dose, AgarInAGarnishIsOverAPublishedLimit) {
  // 21 CFR 184.1115: 0.25 % in all other foods.
  const auto d = dose(asked(water(300.0), Agent::agar, Effect::firm_gel));
  EXPECT_TRUE(std::any_of(d->causes.begin(), d->causes.end(), [](const Cause& c) { return c.code == base::Code::over_legal_limit && c.limit == 0.25; }));
}

TEST(Dose, WhatAnAgentDoesNotGiveIsRefusedWithWhatItGives) {
  const auto none = dose(asked(water(300.0), Agent::xanthan, Effect::firm_gel));
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().kind, base::ErrorKind::not_found);
  EXPECT_TRUE(none.error().message.starts_with("xanthan is not taken for a firm gel, but for thickening; a firm")) << none.error().message;
  EXPECT_EQ(dose(asked({}, Agent::agar, Effect::firm_gel)).error().kind, base::ErrorKind::bad_input);
}

TEST(Dose, EveryBandHasAMethod) {
  for (const DoseBand& band : dose_bands()) {
    DoseAsked a = asked(of("orange juice", 400.0), band.agent, band.effect);
    a.kind = band.kind;
    const auto d = dose(a);
    ASSERT_TRUE(d.has_value()) << info(band.agent).name << ' ' << name(band.effect);
    EXPECT_GE(d->method.size(), 2U) << info(band.agent).name << ' ' << name(band.effect);
  }
}

}  // namespace
}  // namespace bloomset::texture
