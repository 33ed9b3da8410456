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
