// A larder document adds and overrides; on a fault nothing is added and every fault is told.
#include "larder/larder_file.hpp"

#include "larder/compose.hpp"
#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "shelf.hpp"

namespace bloomset::larder {
namespace {

std::string first_toml_of(const std::string& path) {
  const std::string all = file_text(path);
  const std::size_t from = all.find("```toml\n"), to = all.find("\n```", from + 8);
  return from == std::string::npos ? "" : all.substr(from + 8, to - from - 7);
}

std::string faults_of(const std::string& text) {
  Larder larder = shelf();
  base::Sources sources;
  const auto added = larder.add("larder.toml", text, sources);
  if (added) return "";
  EXPECT_EQ(added.error().kind, base::ErrorKind::bad_input);
  EXPECT_EQ(larder.fingerprint(), shelf().fingerprint()) << "a faulty document must change nothing";
  EXPECT_EQ(larder.names(), shelf().names());
  return base::render(added.error().diagnostics, sources);
}

std::string first_code(const std::string& text) {
  const std::string said = faults_of(text), line = said.substr(0, said.find('\n'));
  const std::size_t from = line.rfind('[');
  return from == std::string::npos ? said : line.substr(from + 1, line.size() - from - 2);
}

TEST(LarderDocument, TheExampleOfTheDocsIsRead) {
  Larder larder = shelf();
  base::Sources sources;
  const auto added = larder.add("docs/larder.md", first_toml_of("docs/larder.md"), sources);
  ASSERT_TRUE(added.has_value()) << base::render(added.error().diagnostics, sources);
  EXPECT_NE(larder.fingerprint(), shelf().fingerprint());

  const auto juice = larder.resolve("orange juice", {}, {});
  ASSERT_TRUE(juice.has_value());
  EXPECT_NEAR(dissolved_share(juice->per_kg), 0.106, 1e-9);
  EXPECT_NEAR(matter::titratable_acidity_g_l_citric(juice->per_kg), 9.1, 1e-6);
  EXPECT_NEAR(matter::ph_25c(juice->per_kg), 3.6, 1e-6);
  ASSERT_TRUE(juice->pack && juice->pack->volume);
  EXPECT_EQ(juice->pack->price, 3.20);
  EXPECT_EQ(juice->pack->currency, "EUR");
  EXPECT_EQ(juice->source, "own refractometer and titration, twelve boxes");
  EXPECT_FALSE(juice->heat_treated) << "what the base row says stays";

  const auto bitter = larder.resolve("house bitter", {word("%vol", 24.0)}, {});
  ASSERT_TRUE(bitter.has_value());
  EXPECT_EQ(bitter->label, "harbour bitter (24 %vol)");
  EXPECT_NEAR(matter::strength(bitter->per_kg).si, 0.24, 1e-10);
  EXPECT_TRUE(bitter->allergens_known);

  const auto plum = larder.resolve("plum purée", {}, {});
  ASSERT_TRUE(plum.has_value());
  EXPECT_NEAR(plum->per_kg.total_kg(), 1.0, 1e-12);
  EXPECT_FALSE(plum->allergens_known) << "nothing was said of allergens";
  EXPECT_EQ(plum->storage_c, 4.0);
}

TEST(LarderDocument, TellsFaultsWithTheirPlaces) {
  EXPECT_EQ(faults_of("[[thing]]\nname = \"x\"\nlike = \"orange juce\"\nbrix = 120\nsource = \"own\"\n"),
            "larder.toml:3:8: error: the larder has no \"orange juce\" [unknown_thing]\n"
            "  like = \"orange juce\"\n"
            "         ^~~~~~~~~~~~~\n"
            "  hint: did you mean `orange juice`?\n"
            "larder.toml:4:8: error: `brix` is 120, allowed is 0.1 to 95 [out_of_range]\n"
            "  brix = 120\n"
            "         ^~~\n");
}

TEST(LarderDocument, RefusesWhatCannotBe) {
  const std::string head = "[[thing]]\nname = \"x\"\nfamily = \"other\"\nsource = \"own\"\n";
  EXPECT_EQ(first_code(head), "");
  EXPECT_EQ(first_code("thing = 3\n"), "wrong_type");
  EXPECT_EQ(first_code("things = []\n"), "unknown_key");
  EXPECT_EQ(first_code("[[thing]]\nname = \"x\"\nfamily = \"other\"\n"), "missing_key");
  EXPECT_EQ(first_code("[[thing]]\nname = \"x\"\nsource = \"own\"\n"), "missing_key");
  EXPECT_EQ(first_code("[[thing]]\nname = \"\"\nfamily = \"other\"\nsource = \"own\"\n"), "empty_text");
  EXPECT_EQ(first_code("[[thing]]\nname = \"x\"\nfamily = \"juise\"\nsource = \"own\"\n"), "unknown_family");
  EXPECT_EQ(first_code(head + "make = \"magic\"\n"), "unknown_make");
  EXPECT_EQ(first_code(head + "[thing.per_100g]\nsugar = 3\n"), "unknown_component");
  EXPECT_EQ(first_code(head + "[thing.per_100g]\nsucrose = -3\n"), "out_of_range");
  EXPECT_EQ(first_code(head + "[thing.per_100g]\nsucrose = 70\nfat = 40\n"), "over_hundred");
  EXPECT_EQ(first_code(head + "[thing.per_100g]\nsucrose = 7\n[thing.per_litre]\nsucrose = 7\n"), "two_measures");
  EXPECT_EQ(first_code(head + "make = \"litre\"\n[thing.per_100g]\nsucrose = 7\n"), "two_measures");
  EXPECT_EQ(first_code(head + "price = 3\n"), "missing_key");
  EXPECT_EQ(first_code(head + "[thing.varies]\ncolour = 0.1\n"), "bad_variability");
  EXPECT_EQ(first_code("[[thing]]\nname = \"x\"\nlike = \"lemon juice\"\nbrix = 2\nsource = \"own\"\n"), "contradiction");
  EXPECT_EQ(first_code(head + head), "twice");
}

TEST(LarderDocument, AThingMayBeLikeOneBeforeIt) {
  Larder larder = shelf();
  base::Sources sources;
  const auto added = larder.add(
      "l", "[[thing]]\nname = \"a\"\nlike = \"syrup\"\nbrix = 60\nsource = \"own\"\n[[thing]]\nname = \"b\"\nlike = \"a\"\npiece_g = 3\nsource = \"own\"\n",
      sources);
  ASSERT_TRUE(added.has_value());
  EXPECT_NEAR(larder.resolve("b", {}, {})->per_kg[matter::Component::sucrose], 0.60, 1e-12);
}

TEST(LarderDocument, OverridesByAnyNameOfAThing) {
  Larder larder = shelf();
  base::Sources sources;
  ASSERT_TRUE(larder.add("l", "[[thing]]\nname = \"sugar\"\nlike = \"white sugar\"\ndensity = 900\nsource = \"own cup\"\n", sources).has_value());
  EXPECT_EQ(larder.resolve("white sugar", {}, {})->density_20c.si, 900.0);
}

}  // namespace
}  // namespace bloomset::larder
