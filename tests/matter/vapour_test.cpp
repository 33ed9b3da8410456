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

TEST(Boiling, FollowsTheTableOfEthanolAndWater) {
  // Mole fraction of ethanol in the liquid and boiling point at 101.3 kPa (memory: Perry's Chemical Engineers' Handbook, Table 13-1).
  struct Row {
    double x, t_c;
  };
  for (const Row row : {Row{0.0, 100.0}, Row{0.0190, 95.5}, Row{0.0721, 89.0}, Row{0.1661, 84.1}, Row{0.3273, 81.5}, Row{0.5198, 79.7}, Row{0.8943, 78.15}}) {
    Composition liquid;
    liquid[Component::ethanol] = row.x * 0.046069;
    liquid[Component::water] = (1.0 - row.x) * 0.018015;
    EXPECT_NEAR(boiling_point_c(liquid), row.t_c, 0.7) << "x = " << row.x;
  }
}

TEST(Boiling, IsRaisedBySugarAsSugarTablesSay) {
  // Sucrose solutions at 1 atm (memory: Bubnik et al., Sugar Technologists Manual): rise in K at 50, 60, 70 mass %.
  struct Row {
    double percent, rise_k;
  };
  for (const Row row : {Row{50.0, 1.8}, Row{60.0, 3.0}, Row{70.0, 5.3}}) {
    Composition syrup;
    syrup[Component::sucrose] = row.percent;
    syrup[Component::water] = 100.0 - row.percent;
    EXPECT_NEAR(boiling_point_c(syrup), 100.0 + row.rise_k, 0.8) << row.percent << " %";
  }
}

TEST(Steaming, FollowsTheVapourPressureOfWater) {
  // Steam tables (IAPWS-IF97): 2.339 kPa at 20 C, 19.95 kPa at 60 C, 101.42 kPa at 100 C.
  EXPECT_NEAR(steaming(20.0), 2.339 / 101.42, 0.0005);
  EXPECT_NEAR(steaming(60.0), 19.95 / 101.42, 0.002);
  EXPECT_NEAR(steaming(100.0), 1.0, 0.002);
}

}  // namespace
}  // namespace bloomset::matter
