// Amounts that meet targets, on formulas whose answer is known by hand, and the demo asked for its own properties.
#include "solve/balance.hpp"

#include <gtest/gtest.h>

#include "solve/asked.hpp"
#include "solve/problem.hpp"

namespace bloomset::solve {
namespace {

using solve_test::asked;
using solve_test::balanced;
using solve_test::formula_of;

std::string refused(const std::string& text, const std::vector<std::string>& targets, const std::vector<std::string>& vary = {}) {
  const auto question = asked(text, targets, vary);
  const auto made = balance(question->ask);
  if (made) return "";
  return made.error().diagnostics.empty() ? made.error().message : made.error().diagnostics.front().code;
}

// By the definition of a share: 10 g of sugar in 90 g of water are 10 %; and 20 g of ethanol in all 100 g are 20 % of the mass.
TEST(Balance, TurnsSharesIntoAmounts) {
  const BalanceSheet sugar = balanced(formula_of("\"90 g water\", \"25 g sucrose\""), {"'mix'.sugar = 10 %"}, {"sucrose"});
  EXPECT_TRUE(sugar.met);
  EXPECT_NEAR(sugar.amounts.at(0).after_g, 10.0, 1e-6);
  const BalanceSheet both =
      balanced(formula_of("\"70 g water\", \"12 g ethanol\", \"10 g sucrose\""), {"'mix'.mass = 100 g", "'mix'.ethanol = 20 g", "'mix'.sugar = 8 %"});
  EXPECT_TRUE(both.met);
  EXPECT_NEAR(both.amounts.at(0).after_g, 72.0, 1e-6);
  EXPECT_NEAR(both.amounts.at(1).after_g, 20.0, 1e-6);
  EXPECT_NEAR(both.amounts.at(2).after_g, 8.0, 1e-6);
}

// What the document says after is what was promised: its own sheet has the value, and comments stay.
TEST(Balance, WritesTheAmountsIntoTheDocument) {
  const std::string text = "# ours\n" + formula_of("\"90 g water\", \"25 g sucrose\"");
  const BalanceSheet found = balanced(text, {"'mix'.sugar = 12 %"}, {"sucrose"}, false);
  EXPECT_TRUE(found.met);
  EXPECT_TRUE(found.formula.starts_with("# ours\n"));
  EXPECT_EQ(found.amounts.at(0).before, "25 g");
  const sheet::Sheet after = sheet_test::made(found.formula);
  EXPECT_NEAR(after.parts.at(0).values[matter::Property::sugar_percent], found.targets.at(0).target.value, 1e-9);
}

TEST(Balance, StaysNearAndRoundsAsCoarselyAsTheTargetsAllow) {
  const BalanceSheet loose = balanced(formula_of("\"90 g water\", \"25 g sucrose\""), {"'mix'.sugar 14-16 %"}, {"sucrose"}, false);
  EXPECT_TRUE(loose.met);
  EXPECT_EQ(loose.amounts.at(0).after, "17 g");  // 16 % is 17.14 g: whole grams do
  const BalanceSheet met = balanced(formula_of("\"90 g water\", \"16 g sucrose\""), {"'mix'.sugar 14-16 %"}, {"sucrose"}, false);
  EXPECT_EQ(met.amounts.at(0).after, "16 g");
}

TEST(Balance, KeepsPiecesWhole) {
  const std::string text = formula_of("\"300 g water\", \"1 piece gelatin, gold leaf\"");
  const BalanceSheet found = balanced(text, {"'mix'.mass = 304.6 g"}, {"gelatin, gold leaf"});
  ASSERT_EQ(found.amounts.size(), 1U);
  EXPECT_TRUE(found.amounts[0].whole);
  EXPECT_EQ(found.amounts[0].after, "2 piece");
  EXPECT_TRUE(found.amounts[0].runner.has_value());
}

// Without sugar the water's share is 100 %, with a tenth of it 90 / 92.5: so far down and no further, unless bounds allow it.
TEST(Balance, LeavesOfEachThingATenthUnlessBoundsSayOtherwise) {
  const std::string text = formula_of("\"90 g water\", \"25 g sucrose\"");
  const BalanceSheet floor = balanced(text, {"'mix'.sugar <= 1 %"}, {"sucrose"});
  EXPECT_FALSE(floor.met);
  EXPECT_NEAR(floor.amounts.at(0).after_g, 2.5, 1e-6);
  EXPECT_EQ(floor.targets.at(0).held_by, "sucrose at its least");
  const BalanceSheet free = balanced(text, {"'mix'.sugar <= 1 %"}, {"0-50 g sucrose"});
  EXPECT_TRUE(free.met);
  EXPECT_NEAR(free.amounts.at(0).after_g, 0.909, 1e-3);  // 1 / 99 of 90 g
  const BalanceSheet most = balanced(text, {"'mix'.sugar >= 50 %"}, {"20-50 g sucrose"});
  EXPECT_FALSE(most.met);
  EXPECT_NEAR(most.amounts.at(0).after_g, 50.0, 1e-6);
  EXPECT_EQ(refused(text, {"'mix'.sugar = 12 %"}, {"1-2 piece sucrose"}), "other_measure");
}

TEST(Balance, SaysWhichWishesContradict) {
  const BalanceSheet found = balanced(formula_of("\"90 g water\", \"25 g sucrose\", \"10 g ethanol\""),
                                      {"'mix'.sugar >= 50 %", "'mix'.sugar <= 20 %", "'mix'.mass <= 500 g"}, {"sucrose"});
  EXPECT_FALSE(found.met);
  EXPECT_EQ(found.conflict, (std::vector<std::string>{"'mix'.sugar >= 50 %", "'mix'.sugar <= 20 %"}));
}

TEST(Balance, RefusesWhatCannotBeAsked) {
  const std::string text = formula_of("\"90 g water\", \"25 g sucrose\"");
  EXPECT_EQ(refused(text, {"'mix'.abv = 120 %"}), "impossible_target");
  EXPECT_EQ(refused(text, {"'max'.abv = 12 %"}), "unknown_part");
  EXPECT_EQ(refused(text, {"'mix'.sugar = 12 %"}, {"sucrse"}), "unknown_thing");
  EXPECT_NE(refused(text, {}).find("no target"), std::string::npos);
  EXPECT_NE(refused(formula_of("\"1 piece gelatin, gold leaf\""), {"'mix'.mass = 3 g"}).find("nothing is free"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::solve
