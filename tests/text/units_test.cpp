// The table of units: every row has a source that exists, no spelling twice in a system, and sizes that hang together.
#include "text/units.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <numeric>
#include <set>
#include <sstream>

namespace bloomset::text {
namespace {

std::string file(const std::string& path) {
  std::stringstream text;
  text << std::ifstream(std::string(BLOOMSET_SOURCE_DIR) + path).rdbuf();
  return text.str();
}

const std::vector<Measures> systems = {Measures::metric, Measures::us, Measures::imperial, Measures::au};

TEST(Units, have_each_a_source_that_exists) {
  const std::string sources = file("/data/sources.bib");
  ASSERT_GT(units().size(), 25U);
  for (const Unit& unit : units()) {
    if (unit.source == "practice") continue;
    EXPECT_NE(sources.find("{" + unit.source + ","), std::string::npos) << unit.spelling << " names " << unit.source;
  }
}

TEST(Units, are_spelt_once_in_each_system) {
  for (const Measures system : systems) {
    std::set<std::string> seen;
    for (const Unit& unit : units()) {
      if (unit.measures && *unit.measures != system) continue;
      EXPECT_TRUE(seen.insert(unit.spelling).second) << unit.spelling;
      EXPECT_TRUE(unit.plural.empty() || seen.insert(unit.plural).second) << unit.plural;
    }
  }
}

TEST(Units, hang_together_as_whole_ratios) {
  // NIST Handbook 44 appendix C: 3 tsp = 1 tbsp, 2 tbsp = 1 fl oz, 8 fl oz = 1 cup, 2 cups = 1 pint, 2 pints = 1 quart, 4 quarts = 1 gallon
  // (US); 20 fl oz = 1 pint, 8 pints = 1 gallon (imperial); 16 oz = 1 lb. Compared as fractions in lowest terms.
  const auto same = [](std::string_view small, std::int64_t count, std::string_view large, Measures m) {
    const Unit *a = unit_named(small, m), *b = unit_named(large, m);
    ASSERT_TRUE(a && b) << small << " " << large;
    const auto reduced = [](std::int64_t up, std::int64_t down) {
      const std::int64_t g = std::gcd(up, down);
      return std::pair(up / g, down / g);
    };
    EXPECT_EQ(reduced(a->numerator * count, a->denominator), reduced(b->numerator, b->denominator)) << small << " " << large;
  };
  same("tsp", 3, "tbsp", Measures::us);
  same("tbsp", 2, "fl oz", Measures::us);
  same("fl oz", 8, "cup", Measures::us);
  same("cup", 2, "pint", Measures::us);
  same("pint", 2, "quart", Measures::us);
  same("quart", 4, "gallon", Measures::us);
  same("fl oz", 20, "pint", Measures::imperial);
  same("pint", 8, "gallon", Measures::imperial);
  same("oz", 16, "lb", Measures::metric);
  same("g", 1000, "kg", Measures::metric);
  same("mL", 1000, "L", Measures::metric);
  same("tsp", 4, "tbsp", Measures::au);
  same("tsp", 3, "tbsp", Measures::metric);
}

TEST(LatinLetters, have_each_a_source_that_exists) {
  const std::string sources = file("/data/sources.bib"), table = file("/data/text/latin_fold.csv");
  EXPECT_NE(sources.find("{unicode2021,"), std::string::npos);
  std::stringstream lines(table);
  std::string line;
  std::size_t rows = 0;
  while (std::getline(lines, line)) {
    if (line.starts_with("#") || line.starts_with("code_point")) continue;
    ++rows;
    EXPECT_TRUE(line.ends_with(",unicode2021") || line.ends_with(",practice")) << line;
  }
  EXPECT_GT(rows, 500U);
}

}  // namespace
}  // namespace bloomset::text
