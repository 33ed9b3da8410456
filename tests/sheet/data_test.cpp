// Every row of data/sheet names a source that stands in data/sources.bib, and every table is what its readers expect.
#include <map>
#include <set>

#include "made.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {
namespace {

const std::filesystem::path data = BLOOMSET_SOURCE_DIR "/data";

TEST(SheetData, EveryRowHasASourceThatStandsInTheList) {
  const std::string list = sheet_test::text_of(data / "sources.bib");
  for (const char* file : {"sheet/tcs.csv", "sheet/standard_drinks.csv"}) {
    const std::string csv = sheet_test::text_of(data / file);
    const auto header = text::table_header(csv);
    const auto source = static_cast<std::size_t>(std::find(header.begin(), header.end(), "source") - header.begin());
    ASSERT_LT(source, header.size()) << file;
    for (const auto& row : text::table_rows(csv)) {
      EXPECT_NE(list.find("{" + row[source] + ","), std::string::npos) << file << ": " << row[source];
    }
  }
}

// A notice that names nothing one can take would never be said.
TEST(SheetData, EveryThingOfANoticeStandsInTheLarder) {
  const auto names = sheet_test::house().larder.names();
  const std::set<std::string> known(names.begin(), names.end());
  for (const auto& row : text::table_rows(sheet_test::text_of(data / "sheet/notices.csv"))) {
    std::stringstream things(row[1]);
    for (std::string thing; std::getline(things, thing, ';');) EXPECT_TRUE(known.contains(thing)) << thing;
    EXPECT_TRUE(row[3].starts_with("memory: ")) << row[3];
  }
}

// A clock runs for hours, not days, begins above the fridge, and the row of a warm room is the shorter one of its jurisdiction.
TEST(SheetData, TheClocksOutOfTheColdArePlausible) {
  std::map<std::string, double> anywhere;
  for (const auto& row : text::table_rows(sheet_test::text_of(data / "sheet/out_of_cold.csv"))) {
    EXPECT_TRUE(row[4].starts_with("memory: ")) << row[4];
    EXPECT_GE(std::stod(row[1]), 5.0);
    EXPECT_LE(std::stod(row[3]), 6.0);
    if (row[2].empty())
      EXPECT_TRUE(anywhere.emplace(row[0], std::stod(row[3])).second) << row[0];
    else
      EXPECT_LT(std::stod(row[3]), anywhere.at(row[0])) << row[0];
  }
  EXPECT_FALSE(anywhere.empty());
}

// The World Health Organization's and most national tables lie between 8 and 20 g; a unit of 10 mL weighs 7.9 g.
TEST(SheetData, NoRegionStandsTwiceAndEachDrinkIsPlausible) {
  std::set<std::string> regions;
  for (const auto& row : text::table_rows(sheet_test::text_of(data / "sheet/standard_drinks.csv"))) {
    EXPECT_TRUE(regions.insert(row[0]).second) << row[0];
    EXPECT_GE(std::stod(row[3]), 8.0) << row[0];
    EXPECT_LE(std::stod(row[3]), 20.0) << row[0];
  }
  for (const char* region : {"us", "uk", "au", "eu"}) EXPECT_TRUE(regions.contains(region)) << region;
}

TEST(SheetData, NoCellStandsTwice) {
  std::set<std::string> cells;
  for (const auto& row : text::table_rows(sheet_test::text_of(data / "sheet/tcs.csv"))) {
    EXPECT_TRUE(cells.insert(row[0] + row[1] + row[2]).second);
    EXPECT_TRUE(row[11] == "non_tcs" || row[11] == "product_assessment") << row[11];
  }
  EXPECT_EQ(cells.size(), 9U + 16U);  // Food Code 1-201.10: three by three cells of A, four by four of B
}

}  // namespace
}  // namespace bloomset::sheet
