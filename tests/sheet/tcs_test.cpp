// Edges of the two tables: 21 answers by US FDA Food Code, 1-201.10 (as in Tennessee 0080-04-09-.01 and Texas 25 TAC 228.2).
#include "sheet/tcs.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace bloomset::sheet {
namespace {

constexpr auto A = TcsTable::heated_and_packaged, B = TcsTable::anything_else;
constexpr auto no = TcsClass::non_tcs, pa = TcsClass::product_assessment;

TEST(Tcs, EdgesBelongToTheCellsThatTheTablesSay) {
  struct Row {
    double ph, aw;
    TcsTable table;
    TcsClass expected;
  };
  const Row rows[] = {
      {4.6, 0.99, A, no},  {4.61, 0.99, A, pa}, {5.6, 0.95, A, no},  {5.61, 0.95, A, pa}, {7.0, 0.92, A, no}, {7.0, 0.921, A, pa}, {5.6, 0.951, A, pa},
      {4.2, 0.99, B, pa},  {4.19, 0.99, B, no}, {4.6, 0.92, B, no},  {4.61, 0.92, B, pa}, {5.0, 0.90, B, no}, {5.01, 0.90, B, pa}, {5.0, 0.901, B, pa},
      {7.0, 0.879, B, no}, {7.0, 0.88, B, pa},  {4.2, 0.921, B, pa}, {4.2, 0.92, B, no},  {14.0, 0.0, B, no}, {0.0, 1.0, B, no},   {14.0, 1.0, B, pa},
  };
  for (const Row& row : rows) EXPECT_EQ(tcs_class(row.ph, row.aw, row.table), row.expected) << row.ph << " " << row.aw;
}

TEST(Tcs, ABitBesideADecimalIsThatDecimal) {
  EXPECT_EQ(tcs_class(std::nextafter(4.2, 0.0), 0.99, B), pa);
  EXPECT_EQ(tcs_class(std::nextafter(4.6, 9.0), 0.99, A), no);
}

TEST(Tcs, WhatIsNotKnownIsUnknown) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  for (const auto& [ph, aw] : {std::pair{none, 0.9}, {4.0, none}, {-0.1, 0.9}, {14.1, 0.9}, {4.0, 1.01}, {4.0, -0.01}})
    EXPECT_EQ(tcs_class(ph, aw, B), TcsClass::unknown);
}

TEST(Tcs, EveryPointFallsIntoACell) {
  for (const TcsTable table : {A, B})
    for (int x = 0; x <= 140; ++x)
      for (int w = 0; w <= 100; ++w) EXPECT_NE(tcs_class(x * 0.1, w * 0.01, table), TcsClass::unknown) << x << " " << w;
}

}  // namespace
}  // namespace bloomset::sheet
