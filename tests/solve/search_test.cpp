// The search on plain functions whose answers are known by hand, and wishes that contradict.
#include "solve/search.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bloomset::solve {
namespace {

Search ask(Model model, std::vector<double> start, std::vector<Wish> wishes, double low = -10.0, double high = 10.0) {
  const std::size_t n = start.size();
  return {std::move(model), std::move(start), std::vector<double>(n, low), std::vector<double>(n, high), std::move(wishes)};
}
Wish at(double value) { return {value, value}; }
Wish least(double value) { return {value, unbounded}; }
Wish most(double value) { return {-unbounded, value}; }

// The foot of the perpendicular: from (2, 1) to the unit circle it is (2, 1)/sqrt(5).
TEST(Search, FindsTheNearestPointOnACircle) {
  const Found found = search(ask([](auto x, auto v) { v[0] = x[0] * x[0] + x[1] * x[1]; }, {2.0, 1.0}, {at(1.0)}));
  ASSERT_TRUE(found.met());
  EXPECT_NEAR(found.x[0], 2.0 / std::sqrt(5.0), 1e-6);
  EXPECT_NEAR(found.x[1], 1.0 / std::sqrt(5.0), 1e-6);
}

// From (0, 0) to the line x + y + z = 3: (1, 1, 1). With x at most 0.5 there it is (0.5, 1.25, 1.25).
TEST(Search, HoldsBounds) {
  Search line = ask([](auto x, auto v) { v[0] = x[0] + x[1] + x[2]; }, {0.0, 0.0, 0.0}, {at(3.0)});
  Found found = search(line);
  for (const double x : found.x) EXPECT_NEAR(x, 1.0, 1e-7);
  line.high[0] = 0.5;
  found = search(line);
  ASSERT_TRUE(found.met());
  EXPECT_NEAR(found.x[0], 0.5, 1e-7);
  EXPECT_NEAR(found.x[1], 1.25, 1e-6);
  EXPECT_NEAR(found.x[2], 1.25, 1e-6);
}

TEST(Search, StaysWhereAllIsMetAlready) {
  const Found found = search(ask([](auto x, auto v) { v[0] = std::exp(x[0]) * x[1]; }, {0.3, 2.0}, {least(1.0)}));
  EXPECT_EQ(found.x, (std::vector<double>{0.3, 2.0}));
  EXPECT_EQ(found.moved, 0.0);
}

// Two equations in two unknowns: xy = 6, x + y = 5 from (1.5, 2.5): 2 and 3.
TEST(Search, SolvesEquationsToTheLastDigits) {
  const Found found = search(ask([](auto x, auto v) { v[0] = x[0] * x[1], v[1] = x[0] + x[1]; }, {1.5, 2.5}, {at(6.0), at(5.0)}));
  EXPECT_NEAR(found.x[0], 2.0, 1e-9);
  EXPECT_NEAR(found.x[1], 3.0, 1e-9);
  EXPECT_LE(found.miss, 1e-12);
}

// A wish that cannot be read (NaN) near the start is met elsewhere.
TEST(Search, WalksOutOfWhereNothingCanBeRead) {
  const Found found = search(ask([](auto x, auto v) { v[0] = std::sqrt(x[0]); }, {0.5}, {at(2.0)}, 0.0, 10.0));
  EXPECT_NEAR(found.x[0], 4.0, 1e-8);
}

TEST(Search, SaysHowFarOffTheBestIs) {
  const Found found = search(ask([](auto x, auto v) { v[0] = x[0]; }, {1.0}, {at(3.0)}, 0.0, 2.0));
  EXPECT_FALSE(found.met());
  EXPECT_NEAR(found.x[0], 2.0, 1e-6);
  EXPECT_NEAR(found.miss, 1.0, 1e-6);
}

// Irreducible by construction: each set below is, and a bystander is none of it.
TEST(Conflict, IsASetThatNoneCanBeLeftOutOf) {
  const Model both = [](auto x, auto v) { v[0] = x[0], v[1] = x[0], v[2] = x[1], v[3] = x[0] + x[1]; };
  const Search pair = ask(both, {0.5, 0.5}, {least(0.8), most(0.2), at(0.4), least(0.0)}, 0.0, 1.0);
  EXPECT_EQ(conflict(pair), (std::vector<std::size_t>{0, 1}));
  const Search alone = ask(both, {0.5, 0.5}, {least(0.1), most(0.9), at(0.4), least(2.5)}, 0.0, 1.0);
  EXPECT_EQ(conflict(alone), (std::vector<std::size_t>{3}));
  const Search three = ask(both, {0.5, 0.5}, {most(0.3), most(0.9), at(0.4), least(0.9)}, 0.0, 1.0);
  EXPECT_EQ(conflict(three), (std::vector<std::size_t>{0, 2, 3}));
  EXPECT_TRUE(conflict(ask(both, {0.5, 0.5}, {least(0.1), most(0.9), at(0.4), least(0.9)}, 0.0, 1.0)).empty());
}

// v = 2x + y: the smallest change that raises it by one is (2, 1)/5.
TEST(Exchange, IsTheSmallestChange) {
  const Search line = ask([](auto x, auto v) { v[0] = 2.0 * x[0] + x[1]; }, {1.0, 1.0}, {at(3.0)});
  const std::vector<std::size_t> first = {0};
  const auto change = exchange(line, line.start, first);
  EXPECT_NEAR(change[0][0], 0.4, 1e-9);
  EXPECT_NEAR(change[0][1], 0.2, 1e-9);
}

}  // namespace
}  // namespace bloomset::solve
