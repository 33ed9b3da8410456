// A bottled batch against the drink from the ice, the freezer against a published table; parts by volume; a whole service.
#include "sheet/batching.hpp"

#include <gtest/gtest.h>

#include "made.hpp"
#include "sheet/ratio.hpp"

namespace bloomset::sheet {
namespace {

using matter::Property;

struct Read {
  base::Sources sources;
  formula::Formula formula;
};
Read read(const std::string& text) {
  Read out;
  auto formula = formula::read("test.toml", text, out.sources, {});
  EXPECT_TRUE(formula.has_value()) << text;
  if (formula) out.formula = std::move(*formula);
  return out;
}

std::string stirred(const std::string& takes, const std::string& how, int serves = 4) {
  return sheet_test::document("[[part]]\nname = \"stirred\"\nmade = \"to order\"\nstep = [ { " + how + ", take = [" + takes + "] } ]\n",
                              "{ take = [\"all 'stirred'\"] }", serves, "low glass, 300 mL");
}

base::Result<BatchSheet> try_bottle(const std::string& text, std::optional<std::string> place = std::nullopt, const std::string& part = "stirred") {
  const Read r = read(text);
  const Inputs in{r.formula, sheet_test::house().larder, sheet_test::house().kit, {}, text};
  return batch({in, part, {}, units::millilitres(700.0), std::move(place), {}});
}
BatchSheet bottled(const std::string& text, std::optional<std::string> place = std::nullopt) {
  auto made = try_bottle(text, std::move(place));
  EXPECT_TRUE(made.has_value()) << (made ? "" : made.error().message + (made.error().diagnostics.empty() ? "" : made.error().diagnostics.front().message));
  return made ? std::move(*made) : BatchSheet{};
}

const std::string on_ice = "do = \"stir\", ice = \"240 g ice cubes\", leave = [\"ice\"], time = \"25-35 s\"";

// The other way round: the document that came of it, read and made like any other, pours what the ice would have given.
TEST(Batch, PouredItIsTheDrinkFromTheIce) {
  const std::string text = stirred("\"60 mL spirit (45 %vol)\", \"10 mL syrup (60 brix)\", \"5 mL lemon juice\", \"2 dash bitters\"", on_ice, 20);
  const BatchSheet batch = bottled(text);
  EXPECT_GT(batch.water_per_serve_g, 5.0);
  for (const Property p : {Property::abv_percent, Property::sugar_percent, Property::titratable_acidity_g_100g_citric})
    EXPECT_NEAR(batch.bottled[p], batch.to_order[p], 1e-6 * batch.to_order[p]) << matter::key(p);
  const Sheet again = sheet_test::made(batch.formula);
  ASSERT_EQ(again.parts.size(), 1U);
  EXPECT_TRUE(again.parts[0].ahead);
  EXPECT_NEAR(again.parts[0].used_per_serve_g, batch.pour_g, 0.05);  // written to a tenth of a gram
  for (const Property p : {Property::abv_percent, Property::sugar_percent})
    EXPECT_NEAR(again.parts[0].values[p], batch.to_order[p], 1e-3 * batch.to_order[p]) << matter::key(p);
  EXPECT_NEAR(again.parts[0].batch_mass_g, 20 * batch.pour_g + batch.spare_g, 0.2);
}

// 60 mL at 40 %vol, 30 mL at 18 %vol and 30 mL of water come to 24.5 %vol (24 + 5.4 in 120 mL). A handbook table of ethanol and water (freezing point by
// strength) puts its first ice at -10.4 C (+-1) and 31 % of ice by mass at -18 C (+-6), as worked by hand by the lever rule.
TEST(Batch, InTheFreezerItIsAThickSlush) {
  const BatchSheet batch = bottled(stirred("\"60 mL spirit (40 %vol)\", \"30 mL spirit (18 %vol)\", \"30 mL water\"", "do = \"combine\"", 10), "freezer");
  EXPECT_NEAR(batch.water_per_serve_g, 0.0, 1e-9);
  EXPECT_NEAR(batch.bottled[Property::abv_percent], 24.5, 0.3);
  EXPECT_NEAR(batch.first_ice_c, -10.4, 1.0);
  EXPECT_NEAR(100.0 * batch.ice_share, 31.0, 6.0);
  EXPECT_EQ(batch.bottles, 2);  // ten of 118 mL (contraction) in bottles of 0.9 x 700 mL
  const BatchSheet fridge = bottled(stirred("\"60 mL spirit (40 %vol)\", \"30 mL spirit (18 %vol)\", \"30 mL water\"", "do = \"combine\"", 10));
  EXPECT_EQ(fridge.ice_share, 0.0);
}

TEST(Batch, RefusesWhatNoBottleCanStandFor) {
  const auto code = [](const base::Result<BatchSheet>& made) { return made ? std::string() : made.error().diagnostics.front().code; };
  const std::string text = stirred("\"60 mL spirit (45 %vol)\"", on_ice);
  EXPECT_EQ(code(try_bottle(text, std::nullopt, "stired")), "unknown_part");
  EXPECT_EQ(code(try_bottle(text, "cellar")), "unknown_place");
  EXPECT_EQ(code(try_bottle(stirred("\"60 mL spirit (45 %vol)\"", "do = \"blend\", ice = \"100 g ice cubes\", time = \"20 s\""))), "cannot_be_bottled");
  EXPECT_EQ(code(try_bottle(sheet_test::document(sheet_test::ahead("stirred", "{ do = \"combine\", take = [\"60 mL spirit (45 %vol)\"] }"),
                                                 "{ take = [\"50 g 'stirred'\"] }"))),
            "made_ahead");
  EXPECT_EQ(code(try_bottle(stirred("\"60 mL water\"", "do = \"combine\""))), "nothing_to_bottle");
}

// By counting: two thirds of a part for each of a half, and so on. The words of the trade: 60, 30 and 22.5 mL are 2 : 1 : 0.75.
TEST(Ratio, CountsInWholesAndQuarters) {
  EXPECT_EQ(ratio_of_volumes({60.0, 30.0, 22.5}), (std::vector<double>{2.0, 1.0, 0.75}));
  EXPECT_EQ(ratio_of_volumes({45.0, 15.0, 15.0, 15.0}), (std::vector<double>{3.0, 1.0, 1.0, 1.0}));
  EXPECT_EQ(ratio_of_volumes({90.0, 60.0, 30.0}), (std::vector<double>{3.0, 2.0, 1.0}));
  EXPECT_EQ(ratio_of_volumes({30.0, 30.0}), (std::vector<double>{1.0, 1.0}));
  EXPECT_EQ(ratio_of_volumes({50.0, 24.8}), (std::vector<double>{2.0, 1.0}));   // within 3 % of a quarter
  EXPECT_EQ(ratio_of_volumes({10.0, 3.6}), (std::vector<double>{2.75, 1.0}));   // 2.78
  EXPECT_EQ(ratio_of_volumes({31.4, 10.0}), (std::vector<double>{3.14, 1.0}));  // no quarter is near
}

TEST(Ratio, StandsOnlyWhereAllIsPouredByVolume) {
  const auto ratio = [](const std::string& takes) { return sheet_test::made(stirred(takes, "do = \"combine\"")).parts.at(0).ratio; };
  const auto poured = ratio("\"60 mL spirit (40 %vol)\", \"30 mL syrup (50 brix)\", \"22.5 mL lime juice\", \"2 dash bitters\"");
  ASSERT_TRUE(poured.has_value());
  EXPECT_EQ(poured->parts, (std::vector<double>{2.0, 1.0, 0.75}));
  EXPECT_EQ(poured->things.at(2), "lime juice");
  EXPECT_FALSE(ratio("\"60 mL spirit (40 %vol)\", \"20 g egg white (pasteurised)\"").has_value());
  EXPECT_FALSE(ratio("\"60 mL spirit (40 %vol)\"").has_value());
}

// The kit's shaker holds two serves: forty are twenty rounds of 12 s. 200 g a serve in tins, 100 g in glasses.
TEST(Service, CountsRoundsIceAndBottles) {
  const std::string shaken =
      "[[part]]\nname = \"shaken\"\nmade = \"to order\"\nstep = [ { do = \"shake\", take = [\"60 mL spirit (40 %vol)\", \"20 mL lime juice\"], ice = \"200 g "
      "ice cubes\", "
      "leave = [\"ice\"], time = \"10-14 s\" } ]\n";
  const std::string cloud =
      sheet_test::ahead("cloud",
                        "{ do = \"combine\", take = [\"300 g water\", \"30 g white sugar\"] }, { do = \"chill\", to = \"4 C\", in = \"ice bath\" }, "
                        "{ do = \"charge\", vessel = \"siphon, half litre\", charges = 2 }");
  const Sheet sheet = sheet_test::made(
      sheet_test::document(shaken + cloud, "{ take = [\"100 g ice cubes\", \"all 'shaken'\"] }, { do = \"dispense\", take = [\"12 g 'cloud'\"] }", 40));
  ASSERT_TRUE(sheet.service.has_value());
  EXPECT_EQ(sheet.service->rounds, 20);
  EXPECT_NEAR(sheet.service->seconds, 240.0, 1e-9);
  EXPECT_NEAR(sheet.service->ice_in_tins_g, 8000.0, 1e-6);
  EXPECT_NEAR(sheet.service->ice_in_glasses_g, 4000.0, 1e-6);
  ASSERT_EQ(sheet.service->bottles.size(), 1U);
  EXPECT_EQ(sheet.service->bottles[0].bottles, 2);  // 480 g out of batches of some 330 g
  EXPECT_EQ(sheet.service->bottles[0].charges, 4);
}

}  // namespace
}  // namespace bloomset::sheet
