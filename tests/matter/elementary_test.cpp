// Exponential and logarithm of our own against the library's in 80 bits (glibc's expl, expm1l, logl: below one unit of their own last place).
#include "matter/elementary.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace bloomset::matter {
namespace {

// How far off, in units of the last place of what is right.
double units_off(double is, long double right) {
  const double near = std::abs(static_cast<double>(right)), unit = std::nextafter(near, std::numeric_limits<double>::infinity()) - near;
  return static_cast<double>(std::abs(static_cast<long double>(is) - right)) / unit;
}

// Points from `low` to `high`, no two alike in their last bits.
template <class Do>
void walk(double low, double high, Do&& what) {
  constexpr int points = 200'000;
  for (int n = 0; n <= points; ++n) what(low + (high - low) * (n + 0.5 * std::sin(n)) / points);
}

TEST(Elementary, ExponentialIsGoodToOneUnitInTheLastPlace) {
  double most = 0.0;
  for (const double reach : {1.0, 30.0, 700.0})
    walk(-reach, reach, [&](double x) { most = std::max(most, units_off(exp(x), std::exp(static_cast<long double>(x)))); });
  EXPECT_LT(most, 1.0);
  EXPECT_EQ(exp(0.0), 1.0);
  EXPECT_EQ(exp(-1e4), exp(-708.0));
}

TEST(Elementary, ExponentialLessOneIsGoodToTwoUnitsInTheLastPlaceNearNothingToo) {
  double most = 0.0;
  for (const double reach : {1e-12, 1e-3, 0.3, 1.0, 30.0})
    walk(-reach, reach, [&](double x) { most = std::max(most, units_off(expm1(x), std::expm1(static_cast<long double>(x)))); });
  EXPECT_LT(most, 2.0);
  EXPECT_EQ(expm1(0.0), 0.0);
}

TEST(Elementary, LogarithmIsGoodToOneUnitInTheLastPlace) {
  double most = 0.0;
  for (const double high : {1.5, 10.0, 1e6, 1e300})
    walk(1.0 / high, high, [&](double x) { most = std::max(most, units_off(log(x), std::log(static_cast<long double>(x)))); });
  walk(0.7, 1.4, [&](double x) { most = std::max(most, units_off(log(x), std::log(static_cast<long double>(x)))); });
  EXPECT_LT(most, 1.0);
  EXPECT_EQ(log(1.0), 0.0);
}

TEST(Elementary, WhatIsLeftAboveALogarithmDoesNotCancel) {
  double most = 0.0;
  walk(0.7, 1.4, [&](double u) {
    if (std::abs(u - 1.0) < 1e-3) return;  // there the 80-bit difference cancels itself
    const long double v = static_cast<long double>(u) - 1.0L, right = v - std::log1p(v);
    most = std::max(most, static_cast<double>(std::abs(static_cast<long double>(above_logarithm(u)) - right) / right));
  });
  EXPECT_LT(most, 1e-15);
}

TEST(Elementary, EightLanesGiveTheBitsOfEachAlone) {
  walk(-50.0, 50.0, [](double x) {
    Lanes many;
    for (int lane = 0; lane < lane_count; ++lane) many.set(lane, x * (1.0 + 0.07 * lane));
    const Lanes e = exp(many), m = expm1(many), l = log(abs(many) + 1e-9), r = sqrt(abs(many)), a = above_logarithm(1.0 + 0.002 * many);
    for (int lane = 0; lane < lane_count; ++lane) {
      const double one = many[lane];
      ASSERT_EQ(e[lane], exp(one));
      ASSERT_EQ(m[lane], expm1(one));
      ASSERT_EQ(l[lane], log(abs(one) + 1e-9));
      ASSERT_EQ(r[lane], sqrt(abs(one)));
      ASSERT_EQ(a[lane], above_logarithm(1.0 + 0.002 * one));
    }
  });
}

}  // namespace
}  // namespace bloomset::matter
