// Every version of the file that was ever written still opens, with all it held. tests/store/made_by/N.shelf was written by a program of version N.
#include "place.hpp"
#include "store/schema.hpp"

namespace bloomset::store {
namespace {

using test::open;
using test::Place;

std::filesystem::path made_by(std::int64_t version) {
  return std::filesystem::path(BLOOMSET_SOURCE_DIR) / "tests/store/made_by" / (std::to_string(version) + ".shelf");
}

TEST(OldFiles, EveryVersionOpensWithAllItHeld) {
  for (std::int64_t version = 1; version <= schema_version; ++version) {
    const Place place;
    ASSERT_TRUE(std::filesystem::exists(made_by(version))) << "keep a file of version " << version << " before the schema moves on";
    std::filesystem::copy_file(made_by(version), place / "old.shelf");
    Shelf shelf = open(place / "old.shelf");
    const Key key = {"formula", "Low Tide Sour"};
    EXPECT_EQ(shelf.history(key)->size(), 2U);
    EXPECT_EQ(shelf.read(key)->text, "title = \"Low Tide Sour\" # second\n");
    EXPECT_EQ(shelf.read(key, 1)->saved_ms, 1764000000000);
    EXPECT_TRUE(shelf.read({"kit", "removed"})->gone);
    EXPECT_EQ(shelf.search("tide")->size(), 1U);
    EXPECT_TRUE(shelf.check()->empty());
    EXPECT_EQ(test::number_of(shelf.save(key, "third", 2, 1)), 3);
  }
}

TEST(OldFiles, AFileOfALaterProgramIsRefusedAndLeftAlone) {
  const Place place;
  std::filesystem::copy_file(made_by(schema_version), place / "later.shelf");
  {
    const auto database = Database::open((place / "later.shelf").string(), Database::Mode::read_write_create);
    ASSERT_TRUE(database->execute("PRAGMA user_version = 99"));
  }
  const auto shelf = Shelf::open(place / "later.shelf");
  ASSERT_FALSE(shelf);
  EXPECT_NE(shelf.error().message.find("made by a later program"), std::string::npos);
  EXPECT_EQ(Database::open((place / "later.shelf").string(), Database::Mode::read_write_create)->number("PRAGMA user_version"), 99);
}

}  // namespace
}  // namespace bloomset::store
