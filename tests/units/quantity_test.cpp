// Kinds of quantity: makers, readers and what crosses kinds, against exact definitions.
#include "units/quantity.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <type_traits>

#include "units/constants.hpp"

namespace bloomset::units {
namespace {

// Two roundings of a double at most lie between a maker and its reader.
void expect_same(double a, double b) { EXPECT_NEAR(a, b, 4e-16 * std::max(std::abs(a), std::abs(b))); }

TEST(Quantity, MakersHoldSiUnits) {
  // SI Brochure, 9th edition: kg, m3, K, Pa, J, s are the units inside; the prefixes are exact (table 7).
  expect_same(grams(250.0).si, 0.25);
  expect_same(kilograms(0.25).si, 0.25);
  expect_same(millilitres(750.0).si, 750e-6);
  expect_same(litres(0.75).si, 750e-6);  // 1 L = 1e-3 m3, SI Brochure table 8
  expect_same(celsius(0.0).si, 273.15);  // SI Brochure 2.3.1
  expect_same(celsius(-273.15).si, 0.0);
  expect_same(bar_absolute(1.01325).si, 101325.0);  // 1 bar = 1e5 Pa, SI Brochure section 4
  expect_same(minutes(2.0).si, 120.0);
  expect_same(hours(1.5).si, 5400.0);
  expect_same(millimetres(15.0).si, 0.015);
  expect_same(mass_percent(1.1).si, 0.011);
  expect_same(percent_vol(40.0).si, 0.4);
  expect_same(grams_per_litre(150.0).si, 150.0);  // g/L and kg/m3 are the same number
}

TEST(Quantity, GaugePressureCountsFromOneStandardAtmosphere) {
  expect_same(bar_gauge(0.0).si, 101325.0);  // ISO 80000-4: standard atmosphere, exact
  expect_same(in_bar_absolute(bar_gauge(2.0)), 3.01325);
  EXPECT_NEAR(in_bar_gauge(bar_absolute(1.01325)), 0.0, 1e-15);
}

TEST(Quantity, TheMolarGasConstantIsTheProductOfTheTwoExactConstants) {
  // SI Brochure, 9th edition, table 1: k = 1.380649e-23 J/K and N_A = 6.02214076e23 1/mol, both exact.
  EXPECT_NEAR(molar_gas_constant_j_mol_k, 1.380649e-23 * 6.02214076e23, 1e-14);
}

TEST(Quantity, TemperaturesArePointsAndTheirDifferenceIsNot) {
  static_assert(std::is_same_v<decltype(celsius(20.0) - celsius(4.0)), TemperatureDifference>);
  static_assert(std::is_same_v<decltype(celsius(20.0) - kelvins_difference(4.0)), Temperature>);
  EXPECT_NEAR((celsius(20.0) - celsius(4.0)).si, 16.0, 1e-12);
  EXPECT_NEAR(in_celsius(celsius(4.0) + kelvins_difference(16.0)), 20.0, 1e-12);
}

TEST(Quantity, KindOverItselfIsAPlainRatio) {
  static_assert(std::is_same_v<decltype(grams(1.0) / grams(2.0)), double>);
  expect_same(grams(30.0) / grams(120.0), 0.25);
}

TEST(Quantity, DensityMassAndVolumeAgree) {
  EXPECT_TRUE(rc::check("mass(volume(m, d), d) is m", [] {
    const double g = *rc::gen::inRange(1, 1'000'000) * 1e-2, kg_m3 = *rc::gen::inRange(700, 1500);
    const Density d = kilograms_per_cubic_metre(kg_m3);
    const Mass back = mass(volume(grams(g), d), d);
    RC_ASSERT(std::abs(in_grams(back) - g) <= 1e-12 * g);
    RC_ASSERT(std::abs(density(grams(g), volume(grams(g), d)).si - kg_m3) <= 1e-12 * kg_m3);
  }));
}

TEST(Quantity, ReadersUndoMakers) {
  EXPECT_TRUE(rc::check("reader after maker gives the number back", [] {
    const double n = *rc::gen::inRange(-1'000'000, 1'000'000) * 1e-3;
    const auto close = [n](double back) { return std::abs(back - n) <= 1e-12 * (1.0 + std::abs(n)); };
    RC_ASSERT(close(in_grams(grams(n))));
    RC_ASSERT(close(in_millilitres(millilitres(n))));
    RC_ASSERT(close(in_litres(litres(n))));
    RC_ASSERT(std::abs(in_celsius(celsius(n)) - n) <= 1e-10);
    RC_ASSERT(close(in_bar_absolute(bar_absolute(n))));
    RC_ASSERT(close(in_bar_gauge(bar_gauge(n))));
    RC_ASSERT(close(in_seconds(seconds(n))));
    RC_ASSERT(close(in_hours(hours(n))));
    RC_ASSERT(close(in_percent(mass_percent(n))));
    RC_ASSERT(close(in_percent_vol(percent_vol(n))));
    RC_ASSERT(close(in_grams_per_litre(grams_per_litre(n))));
  }));
}

TEST(Quantity, AddsScalesAndComparesWithinAKind) {
  Mass m = grams(10.0);
  m += grams(5.0);
  m -= grams(3.0);
  EXPECT_NEAR(in_grams(m), 12.0, 1e-12);
  EXPECT_NEAR(in_grams(2.0 * m + m * 3.0 - m / 4.0), 57.0, 1e-12);
  EXPECT_NEAR(in_grams(-m), -12.0, 1e-12);
  EXPECT_LT(grams(1.0), grams(2.0));
  EXPECT_EQ(grams(1000.0), kilograms(1.0));
  EXPECT_GT(celsius(5.0), celsius(-18.0));
}

TEST(Quantity, IsAsSmallAsTheNumberInside) {
  static_assert(sizeof(Mass) == sizeof(double));
  static_assert(std::is_trivially_copyable_v<Mass>);
}

}  // namespace
}  // namespace bloomset::units
