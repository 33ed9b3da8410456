// tests/matter/cooling_test.cpp - lumped cooling against worked examples, its differential equation, and its own inverse.
#include "matter/cooling.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

namespace bloomset::matter {
namespace {

using namespace units;

// Half a litre of water in a steel bottle of 0.45 kg: 0.5 x 4186 + 0.45 x 500 J/K, 0.073 m2.
Cooling half_litre(double h_w_m2_k, double around_c) { return {{0.5 * 4186.0 + 0.45 * 500.0}, 0.073, h_w_m2_k, celsius(around_c)}; }

TEST(Cooling, HalfALitreInAStillRefrigerator) {
  // t = C/(hA) ln(51/6), by hand: 2318/(5 x 0.073) x 2.1401 = 13591 s.
  EXPECT_NEAR(cool_time(half_litre(5.0, 4.0), celsius(55.0), celsius(10.0)).si, 13591.0, 2.0);
  EXPECT_NEAR(cool_time(half_litre(100.0, 0.0), celsius(55.0), celsius(10.0)).si, 541.3, 0.5);
}

TEST(Cooling, BottleInWind) {
  // University heat-transfer course, solution 7-61: 2.356 kg of water, 3 to 11 C in 45 min over 20 K and 0.09425 m2: 15.55 W/(m2 K).
  EXPECT_NEAR(heat_transfer_coefficient_w_m2_k({2.356 * 4198.0}, 0.09425, celsius(3.0), celsius(11.0), minutes(45.0), kelvins_difference(20.0)), 15.55, 0.01);
}

TEST(Cooling, NeverReachesWhatLiesBeyond) {
  EXPECT_TRUE(std::isinf(cool_time(half_litre(5.0, 4.0), celsius(55.0), celsius(4.0)).si));
  EXPECT_TRUE(std::isinf(cool_time(half_litre(5.0, 4.0), celsius(55.0), celsius(3.0)).si));
  EXPECT_TRUE(std::isinf(cool_time(half_litre(5.0, 4.0), celsius(55.0), celsius(60.0)).si));
  EXPECT_DOUBLE_EQ(cool_time(half_litre(5.0, 4.0), celsius(55.0), celsius(55.0)).si, 0.0);
}

TEST(Cooling, TimeAndTemperatureUndoEachOtherAndWarmingIsCoolingTurnedRound) {
  EXPECT_TRUE(rc::check("cooled(cool_time) = end", [] {
    const double around = *rc::gen::inRange(-18, 60), start = *rc::gen::inRange(-18, 96);
    RC_PRE(std::abs(start - around) > 1.0);
    const double end = around + (start - around) * 0.01 * *rc::gen::inRange(5, 100);
    const Cooling c = half_litre(7.0, around);
    const Duration t = cool_time(c, celsius(start), celsius(end));
    RC_ASSERT(std::abs(in_celsius(cooled(c, celsius(start), t)) - end) < 1e-9);
  }));
}

TEST(Cooling, ObeysItsDifferentialEquation) {
  const Cooling c = half_litre(16.0, 3.0);
  const double at = in_celsius(cooled(c, celsius(40.0), minutes(20.0))), later = in_celsius(cooled(c, celsius(40.0), minutes(20.0) + seconds(0.1)));
  EXPECT_NEAR((later - at) / 0.1, -16.0 * 0.073 / 2318.0 * (at - 3.0), 1e-6);
}

TEST(Film, SpansHoldTheirUsualValue) {
  for (const Surrounding s : {Surrounding::still_air, Surrounding::moving_air, Surrounding::ice_water_turned, Surrounding::ice_water_standing}) {
    EXPECT_LT(film(s).least, film(s).usual);
    EXPECT_LT(film(s).usual, film(s).most);
  }
}

}  // namespace
}  // namespace bloomset::matter
