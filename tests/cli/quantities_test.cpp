#include "cli/quantities.hpp"

#include <gtest/gtest.h>

namespace bloomset::cli {
namespace {

TEST(Quantities, ReadWithAndWithoutABlank) {
  base::Sources sources;
  QuantityReader read(sources);
  EXPECT_DOUBLE_EQ(units::in_celsius(read.temperature("--at", "20C")), 20.0);
  EXPECT_DOUBLE_EQ(units::in_celsius(read.temperature("--at", "-18 C")), -18.0);
  EXPECT_DOUBLE_EQ(units::in_grams(read.mass("--ice", "200g")), 200.0);
  EXPECT_DOUBLE_EQ(units::in_seconds(read.duration("--for", "12s")), 12.0);
  EXPECT_DOUBLE_EQ(read.heat_capacity("--vessel-heat", "70J/K").si, 70.0);
  EXPECT_DOUBLE_EQ(read.heat_capacity("--vessel-heat", "0 J/K").si, 0.0);
  EXPECT_TRUE(read.faults.empty()) << base::render(read.faults, sources);
}

TEST(Quantities, AFaultIsShownUnderTheOptionsOwnLetters) {
  base::Sources sources;
  QuantityReader read(sources);
  read.heat_capacity("--vessel-heat", "70 kJ");
  ASSERT_EQ(read.faults.size(), 1U);
  EXPECT_EQ(base::render(read.faults, sources),
            "--vessel-heat:1:4: error: a heat capacity is written in J/K [unknown_unit]\n  70 kJ\n     ^~\n  hint: for instance `70 J/K`\n");
}

TEST(Quantities, VolumesAndPressures) {
  base::Sources sources;
  QuantityReader read(sources);
  EXPECT_DOUBLE_EQ(units::in_litres(read.volume("--bottle", "0.75L")), 0.75);
  EXPECT_DOUBLE_EQ(units::in_bar_gauge(read.pressure("--pressure", "2 bar")), 2.0);
  EXPECT_DOUBLE_EQ(units::in_bar_gauge(read.pressure("--pressure", "2 bar gauge")), 2.0);
  EXPECT_DOUBLE_EQ(units::in_bar_absolute(read.pressure("--pressure", "3 bar abs")), 3.0);
  EXPECT_TRUE(read.faults.empty()) << base::render(read.faults, sources);
  for (const char* none : {"20", "20 psi", "0 bar", "0.5 bar abs", "101 bar", "bar", "2 barabs", "-2 bar"}) {
    read.faults.clear();
    read.pressure("--pressure", none);
    EXPECT_EQ(read.faults.size(), 1U) << none;
  }
  read.faults.clear();
  read.volume("--bottle", "750 g");
  EXPECT_EQ(read.faults.size(), 1U);
}

TEST(Quantities, GelatinIsWeighedOrCountedInLeaves) {
  base::Sources sources;
  QuantityReader read(sources);
  EXPECT_DOUBLE_EQ(units::in_grams(*read.gelatin("amount", "4 g").mass), 4.0);
  for (const char* three : {"3 leaves", "3 sheets", "3 pieces", "3 piece", "3leaves", " 3 leaves "}) {
    const sheet::GelatinAmount amount = read.gelatin("amount", three);
    EXPECT_FALSE(amount.mass.has_value()) << three;
    EXPECT_EQ(amount.pieces.value_or(0.0), 3.0) << three;
  }
  EXPECT_EQ(read.gelatin("amount", "2 1/2 leaves").pieces.value_or(0.0), 2.5);
  EXPECT_TRUE(read.faults.empty()) << base::render(read.faults, sources);
  for (const char* none : {"1 tbsp", "10 mL", "leaves", "-3 leaves", "3 panes", "3 %"}) {
    read.faults.clear();
    read.gelatin("amount", none);
    EXPECT_FALSE(read.faults.empty()) << none;
  }
}

TEST(Quantities, EveryFaultIsGathered) {
  base::Sources sources;
  QuantityReader read(sources);
  read.temperature("--at", "warm");
  read.mass("--ice", "20 mL");
  read.mass("--ice", "-5g");
  read.mass("--ice", "5 g of it");
  read.duration("--for", "3 parsec");
  EXPECT_EQ(read.faults.size(), 5U) << base::render(read.faults, sources);
}

}  // namespace
}  // namespace bloomset::cli
