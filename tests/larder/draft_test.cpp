// Own things, and the larder row by row: what is drafted reads back, and a row says where it came from.
#include "larder/draft.hpp"

#include <algorithm>

#include "larder/shelf.hpp"

namespace bloomset::larder {
namespace {

TEST(Draft, reads_back_as_the_thing_with_its_own_numbers) {
  Draft thing;
  thing.name = "harbour \"gold\" juice";
  thing.like = "orange juice";
  thing.also = {"house juice"};
  thing.numbers = {{"brix", 10.6}, {"ph", 3.6}, {"acid_g_l", 9.1}, {"pack_ml", 1000.0}, {"price", 3.2}};
  thing.currency = "EUR";
  Larder larder = shelf();
  base::Sources sources;
  const auto added = larder.add("mine", draft(thing), sources);
  ASSERT_TRUE(added) << draft(thing) << base::render(added.error().diagnostics, sources);
  const auto got = larder.resolve("House Juice", {}, {});
  ASSERT_TRUE(got);
  EXPECT_EQ(got->name, thing.name);
  EXPECT_EQ(got->family, Family::juice);
  EXPECT_EQ(got->source, "own figures");
  EXPECT_DOUBLE_EQ(units::in_millilitres(*got->pack->volume), 1000.0);
  const auto rows = larder.listing();
  EXPECT_EQ(rows.back().name, thing.name);
  EXPECT_EQ(rows.back().from, "mine");
  EXPECT_EQ(rows.back().also, thing.also);
  for (const auto& [key, value] : {std::pair<std::string_view, double>{"brix", 10.6}, {"ph", 3.6}, {"acid_g_l", 9.1}})
    EXPECT_NE(std::find(rows.back().numbers.begin(), rows.back().numbers.end(), std::pair(key, value)), rows.back().numbers.end()) << key;
}

TEST(Draft, leaves_faults_to_the_larder) {
  Draft thing;
  thing.name = "mystery";
  thing.numbers = {{"sparkle", 3.0}};
  Larder larder = shelf();
  base::Sources sources;
  const auto added = larder.add("mine", draft(thing), sources);
  ASSERT_FALSE(added);
  EXPECT_EQ(added.error().diagnostics.size(), 2U);  // no such key; neither family nor like
}

TEST(Listing, says_of_every_row_of_the_catalogue_that_it_came_from_there) {
  const auto rows = shelf().listing();
  ASSERT_EQ(rows.size(), shelf().names().size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    EXPECT_EQ(rows[i].name, shelf().names()[i]);
    EXPECT_TRUE(rows[i].from.empty()) << rows[i].name;
  }
  EXPECT_EQ(name(Family::plant_milk), "plant_milk");
  EXPECT_EQ(name(Family::other), "other");
  const auto keys = number_keys();
  EXPECT_NE(std::find(keys.begin(), keys.end(), "acid_g_l"), keys.end());
}

}  // namespace
}  // namespace bloomset::larder
