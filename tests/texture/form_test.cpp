// tests/texture/form_test.cpp - leaves to powder and back, whole leaves, blooming water, stock.
#include "texture/form.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "texture/catalogue.hpp"

namespace bloomset::texture {
namespace {

using namespace units;

Form leaf(const char* name) {
  const GelatinForm* found = gelatin_form(name);
  return found == nullptr ? Form{} : Form{found->agent, found->bloom, found->leaf};
}
const Form powder_225{Agent::gelatin, 225.0, std::nullopt};

TEST(Conversion, ThreeLeavesToPowderOf225Bloom) {
  // Square root of the Bloom ratio: bronze 7.8, silver 6.3, gold 5.7, platinum 5.4 g; the linear rule 6.2, 5.3, 5.3, 5.7 g.
  const struct {
    const char* name;
    double root, linear;
  } expected[] = {
      {"gelatin, bronze leaf", 7.8, 6.2}, {"gelatin, silver leaf", 6.3, 5.3}, {"gelatin, gold leaf", 5.7, 5.3}, {"gelatin, platinum leaf", 5.4, 5.7}};
  for (const auto& e : expected) {
    const Conversion c = convert_pieces(3.0, leaf(e.name), powder_225);
    EXPECT_NEAR(in_grams(*c.of(Rule::root_bloom).mass), e.root, 0.05) << e.name;
    EXPECT_NEAR(in_grams(*c.of(Rule::linear_bloom).mass), e.linear, 0.05) << e.name;
    EXPECT_FALSE(c.of(Rule::piece_for_piece).mass.has_value()) << "powder has no leaves";
    EXPECT_EQ(c.chosen, Rule::root_bloom);
  }
}

TEST(Conversion, GoldByBronzeByAllThreeRules) {
  // 4 gold (2.0 g, 200) by bronze (3.3 g, 140): 13.2, 11.43, 9.56 g.
  const Conversion c = convert_pieces(4.0, leaf("gelatin, gold leaf"), leaf("gelatin, bronze leaf"));
  EXPECT_NEAR(in_grams(*c.of(Rule::piece_for_piece).mass), 13.2, 0.02);
  EXPECT_NEAR(in_grams(*c.of(Rule::linear_bloom).mass), 11.43, 0.02);
  EXPECT_NEAR(in_grams(*c.of(Rule::root_bloom).mass), 9.56, 0.02);
  EXPECT_EQ(c.chosen, Rule::piece_for_piece);
  EXPECT_NEAR(*c.of(Rule::piece_for_piece).pieces, 4.0, 1e-12);
  EXPECT_NEAR(c.firmness_spread, 1.91, 0.03);
  EXPECT_TRUE(c.mind);
  EXPECT_EQ(c.notes.size(), 1U);
}

TEST(Conversion, SilverAndGoldDifferLittle) {
  // The fact sheet's 2.5 g of 160 and 2.0 g of 200 hold the same mass x Bloom: leaf for leaf equals the linear rule; the root lies 11 % lower.
  const Conversion c = convert_pieces(4.0, leaf("gelatin, gold leaf"), leaf("gelatin, silver leaf"));
  EXPECT_NEAR(in_grams(*c.of(Rule::piece_for_piece).mass), in_grams(*c.of(Rule::linear_bloom).mass), 1e-9);
  EXPECT_NEAR(c.firmness_spread, 1.25, 1e-9);
}

TEST(Conversion, MassesAreConvertedByTheRoot) {
  EXPECT_EQ(convert(grams(4.0), leaf("gelatin, gold leaf"), leaf("gelatin, bronze leaf")).chosen, Rule::root_bloom);
}

TEST(Conversion, FishForMammalIsTold) {
  const Conversion c = convert(grams(4.0), powder_225, {Agent::fish_gelatin, 225.0, std::nullopt});
  EXPECT_EQ(c.notes.size(), 1U);
  EXPECT_NEAR(in_grams(*c.of(Rule::root_bloom).mass), 4.0, 1e-12);
}

TEST(ConversionProperties, ThereAndBackIsTheSameMass) {
  EXPECT_TRUE(rc::check([] {
    const Form a{Agent::gelatin, 1.0 * *rc::gen::inRange(50, 300), grams(0.1 * *rc::gen::inRange(10, 60))};
    const Form b{Agent::gelatin, 1.0 * *rc::gen::inRange(50, 300), grams(0.1 * *rc::gen::inRange(10, 60))};
    const Mass m = grams(0.1 * *rc::gen::inRange(1, 1000));
    for (std::size_t i = 0; i < 3; ++i) {
      const Mass there = *convert(m, a, b).rules[i].mass, back = *convert(there, b, a).rules[i].mass;
      RC_ASSERT(std::abs(back / m - 1.0) < 1e-12);
    }
  }));
}

TEST(ConversionProperties, StrongerGelatinIsNeverMore) {
  EXPECT_TRUE(rc::check([] {
    const double weak = *rc::gen::inRange(50, 300), strong = *rc::gen::inRange(static_cast<int>(weak), 301);
    const Conversion c = convert(grams(5.0), {Agent::gelatin, weak, std::nullopt}, {Agent::gelatin, strong, std::nullopt});
    RC_ASSERT(*c.of(Rule::root_bloom).mass <= grams(5.0) + grams(1e-9));
    RC_ASSERT(*c.of(Rule::linear_bloom).mass <= *c.of(Rule::root_bloom).mass + grams(1e-9));
  }));
}

TEST(WholeLeaves, TwoInsteadOfTwoPointTwo) {
  // 1.2 % of 366 g is 4.4 g = 2.2 gold leaves; two leaves are 1.093 % and cost 28 % of the firmness (threshold law, C0 0.5 %).
  const Leaves l = leaves(grams(366.0), grams(4.392), leaf("gelatin, gold leaf"));
  EXPECT_NEAR(l.exact, 2.196, 1e-9);
  EXPECT_DOUBLE_EQ(l.whole.pieces, 2.0);
  EXPECT_DOUBLE_EQ(l.half.pieces, 2.0);
  EXPECT_NEAR(l.whole.firmness.ratio, 0.718, 0.01);
  EXPECT_TRUE(l.whole.firmness.mind());
  EXPECT_DOUBLE_EQ(l.more.pieces, 3.0);
}

TEST(WholeLeaves, ABatchThatMakesThemWholeHoldsTheDose) {
  EXPECT_TRUE(rc::check([] {
    const Mass base = grams(1.0 * *rc::gen::inRange(100, 3000));
    const Mass gelatin = base * (0.001 * *rc::gen::inRange(3, 40));
    const Leaves l = leaves(base, gelatin, leaf("gelatin, gold leaf"));
    for (const LeafCount& c : {l.whole, l.half, l.fewer, l.more}) RC_ASSERT(std::abs((c.mass / c.base_that_fits) / (gelatin / base) - 1.0) < 1e-9);
    RC_ASSERT(l.fewer.pieces <= std::max(l.exact, 1.0) + 1e-6);
    RC_ASSERT(l.more.pieces >= l.exact - 1e-6);
  }));
}

TEST(Blooming, PowderTakesFiveToSixPartsOfColdWater) {
  // 5 to 6 parts: 28 to 34 g for the 5.7 g that replace three gold leaves.
  const BloomingWater w = blooming_water(grams(5.657), false);
  EXPECT_NEAR(in_grams(w.least), 28.3, 0.5);
  EXPECT_NEAR(in_grams(w.most), 33.9, 0.5);
}

TEST(SmallDoses, AScaleOfATenthWeighsTwoGrams) {
  EXPECT_FALSE(weighing(Agent::xanthan, grams(2.0), grams(0.1)).too_small);
  // 0.96 g on a scale of 0.1 g errs by 10 %.
  const Weighing w = weighing(Agent::xanthan, grams(0.96), grams(0.1));
  EXPECT_TRUE(w.too_small);
  EXPECT_NEAR(w.error_share, 0.104, 0.001);
  ASSERT_TRUE(w.stock.has_value());
  EXPECT_NEAR(in_percent(w.stock->strength), 1.0, 1e-12);
  EXPECT_NEAR(in_grams(w.stock->used), 96.0, 1e-9);
}

TEST(SmallDoses, AStockCarriesTheDoseAndCanBeWeighed) {
  EXPECT_TRUE(rc::check([] {
    const Mass dose = grams(0.01 * *rc::gen::inRange(1, 400)), step = grams(*rc::gen::element(0.01, 0.1, 1.0));
    const Weighing w = weighing(*rc::gen::element(Agent::xanthan, Agent::gelatin, Agent::lecithin, Agent::guar), dose, step);
    if (!w.stock) return;
    RC_ASSERT(std::abs(w.stock->used.si * w.stock->strength.si / dose.si - 1.0) < 1e-9);
    RC_ASSERT(w.stock->used >= w.least_weighable);
    RC_ASSERT(w.stock->agent >= w.least_weighable);
    RC_ASSERT(std::abs((w.stock->agent / (w.stock->agent + w.stock->water)) / w.stock->strength.si - 1.0) < 1e-9);
  }));
}

}  // namespace
}  // namespace bloomset::texture
