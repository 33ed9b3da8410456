// tests/gas/bottle_test.cpp - charged bottles against a published-equation balance worked out elsewhere, and what must hold for any bottle.
//
// Figures called "balance": Weiss & Price 1980 with the fugacity of Lemmon & Span 2006 and a Poynting factor, solved by an own script of the
// reference set (tests/reference/texture); 4 %, the uncertainty of the solubility and of the gross volume's last digit.
#include "gas/bottle.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace bloomset::gas {
namespace {

using namespace units;

constexpr Gas n2o = Gas::nitrous_oxide;

Bottle with(double gross_l, double liquid_l, double grams_in, double t_c, bool purged = false) {
  Bottle b = closed(n2o, litres(gross_l), litres(liquid_l), celsius(t_c), 1.0, purged);
  charge(b, grams(grams_in));
  settle(b);
  return b;
}

double gauge(const Bottle& b) { return in_bar_gauge(reading(b).pressure); }
double dissolved_g_l(const Bottle& b) { return in_grams(reading(b).dissolved) / in_litres(b.liquid); }

TEST(Bottle, OneTwoThreeChargesInHalfALitreCold) {
  // Balance: 5.1, 10.5, 16.0 bar gauge (gross 0.75 L, 0.5 L of water, 4 C); university slides (2021) give 5 to 5.5 bar for one.
  EXPECT_NEAR(gauge(with(0.75, 0.5, 8.0, 4.0)), 5.1, 0.04 * 5.1);
  EXPECT_NEAR(gauge(with(0.75, 0.5, 16.0, 4.0)), 10.5, 0.04 * 10.5);
  EXPECT_NEAR(gauge(with(0.75, 0.5, 24.0, 4.0)), 16.0, 0.04 * 16.0);
}

TEST(Bottle, WarmAndHotBottlesStandHigher) {
  // Balance: two charges at 20 C 15.1; one at 60 C 12.3; two at 50 C about 22 bar gauge.
  EXPECT_NEAR(gauge(with(0.75, 0.5, 16.0, 20.0)), 15.1, 0.04 * 15.1);
  EXPECT_NEAR(gauge(with(0.75, 0.5, 8.0, 60.0)), 12.3, 0.04 * 12.3);
  EXPECT_NEAR(gauge(with(0.75, 0.5, 16.0, 50.0)), 22.0, 0.04 * 22.0);
}

TEST(Bottle, FiveDegreesAgainstFifty) {
  // Balance: the same bottle keeps 59 % as much dissolved at 50 C as at 5 C, 0.40 against 0.67 of one charge.
  const Reading cold = reading(with(0.75, 0.5, 8.0, 5.0)), hot = reading(with(0.75, 0.5, 8.0, 50.0));
  EXPECT_NEAR(cold.dissolved_share, 0.67, 0.03 * 0.67);
  EXPECT_NEAR(hot.dissolved_share, 0.40, 0.03 * 0.40);
  EXPECT_NEAR(hot.dissolved / cold.dissolved, 0.59, 0.02);
  // At equal pressure water at 50 C holds about three tenths of what it holds at 5 C.
  const double at_equal = dissolved_at(n2o, bar_absolute(5.0), celsius(50.0)) / dissolved_at(n2o, bar_absolute(5.0), celsius(5.0));
  EXPECT_NEAR(at_equal, 0.3, 0.05);
}

TEST(Bottle, CreamWhipperOfACafe) {
  // One 8 g charge on half a litre at 5 C: by the same balance 5.3 bar in a 0.75 L bottle, 5.7 with 0.2 L of head space; 8 bar at 20 C (0.2 L).
  const Bottle small_head = with(0.70, 0.5, 8.0, 5.0);
  EXPECT_NEAR(gauge(small_head), 5.7, 0.04 * 5.7);
  EXPECT_NEAR(in_bar_gauge(reading_at(small_head, celsius(20.0)).pressure), 8.0, 0.04 * 8.0);
}

TEST(Bottle, FromTheHalfLitreToTheLitreBottle) {
  // Balance: 375 g with one charge in 0.75 L and 750 g with two in 1.40 L, both at 5 C: 5.3 and 5.7 bar gauge, 10.8 and 11.5 g/L, 5.5 and 5.8
  // volumes; two charges on the 375 g: 10.6 bar, 13.8 at 20 C.
  const Bottle one = with(0.75, 0.375, 8.0, 5.0), two = with(1.40, 0.750, 16.0, 5.0), strong = with(0.75, 0.375, 16.0, 5.0);
  EXPECT_NEAR(gauge(one), 5.3, 0.04 * 5.3);
  EXPECT_NEAR(gauge(two), 5.7, 0.04 * 5.7);
  EXPECT_NEAR(dissolved_g_l(one), 10.8, 0.03 * 10.8);
  EXPECT_NEAR(dissolved_g_l(two), 11.5, 0.03 * 11.5);
  EXPECT_NEAR(reading(one).gas_volumes, 5.5, 0.03 * 5.5);
  EXPECT_NEAR(reading(two).gas_volumes, 5.8, 0.03 * 5.8);
  EXPECT_NEAR(gauge(strong), 10.6, 0.04 * 10.6);
  EXPECT_NEAR(in_bar_gauge(reading_at(strong, celsius(20.0)).pressure), 13.8, 0.04 * 13.8);
}

TEST(Bottle, LessFillIsTheRemedyForHotFoamsOnly) {
  // Balance: halving 0.5 L leaves 5.3 bar at 5 C, lowers 7.5 to 6.5 at 20 C (14 %) and 12.3 to 8.6 at 60 C (30 %).
  EXPECT_NEAR(gauge(with(0.75, 0.25, 8.0, 5.0)) / gauge(with(0.75, 0.5, 8.0, 5.0)), 1.0, 0.02);
  EXPECT_NEAR(gauge(with(0.75, 0.25, 8.0, 20.0)) / gauge(with(0.75, 0.5, 8.0, 20.0)), 1.0 - 0.14, 0.015);
  EXPECT_NEAR(gauge(with(0.75, 0.25, 8.0, 60.0)) / gauge(with(0.75, 0.5, 8.0, 60.0)), 1.0 - 0.30, 0.015);
}

TEST(Bottle, FourInALitreAreLikeTwoInAHalfAndThreeAFifthLess) {
  // Balance: gas per litre at 4 C 21 g (two in half a litre), 23 g (four in a litre, gross 1.40 L), 17 g (three in a litre).
  const double two = dissolved_g_l(with(0.75, 0.5, 16.0, 4.0)), four = dissolved_g_l(with(1.40, 1.0, 32.0, 4.0)),
               three = dissolved_g_l(with(1.40, 1.0, 24.0, 4.0));
  EXPECT_NEAR(two, 21.0, 0.6);
  EXPECT_NEAR(four, 23.0, 0.7);
  EXPECT_NEAR(three, 17.0, 0.6);
  EXPECT_NEAR(three / two, 0.81, 0.02);
}

TEST(Bottle, ChargeForTheSameGasGivesTheSameGas) {
  const Bottle small = with(0.75, 0.5, 16.0, 4.0);
  const Mass needed = charge_for_same_gas(small, litres(1.40), litres(1.0));
  const Bottle large = with(1.40, 1.0, in_grams(needed), 4.0);
  EXPECT_NEAR(dissolved_g_l(large), dissolved_g_l(small), 1e-9);
  EXPECT_NEAR(reading(large).gas_pressure.si, reading(small).gas_pressure.si, 1e-3);
  EXPECT_GT(in_grams(needed) / 8.0, 3.4);
  EXPECT_LT(in_grams(needed) / 8.0, 4.0);
}

TEST(Bottle, PurgedBottlesStandLowerByTheAir) {
  // The air of 20 C and 1 atm, cooled to 4 C: 1.01325 x 277.15/293.15 = 0.958 bar.
  EXPECT_NEAR(gauge(with(0.75, 0.5, 8.0, 4.0)) - gauge(with(0.75, 0.5, 8.0, 4.0, true)), 0.958, 1e-3);
}

TEST(Bottle, AtFirstAllGasIsInTheHeadSpace) {
  Bottle b = closed(n2o, litres(0.75), litres(0.5), celsius(4.0));
  charge(b, grams(8.0));
  const double at_once = gauge(b);
  // Ideal gas: 0.1818 mol in 0.25 L at 4 C is 16.8 bar; a real gas (B = -156 cm3/mol, Z near 0.89) about 14.9; air adds 0.96 less 1.01.
  EXPECT_NEAR(at_once, 14.9, 0.4);
  EXPECT_DOUBLE_EQ(reading(b).dissolved.si, 0.0);
  shake(b, seconds(4.0));
  const double shaken = gauge(b);
  settle(b);
  EXPECT_LT(shaken, at_once);
  EXPECT_GT(shaken, gauge(b));
  EXPECT_NEAR(in_bar_gauge(b.peak), at_once, 1e-9);
  EXPECT_NEAR(in_bar_gauge(b.settled_peak), gauge(b), 1e-9);
}

TEST(Bottle, ShakingTwiceIsShakingTwiceAsLong) {
  Bottle once = closed(n2o, litres(0.75), litres(0.5), celsius(4.0)), twice = once;
  charge(once, grams(8.0));
  charge(twice, grams(8.0));
  shake(once, seconds(10.0));
  shake(twice, seconds(4.0));
  shake(twice, seconds(6.0));
  EXPECT_NEAR(once.dissolved.si, twice.dissolved.si, 1e-12);
  Bottle still = closed(n2o, litres(0.75), litres(0.5), celsius(4.0));
  charge(still, grams(8.0));
  stand(still, seconds(10.0));
  EXPECT_LT(still.dissolved.si, 0.01 * once.dissolved.si);
}

TEST(Bottle, ThePeakIsRememberedWhenTheBottleCoolsAgain) {
  Bottle b = with(0.75, 0.5, 8.0, 4.0);
  bring_to(b, celsius(58.0));
  const double hot = gauge(b);
  bring_to(b, celsius(4.0));
  EXPECT_NEAR(in_bar_gauge(b.settled_peak), hot, 1e-9);
  EXPECT_LT(gauge(b), 0.5 * hot);
}

TEST(Bottle, WarmingRaisesPressureAndLowersWhatIsDissolved) {
  EXPECT_TRUE(rc::check("pressure rises and dissolved gas falls with temperature", [] {
    const Gas gas = *rc::gen::element(n2o, Gas::carbon_dioxide);
    const double gross = 0.05 * *rc::gen::inRange(8, 30), fill = 0.01 * *rc::gen::inRange(20, 80);
    Bottle b = closed(gas, litres(gross), litres(fill * gross), celsius(4.0));
    charge(b, grams(*rc::gen::inRange(2, 16)));
    const double t = *rc::gen::inRange(1, 58);
    const Reading here = reading_at(b, celsius(t)), warmer = reading_at(b, celsius(t + 1.0));
    RC_ASSERT(warmer.pressure > here.pressure);
    RC_ASSERT(warmer.dissolved <= here.dissolved);
  }));
}

TEST(Bottle, MoreGasMorePressureMoreDissolvedAndNoneIsLost) {
  EXPECT_TRUE(rc::check("monotone in gas; head space + liquid = total", [] {
    const double t = *rc::gen::inRange(1, 60), m = 0.1 * *rc::gen::inRange(1, 240), fill = 0.01 * *rc::gen::inRange(10, 85);
    const Bottle less = with(0.75, 0.75 * fill, m, t), more = with(0.75, 0.75 * fill, m + 0.1, t);
    const Reading a = reading(less), b = reading(more);
    RC_ASSERT(b.pressure >= a.pressure);
    RC_ASSERT(b.dissolved >= a.dissolved);
    RC_ASSERT(std::abs(in_grams(a.dissolved + a.headspace) - m) < 1e-9);
    // In equilibrium: the liquid over this gas holds what it is said to hold.
    const double c = (less.total.si - less.dissolved.si - a.liquefied.si / molar_mass_kg_mol(n2o)) / (less.gross.si - less.liquid.si);
    RC_ASSERT(std::abs(dissolved(n2o, {c}, celsius(t)).si * less.liquid.si / less.dissolved.si - 1.0) < 1e-9);
  }));
}

TEST(Bottle, GasBeyondTheVapourPressureIsLiquefied) {
  const Bottle b = with(0.75, 0.70, 80.0, 4.0);
  const Reading r = reading(b);
  EXPECT_GT(r.liquefied.si, 0.0);
  EXPECT_NEAR(r.gas_pressure.si, vapour_pressure(n2o, celsius(4.0)).si, 10.0);
}

TEST(Bottle, FillLimitIsTheMakersElseTheSmallerOfTwo) {
  // Practice: nominal volume, at most three quarters of the gross volume.
  EXPECT_DOUBLE_EQ(in_litres(fill_limit(litres(0.75), litres(0.5), std::nullopt)), 0.5);
  EXPECT_DOUBLE_EQ(in_litres(fill_limit(litres(0.60), litres(0.5), std::nullopt)), 0.45);
  EXPECT_DOUBLE_EQ(in_litres(fill_limit(litres(1.40), std::nullopt, std::nullopt)), 1.05);
  EXPECT_DOUBLE_EQ(in_litres(fill_limit(litres(0.75), litres(0.5), litres(0.4))), 0.4);
}

}  // namespace
}  // namespace bloomset::gas
