#include "press/figure.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace bloomset::press {
namespace {

TEST(Figure, AmountsGetDecimalsByTheirSize) {
  EXPECT_EQ(figure(123.4, Digits::amount), "123");
  EXPECT_EQ(figure(12.34, Digits::amount), "12.3");
  EXPECT_EQ(figure(1.234, Digits::amount), "1.23");
  EXPECT_EQ(figure(0.0, Digits::amount), "0.00");
}

TEST(Figure, TheLimitIsWhereTheRoundedNumberStarts) {
  EXPECT_EQ(figure(99.96, Digits::amount), "100");
  EXPECT_EQ(figure(99.94, Digits::amount), "99.9");
  EXPECT_EQ(figure(9.996, Digits::amount), "10.0");
  EXPECT_EQ(figure(9.994, Digits::amount), "9.99");
}

TEST(Figure, DosesOfAgentsKeepTwoDecimalsAtAnySize) {
  EXPECT_EQ(figure(123.456, Digits::agent), "123.46");
  EXPECT_EQ(figure(3.63, Digits::agent), "3.63");
}

TEST(Figure, LargeMassesAndVolumesReadInKilogramsAndLitres) {
  EXPECT_EQ(figure(9999.4, Digits::amount, "g"), "9999\u00A0g");
  EXPECT_EQ(figure(9999.6, Digits::amount, "g"), "10.00\u00A0kg");
  EXPECT_EQ(figure(123456.0, Digits::amount, "mL"), "123.5\u00A0L");
  EXPECT_EQ(figure(12345.0, Digits::agent, "g"), "12.35\u00A0kg");
  EXPECT_EQ(figure(12345.0, Digits::amount, "kcal"), "12345\u00A0kcal");
}

TEST(Figure, PercentsBelowOneGetTwoDecimals) {
  EXPECT_EQ(figure(13.84, Digits::percent, "%"), "13.8\u00A0%");
  EXPECT_EQ(figure(0.744, Digits::percent, "%"), "0.74\u00A0%");
}

TEST(Figure, WhatIsThereButWouldPrintAsNothingSaysSo) {
  EXPECT_EQ(figure(0.004, Digits::amount, "g"), "<0.01\u00A0g");
  EXPECT_EQ(figure(1e-12, Digits::amount, "g"), "0.00\u00A0g");  // what is left of rounding is nothing
}

TEST(Figure, NegativeNumbersHaveATrueMinusAndZeroHasNone) {
  EXPECT_EQ(figure(-4.06, Digits::one, "°C"), "−4.1\u00A0°C");
  EXPECT_EQ(figure(-0.04, Digits::one, "°C"), "0.0\u00A0°C");
}

TEST(Figure, WhatCannotBeGivenIsADashWithoutUnit) {
  EXPECT_EQ(figure(std::numeric_limits<double>::quiet_NaN(), Digits::one, "°C"), "—");
  EXPECT_EQ(figure(std::numeric_limits<double>::infinity(), Digits::whole), "—");
}

TEST(Figure, TimesReadAsACookSaysThem) {
  EXPECT_EQ(duration(12.0), "12\u00A0s");
  EXPECT_EQ(duration(60.0), "1\u00A0min");
  EXPECT_EQ(duration(90.0), "1\u00A0min\u00A030\u00A0s");
  EXPECT_EQ(duration(3600.0 * 2.5), "2\u00A0h\u00A030\u00A0min");
  EXPECT_EQ(duration(3599.9), "1\u00A0h");
  EXPECT_EQ(duration(86400.0), "24\u00A0h");
  EXPECT_EQ(duration(86400.0 * 2.0), "2\u00A0d");
  EXPECT_EQ(duration(text::Range{600.0, 720.0}), "10–12\u00A0min");
}

TEST(Figure, TemperatureBandsKeepTheirSigns) {
  EXPECT_EQ(temperature(text::Range{70.0, 70.0}), "70\u00A0°C");
  EXPECT_EQ(temperature(text::Range{-20.0, -18.0}), "−20\u00A0to\u00A0−18\u00A0°C");
}

TEST(Figure, EveryPropertyHasALabelOfAtMostTwentyColumns) {
  for (std::size_t i = 0; i < matter::property_count; ++i) {
    const PropertyLine& line = line_of(static_cast<matter::Property>(i));
    EXPECT_FALSE(line.label.empty()) << i;
    EXPECT_LE(line.label.size(), 21U) << line.label;  // one degree sign of two bytes
  }
}

}  // namespace
}  // namespace bloomset::press
