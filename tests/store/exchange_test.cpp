// A shelf as a folder of files, and back; and its copy while it is in use.
#include "place.hpp"

namespace bloomset::store {
namespace {

using test::number_of;
using test::open;
using test::Place;
using test::text_of;

const std::vector<std::pair<Key, std::string>> documents = {{{"formula", "Low Tide Sour"}, "# a remark\ntitle = \"Low Tide Sour\"\r\n"},
                                                            {{"formula", "../../etc/passwd"}, "x"},
                                                            {{"formula", "50 % off: a/b\\c?"}, ""},
                                                            {{"formula", "Crème d'été"}, "é"},
                                                            {{"kit", "Low Tide Sour"}, "the same name, another kind"},
                                                            {{"larder", "."}, "dot"}};

void fill(Shelf& shelf) {
  for (const auto& [key, text] : documents) ASSERT_EQ(number_of(shelf.save(key, text, 0, 1)), 1);
}

void expect_same(const Shelf& a, const Shelf& b) {
  const auto all = a.list();
  ASSERT_EQ(all->size(), b.list()->size());
  for (const Entry& entry : *all) EXPECT_EQ(a.read(entry.key)->text, b.read(entry.key)->text) << entry.key.name;
}

TEST(Exchange, WhatIsExportedImportsAsItWas) {
  const Place place;
  Shelf shelf = open(place / "a.shelf"), other = open(place / "b.shelf");
  fill(shelf);
  ASSERT_EQ(shelf.export_to(place / "out").value(), documents.size());
  EXPECT_EQ(text_of(place / "out/formula/Low Tide Sour.toml"), documents[0].second);
  EXPECT_TRUE(std::filesystem::exists(place / "out/formula/%2E%2E%2F%2E%2E%2Fetc%2Fpasswd.toml"));
  const auto taken = other.import_from(place / "out", 5);
  ASSERT_TRUE(taken) << taken.error().message;
  EXPECT_EQ(taken->added, documents.size());
  expect_same(shelf, other);
  EXPECT_EQ(other.import_from(place / "out", 6)->same, documents.size());
  // A file changed by hand becomes the next revision.
  std::ofstream(place / "out/formula/Low Tide Sour.toml") << "changed";
  EXPECT_EQ(other.import_from(place / "out", 7)->changed, 1U);
  EXPECT_EQ(other.history({"formula", "Low Tide Sour"})->size(), 2U);
  EXPECT_TRUE(other.check()->empty());
}

TEST(Exchange, AllOrNothing) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  std::filesystem::create_directories(place / "in/formula");
  std::filesystem::create_directories(place / "in/Formula");
  std::ofstream(place / "in/formula/a.toml") << "a";
  std::ofstream(place / "in/formula/%ZZ.toml") << "b";
  EXPECT_NE(shelf.import_from(place / "in", 1).error().message.find("%ZZ.toml: this file's name"), std::string::npos);
  std::filesystem::remove(place / "in/formula/%ZZ.toml");
  std::ofstream(place / "in/formula/z.toml") << std::string((4U << 20U) + 1, 'x');
  EXPECT_FALSE(shelf.import_from(place / "in", 1));
  EXPECT_TRUE(shelf.list()->empty());
  EXPECT_EQ(shelf.import_from(place / "none", 1).error().kind, base::ErrorKind::not_found);

  fill(shelf);
  std::filesystem::create_directories(place / "out");
  EXPECT_NE(shelf.export_to(place / "out").error().message.find("there already"), std::string::npos);
  shelf.save({"formula", std::string(100, '/')}, "x", 0, 1);
  EXPECT_NE(shelf.export_to(place / "new").error().message.find("too long for a file"), std::string::npos);
  EXPECT_FALSE(std::filesystem::exists(place / "new") || std::filesystem::exists(place / "new.part"));
}

TEST(Exchange, ABackupIsAShelf) {
  const Place place;
  Shelf shelf = open(place / "a.shelf");
  fill(shelf);
  shelf.save(documents[0].first, "second", 1, 2);
  ASSERT_TRUE(shelf.backup(place / "copy.shelf"));
  shelf.save(documents[0].first, "third", 2, 3);
  const Shelf copy = open(place / "copy.shelf");
  EXPECT_EQ(copy.read(documents[0].first)->text, "second");
  EXPECT_EQ(copy.history(documents[0].first)->size(), 2U);
  EXPECT_TRUE(copy.check()->empty());
  EXPECT_NE(shelf.backup(place / "copy.shelf").error().message.find("of this name already"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::store
