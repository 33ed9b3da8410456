// Heat: steam tables, heats of mixing, and that heat capacity is the slope of enthalpy.
#include "matter/enthalpy.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "matter/density.hpp"

namespace bloomset::matter {
namespace {

using enum Component;
using units::celsius;

Composition spirit(double ethanol_fraction, double kg = 1.0) {
  Composition c;
  c[water] = kg * (1.0 - ethanol_fraction);
  c[ethanol] = kg * ethanol_fraction;
  return c;
}

TEST(HeatCurve, WarmsWaterByTheSteamTables) {
  // memory: steam tables (IAPWS-IF97), h(100 C) - h(0 C) = 419.1 kJ/kg along saturation; Perry's polynomial is good to 0.5 %.
  const HeatCurve curve = heat_curve(pure(water, {1.0}));
  EXPECT_NEAR(curve.at_c(100.0) - curve.at_c(0.0), 419.1e3, 0.005 * 419.1e3);
  EXPECT_EQ(curve.at_c(25.0), 0.0 + curve.at_c(25.0));
  EXPECT_NEAR(curve.at_c(25.0), 0.0, 1e-6);
}

TEST(HeatCurve, HasItsZeroAtEveryPureLiquidAt25) {
  for (std::size_t i = 0; i < component_count; ++i) EXPECT_NEAR(heat_curve(pure(static_cast<Component>(i), {1.0})).at_c(25.0), 0.0, 1e-6) << i;
}

// The curve weighs components by groups: none may be forgotten. Carbon dioxide takes the least, 0.84 kJ/(kg K) as a gas at 25 C
// (memory: CRC Handbook).
TEST(HeatCurve, CountsEveryComponent) {
  for (std::size_t i = 0; i < component_count; ++i) EXPECT_GE(heat_curve(pure(static_cast<Component>(i), {1.0})).slope_c(25.0), 840.0) << i;
}

TEST(HeatCurve, WarmsADilutedSpirit) {
  // 40 %vol let down to about 20 %vol with water of the same temperature warms by about 2.7 C (heats of mixing at 25 C, Nagamachi & Francesconi 2006).
  const double w = ethanol_mass_fraction(units::percent_vol(40.0)).si;
  const Composition strong = spirit(w, 0.948), letting_down = pure(water, {1.0});
  const double heat = heat_curve(strong).at_c(20.0) + heat_curve(letting_down).at_c(20.0);
  EXPECT_NEAR(heat_curve(strong + letting_down).celsius_at(heat) - 20.0, 2.7, 0.3);
}

TEST(ExcessEnthalpy, MeetsWhatIsKnownOutsideTheFit) {
  // memory: Boyne & Williamson, Can. J. Chem. 45 (1967): about -1100 J/mol at the minimum at 0 C; +-15 %.
  double least = 0.0;
  for (double x = 0.05; x < 0.5; x += 0.01) least = std::min(least, excess_enthalpy_j_mol(x, 0.0));
  EXPECT_NEAR(least, -1100.0, 0.15 * 1100.0);
}

TEST(ExcessEnthalpy, StaysSmoothUpToBoiling) {
  // memory: Larkin, J. Chem. Thermodyn. 7 (1975) 137: between 0 and 110 C the heat of mixing lies between -1.2 and +0.9 kJ/mol.
  for (double t = 0.0; t <= 100.0; t += 5.0)
    for (double x = 0.0; x <= 1.0; x += 0.02) {
      EXPECT_GT(excess_enthalpy_j_mol(x, t), -1200.0) << x << ' ' << t;
      EXPECT_LT(excess_enthalpy_j_mol(x, t), 900.0) << x << ' ' << t;
    }
  EXPECT_EQ(excess_enthalpy_j_mol(0.0, 10.0), 0.0);
  EXPECT_EQ(excess_enthalpy_j_mol(1.0, 10.0), 0.0);
}

TEST(ExcessEnthalpy, IsWhatMixingChangesInTheCurve) {
  const double n_w = 0.6 / 18.015e-3, n_e = 0.4 / 46.069e-3;
  for (const double t : {-20.0, 5.0, 60.0}) {
    const double mixed = heat_curve(spirit(0.4)).at_c(t), apart = heat_curve(pure(water, {0.6})).at_c(t) + heat_curve(pure(ethanol, {0.4})).at_c(t);
    EXPECT_NEAR(mixed - apart, (n_w + n_e) * excess_enthalpy_j_mol(n_e / (n_w + n_e), t), 1e-6);
  }
}

TEST(Ice, TakesItsHeatOfFusionToMelt) {
  // CRC Handbook: 6.010 kJ/mol = 333.6 kJ/kg at 0 C.
  EXPECT_NEAR(heat_curve(pure(water, {1.0})).at_c(0.0) - ice_enthalpy_j_kg(0.0), 333.6e3, 0.1e3);
}

TEST(Ice, CpIsTheSlopeOfItsEnthalpy) {
  for (double t = -30.0; t < 0.0; t += 5.0) EXPECT_NEAR((ice_enthalpy_j_kg(t + 0.01) - ice_enthalpy_j_kg(t - 0.01)) / 0.02, ice_specific_heat_j_kg_k(t), 1e-3);
  // memory: CRC Handbook, cp of ice at 0 C: 2.06 to 2.11 J/(g K).
  EXPECT_NEAR(ice_specific_heat_j_kg_k(0.0), 2085.0, 30.0);
}

TEST(Ice, ItsTemperatureIsTheInverseOfItsEnthalpy) {
  for (double t = -60.0; t <= 0.0; t += 2.5) EXPECT_NEAR(ice_celsius_at(ice_enthalpy_j_kg(t)), t, 1e-9);
}

TEST(Vapour, CarriesTheHeatOfSteamTables) {
  // memory: steam tables, 2256.5 kJ/kg at 100 C; ethanol at its boiling point, CRC Handbook: 38.56 kJ/mol = 837 kJ/kg.
  EXPECT_NEAR(water_vapour_enthalpy_j_kg(100.0) - heat_curve(pure(water, {1.0})).at_c(100.0), 2256.5e3, 0.01 * 2256.5e3);
  EXPECT_NEAR(ethanol_vapour_enthalpy_j_kg(78.3) - heat_curve(pure(ethanol, {1.0})).at_c(78.3), 837e3, 0.02 * 837e3);
}

TEST(HeatCurve, CelsiusAtIsItsInverse) {
  EXPECT_TRUE(rc::check("temperature from enthalpy from temperature", [] {
    const auto grams = [](int most) { return 1e-3 * static_cast<double>(*rc::gen::inRange(0, most)); };
    Composition c = spirit(0.0, 1e-3 + grams(500));
    c[ethanol] = grams(500);
    c[sucrose] = grams(800);
    c[fat] = grams(100);
    c[citric_acid] = grams(50);
    const double t = 0.01 * static_cast<double>(*rc::gen::inRange(-3500, 11000));
    const HeatCurve curve = heat_curve(c);
    RC_ASSERT(std::abs(curve.celsius_at(curve.at_c(t)) - t) < 1e-9);
    RC_ASSERT(std::abs((curve.at_c(t + 1e-3) - curve.at_c(t - 1e-3)) / 2e-3 / curve.slope_c(t) - 1.0) < 1e-6);
    RC_ASSERT(std::abs(specific_heat(c, celsius(t)).si * c.total_kg() / curve.slope_c(t) - 1.0) < 1e-12);
  }));
}

TEST(HeatCurve, OfNothingAnswersTwentyFive) { EXPECT_EQ(heat_curve(Composition{}).celsius_at(0.0), 25.0); }

TEST(HeatCurve, IsTheSameWhenWaterAndEthanolJoinLater) {
  Composition c = spirit(0.3);
  c[sucrose] = 0.2;
  Composition rest;
  rest[sucrose] = 0.2;
  const HeatCurve whole = heat_curve(c), joined = with_water_and_ethanol(heat_curve(rest), 0.7, 0.3);
  for (std::size_t k = 0; k < whole.coefficient.size(); ++k) EXPECT_DOUBLE_EQ(whole.coefficient[k], joined.coefficient[k]);
}

}  // namespace
}  // namespace bloomset::matter
