// The shelf behind the server, and the larder and kit in force.
#include "http/house.hpp"

#include <gtest/gtest.h>

#include <set>

#include "http/embedded.hpp"
#include "store/place.hpp"

namespace bloomset::http {
namespace {

std::unique_ptr<House> house_in(const store::test::Place& place) {
  auto house = House::open(place / "a.shelf");
  if (!house) throw std::runtime_error(house.error().message);
  return std::move(*house);
}

std::int64_t put(House& house, const store::Key& key, const std::string& text, std::int64_t from = 0) {
  return store::test::number_of(house.with_shelf([&](store::Shelf& shelf) { return shelf.save(key, text, from, now_ms()); }));
}

TEST(House, TheFirstStartPutsTheWholeDemoOnTheShelf) {
  const store::test::Place place;
  const auto house = house_in(place);
  EXPECT_TRUE(house->fresh());
  const auto all = house->with_shelf([](store::Shelf& shelf) { return shelf.list("formula"); });
  ASSERT_TRUE(all);
  std::set<std::string> names;
  for (const store::Entry& entry : *all) names.insert(entry.key.name);
  EXPECT_EQ(names.size(), demo_files().size()) << "two titles are the same";
  EXPECT_TRUE(names.contains("Harbour Light"));
  EXPECT_TRUE(names.contains("syrups")) << "by the name that others borrow it by";
  for (const EmbeddedFile& file : demo_files()) EXPECT_NE(file.text.find("Invented"), std::string_view::npos) << file.path;
}

TEST(House, TheSecondStartLeavesTheShelfAlone) {
  const store::test::Place place;
  {
    const auto house = house_in(place);
    const auto gone = house->with_shelf([](store::Shelf& shelf) { return shelf.remove({"formula", "Harbour Light"}, 1, now_ms()); });
    ASSERT_TRUE(gone);
  }
  const auto again = house_in(place);
  EXPECT_FALSE(again->fresh());
  EXPECT_FALSE(again->borrower()("Harbour Light.toml")) << "what was removed stays removed";
}

TEST(House, ABorrowedFileIsAFormulaOfTheShelf) {
  const store::test::Place place;
  const auto house = house_in(place);
  const auto text = house->borrower()("syrups.toml");
  ASSERT_TRUE(text);
  EXPECT_NE(text->find("House syrups"), std::string::npos);
  EXPECT_FALSE(house->borrower()("nothing.toml"));
  EXPECT_FALSE(house->borrower()("../../etc/passwd"));
}

TEST(House, LarderAndKitOfTheShelfAreInForceAtOnce) {
  const store::test::Place place;
  const auto house = house_in(place);
  const auto before = house->stock();
  ASSERT_TRUE(before);
  EXPECT_EQ((*house->stock()).get(), before->get()) << "put together once";
  EXPECT_FALSE((*before)->larder.resolve("fog cordial", {}, {}));

  const std::string larder = "[[thing]]\nname = \"fog cordial\"\nfamily = \"syrup\"\nbrix = 40\nsource = \"practice\"\n";
  ASSERT_EQ(put(*house, {"larder", "ours"}, larder), 1);
  const auto after = house->stock();
  ASSERT_TRUE(after);
  for (const base::Diagnostic& fault : (*after)->left_out) ADD_FAILURE() << fault.message;
  EXPECT_TRUE((*after)->larder.resolve("fog cordial", {}, {}));
  EXPECT_FALSE((*before)->larder.resolve("fog cordial", {}, {})) << "who still works with the old one keeps it";

  ASSERT_EQ(put(*house, {"formula", "no larder"}, "bloomset = 1\n"), 1);
  EXPECT_EQ((*house->stock()).get(), after->get()) << "a formula changes nothing";
}

TEST(House, AnUnsoundLarderIsLeftOutAndSaid) {
  const store::test::Place place;
  const auto house = house_in(place);
  ASSERT_EQ(put(*house, {"larder", "broken"}, "this is no larder"), 1);
  const auto stock = house->stock();
  ASSERT_TRUE(stock);
  ASSERT_FALSE((*stock)->left_out.empty());
  EXPECT_NE((*stock)->left_out.front().message.find("`broken`"), std::string::npos);
  EXPECT_TRUE((*stock)->larder.resolve("lime juice", {}, {}));
}

}  // namespace
}  // namespace bloomset::http
