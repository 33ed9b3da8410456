// tests/gas/solubility_test.cpp - Henry's law and what a kitchen's liquids do to it.
#include "gas/solubility.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "matter/density.hpp"

namespace bloomset::gas {
namespace {

using matter::Component;
using matter::Composition;
using namespace units;

constexpr Gas n2o = Gas::nitrous_oxide, co2 = Gas::carbon_dioxide;

Composition of(double water, Component c, double other) { return matter::pure(Component::water, grams(water)) + matter::pure(c, grams(other)); }

TEST(Solubility, OstwaldCoefficientsOfNitrousOxide) {
  // Weiss & Price, Mar. Chem. 8 (1980) 347, salinity 0: 1.146, 0.692, 0.463 L/L at 4, 20, 37 C; their own 2-3 %.
  EXPECT_NEAR(ostwald(n2o, celsius(4.0)), 1.146, 0.001);
  EXPECT_NEAR(ostwald(n2o, celsius(20.0)), 0.692, 0.001);
  EXPECT_NEAR(ostwald(n2o, celsius(37.0)), 0.463, 0.001);
}

TEST(Solubility, AgreesWithASecondCompilationAt25C) {
  // Sander, Atmos. Chem. Phys. 15 (2015) 4399: 2.4e-4 (N2O) and 3.3e-4 (CO2) mol/(m3 Pa) at 25 C; 5 %.
  EXPECT_NEAR(henry_mol_m3_pa(n2o, celsius(25.0)), 2.4e-4, 0.05 * 2.4e-4);
  EXPECT_NEAR(henry_mol_m3_pa(co2, celsius(25.0)), 3.3e-4, 0.05 * 3.3e-4);
}

TEST(Solubility, SlopeIsTheSlope) {
  for (const double c : {5.0, 200.0, 900.0}) {
    const Solubility s = solubility(n2o, celsius(8.0), 0.9);
    const double h = 1e-3 * c;
    EXPECT_NEAR(s.slope(c), (s.dissolved(c + h) - s.dissolved(c - h)) / (2.0 * h), 1e-5 * s.slope(c)) << c;
  }
  const Solubility s = solubility(co2, celsius(8.0));
  EXPECT_NEAR(s.slope(0.0), s.dissolved(1e-4) / 1e-4, 1e-6);
}

TEST(Solubility, MorePressureMoreGas) {
  EXPECT_TRUE(rc::check("dissolved gas rises with pressure and falls with temperature", [] {
    const Gas gas = *rc::gen::element(n2o, co2);
    const double p = 0.5 + 0.1 * *rc::gen::inRange(0, 150), t = *rc::gen::inRange(0, 55);
    const double here = dissolved_at(gas, bar_absolute(p), celsius(t)).si;
    RC_ASSERT(dissolved_at(gas, bar_absolute(p + 0.1), celsius(t)).si > here);
    RC_ASSERT(dissolved_at(gas, bar_absolute(p), celsius(t + 1.0)).si < here);
  }));
}

TEST(RelativeSolubility, WaterIsOneAndSugarTakesNineTenthsOfAPercentEach) {
  // Published figures for sugar solutions: -0.8 to -1 % per mass percent.
  const auto water = relative_solubility(n2o, matter::pure(Component::water, grams(100.0)), celsius(5.0));
  EXPECT_DOUBLE_EQ(water.value, 1.0);
  EXPECT_DOUBLE_EQ(water.uncertainty, 0.03);
  const auto syrup = relative_solubility(n2o, of(90.0, Component::sucrose, 10.0), celsius(5.0));
  EXPECT_GT(syrup.value, 0.90);
  EXPECT_LT(syrup.value, 0.92);
  EXPECT_DOUBLE_EQ(syrup.uncertainty, 0.10);
}

TEST(RelativeSolubility, SaltDrivesGasOut) {
  // Setschenow constant of NaCl for CO2 and N2O near 0.1 L/mol (log10), CRC Handbook and Weiss 1974: a 1 mol/L brine holds 20-25 % less.
  Composition brine = matter::pure(Component::water, grams(980.0));
  brine += matter::pure(Component::sodium, grams(22.99)) + matter::pure(Component::chloride, grams(35.45));
  const double value = relative_solubility(co2, brine, celsius(25.0)).value;
  EXPECT_GT(value, 0.74);
  EXPECT_LT(value, 0.82);
}

TEST(RelativeSolubility, EthanolIsNeutralBelowFifteenAndRisesAbove) {
  const auto at = [](double abv) {
    const double w = matter::ethanol_mass_fraction(percent_vol(abv)).si;
    return relative_solubility(n2o, of(100.0 * (1.0 - w), Component::ethanol, 100.0 * w), celsius(20.0));
  };
  EXPECT_DOUBLE_EQ(at(12.0).value, 1.0);
  EXPECT_GT(at(40.0).value, 1.05);
  EXPECT_GT(at(60.0).value, at(40.0).value);
  EXPECT_GT(at(60.0).uncertainty, at(12.0).uncertainty);
  // Pure ethanol at 25 C: 2.5 to 3.5 L/L (from memory of the literature), over water's 0.606.
  const double pure = relative_solubility(n2o, matter::pure(Component::ethanol, grams(100.0)), celsius(25.0)).value * ostwald(n2o, celsius(25.0));
  EXPECT_GT(pure, 2.5);
  EXPECT_LT(pure, 3.5);
}

TEST(RelativeSolubility, FatHoldsThreeTimesAsMuchWarmAndALittleMoreCold) {
  // Oil/gas coefficient of N2O 1.4 at 37 C (anaesthesia textbooks, memory): about three times water's 0.463, and 1.2 to 1.3 times at 4 C.
  const auto fat = matter::pure(Component::fat, grams(1000.0));
  const auto mixed = [&fat](double t_c) { return relative_solubility(n2o, fat + matter::pure(Component::water, grams(1e-3)), celsius(t_c)).value; };
  EXPECT_NEAR(mixed(37.0), 3.0, 0.1);
  EXPECT_NEAR(mixed(4.0), 1.25, 0.07);
  // Cream of 35 % fat, cold: between water and oil.
  const auto cream = relative_solubility(n2o, of(58.0, Component::fat, 35.0) + matter::pure(Component::lactose, grams(3.0)), celsius(5.0));
  EXPECT_GT(cream.value, 1.0);
  EXPECT_LT(cream.value, 1.2);
  EXPECT_GT(cream.uncertainty, 0.10);
}

TEST(RelativeSolubility, FibreTakesRoomAndDissolvesNothing) { EXPECT_LT(relative_solubility(n2o, of(95.0, Component::fibre, 5.0), celsius(5.0)).value, 0.98); }

}  // namespace
}  // namespace bloomset::gas
