// tests/matter/proportion_test.cpp - shares and their bases.
#include "matter/proportion.hpp"

#include <gtest/gtest.h>

namespace bloomset::matter {
namespace {

TEST(Proportion, FortyFivePercentOfTheInitialIsThirtyOneOfTheFinal) {
  // 45 / 145 = 31.03 %; a fifth of the finished drink is a quarter of the base.
  EXPECT_NEAR(share_of_final(0.45), 0.31034, 1e-5);
  EXPECT_DOUBLE_EQ(share_of_initial(0.2), 0.25);
  EXPECT_DOUBLE_EQ(share_of_initial(share_of_final(0.6)), 0.6);
}

TEST(Proportion, SevenGramsInAPint) {
  // 7.0 g in 473 mL = 14.8 g/L, "1.48 % w/v".
  EXPECT_NEAR(in_percent_w_v(mass_per_volume(units::grams(7.0), units::millilitres(473.0))), 1.4799, 1e-4);
}

TEST(Proportion, ExponentThroughTwoPoints) {
  EXPECT_DOUBLE_EQ(power_exponent(2.0, 5.0, 4.0, 20.0), 2.0);
  // ln(4.34/277) / ln(20/2) = -1.805 (arXiv:2512.20502).
  EXPECT_NEAR(power_exponent(2.0, 277.0, 20.0, 4.34), -1.805, 1e-3);
}

}  // namespace
}  // namespace bloomset::matter
