// What stands on the sheet: percentages, scaling, the glass, targets, allergens, digest.
#include <rapidcheck.h>

#include <cmath>

#include "made.hpp"
#include "matter/density.hpp"
#include "sheet/digest.hpp"

namespace bloomset::sheet {
namespace {

using matter::Property;
using sheet_test::ahead;
using sheet_test::document;
using sheet_test::made;

const std::string sour =
    "[[part]]\nname = \"sour\"\nmade = \"to order\"\nstep = [ { do = \"shake\", take = [\"50 mL spirit (40 %vol)\", \"20 mL lemon juice\", \"20 mL syrup (50 "
    "brix)\"], ice = \"180 g ice cubes\", leave = [\"ice\"], time = \"10-14 s\" } ]\n";

// 330 g juice and 36 g honey are the base; pods that are strained out and the agent are not: 1.1 % of 366 g is 4.026 g. By hand.
TEST(Takes, BothPercentagesStandBesideEveryTake) {
  const Sheet sheet = made(document(ahead("cloud",
                                          "{ do = \"infuse\", take = [\"330 g orange juice\", \"36 g honey\", \"4 piece cardamom pod\"], at = \"70 C\", time = "
                                          "\"10 min\" }, { do = \"strain\", leave = [\"cardamom pod\"] }, "
                                          "{ do = \"combine\", take = [\"1.1 % xanthan\"] }"),
                                    "{ take = [\"all 'cloud'\"] }"));
  const PartSheet& part = sheet.parts[0];
  ASSERT_EQ(part.takes.size(), 4U);
  EXPECT_NEAR(part.takes[0].percent_of_base, 100.0 * 330.0 / 366.0, 1e-9);
  EXPECT_NEAR(part.takes[1].percent_of_base, 100.0 * 36.0 / 366.0, 1e-9);
  EXPECT_NEAR(part.takes[3].percent_of_base, 1.1, 1e-9);
  EXPECT_NEAR(part.takes[3].mass_g, 4.026, 1e-9);
  EXPECT_TRUE(part.takes[3].agent);
  EXPECT_TRUE(part.takes[3].measure.empty()) << "an agent is never measured by the spoon";
  for (const TakeLine& take : part.takes) EXPECT_NEAR(take.percent_of_total, take.mass_g / part.batch_mass_g * 100.0, 1e-9);
}

TEST(Takes, KitchenMeasuresStandBesideWhatIsPouredAndNotBesideAcids) {
  const Sheet sheet = made(document("", "{ take = [\"60 mL lemon juice\", \"5 g citric acid\", \"100 g ice cubes\"] }"));
  const auto& takes = sheet.serve->takes;
  ASSERT_EQ(takes.size(), 3U);
  EXPECT_EQ(takes[0].measure, "4 tbsp");  // 60 mL are four metric tablespoons of 15 mL exactly; a quarter of a metric cup is 62.5
  EXPECT_NEAR(takes[0].volume_ml, 60.0, 1e-6);
  EXPECT_TRUE(takes[1].measure.empty());
  EXPECT_TRUE(takes[2].measure.empty());
  EXPECT_TRUE(std::isnan(takes[2].volume_ml));
}

TEST(Scaling, ServesScaleSumsAndLeaveTheGlassAlone) {
  EXPECT_TRUE(rc::check([] {
    const int k = *rc::gen::inRange(2, 40);
    // Serves in pairs fill the tin, so that a round's share of the tin's heat is the same.
    const Sheet two = made(document(sour, "{ take = [\"all 'sour'\"] }", 2)), many = made(document(sour, "{ take = [\"all 'sour'\"] }", 2), 2 * k);
    RC_ASSERT(many.serves == 2 * k);
    RC_ASSERT(std::abs(many.balance.in_g - k * two.balance.in_g) < 1e-6);
    RC_ASSERT(std::abs(many.balance.served_g - k * two.balance.served_g) < 1e-6);
    for (std::size_t i = 0; i < matter::property_count; ++i) {
      const double a = two.serve->at_service.of[i], b = many.serve->at_service.of[i];
      RC_ASSERT((std::isnan(a) && std::isnan(b)) || std::abs(a - b) <= 1e-9 * (1.0 + std::abs(a)));
    }
    for (std::size_t i = 0; i < two.order.size(); ++i) RC_ASSERT(std::abs(many.order[i].mass_g - k * two.order[i].mass_g) < 1e-6);
    for (std::size_t i = 0; i < two.streams.size(); ++i) RC_ASSERT(std::abs(many.streams[i].mass_g - k * two.streams[i].mass_g) < 1e-6);
  }));
}

TEST(Scaling, ABatchStaysOneBatch) {
  const std::string text = document(ahead("base", "{ do = \"combine\", take = [\"500 g water\"] }"), "{ take = [\"100 g 'base'\"] }", 2);
  EXPECT_NEAR(made(text, 3).balance.in_g, 500.0, 1e-9);
  EXPECT_NEAR(made(text, 3).parts[0].left_over_g, 200.0, 1e-9);
}

// 100 g of ice at 0 C on 200 g of water at 0 C: it floats and displaces 100 g of water (Archimedes), nothing else.
TEST(Glass, FloatingIceDisplacesItsOwnMassOfTheDrink) {
  const Sheet sheet = made(document("", "{ take = [{ take = \"200 g water\", at = \"0 C\" }, \"100 g ice cubes (0 % wet)\"] }", 1, "beaker, 500 mL"));
  const double density = matter::water_density(units::celsius(0.0)).si * 1e-3;
  EXPECT_NEAR(sheet.serve->headroom_ml, 500.0 - 300.0 / density, 0.5);
  EXPECT_EQ(sheet.serve->vessel, "beaker, 500 mL");
}

TEST(Glass, HeadroomIsOfTheFullestMoment) {
  const Sheet sheet = made(document("", "{ take = [\"200 mL water\"] }", 1, "beaker, 500 mL"));
  EXPECT_NEAR(sheet.serve->headroom_ml, 300.0, 0.5);
}

// 30 g of fruit, taken as sunk and as dense as water: 30 mL less room. By hand.
TEST(Glass, FruitInTheDrinkTakesRoom) {
  const Sheet without = made(document("", "{ take = [\"200 mL water\"] }", 1, "beaker, 500 mL"));
  const Sheet with = made(document("", "{ take = [\"200 mL water\", \"30 g cardamom pod\"] }", 1, "beaker, 500 mL"));
  EXPECT_NEAR(with.serve->solids_g, 30.0, 1e-9);
  EXPECT_NEAR(without.serve->headroom_ml - with.serve->headroom_ml, 30.0, 1e-6);
  EXPECT_NE(sheet_test::all_findings(with).find("take as much room"), std::string::npos);
}

TEST(Targets, EachWishIsJudged) {
  const auto met = [](const std::string& wish) {
    const Sheet sheet = made(document("", "{ take = [\"100 g water\"] }", 1, "cup, 240 mL", "targets = [\"serve." + wish + "\"]"));
    EXPECT_EQ(sheet.targets.size(), 1U);
    EXPECT_EQ(sheet.stop(), !sheet.targets.at(0).met);
    return sheet.targets.at(0).met;
  };
  EXPECT_TRUE(met("mass >= 99 g"));
  EXPECT_FALSE(met("mass >= 101 g"));
  EXPECT_TRUE(met("mass <= 101 g"));
  EXPECT_FALSE(met("mass <= 99 g"));
  EXPECT_TRUE(met("mass 99-101 g"));
  EXPECT_FALSE(met("mass 101-102 g"));
  EXPECT_TRUE(met("mass 100.09 g"));  // within 0.1 % of a point
  EXPECT_FALSE(met("mass 100.2 g"));
  EXPECT_FALSE(met("mass 101 g"));
  EXPECT_TRUE(met("temperature 20 C"));  // or half of the last digit written: 20 says 19.5 to 20.5
  EXPECT_TRUE(met("abv <= 0 %"));
  EXPECT_TRUE(met("headroom >= 130 mL"));
  EXPECT_TRUE(met("cost <= 0"));  // water is free
}

TEST(Targets, WhatCannotBeGivenIsNotMetAndIsSaid) {
  const Sheet sheet = made(document("", "{ take = [\"100 g water\"] }", 1, "cup, 240 mL", "targets = [\"serve.overrun >= 100 %\"]"));
  EXPECT_TRUE(std::isnan(sheet.targets.at(0).value));
  EXPECT_FALSE(sheet.targets.at(0).met);
  EXPECT_NE(sheet_test::found(sheet, base::Code::value_missing), nullptr);
  EXPECT_NE(sheet_test::found(sheet, base::Code::target_unmet), nullptr);
  EXPECT_TRUE(sheet.stop());
}

TEST(Targets, AreAnsweredInTheUnitTheyAreWrittenIn) {
  const auto line = [](const std::string& wish) {
    return made(document("", "{ take = [\"100 g water\"] }", 1, "cup, 240 mL", "targets = [\"serve." + wish + "\"]")).targets.at(0);
  };
  EXPECT_NEAR(line("temperature <= 70 F").value_as_written, 68.0, 0.1);  // 20 C, by definition of the scale
  EXPECT_EQ(line("temperature <= 70 F").unit, "F");
  EXPECT_NEAR(line("mass <= 1 kg").value_as_written, 0.1, 1e-9);
  EXPECT_NEAR(line("density >= 0.9 g/mL").value_as_written, 0.9982, 1e-4);  // water at 20 C: Kell 1975
  EXPECT_NEAR(line("ready_after <= 90 min").value_as_written, made(document("", "{ take = [\"100 g water\"] }")).serve->ready_after_h * 60.0, 1e-9);
}

TEST(Targets, AreJudgedAtTheirMinuteInTheGlass) {
  const Sheet sheet = made(document("", "{ take = [\"100 g ice cubes\", \"100 g spirit (40 %vol)\"] }", 1, "cup, 240 mL",
                                    "targets = [\"serve.abv at 10 min <= 30 %\", \"serve.abv at 7 min >= 39 %\", \"serve.abv <= 39.9 %\"]"));
  ASSERT_EQ(sheet.targets.size(), 3U);
  EXPECT_TRUE(sheet.targets[0].met);
  EXPECT_FALSE(sheet.targets[1].met);
  EXPECT_EQ(sheet.targets[2].until_minute, 20.0);  // it only gets weaker
  EXPECT_LT(sheet.targets[0].value, sheet.targets[1].value);
}

TEST(Targets, OfAPartThatIsNotThereIsAFaultWithThePlaceAndTheNearestName) {
  std::string faults;
  const auto sheet = sheet_test::try_make(document(ahead("cloud", "{ do = \"combine\", take = [\"100 g water\"] }"), "{ take = [\"all 'cloud'\"] }", 1,
                                                   "cup, 240 mL", "targets = [\"'clout'.mass >= 1 g\"]"),
                                          std::nullopt, nullptr, &faults);
  ASSERT_FALSE(sheet.has_value());
  EXPECT_EQ(sheet.error().kind, base::ErrorKind::bad_input);
  EXPECT_EQ(sheet.error().diagnostics.at(0).hint, "did you mean 'cloud'?");
  EXPECT_EQ(sheet.error().diagnostics.at(0).span.line, 4U);
}

TEST(Allergens, MaybeTakesCountAndUnusedPartsDoNot) {
  const std::string milk_unused = ahead("spare", "{ do = \"combine\", take = [\"100 g milk\"] }");
  const Sheet sheet = made(document(milk_unused, "{ take = [\"100 g water\"] }, { do = \"garnish\", take = [\"5 g cream\"], maybe = true }"));
  EXPECT_EQ(sheet.serve->allergens, std::vector<std::string>{"milk"});
  const Sheet without = made(document(milk_unused, "{ take = [\"100 g water\"] }"));
  EXPECT_TRUE(without.serve->allergens.empty());
  EXPECT_NEAR(sheet.balance.in_g, 200.0, 1e-9) << "what may be there is not in the balance";
}

TEST(Digest, ChangesWithEveryInputAndWithNothingElse) {
  const std::string text = document("", "{ take = [\"100 g water\"] }");
  const Sheet one = made(text);
  EXPECT_EQ(one.digest.size(), 32U);
  EXPECT_EQ(made(text).digest, one.digest);
  EXPECT_EQ(made(text, 4).digest, one.digest) << "how many are served is no part of the formula";
  EXPECT_NE(made(text + "\n").digest, one.digest);
  EXPECT_NE(digest({"ab", "c"}), digest({"a", "bc"}));
  larder::Larder larder = sheet_test::house().larder;
  base::Sources sources;
  ASSERT_TRUE(larder.add("mine.toml", "[[thing]]\nname = \"harbour water\"\nlike = \"water\"\nsource = \"test\"\n", sources).has_value());
  EXPECT_NE(made(text, std::nullopt, &larder).digest, one.digest);
}

}  // namespace
}  // namespace bloomset::sheet
