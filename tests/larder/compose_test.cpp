// What a row demands comes back from the model of matter: Brix, acidity, pH, strength, volume.
#include "larder/compose.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "matter/refraction.hpp"
#include "shelf.hpp"

namespace bloomset::larder {
namespace {

using matter::Component;

TEST(Fruit, GivesBackItsBrixAcidityAndPh) {
  const auto catalogue = read_catalogue();
  ASSERT_TRUE(catalogue.has_value());
  int fruits = 0;
  for (const Row& row : catalogue->rows) {
    if (row.make != Make::fruit) continue;
    ++fruits;
    const Composed made = compose(row);
    ASSERT_EQ(made.problem, "") << row.name;
    EXPECT_NEAR(dissolved_share(made.per_kg) * 100.0, *row.brix, 1e-9) << row.name;
    EXPECT_NEAR(matter::ph_25c(made.per_kg), *row.ph, 1e-6) << row.name;
    if (row.acid) {
      EXPECT_NEAR(matter::titratable_acidity_g_l_citric(made.per_kg), *row.acid, 1e-7 * *row.acid) << row.name;
    }
  }
  EXPECT_GE(fruits, 25);
}

TEST(Fruit, MeetsAnyBrixAcidAndPhItCanHold) {
  EXPECT_TRUE(rc::check("orange juice", [] {
    const double brix = *rc::gen::inRange(70, 300) * 0.1, acid = *rc::gen::inRange(4, 15) * 0.1, ph = *rc::gen::inRange(320, 430) * 0.01;
    const auto thing = shelf().resolve("orange juice", {word("brix", brix), word("% acid", acid), word("pH", ph)}, {});
    RC_ASSERT(thing.has_value());
    RC_ASSERT(std::abs(dissolved_share(thing->per_kg) * 100.0 - brix) < 1e-9);
    RC_ASSERT(std::abs(matter::ph_25c(thing->per_kg) - ph) < 1e-6);
    RC_ASSERT(std::abs(matter::titratable_acidity_g_100g_citric(thing->per_kg) - acid) < 1e-7);
    RC_ASSERT(std::abs(thing->per_kg.total_kg() - 1.0) < 1e-12);
  }));
}

TEST(Fruit, KeepsTheProportionsOfItsSugarsAndAcids) {
  const Thing juice = get("orange juice");
  // Indian Food Composition Tables 2017, orange pulp: sucrose 2.79, fructose 2.86, citric 1.281, malic 0.122 g/100 g.
  EXPECT_NEAR(juice.per_kg[Component::sucrose] / juice.per_kg[Component::fructose], 2.79 / 2.86, 1e-6);
  EXPECT_NEAR(juice.per_kg[Component::citric_acid] / juice.per_kg[Component::malic_acid], 1.281 / 0.122, 1e-6);
}

TEST(Spirit, HasItsStrengthAtAnyStrength) {
  EXPECT_TRUE(rc::check("strength", [] {
    const double abv = *rc::gen::inRange(0, 973) * 0.1;
    const auto thing = shelf().resolve("spirit", {word("%vol", abv)}, {});
    RC_ASSERT(thing.has_value() == (abv <= 97.2));
    if (thing) RC_ASSERT(std::abs(matter::strength(thing->per_kg).si * 100.0 - abv) < 1e-9);
  }));
}

TEST(Liqueur, HasStrengthAndSugarInALitre) {
  const Thing thing = get("bitter aperitif", {word("%vol", 25.0), word("g/L sugar", 200.0)});
  const double litre_kg = thing.density_20c.si * 1e-3;
  EXPECT_NEAR(matter::strength(thing.per_kg).si, 0.25, 1e-12);
  EXPECT_NEAR(thing.per_kg[Component::sucrose] * litre_kg * 1e3, 200.0, 1e-8);
}

TEST(Liqueur, TakesSucroseWhereNoSugarIsListed) {
  const Thing thing = get("aniseed spirit", {word("%vol", 40.0), word("g/L sugar", 20.0)});
  EXPECT_NEAR(thing.per_kg[Component::sucrose] * thing.density_20c.si, 20.0, 1e-9);
}

TEST(Syrup, OfABrixIsThatMuchSugar) {
  const Thing thing = get("syrup", {word("brix", 66.7)});
  EXPECT_NEAR(thing.per_kg[Component::sucrose], 0.667, 1e-12);
  EXPECT_NEAR(thing.per_kg[Component::water], 0.333, 1e-12);
}

TEST(BrixRead, IsWhatTheRefractometerThenShows) {
  for (const auto& [name, read] : {std::pair{"honey", 80.0}, {"lemon juice", 8.0}, {"orange juice", 12.0}, {"syrup", 50.0}, {"invert syrup", 70.0}}) {
    const Thing thing = get(name, {word("brix read", read)});
    EXPECT_NEAR(matter::brix_read_percent(matter::solutes(thing.per_kg)), read, 1e-8) << name;
  }
}

TEST(BrixRead, OfInvertSugarStandsBelowTheTrueOne) {
  // Reducing sugars bend light less than sucrose; AOAC corrects a reading upwards for invert sugar (memory: AOAC 932.14).
  EXPECT_GT(dissolved_share(get("invert syrup", {word("brix read", 60.0)}).per_kg), 0.60);
}

TEST(HardWater, HoldsTheCalciumOfItsHardness) {
  // 280 mg/L as CaCO3 is 280 * 40.08 / 100.09 = 112.1 mg/L of calcium.
  const Thing thing = get("tap water", {word("ppm hardness", 280.0)});
  EXPECT_NEAR(thing.per_kg[Component::calcium] * thing.density_20c.si * 1e3, 112.1, 0.1);
  EXPECT_NEAR(matter::ph_25c(thing.per_kg), 8.3, 0.2) << "a bicarbonate water without other acid: pH 8.2 to 8.4 (memory: water chemistry textbooks)";
}

TEST(Compose, SaysWhichNumbersContradictEachOther) {
  EXPECT_EQ(code_of("lemon juice", {word("brix", 3.0)}), "qualifier_contradiction");
  EXPECT_EQ(code_of("lemon juice", {word("pH", 1.2)}), "qualifier_contradiction");
  EXPECT_EQ(code_of("aniseed spirit", {word("%vol", 90.0), word("g/L sugar", 700.0)}), "qualifier_contradiction");
}

}  // namespace
}  // namespace bloomset::larder
