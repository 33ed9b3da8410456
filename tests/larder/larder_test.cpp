// Names, brackets, and what they change; every fault with its whole text.
#include "larder/larder.hpp"

#include <algorithm>

#include "larder/compose.hpp"
#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "shelf.hpp"

namespace bloomset::larder {
namespace {

using matter::Component;

TEST(Larder, FoldsCaseAndAccents) {
  EXPECT_EQ(get("Orange  JUICE").name, "orange juice");
  EXPECT_EQ(get("mango purée").name, "mango puree");
  EXPECT_EQ(get("Mango Puree").name, "mango puree");
  EXPECT_EQ(get("sugar").name, "white sugar");
  EXPECT_EQ(get("salt").name, "sodium chloride");
}

TEST(Larder, KnowsWhatTheFormulaOfTheDocsUses) {
  for (const char* name : {"orange juice", "honey", "cardamom pod", "spirit", "lime juice", "ginger soda", "ice cubes", "mint sprig", "gelatin, gold leaf",
                           "syrup", "gelatin, powder", "water"})
    get(name);
  EXPECT_EQ(get("spirit", {word("%vol", 40.0)}).label, "spirit (40 %vol)");
  EXPECT_EQ(get("orange juice", {word("pH", 3.5), word("canned")}).label, "orange juice (pH 3.5, canned)");
}

TEST(Larder, TellsTheNearestNameOfAnUnknownThing) {
  base::Sources sources;
  const std::uint32_t source = sources.add("f.toml", "take = [\"230 g orange juce\"]\n");
  const auto thing = shelf().resolve("orange juce", {}, {source, 1, 16, 11});
  ASSERT_FALSE(thing.has_value());
  EXPECT_EQ(thing.error().kind, base::ErrorKind::not_found);
  EXPECT_EQ(base::render(thing.error().diagnostics, sources),
            "f.toml:1:16: error: the larder has no \"orange juce\" [unknown_thing]\n"
            "  take = [\"230 g orange juce\"]\n"
            "                 ^~~~~~~~~~~\n"
            "  hint: did you mean `orange juice`?\n");
}

TEST(Bracket, OfAWordThatIsNotAllowedSaysWhatIs) {
  base::Sources sources;
  const std::uint32_t source = sources.add("f.toml", "45 mL spirit (40 brix)\n");
  const auto thing = shelf().resolve("spirit", {word("brix", 40.0, {source, 1, 15, 7})}, {source, 1, 7, 6});
  ASSERT_FALSE(thing.has_value());
  EXPECT_EQ(thing.error().kind, base::ErrorKind::bad_input);
  EXPECT_EQ(base::render(thing.error().diagnostics, sources),
            "f.toml:1:15: error: \"spirit\" cannot be told `brix` [qualifier_not_allowed]\n"
            "  45 mL spirit (40 brix)\n"
            "                ^~~~~~~\n"
            "  hint: allowed: %vol\n");
}

TEST(Bracket, FaultsHaveTheirCodes) {
  EXPECT_EQ(code_of("spirit", {word("%vol", 120.0)}), "qualifier_range");
  EXPECT_EQ(code_of("syrup", {word("brix", 105.0)}), "qualifier_range");
  EXPECT_EQ(code_of("orange juice", {word("brix", 95.0)}), "qualifier_range");
  EXPECT_EQ(code_of("orange juice", {word("raw"), word("canned")}), "qualifier_contradiction");
  EXPECT_EQ(code_of("orange juice", {word("brix", 11.0), word("brix read", 11.0)}), "qualifier_contradiction");
  EXPECT_EQ(code_of("spirit", {word("%vol", 40.0), word("%vol", 45.0)}), "qualifier_twice");
  EXPECT_EQ(code_of("spirit", {word("%vol")}), "qualifier_value");
  EXPECT_EQ(code_of("orange juice", {word("raw", 3.0)}), "qualifier_value");
  EXPECT_EQ(code_of("white sugar", {word("raw")}), "qualifier_not_allowed");
  EXPECT_EQ(code_of("spirit", {word("nonsense", 1.0)}), "qualifier_not_allowed");
  EXPECT_EQ(code_of("tap water", {word("ppm hardness", -1.0)}), "qualifier_range");
}

// A tenth more than the thing has of itself is always possible; a row that allows a word must take it.
std::vector<Qualifier> tenth_more(const Thing& thing) {
  const double brix = dissolved_share(thing.per_kg) * 100.0, acid = matter::titratable_acidity_g_100g_citric(thing.per_kg), ph = matter::ph_25c(thing.per_kg);
  return {word("%vol", matter::strength(thing.per_kg).si * 101.0),
          word("brix", std::clamp(brix * 1.1, 1.0, 85.0)),
          word("brix read", std::clamp(brix * 1.1, 1.0, 80.0)),
          word("g/L sugar", 50.0),
          word("% acid", std::clamp(acid * 1.1, 0.1, 20.0)),
          word("pH", ph + 0.1),
          word("ppm hardness", 100.0),
          word("bloom", 200.0),
          word("g a piece", 3.0),
          word("% wet", 4.0),
          word("raw"),
          word("pasteurised"),
          word("canned")};
}

TEST(Bracket, EveryAllowedWordIsUnderstood) {
  int taken = 0;
  for (const std::string& name : shelf().names()) {
    for (const Qualifier& q : tenth_more(get(name))) {
      const auto thing = shelf().resolve(name, {q}, {});
      if (thing) {
        ++taken;
        EXPECT_NEAR(thing->per_kg.total_kg(), 1.0, 1e-12) << thing->label;
      } else {
        EXPECT_EQ(thing.error().diagnostics[0].code, "qualifier_not_allowed") << name << ": " << thing.error().diagnostics[0].message;
      }
    }
  }
  EXPECT_GT(taken, 300);
}

TEST(Bracket, ThatLeavesTooFewAcidsSaysWhatToAdd) {
  const auto thing = shelf().resolve("lime juice", {word("% acid", 0.8)}, {});
  ASSERT_FALSE(thing.has_value());
  EXPECT_EQ(thing.error().diagnostics[0].message, "\"lime juice (0.8 % acid)\" cannot be: its acids are too few for pH 2.175");
  EXPECT_EQ(thing.error().diagnostics[0].hint, "say its pH too, for example (0.8 % acid, pH 3)");
  EXPECT_TRUE(shelf().resolve("lime juice", {word("% acid", 0.8), word("pH", 3.0)}, {}).has_value());
}

TEST(Bracket, HeatKillsTheEnzymeAndNothingElseDoes) {
  EXPECT_TRUE(get("pineapple juice").live_enzyme);
  EXPECT_TRUE(get("pineapple juice", {word("raw")}).live_enzyme);
  EXPECT_FALSE(get("pineapple juice", {word("canned")}).live_enzyme);
  EXPECT_FALSE(get("pineapple juice", {word("pasteurised")}).live_enzyme);
  EXPECT_TRUE(get("pineapple juice", {word("brix", 12.0)}).live_enzyme);
  EXPECT_FALSE(get("orange juice").live_enzyme);
  EXPECT_FALSE(get("orange juice").heat_treated);
  EXPECT_TRUE(get("ginger soda").heat_treated);
}

TEST(Bracket, PasteurisedEggIsNoRawEgg) {
  EXPECT_TRUE(get("egg white").raw_egg);
  EXPECT_FALSE(get("egg white", {word("pasteurised")}).raw_egg);
  EXPECT_EQ(get("egg white").allergens, std::vector<std::string>{"eggs"});
  EXPECT_FALSE(get("milk", {word("raw")}).heat_treated);
  EXPECT_TRUE(get("milk").heat_treated);
}

TEST(Bracket, ChangesIcePieceAndBloom) {
  EXPECT_NEAR(*get("ice cubes", {word("% wet", 3.0)}).ice_wet, 0.03, 1e-15);
  EXPECT_TRUE(get("ice cubes").is_ice());
  EXPECT_FALSE(get("water").is_ice());
  EXPECT_NEAR(units::in_grams(*get("gelatin, gold leaf", {word("g a piece", 2.2)}).piece), 2.2, 1e-12);
  EXPECT_EQ(*get("gelatin, powder", {word("bloom", 225.0)}).bloom, 225.0);
  EXPECT_EQ(*get("gelatin, gold leaf").bloom, 200.0);
}

TEST(Bracket, DropsAMeasuredDensityThatNoLongerHolds) {
  EXPECT_TRUE(get("honey").density_measured);
  EXPECT_FALSE(get("honey", {word("brix", 78.0)}).density_measured);
}

TEST(Larder, SaysWhatABareNameTakesForGranted) {
  const auto& said = get("spirit").assumptions;
  EXPECT_TRUE(std::find(said.begin(), said.end(), "\"spirit\" is taken as 40 %vol") != said.end());
  EXPECT_TRUE(get("spirit", {word("%vol", 40.0)}).assumptions.empty());
  EXPECT_FALSE(get("syrup").assumptions.empty());
  EXPECT_TRUE(get("syrup", {word("brix", 50.0)}).assumptions.empty());
}

TEST(Larder, CountsTheGasOfABottleInItsMass) {
  const Thing soda = get("soda water");
  EXPECT_NEAR(soda.per_kg[Component::carbon_dioxide] * soda.density_20c.si, *soda.carbonation_g_l, 1e-9);
}

TEST(Larder, CopiesAreAlike) {
  const Larder copy = shelf();
  EXPECT_EQ(copy.fingerprint(), shelf().fingerprint());
  EXPECT_EQ(copy.resolve("lime juice", {}, {})->per_kg, get("lime juice").per_kg);
  EXPECT_EQ(get("lime juice").per_kg, get("lime juice").per_kg);
}

}  // namespace
}  // namespace bloomset::larder
