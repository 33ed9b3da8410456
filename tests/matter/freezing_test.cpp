// Water activity, freezing and frozen batches against handbooks, by second routes, and at the ends of what can be poured.
// The full tables of single solutes are judged under tests/reference; here stand the points one can look up.
#include "matter/freezing.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <random>

#include "matter/enthalpy.hpp"
#include "units/constants.hpp"

namespace bloomset::matter {
namespace {

using enum Component;
using units::celsius;
using units::in_celsius;

// `percent` by mass of one solute in water, 1 kg.
Composition solution(Component solute, double percent) {
  Composition c;
  c[solute] = 0.01 * percent;
  c[water] = 1.0 - c[solute];
  return c;
}
Composition brine(Component cation, double cation_g_mol, double charge, double percent) {
  const double salt_g_mol = cation_g_mol + charge * 35.45;
  Composition c;
  c[cation] = 0.01 * percent * cation_g_mol / salt_g_mol;
  c[chloride] = 0.01 * percent - c[cation];
  c[water] = 1.0 - 0.01 * percent;
  return c;
}
double freezing_c(const Composition& c) { return in_celsius(freezing_point(c)); }

TEST(Freezing, OfPureWaterIsZero) {
  EXPECT_EQ(freezing_c(pure(water, units::kilograms(1.0))), 0.0);
  EXPECT_EQ(water_activity(pure(water, units::kilograms(1.0)), celsius(20.0)), 1.0);
}

TEST(Freezing, OfSugarsAcidsAndSaltsIsWhatTheHandbookSays) {
  // CRC Handbook, 102nd ed., Concentrative Properties of Aqueous Solutions. Tolerance 0.1 C (0.15 sodium chloride, 2 % above 5 C).
  EXPECT_NEAR(freezing_c(solution(sucrose, 10)), -0.63, 0.1);
  EXPECT_NEAR(freezing_c(solution(sucrose, 40)), -4.45, 0.1);
  EXPECT_NEAR(freezing_c(solution(glucose, 28)), -4.34, 0.1);
  EXPECT_NEAR(freezing_c(solution(fructose, 26)), -3.82, 0.1);
  EXPECT_NEAR(freezing_c(solution(maltose, 44)), -5.35, 0.11);
  EXPECT_NEAR(freezing_c(solution(lactose, 8)), -0.50, 0.1);
  EXPECT_NEAR(freezing_c(solution(citric_acid, 20)), -2.56, 0.1);  // mean of the rows at 18 and 22 %
  EXPECT_NEAR(freezing_c(solution(lactic_acid, 16)), -3.48, 0.1);
  EXPECT_NEAR(freezing_c(solution(acetic_acid, 10)), -3.23, 0.1);
  EXPECT_NEAR(freezing_c(solution(phosphoric_acid, 8)), -1.88, 0.1);
  EXPECT_NEAR(freezing_c(brine(sodium, 22.990, 1, 12)), -8.18, 0.17);
  EXPECT_NEAR(freezing_c(brine(potassium, 39.098, 1, 8)), -3.80, 0.1);
  EXPECT_NEAR(freezing_c(brine(calcium, 40.078, 2, 8)), -4.28, 0.1);
}

TEST(Freezing, OfSpiritAndGlycerolAgreesWithASecondSource) {
  // Melinder, Properties of Secondary Working Fluids, 2010; he and the CRC differ by up to 0.35 C.
  EXPECT_NEAR(freezing_c(solution(ethanol, 11)), -5.00, 0.4);
  EXPECT_NEAR(freezing_c(solution(ethanol, 36)), -25.88, 0.52);
  EXPECT_NEAR(freezing_c(solution(ethanol, 60)), -44.94, 0.9);
  EXPECT_NEAR(freezing_c(solution(glycerol, 34.5)), -11.92, 0.4);
}

TEST(Freezing, OfTrisodiumCitrateBookedAsAcidAndExchange) {
  // CRC Handbook, sodium citrate, 8 and 20 mass %; 258.069 g/mol = citric acid + 3 Na - 3 H.
  for (const auto& [percent, expected] : {std::pair{8.0, -1.57}, std::pair{20.0, -4.39}}) {
    const double mol = 10.0 * percent / 258.069;
    Composition c;
    c[water] = 1.0 - 0.01 * percent;
    c[citric_acid] = 1e-3 * mol * 192.123;
    c[sodium] = 3e-3 * mol * 22.990;
    c[salt_hydrogen] = -3e-3 * mol * 1.008;
    EXPECT_NEAR(freezing_c(c), expected, 0.25) << percent << " %";
  }
}

TEST(Freezing, FallsByTheCryoscopicConstantWhenDilute) {
  // 1.86 K kg/mol (CRC Handbook); at 0.02 mol/kg the second order is below 2 %.
  for (const auto& [sugar, g_mol] :
       {std::pair{sucrose, 342.297}, std::pair{glucose, 180.156}, std::pair{fructose, 180.156}, std::pair{glycerol, 92.094}, std::pair{ethanol, 46.069}}) {
    Composition c;
    c[water] = 1.0;
    c[sugar] = 0.02e-3 * g_mol;
    EXPECT_NEAR(freezing_c(c), -0.02 * 1.86, 0.02 * 1.86 * 0.02) << index(sugar);
  }
}

TEST(Freezing, OfAMixtureIsNearTheSumOfWhatEachDoesAlone) {
  // No measurement of a mixture was found. CRC Handbook, each alone in the same water: 12 g ethanol in 80 g (13.04 mass %) -6.17 C between the
  // rows at 12 and 14 %, 8 g sucrose in 80 g (9.09 %) -0.57; 10 g glucose and 10 g fructose in 80 g (11.11 % each) -1.31 and -1.30.
  Composition punch;
  punch[ethanol] = 12;
  punch[sucrose] = 8;
  punch[water] = 80;
  EXPECT_NEAR(freezing_c(punch), -6.17 - 0.57, 0.1);
  Composition syrup;
  syrup[glucose] = 10;
  syrup[fructose] = 10;
  syrup[water] = 80;
  EXPECT_NEAR(freezing_c(syrup), -1.31 - 1.30, 0.1);
}

TEST(WaterActivity, OfSaltAndSugarAt25CIsWhatTheTablesSay) {
  // Robinson & Stokes, Electrolyte Solutions, osmotic coefficient tables.
  Composition brine_5, syrup_6;
  brine_5[water] = syrup_6[water] = 1.0;
  brine_5[sodium] = 5e-3 * 22.990;
  brine_5[chloride] = 5e-3 * 35.45;
  syrup_6[sucrose] = 6e-3 * 342.297;
  EXPECT_NEAR(water_activity(brine_5, celsius(25.0)), 0.8068, 0.005);
  EXPECT_NEAR(water_activity(syrup_6, celsius(25.0)), 0.8493, 0.005);
}

TEST(WaterActivity, OfSaturatedCitricAcidIsItsDeliquescencePoint) {
  // Saturated at 25 C: 62 mass %, about 78 % relative humidity (memory: Apelblat, Dov, Wisniak & Zabicky, J. Chem. Thermodyn. 27 (1995) 347).
  EXPECT_NEAR(water_activity(solution(citric_acid, 62.0), celsius(25.0)), 0.78, 0.02);
}

TEST(WaterActivity, OfGlycerolAt25CIsThatOfTheHumidityStandards) {
  // Forney & Brandl, HortTechnology 2 (1992) 52, glycerol for humidity: 0.90 at about 34 mass %, 0.80 at about 51 (memory).
  EXPECT_NEAR(water_activity(solution(glycerol, 34.0), celsius(25.0)), 0.90, 0.015);
  EXPECT_NEAR(water_activity(solution(glycerol, 51.0), celsius(25.0)), 0.80, 0.02);
}

TEST(WaterActivity, BesideEthanolChangesWithTemperatureAsTheHeatOfMixingSays) {
  // Gibbs-Helmholtz, by a second route: d ln a / d(1/T) = -L / R with L, water's partial heat of mixing, from the measured surface
  // (Nagamachi & Francesconi 2006; cp of Melinder 2010). The model's L is a mean over -30..25 C and rests on freezing points: within a third.
  const auto partial_heat = [](double x, double t_c) {
    constexpr double step = 1e-5;
    const double slope = (excess_enthalpy_j_mol(x + step, t_c) - excess_enthalpy_j_mol(x - step, t_c)) / (2.0 * step);
    return excess_enthalpy_j_mol(x, t_c) - x * slope;
  };
  for (const double percent : {15.0, 33.3, 45.0, 60.0}) {
    const Composition spirit = solution(ethanol, percent);
    const double n_e = percent / 46.069, x = n_e / (n_e + (100.0 - percent) / 18.015), freezes = freezing_c(spirit);
    const double rise = std::log(water_activity(spirit, celsius(25.0)) / water_activity(spirit, celsius(freezes)));
    const double heat = rise / (1.0 / (freezes + 273.15) - 1.0 / 298.15) * units::molar_gas_constant_j_mol_k;
    const double measured = -0.25 * (partial_heat(x, freezes) + 2.0 * partial_heat(x, 0.5 * (freezes + 25.0)) + partial_heat(x, 25.0));
    EXPECT_NEAR(heat, measured, measured / 3.0) << percent << " %";
  }
}

TEST(WaterActivity, OfSpiritAt25CIsWhatVapourLiquidEquilibriumSays) {
  // 40 %vol (33.3 mass %): van Laar with constants fitted at 101 kPa (A12 1.6798, A21 0.9227; memory: Perry's Handbook) gives 0.891, with the
  // lower ethanol coefficient of 25 C less.
  EXPECT_NEAR(water_activity(solution(ethanol, 33.3), celsius(25.0)), 0.88, 0.012);
}

TEST(IceCurve, FollowsTheVapourPressuresOfIceAndSupercooledWater) {
  // Goff & Gratch as in the WMO meteorological tables: 2.599 over 2.863 hPa at -10 C, 1.032 over 1.254 hPa at -20 C.
  EXPECT_NEAR(std::exp(ln_ice_activity(-10.0)), 2.599 / 2.863, 0.002);
  EXPECT_NEAR(std::exp(ln_ice_activity(-20.0)), 1.032 / 1.254, 0.002);
  EXPECT_EQ(ln_ice_activity(0.0), 0.0);
}

TEST(FrozenShare, OfASugarSolutionFollowsTheFreezingCurve) {
  // 20 % sucrose at the temperature where 40 % freezes (-4.45 C, CRC): 1 kg holds 0.2 kg sugar, so 0.3 kg of water stays liquid.
  const Composition c = solution(sucrose, 20);
  const ThermalState state = thermal_state(c, equilibrium_enthalpy_j(c, -4.45));
  EXPECT_NEAR(state.t_c, -4.45, 1e-6);
  EXPECT_NEAR(state.ice_kg, 0.5, 0.01);
}

TEST(FrozenShare, OfPureWaterIsTheHeatTakenOverTheHeatOfFusion) {
  const Composition kilogram = pure(water, units::kilograms(1.0));
  const double at_zero = heat_curve(kilogram).at_c(0.0);
  const ThermalState half = thermal_state(kilogram, at_zero - 0.5 * 333600.0);  // heat of fusion: CRC Handbook
  EXPECT_EQ(half.t_c, 0.0);
  EXPECT_NEAR(half.ice_kg, 0.5, 1e-12);
  // All frozen, then 10 K colder: cp of ice 2.0623 + 0.00608 t kJ/(kg K), Choi & Okos 1986.
  const ThermalState cold = thermal_state(kilogram, at_zero - 333600.0 - 20319.0);
  EXPECT_NEAR(cold.t_c, -10.0, 1e-3);
  EXPECT_EQ(cold.ice_kg, 1.0);
}

// Anything that can be poured, from a trace to nearly dry.
Composition any_mixture(std::mt19937& draw) {
  const auto up_to = [&](double most) { return most * std::pow(10.0, -std::uniform_real_distribution<>(0.0, 5.0)(draw)); };
  Composition c;
  c[water] = up_to(1.0);
  for (const Component solute :
       {ethanol, sucrose, glucose, fructose, maltose, lactose, glycerol, erythritol, citric_acid, lactic_acid, other_solids, protein, gelatin})
    if (draw() % 3 == 0) c[solute] = up_to(1.0);
  if (draw() % 4 == 0) {
    c[sodium] = up_to(0.1);
    c[potassium] = up_to(0.1);
    c[calcium] = up_to(0.1);
    c[chloride] = 0.5 * up_to(0.1);
    c[salt_hydrogen] = -1.008 * (c[sodium] / 22.99 + c[potassium] / 39.098 + c[calcium] / 20.04 - c[chloride] / 35.45);
    if (c[salt_hydrogen] > 0.0) c[salt_hydrogen] = 0.0;
  }
  return c;
}

TEST(Freezing, OfAnyMixtureIsANumberAndMoreWaterRaisesIt) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const Composition c = any_mixture(draw);
    const WaterBond bond = water_bond(c);
    double before = -121.0;
    for (const double share : {0.0, 1e-6, 1e-3, 0.1, 1.0, 3.0, 1000.0}) {
      const double t_c = bond.freezing_c(share * c[water]);
      RC_ASSERT(std::isfinite(t_c));
      RC_ASSERT(t_c > -120.0 && t_c <= 0.0);
      RC_ASSERT(t_c >= before - 1e-9);
      before = t_c;
      RC_ASSERT(std::isfinite(bond.ln_activity(-30.0 + 1e2 * share, share * c[water])));
    }
  }));
}

TEST(Freezing, DoesNotDependOnHowMuchThereIs) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const Composition c = any_mixture(draw);
    RC_ASSERT(std::abs(freezing_c(c) - freezing_c(c * 37.0)) < 1e-9);
  }));
}

TEST(LiquidWater, AtATemperatureHasThatFreezingPoint) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const Composition c = any_mixture(draw);
    const WaterBond bond = water_bond(c);
    const double t_c = std::uniform_real_distribution<>(-45.0, 0.0)(draw), liquid = bond.liquid_water_kg(t_c, c[water]);
    RC_ASSERT(liquid >= 0.0 && liquid <= c[water]);
    if (liquid == c[water])
      RC_ASSERT(bond.freezing_c(liquid) <= t_c + 1e-6);
    else if (bond.count > 0 || bond.ethanol_mol > 0.0)
      RC_ASSERT(std::abs(bond.freezing_c(liquid) - t_c) < 1e-6);
  }));
}

TEST(ThermalState, FindsTheTemperatureAnEnthalpyWasMadeFrom) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const Composition c = any_mixture(draw);
    const double t_c = std::uniform_real_distribution<>(-25.0, 60.0)(draw);
    const ThermalState state = thermal_state(c, equilibrium_enthalpy_j(c, t_c));
    RC_ASSERT(std::abs(state.t_c - t_c) < 1e-3);
    RC_ASSERT(state.ice_kg >= 0.0 && state.ice_kg <= c[water]);
  }));
}

TEST(ThermalState, WarmsAndMeltsSteadilyAsHeatComesIn) {
  Composition sorbet;
  sorbet[water] = 0.7;
  sorbet[sucrose] = 0.2;
  sorbet[glucose] = 0.05;
  sorbet[ethanol] = 0.03;
  sorbet[citric_acid] = 0.01;
  ThermalState before{-100.0, 1.0};
  for (double h = equilibrium_enthalpy_j(sorbet, -25.0); h < equilibrium_enthalpy_j(sorbet, 5.0); h += 500.0) {
    const ThermalState now = thermal_state(sorbet, h);
    EXPECT_GT(now.t_c, before.t_c);
    EXPECT_LE(now.ice_kg, before.ice_kg);
    before = now;
  }
  EXPECT_EQ(before.ice_kg, 0.0);
}

TEST(ThermalState, OfNothingAndOfDryMatterIsANumber) {
  EXPECT_EQ(thermal_state(Composition{}, 0.0).t_c, 25.0);
  const Composition spirit = pure(ethanol, units::kilograms(0.1));
  EXPECT_NEAR(thermal_state(spirit, heat_curve(spirit).at_c(-18.0)).t_c, -18.0, 1e-6);
  EXPECT_TRUE(std::isfinite(freezing_c(spirit)));
  EXPECT_TRUE(std::isfinite(freezing_c(Composition{})));
  EXPECT_TRUE(std::isfinite(thermal_state(pure(water, units::kilograms(1.0)), -9e5).t_c));
}

}  // namespace
}  // namespace bloomset::matter
