// Every check point of tests/reference/texture, computed by the functions of the check runner, within its own tolerance.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "text/json_reader.hpp"
#include "texture_ops.hpp"

namespace bloomset::reference {
namespace {

// Ops that nobody answers yet; whoever answers one takes it off this list.
const std::set<std::string> not_answered_yet = {};

const text::Node& check_points() {
  static const text::Node points = [] {
    std::ifstream file(BLOOMSET_SOURCE_DIR "/tests/reference/texture/checkpoints.json");
    std::ostringstream words;
    words << file.rdbuf();
    base::Sources sources;
    return text::read_json(sources.add("checkpoints.json", words.str()), sources).value_or(text::Node{});
  }();
  return points;
}

bool answered(const text::Node& point) { return !not_answered_yet.contains(point.find("op")->string); }

// A sentence if the computed value lies outside the point's tolerance.
std::string miss(const text::Node& point, double computed) {
  const double expected = point.find("expected")->number;
  const double tolerance = std::max(point.find("tol_abs")->number, point.find("tol_rel")->number * std::abs(expected));
  if (std::abs(computed - expected) <= tolerance * (1.0 + 1e-9)) return {};
  std::ostringstream words;
  words << point.find("id")->string << ' ' << point.find("column")->string << ": computed " << computed << ", published " << expected << " within " << tolerance
        << " (" << point.find("source")->string << ')';
  return words.str();
}

TEST(CheckPoints, LieWithinTheirTolerance) {
  int judged = 0;
  for (const auto& point : check_points().items)
    if (answered(point)) {
      ++judged;
      EXPECT_EQ(miss(point, checks::answer(point)), "");
    }
  EXPECT_GT(judged, 60);
}

TEST(CheckPoints, AreUnansweredOnlyWhereTheListSaysSo) {
  std::set<std::string> seen;
  for (const auto& point : check_points().items)
    if (!std::isfinite(checks::answer(point))) seen.insert(point.find("op")->string);
  EXPECT_EQ(seen, not_answered_yet);
}

TEST(CheckPoints, NameTheirSource) {
  for (const auto& point : check_points().items) EXPECT_NE(point.find("source")->string, "") << point.find("id")->string;
}

TEST(CheckPoints, AreAnsweredFromTheirInputsAlone) {
  // The same entry without what it should come to: the form in which kept-back points arrive.
  for (const auto& point : check_points().items) {
    text::Node bare = point;
    std::erase_if(bare.items,
                  [](const text::Node& member) { return member.key != "id" && member.key != "op" && member.key != "column" && member.key != "input"; });
    if (answered(point)) {
      EXPECT_EQ(checks::answer(bare), checks::answer(point)) << point.find("id")->string;
    }
  }
}

TEST(CheckPoints, WithoutInputsAreNotAnswered) {
  for (const auto& point : check_points().items) {
    text::Node empty = point;
    for (text::Node& member : empty.items)
      if (member.key == "input") member.items.clear();
    EXPECT_FALSE(std::isfinite(checks::answer(empty))) << point.find("id")->string;
  }
}

// The judge itself must be able to say no.
TEST(CheckPoints, AMissIsNamedWithItsSource) {
  const auto& points = check_points().items;
  const auto first = std::find_if(points.begin(), points.end(), [](const text::Node& p) { return p.find("id")->string == "K28"; });
  ASSERT_NE(first, points.end());
  EXPECT_EQ(miss(*first, 0.76), "K28 phi: computed 0.76, published 0.75 within 0.001 (course slides)");
}

}  // namespace
}  // namespace bloomset::reference
