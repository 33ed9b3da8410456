// Ice in a drink: against heat balances worked out elsewhere, the books to the last digits, and the corners.
#include "matter/ice.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <random>

#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::matter {
namespace {

using enum Component;

constexpr double fusion_j_kg = 333600.0;  // CRC Handbook

IceContact meet(const Composition& drink, double drink_c, double ice_kg, double ice_c, LeftoverIce leftover = LeftoverIce::inert) {
  IceContact contact;
  contact.liquid = drink;
  contact.liquid_enthalpy_j = equilibrium_enthalpy_j(drink, drink_c);
  contact.ice_kg = ice_kg;
  contact.ice_c = ice_c;
  contact.leftover = leftover;
  return contact;
}
Composition spirit() {  // 60 mL of 40 %vol at 20 C: 18.94 g ethanol, 37.94 g water (OIML R 22)
  Composition c;
  c[ethanol] = 0.01894;
  c[water] = 0.03794;
  return c;
}
Composition plain(double kg) { return pure(water, units::kilograms(kg)); }

// All that is there before and after.
void expect_books(const IceContact& in, const IceOutcome& out) {
  const double water_at_0 = ice_enthalpy_j_kg(0.0) + fusion_j_kg;
  const double mass_in = in.liquid.total_kg() + in.ice_kg + in.surface_water_kg, mass_out = out.liquid.total_kg() + out.ice_left_kg;
  RC_ASSERT(std::abs(mass_in - mass_out) <= 1e-12 * mass_in);
  const double heat_in = in.liquid_enthalpy_j + in.ice_kg * ice_enthalpy_j_kg(in.ice_c) + in.surface_water_kg * water_at_0 + out.vessel_heat_j;
  const double heat_out = out.liquid_enthalpy_j + out.ice_left_kg * ice_enthalpy_j_kg(out.ice_left_c);
  const double scale = std::abs(in.liquid_enthalpy_j) + (in.ice_kg + in.surface_water_kg) * fusion_j_kg + std::abs(out.vessel_heat_j);
  RC_ASSERT(std::abs(heat_in - heat_out) <= 1e-9 * scale);
  RC_ASSERT(std::abs(out.vessel_heat_j - in.vessel_j_k * (in.vessel_c - out.t_c)) <= 1e-9 * (1.0 + std::abs(out.vessel_heat_j)));
  RC_ASSERT(out.melted_kg >= in.surface_water_kg && out.ice_left_kg >= 0.0);
  // The liquid, read on its own, stands at the temperature that was told.
  RC_ASSERT(std::abs(thermal_state(out.liquid, out.liquid_enthalpy_j).t_c - out.t_c) < 1e-3);
}

TEST(Ice, CoolsASpiritAsTheIndependentBalanceSays) {
  // Enthalpy balance with Melinder's cp, measured heat of mixing at 25 C and the CRC freezing curve, worked out outside this program:
  // 60 mL of 40 %vol from 20 C, ice at 0 C. 3 % at a chosen temperature, 6 % and 0.4 C at equilibrium.
  const IceOutcome at_0 = melt_to(meet(spirit(), 20.0, 10.0, 0.0), 0.0);
  EXPECT_NEAR(at_0.melted_kg, 0.0164, 0.0005);
  EXPECT_EQ(at_0.t_c, 0.0);
  struct Row {
    LeftoverIce leftover;
    double ice_kg, melted_kg, t_c;
  };
  for (const Row& row :
       {Row{LeftoverIce::inert, 10.0, 0.0319, -12.0}, Row{LeftoverIce::follows, 0.120, 0.0375, -11.0}, Row{LeftoverIce::follows, 0.300, 0.0469, -9.6}}) {
    const IceOutcome end = melt_to_equilibrium(meet(spirit(), 20.0, row.ice_kg, 0.0, row.leftover));
    EXPECT_NEAR(end.melted_kg, row.melted_kg, 0.06 * row.melted_kg);
    EXPECT_NEAR(end.t_c, row.t_c, 0.4);
    EXPECT_FALSE(end.ice_gone);
  }
}

TEST(Ice, InWaterMeltsByTheHeatOfFusion) {
  // 100 g of water from 20 to 0 C gives 83.9 kJ/kg (IAPWS): 25.15 g of ice at 0 C; ice at -18 C takes 36.1 kJ/kg more (Choi & Okos).
  EXPECT_NEAR(melt_to_equilibrium(meet(plain(0.1), 20.0, 0.5, 0.0)).melted_kg, 0.1 * 83.9 / 333.6, 1e-4);
  const IceOutcome cold = melt_to_equilibrium(meet(plain(0.1), 20.0, 0.5, -18.0));
  EXPECT_NEAR(cold.melted_kg, 0.1 * 83.9 / (333.6 + 36.1), 1e-4);
  EXPECT_EQ(cold.t_c, 0.0);
  EXPECT_EQ(cold.ice_left_c, -18.0);
}

TEST(Ice, TooLittleOfItIsGone) {
  // 100 g of water at 20 C and 10 g of ice at 0 C: (100 x 83.9 - 10 x 333.6) J over 110 g x 4.19 J/(g K) = 11.0 C.
  for (const LeftoverIce leftover : {LeftoverIce::inert, LeftoverIce::follows}) {
    const IceOutcome end = melt_to_equilibrium(meet(plain(0.1), 20.0, 0.01, 0.0, leftover));
    EXPECT_TRUE(end.ice_gone);
    EXPECT_EQ(end.ice_left_kg, 0.0);
    EXPECT_NEAR(end.t_c, 11.0, 0.1);
    EXPECT_TRUE(melt_to(meet(plain(0.1), 20.0, 0.01, 0.0, leftover), 5.0).ice_gone);
    EXPECT_FALSE(melt_to(meet(plain(0.1), 20.0, 0.01, 0.0, leftover), 15.0).ice_gone);
  }
}

TEST(Ice, SurfaceWaterIsMeltThatCoolsNothing) {
  // Water drink: it ends at 0 C, so water that comes at 0 C takes no heat and all of it is added.
  const IceContact dry = meet(plain(0.1), 20.0, 0.2, -4.0);
  IceContact wet = dry;
  wet.surface_water_kg = 0.006;
  EXPECT_NEAR(melt_to_equilibrium(wet).melted_kg, melt_to_equilibrium(dry).melted_kg + 0.006, 1e-9);
  // Spirit: the drink that was diluted more ends warmer.
  IceContact wet_spirit = meet(spirit(), 20.0, 0.2, 0.0);
  const double from_dry = melt_to_equilibrium(wet_spirit).t_c;
  wet_spirit.surface_water_kg = 0.006;
  EXPECT_GT(melt_to_equilibrium(wet_spirit).t_c, from_dry);
}

TEST(Ice, PaysForTheHeatOfTheVessel) {
  // A tin of 70 J/K at 20 C and a water drink, both to 0 C: 1400 J more, at 333.6 J/g.
  IceContact with_tin = meet(plain(0.1), 20.0, 10.0, 0.0);
  const double bare = melt_to(with_tin, 0.0).melted_kg;
  with_tin.vessel_j_k = 70.0;
  with_tin.vessel_c = 20.0;
  const IceOutcome out = melt_to(with_tin, 0.0);
  EXPECT_NEAR(out.melted_kg - bare, 1400.0 / fusion_j_kg, 1e-9);
  EXPECT_NEAR(out.vessel_heat_j, 1400.0, 1e-9);
}

TEST(Ice, StopsAtTheFreezingLine) {
  const IceContact contact = meet(spirit(), 20.0, 10.0, 0.0);
  const IceOutcome end = melt_to_equilibrium(contact), asked = melt_to(contact, -40.0);
  EXPECT_EQ(asked.t_c, end.t_c);
  EXPECT_EQ(asked.melted_kg, end.melted_kg);
  EXPECT_NEAR(end.t_c, units::in_celsius(freezing_point(end.liquid)), 1e-6);
}

TEST(Ice, LeavesAColderDrinkAsItIs) {
  const IceContact contact = meet(spirit(), -10.0, 0.2, 0.0);
  const IceOutcome out = melt_to(contact, -5.0);
  EXPECT_EQ(out.melted_kg, 0.0);
  EXPECT_EQ(out.ice_left_kg, 0.2);
  EXPECT_NEAR(out.t_c, -10.0, 1e-9);
}

TEST(Ice, ThatIsVeryColdFreezesWaterInTheDrink) {
  // 300 g of ice at -18 C that follow, 50 g of water at 5 C: warming the ice takes 10.8 kJ, cooling the water gives 1.1.
  const IceContact contact = meet(plain(0.05), 5.0, 0.3, -18.0, LeftoverIce::follows);
  const IceOutcome out = melt_to_equilibrium(contact);
  EXPECT_EQ(out.melted_kg, 0.0);
  EXPECT_EQ(out.t_c, 0.0);
  const double frozen = thermal_state(out.liquid, out.liquid_enthalpy_j).ice_kg;
  EXPECT_NEAR(frozen, (0.3 * 36.1e3 - 0.05 * 21.0e3) / fusion_j_kg, 5e-4);  // heats: Choi & Okos; IAPWS
  EXPECT_TRUE(rc::check([&](unsigned) { expect_books(contact, out); }));
}

TEST(Ice, InTimeApproachesEquilibrium) {
  for (const LeftoverIce leftover : {LeftoverIce::inert, LeftoverIce::follows}) {
    const IceContact contact = meet(spirit(), 20.0, 0.2, -2.0, leftover);
    const IceOutcome end = melt_to_equilibrium(contact), none = melt_for(contact, 0.0, 5.0), half = melt_for(contact, 5.0 * std::log(2.0), 5.0),
                     long_after = melt_for(contact, 1e4, 5.0);
    EXPECT_EQ(none.melted_kg, 0.0);
    EXPECT_NEAR(none.t_c, 20.0, 1e-9);
    EXPECT_NEAR(half.t_c, 0.5 * (20.0 + end.t_c), 1e-9);
    EXPECT_NEAR(long_after.melted_kg, end.melted_kg, 1e-9);
    EXPECT_NEAR(long_after.t_c, end.t_c, 1e-9);
  }
}

// A drink, ice, vessel as they may come, and stranger.
IceContact any_contact(std::mt19937& draw) {
  const auto between = [&](double a, double b) { return std::uniform_real_distribution<>(a, b)(draw); };
  Composition c;
  c[water] = std::pow(10.0, between(-4.0, 0.0));
  if (draw() % 3 != 0) c[ethanol] = c[water] * std::pow(10.0, between(-4.0, 1.0));
  if (draw() % 3 != 0) c[sucrose] = c[water] * std::pow(10.0, between(-4.0, 0.4));
  if (draw() % 3 == 0) c[citric_acid] = c[water] * std::pow(10.0, between(-4.0, -1.0));
  IceContact contact = meet(c, between(-25.0, 90.0), c[water] * std::pow(10.0, between(-3.0, 1.5)), between(-25.0, 0.0),
                            draw() % 2 != 0 ? LeftoverIce::inert : LeftoverIce::follows);
  if (draw() % 8 == 0) contact.ice_kg = 0.0;
  if (draw() % 2 == 0) contact.surface_water_kg = 0.03 * contact.ice_kg;
  if (draw() % 2 == 0) {
    contact.vessel_j_k = between(0.0, 200.0);
    contact.vessel_c = between(-18.0, 60.0);
  }
  return contact;
}

TEST(Ice, KeepsMassAndHeatWhateverMeets) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const IceContact contact = any_contact(draw);
    expect_books(contact, melt_to_equilibrium(contact));
    expect_books(contact, melt_to(contact, std::uniform_real_distribution<>(-20.0, 15.0)(draw)));
    expect_books(contact, melt_for(contact, std::uniform_real_distribution<>(0.0, 20.0)(draw), 6.0));
  }));
}

TEST(Ice, MeltsTheAmountThatHalvingFinds) {
  // Second route: halve the melt until the liquid it makes, by the books alone, stands on its freezing line.
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    IceContact contact = any_contact(draw);
    contact.leftover = LeftoverIce::inert;
    contact.vessel_j_k = contact.surface_water_kg = 0.0;
    const IceOutcome out = melt_to_equilibrium(contact);
    if (out.ice_gone || out.melted_kg == 0.0) return;
    double low = 0.0, high = contact.ice_kg;
    for (int pass = 0; pass < 60; ++pass) {
      const double melted = 0.5 * (low + high);
      Composition c = contact.liquid;
      c[water] += melted;
      const double t_c = heat_curve(c).celsius_at(contact.liquid_enthalpy_j + melted * ice_enthalpy_j_kg(contact.ice_c));
      (t_c > units::in_celsius(freezing_point(c)) ? low : high) = melted;
    }
    RC_ASSERT(std::abs(out.melted_kg - low) < 1e-6 * (contact.liquid.total_kg() + contact.ice_kg));
  }));
}

TEST(Ice, MoreHeatMeltsMoreWithoutAStep) {
  const Composition drink = spirit();
  double before = -1.0;
  for (double t_c = -30.0; t_c < 60.0; t_c += 0.05) {
    const double melted = melt_to_equilibrium(meet(drink, t_c, 0.15, -5.0, LeftoverIce::follows)).melted_kg;
    if (before >= 0.0) {
      EXPECT_GE(melted, before - 1e-12) << t_c;
      EXPECT_LT(melted - before, 1.5e-4) << t_c;
    }
    before = melted;
  }
}

}  // namespace
}  // namespace bloomset::matter
