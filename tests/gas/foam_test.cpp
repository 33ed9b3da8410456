// tests/gas/foam_test.cpp - overrun and gas fraction, what stands, gas in a room.
#include "gas/foam.hpp"

#include <gtest/gtest.h>

namespace bloomset::gas {
namespace {

using namespace units;

TEST(Foam, ThreeHundredPercentOverrunIsThreeQuartersGas) {
  // Definition: overrun = 100 phi/(1 - phi) (course slides on food foams, 2021).
  EXPECT_DOUBLE_EQ(gas_fraction(3.0), 0.75);
  EXPECT_DOUBLE_EQ(overrun_of(0.75), 3.0);
}

TEST(Foam, NothingAboveFourHundredPercentStands) {
  const Standing mild = standing(5.0, 0.6), strong = standing(9.0, 0.6);
  EXPECT_DOUBLE_EQ(mild.overrun, 3.0);
  EXPECT_DOUBLE_EQ(mild.spurt, 0.0);
  EXPECT_DOUBLE_EQ(strong.overrun, 4.0);
  EXPECT_NEAR(strong.spurt, 1.4, 1e-12);
}

TEST(Foam, RetentionIsAGuessWithASpan) {
  EXPECT_LT(retention().least, retention().prior);
  EXPECT_LT(retention().prior, retention().most);
}

TEST(Foam, OneChargerInARoomOfThirtyCubicMetres) {
  // 8 g / 44.013 g/mol x 24.45 L/mol / 30 m3 = 148 ppm (exposure limits for comparison: 25 and 50 ppm).
  EXPECT_NEAR(room_rise_ppm(Gas::nitrous_oxide, grams(8.0), litres(30000.0)), 148.1, 0.2);
}

}  // namespace
}  // namespace bloomset::gas
