// What leaves an open pan, against the vapour-liquid table of ethanol-water at 101.3 kPa
// (memory: Perry's Chemical Engineers' Handbook, 8th ed., Table 13-1 / Carey & Lewis 1932).
#include "matter/vapour.hpp"

#include <gtest/gtest.h>

namespace bloomset::matter {
namespace {

TEST(Vapour, OverEthanolAndWaterHoldsWhatTheTableSays) {
  struct Row {
    double x, y;
  };
  // Mole fractions of ethanol in liquid and vapour; the table's own scatter and ours stay within 0.025.
  for (const Row row :
       {Row{0.0190, 0.1700}, Row{0.0721, 0.3891}, Row{0.0966, 0.4375}, Row{0.1238, 0.4704}, Row{0.2337, 0.5445}, Row{0.3273, 0.5826}, Row{0.5198, 0.6599}}) {
    const double ratio = ethanol_relative_volatility(row.x) * row.x / (1.0 - row.x);
    EXPECT_NEAR(ratio / (1.0 + ratio), row.y, 0.025) << "x = " << row.x;
  }
}

TEST(Vapour, TakesWhatWasAskedForAndNeverMoreThanThereIs) {
  Composition spirit;
  spirit[Component::water] = 0.060;
  spirit[Component::ethanol] = 0.040;
  spirit[Component::sucrose] = 0.020;
  const Composition some = vapour_from(spirit, 0.010);
  EXPECT_NEAR(some.total_kg(), 0.010, 1e-15);
  EXPECT_GT(some[Component::ethanol], some[Component::water]);
  EXPECT_EQ(some[Component::sucrose], 0.0);
  const Composition all = vapour_from(spirit, 5.0);
  EXPECT_NEAR(all.total_kg(), 0.100, 1e-12);
  EXPECT_EQ(vapour_from(spirit, -1.0).total_kg(), 0.0);
}

TEST(Vapour, WithoutEthanolIsWater) {
  Composition syrup;
  syrup[Component::water] = 0.5;
  syrup[Component::sucrose] = 0.5;
  EXPECT_EQ(vapour_from(syrup, 0.1)[Component::ethanol], 0.0);
  EXPECT_NEAR(vapour_from(syrup, 0.1)[Component::water], 0.1, 1e-15);
}

}  // namespace
}  // namespace bloomset::matter
