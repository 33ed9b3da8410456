// The tables of data/larder: every number has a source that exists, nothing stands twice, every thing makes up a whole kilogram.
#include <cmath>
#include <map>
#include <set>

#include "larder/compose.hpp"
#include "larder/row.hpp"
#include "shelf.hpp"
#include "text/fold.hpp"
#include "text/table.hpp"

namespace bloomset::larder {
namespace {

std::vector<std::vector<std::string>> rows_of(const std::string& name) { return text::table_rows(file_text("data/larder/" + name)); }

const std::set<std::string>& bib_keys() {
  static const std::set<std::string> keys = [] {
    std::set<std::string> out;
    std::istringstream text(file_text("data/sources.bib"));
    for (std::string line; std::getline(text, line);)
      if (line.starts_with("@") && line.find('{') != std::string::npos) out.insert(line.substr(line.find('{') + 1, line.find(',') - line.find('{') - 1));
    return out;
  }();
  return keys;
}

::testing::AssertionResult is_source(const std::string& source) {
  if (source == "practice" || source == "definition" || (source.starts_with("memory: ") && source.size() > 12)) return ::testing::AssertionSuccess();
  if (source.empty()) return ::testing::AssertionFailure() << "no source";
  std::istringstream keys(source);
  for (std::string key; keys >> key;)
    if (!bib_keys().contains(key)) return ::testing::AssertionFailure() << key << " is not in data/sources.bib";
  return ::testing::AssertionSuccess();
}

TEST(LarderTables, EveryThingAndNumberHasASourceThatExists) {
  for (const auto& f : rows_of("things.csv")) EXPECT_TRUE(is_source(f[7])) << f[0];
  for (const auto& f : rows_of("families.csv")) EXPECT_TRUE(is_source(f[5])) << f[0];
  for (const auto& f : rows_of("variability.csv")) EXPECT_TRUE(is_source(f[5])) << f[0];
  for (const auto& f : rows_of("allergens.csv")) EXPECT_TRUE(is_source(f[4])) << f[0];
  for (const char* table : {"numbers.csv", "derived.csv"})
    for (const auto& f : rows_of(table)) EXPECT_TRUE(is_source(f[4])) << f[0] << ' ' << f[1];
}

TEST(LarderTables, TheOriginOfANumberAgreesWithItsSource) {
  for (const char* table : {"numbers.csv", "derived.csv"}) {
    for (const auto& f : rows_of(table)) {
      const bool memory = f[4].starts_with("memory: "), practice = f[4] == "practice", definition = f[4] == "definition";
      EXPECT_EQ(f[3] == "memory", memory) << f[0] << ' ' << f[1];
      EXPECT_EQ(f[3] == "practice", practice) << f[0] << ' ' << f[1];
      EXPECT_TRUE(!definition || f[3] == "computed") << f[0] << ' ' << f[1];
      EXPECT_TRUE(f[3] == "memory" || f[3] == "practice" || f[3] == "computed" || f[3] == "published") << f[3];
    }
  }
}

TEST(LarderTables, AtMostAFifthOfTheNumbersIsFromMemory) {
  double all = 0.0, memory = 0.0;
  for (const char* table : {"numbers.csv", "derived.csv"}) {
    for (const auto& f : rows_of(table)) {
      if (std::stod(f[2]) == 0.0) continue;
      all += 1.0;
      if (f[3] == "memory") memory += 1.0;
    }
  }
  EXPECT_GT(all, 1000.0);
  EXPECT_LE(memory / all, 0.20) << memory << " of " << all;
}

TEST(LarderTables, NothingStandsTwice) {
  std::map<std::string, std::string> names;
  for (const auto& f : rows_of("things.csv")) {
    std::istringstream also(f[0] + ";" + f[1]);
    for (std::string name; std::getline(also, name, ';');)
      if (!name.empty()) {
        EXPECT_TRUE(names.emplace(text::fold(name), f[0]).second || names[text::fold(name)] == f[0]) << name << " is also " << names[text::fold(name)];
      }
  }
  std::set<std::pair<std::string, std::string>> seen;
  for (const char* table : {"numbers.csv", "derived.csv"})
    for (const auto& f : rows_of(table)) EXPECT_TRUE(seen.emplace(f[0], f[1]).second) << f[0] << ' ' << f[1];
  std::set<std::pair<std::string, std::string>> varies;
  for (const auto& f : rows_of("variability.csv")) EXPECT_TRUE(varies.emplace(f[0], f[1]).second) << f[0] << ' ' << f[1];
}

TEST(LarderTables, NumbersLieInPlausibleRanges) {
  const auto catalogue = read_catalogue();
  ASSERT_TRUE(catalogue.has_value()) << catalogue.error().message;
  for (const Row& row : catalogue->rows) {
    for (const RowNumber& n : row_numbers)
      if (const auto& value = row.*n.value) {
        EXPECT_TRUE(*value >= n.low && *value <= n.high) << row.name << ' ' << n.name << ' ' << *value;
      }
    const double most = row.make == Make::litre ? 1400.0 : row.make == Make::formula ? 20.0 : 100.0 + 0.01;
    EXPECT_LE(row.listed.total_kg(), most) << row.name;
    for (const double g : row.listed.kg) EXPECT_GE(g, 0.0) << row.name;
    EXPECT_FALSE(row.make == Make::fruit && !(row.brix && row.ph)) << row.name;
  }
}

TEST(LarderTables, AllergenCodesExist) {
  std::set<std::string> codes;
  for (const auto& f : rows_of("allergens.csv")) codes.insert(f[0]);
  EXPECT_EQ(codes.size(), 14U) << "Regulation (EU) 1169/2011, Annex II, lists 14";
  for (const std::string& name : shelf().names())
    for (const std::string& code : get(name).allergens) EXPECT_TRUE(codes.contains(code.starts_with("?") ? code.substr(1) : code)) << name << ' ' << code;
}

TEST(LarderTables, EveryThingMakesUpAWholeKilogram) {
  const std::vector<std::string> names = shelf().names();
  EXPECT_GE(names.size(), 150U);
  for (const std::string& name : names) {
    const Thing thing = get(name);
    EXPECT_NEAR(thing.per_kg.total_kg(), 1.0, 1e-12) << name;
    for (std::size_t i = 0; i < matter::component_count; ++i) {
      const double kg = thing.per_kg.kg[i];
      if (i == matter::index(matter::Component::salt_hydrogen)) {
        EXPECT_LE(kg, 1e-15) << name;
      } else {
        EXPECT_GE(kg, 0.0) << name << ' ' << matter::info(static_cast<matter::Component>(i)).name;
      }
    }
    EXPECT_GT(thing.density_20c.si, 200.0) << name;
    EXPECT_LT(thing.density_20c.si, 2000.0) << name;
    EXPECT_FALSE(thing.source.empty());
  }
}

TEST(LarderTables, PureComponentsOfTheContractAreThere) {
  for (const char* name : {"water", "ethanol", "sucrose", "glucose", "fructose", "maltose", "lactose", "glycerol", "citric acid", "malic acid", "tartaric acid",
                           "lactic acid", "acetic acid", "ascorbic acid", "phosphoric acid"}) {
    const auto component = matter::component_named(name);
    ASSERT_TRUE(component.has_value()) << name;
    EXPECT_NEAR(get(name).per_kg[*component], 1.0, 1e-15) << name;
  }
}

}  // namespace
}  // namespace bloomset::larder
