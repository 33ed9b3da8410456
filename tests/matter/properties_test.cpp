// One state, every key: what the reading must add up to, what it refuses, and what happens below freezing.
#include "matter/properties.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <set>

#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::matter {
namespace {

using enum Component;
using P = Property;

State state_at(Composition c, double t_c) { return {.liquid = c, .enthalpy_j = equilibrium_enthalpy_j(c, t_c)}; }

Composition sour() {
  Composition c;
  c[water] = 0.075;
  c[ethanol] = 0.016;
  c[sucrose] = 0.014;
  c[citric_acid] = 0.0015;
  c[potassium] = 4e-5;
  c[salt_hydrogen] = -4e-5 / 39.098 * 1.008;
  return c;
}

TEST(Properties, HaveEachAKeyOfItsOwn) {
  std::set<std::string_view> seen;
  for (std::size_t i = 0; i < property_count; ++i) EXPECT_TRUE(seen.insert(key(static_cast<P>(i))).second);
  EXPECT_EQ(key(P::mass_g), "mass_g");
  EXPECT_EQ(key(P::titratable_acidity_g_l_citric), "titratable_acidity_g_l_citric");
  EXPECT_EQ(key(P::energy_kcal), "energy_kcal");
}

TEST(Properties, OfOneLitreOfVodkaAreThoseOfTheTables) {
  // OIML R 22: 40 %vol weighs 948.05 g/L and holds 315.70 g/L of ethanol at 20 C. Regulation (EU) 1169/2011: 7 kcal/g.
  Composition vodka;
  vodka[ethanol] = 0.31570;
  vodka[water] = 0.94805 - 0.31570;
  const Values v = read_all(state_at(vodka, 20.0));
  EXPECT_NEAR(v[P::temperature_c], 20.0, 1e-9);
  EXPECT_NEAR(v[P::mass_g], 948.05, 1e-9);
  EXPECT_NEAR(v[P::volume_ml], 1000.0, 0.01);
  EXPECT_NEAR(v[P::volume_20c_ml], 1000.0, 0.01);
  EXPECT_NEAR(v[P::density_kg_m3], 948.05, 0.01);
  EXPECT_NEAR(v[P::abv_percent], 40.0, 0.01);
  EXPECT_NEAR(v[P::energy_kcal], 7.0 * 315.70, 1e-6);
  EXPECT_EQ(v[P::brix_percent], 0.0);
  EXPECT_EQ(v[P::sugars_g], 0.0);
  EXPECT_EQ(v[P::ice_g], 0.0);
  EXPECT_EQ(v[P::co2_volumes], 0.0);
}

TEST(Properties, OfSyrupCountItsSugar) {
  Composition syrup;
  syrup[water] = 0.5;
  syrup[sucrose] = 0.4;
  syrup[glucose] = 0.1;
  const Values v = read_all(state_at(syrup, 20.0));
  EXPECT_NEAR(v[P::brix_percent], 50.0, 1e-9);
  EXPECT_NEAR(v[P::sugar_percent], 50.0, 1e-9);
  EXPECT_NEAR(v[P::sugars_g], 500.0, 1e-9);
  EXPECT_NEAR(v[P::sweetness_percent_sucrose], 40.0 + 10.0 * info(glucose).sweetness, 1e-9);
  EXPECT_NEAR(v[P::energy_kcal], 4.0 * 500.0, 1e-9);
  EXPECT_EQ(v[P::abv_percent], 0.0);
}

TEST(Properties, CountWhatFloatsNeitherAsBrixNorAsRead) {
  Composition milky;
  milky[water] = 0.87;
  milky[lactose] = 0.05;
  milky[protein] = 0.035;
  milky[fat] = 0.04;
  milky[fibre] = 0.005;
  const Values v = read_all(state_at(milky, 5.0));
  EXPECT_NEAR(v[P::brix_percent], 8.5, 1e-9);
}

TEST(Properties, CountCarbonDioxideInVolumes) {
  // One volume is a litre of gas at 0 C and 1 atm: 1.977 g (memory: CRC Handbook, density of carbon dioxide).
  Composition soda;
  soda[water] = 0.9982;
  soda[carbon_dioxide] = 3.0 * 1.977e-3;
  EXPECT_NEAR(read_all(state_at(soda, 20.0))[P::co2_volumes], 3.0, 0.005);
}

TEST(Properties, BelowFreezingAreOfWhatStaysLiquid) {
  const Composition c = sour();
  const double first_ice = read_all(state_at(c, 20.0))[P::freezing_point_c];
  const Values cold = read_all(state_at(c, first_ice - 5.0)), warm = read_all(state_at(c, 20.0));
  EXPECT_NEAR(cold[P::temperature_c], first_ice - 5.0, 1e-3);
  EXPECT_GT(cold[P::ice_g], 5.0);
  EXPECT_NEAR(cold[P::mass_g] + cold[P::ice_g], warm[P::mass_g], 1e-6);
  EXPECT_GT(cold[P::abv_percent], 1.2 * warm[P::abv_percent]);
  EXPECT_NEAR(cold[P::abv_percent_all_melted], warm[P::abv_percent], 1e-9);
  EXPECT_NEAR(cold[P::freezing_point_c], cold[P::temperature_c], 1e-9);
  // What stays liquid, taken alone, would freeze at just that temperature.
  Composition left = c;
  left[water] -= 1e-3 * cold[P::ice_g];
  EXPECT_NEAR(units::in_celsius(freezing_point(left)), cold[P::temperature_c], 0.01);
}

TEST(Properties, FloatingIceCountsOnceAllIsMelted) {
  State s = state_at(sour(), 0.0);
  s.floating_ice_kg = 0.1;
  const Values v = read_all(s);
  EXPECT_NEAR(v[P::ice_g], 100.0, 1e-9);
  Composition melted = sour();
  melted[water] += 0.1;
  EXPECT_NEAR(v[P::abv_percent_all_melted], units::in_percent_vol(strength(melted)), 1e-12);
  EXPECT_NEAR(v[P::mass_g], 1e3 * sour().total_kg(), 1e-9);
}

TEST(Properties, AreRefusedWhereThereIsNone) {
  const Values nothing = read_all(State{});
  for (const P p : {P::density_kg_m3, P::abv_percent, P::brix_percent, P::brix_read_percent, P::ph_25c, P::viscosity_mpa_s, P::refractive_index_20c,
                    P::freezing_point_c, P::water_activity, P::heat_capacity_kj_kg_k, P::sweetness_percent_sucrose, P::co2_volumes})
    EXPECT_TRUE(std::isnan(nothing[p])) << key(p);
  EXPECT_EQ(nothing[P::mass_g], 0.0);
  EXPECT_EQ(nothing[P::volume_ml], 0.0);
  Composition thick = sour();
  thick[agar] = 0.001;
  EXPECT_TRUE(std::isnan(read_all(state_at(thick, 20.0))[P::viscosity_mpa_s]));
}

TEST(Properties, ReadAloneAreTheSameAsReadTogether) {
  for (const double t : {-15.0, 4.0, 60.0}) {
    State s = state_at(sour(), t);
    s.floating_ice_kg = 0.02;
    s.foam_volume_ml = 30.0;
    const Values all = read_all(s);
    for (std::size_t i = 0; i < property_count; ++i) {
      Values one;
      one.of.fill(-1234.5);
      read(s, PropertySet{}.set(i), one);
      EXPECT_EQ(one.of[i], all.of[i]) << key(static_cast<P>(i));
      for (std::size_t other = 0; other < property_count; ++other)
        EXPECT_TRUE(other == i || one.of[other] == -1234.5) << "asked " << key(static_cast<P>(i)) << ", touched " << key(static_cast<P>(other));
    }
  }
}

TEST(Properties, ScaleOrStayWithTheAmount) {
  const std::set<P> grow = {P::mass_g, P::volume_ml, P::volume_20c_ml, P::ice_g, P::foam_volume_ml, P::ethanol_g, P::sugars_g, P::energy_kcal};
  EXPECT_TRUE(rc::check("three glasses are three times one glass", [&grow] {
    const auto grams = [](int most) { return 1e-3 * static_cast<double>(*rc::gen::inRange(0, most)); };
    Composition c;
    c[water] = 0.02 + grams(300);
    c[ethanol] = grams(100);
    c[sucrose] = grams(100);
    c[fructose] = grams(50);
    c[citric_acid] = grams(10);
    const State one = state_at(c, static_cast<double>(*rc::gen::inRange(-25, 80)));
    const State three = {.liquid = one.liquid * 3.0, .enthalpy_j = one.enthalpy_j * 3.0};
    const Values a = read_all(one), b = read_all(three);
    for (std::size_t i = 0; i < property_count; ++i) {
      const double expected = a.of[i] * (grow.contains(static_cast<P>(i)) ? 3.0 : 1.0);
      RC_ASSERT(std::isnan(expected) == std::isnan(b.of[i]));
      RC_ASSERT(std::isnan(expected) || std::abs(b.of[i] - expected) <= 1e-6 * (1.0 + std::abs(expected)));
    }
  }));
}

TEST(RangeNotes, NameTheModelThatIsLeft) {
  const auto has = [](const State& s, RangeNote n) { return range_notes(s).test(static_cast<std::size_t>(n)); };
  EXPECT_TRUE(range_notes(state_at(pure(water, {1.0}), 20.0)).none());
  EXPECT_TRUE(has(state_at(sour(), 20.0), RangeNote::spirit_ph));
  Composition mild = sour();
  mild[ethanol] = 0.005;
  EXPECT_TRUE(range_notes(state_at(mild, 20.0)).none());
  EXPECT_TRUE(has(state_at(sour(), -30.0), RangeNote::cold_below_model));
  EXPECT_TRUE(has(state_at(sour(), 60.0), RangeNote::hot_above_model));
  EXPECT_FALSE(has(state_at(pure(water, {1.0}), 60.0), RangeNote::hot_above_model));
  mild[xanthan] = 1e-4;
  EXPECT_TRUE(has(state_at(mild, 20.0), RangeNote::thickener_viscosity));
  Composition candy;
  candy[water] = 0.2;
  candy[sucrose] = 0.8;
  EXPECT_TRUE(has(state_at(candy, 60.0), RangeNote::sugar_over_70));
  Composition tart = pure(water, {0.9});
  tart[malic_acid] = 0.1;
  EXPECT_TRUE(has(state_at(tart, 20.0), RangeNote::acid_activity_unknown));
  Composition brine = pure(water, {0.9});
  brine[sodium] = 0.1 * 22.990 / 58.44;
  brine[chloride] = 0.1 * 35.45 / 58.44;
  EXPECT_TRUE(has(state_at(brine, 20.0), RangeNote::ionic_strength_high));
  EXPECT_TRUE(range_notes(State{}).none());
}

}  // namespace
}  // namespace bloomset::matter
