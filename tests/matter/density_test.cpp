// Densities and strengths against alcoholometry, water and sugar tables, and against the limits any mixing rule must keep.
#include "matter/density.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace bloomset::matter {
namespace {

using enum Component;
using namespace units;

Composition made(double water_kg, double ethanol_kg, double sucrose_kg = 0.0) {
  Composition c;
  c[water] = water_kg;
  c[ethanol] = ethanol_kg;
  c[sucrose] = sucrose_kg;
  return c;
}

TEST(EthanolWater, KeepsTheFixedPointsOfOiml) {
  // OIML R 22 (1975): water and ethanol at 20 C, and 40 % vol = 33.30 % mass, 948.05 kg/m3; printed digits.
  EXPECT_NEAR(ethanol_water_density({0.0}, celsius(20.0)).si, 998.201, 5e-4);
  EXPECT_NEAR(ethanol_water_density({1.0}, celsius(20.0)).si, 789.239, 5e-4);
  EXPECT_NEAR(pure_ethanol_density_20c().si, 789.239, 5e-4);
  const MassFraction w = ethanol_mass_fraction(percent_vol(40.0));
  EXPECT_NEAR(w.si, 0.3330, 5e-5);
  EXPECT_NEAR(ethanol_water_density(w, celsius(20.0)).si, 948.05, 5e-3);
}

TEST(EthanolWater, StrengthAndMassFractionAreInverse) {
  for (double abv = 0.0; abv <= 100.0; abv += 0.5) EXPECT_NEAR(in_percent_vol(abv_20c(ethanol_mass_fraction(percent_vol(abv)))), abv, 1e-10);
}

TEST(EthanolWater, GoesOnWithoutAStepOutsideTheFormula) {
  for (const double edge : {-20.0, 40.0})
    for (double w = 0.0; w <= 1.0; w += 0.1) {
      const double inside = ethanol_water_density({w}, celsius(edge)).si;
      EXPECT_NEAR(ethanol_water_density({w}, celsius(edge - 1e-6)).si, inside, 1e-4) << w;
      EXPECT_NEAR(ethanol_water_density({w}, celsius(edge + 1e-6)).si, inside, 1e-4) << w;
    }
}

TEST(EthanolWater, IsStillEthanolNearItsBoilingPoint) {
  // memory: CRC Handbook, density of ethanol at 70 C: 0.7455 g/mL; the continuation by DIPPR is good to 3 kg/m3.
  EXPECT_NEAR(ethanol_water_density({1.0}, celsius(70.0)).si, 745.5, 3.0);
}

TEST(Water, MatchesTanakaAndKell) {
  // Tanaka et al., Metrologia 38 (2001) 301, table 1.
  EXPECT_NEAR(water_density(celsius(4.0)).si, 999.9749, 1e-3);
  EXPECT_NEAR(water_density(celsius(25.0)).si, 997.0470, 1e-3);
  // Kell, J. Chem. Eng. Data 20 (1975) 97, table II (memory).
  EXPECT_NEAR(water_density(celsius(50.0)).si, 988.04, 0.02);
  EXPECT_NEAR(water_density(celsius(100.0)).si, 958.36, 0.02);
}

TEST(Water, StepsByLessThanFourThousandthsWhereTheSourcesMeet) { EXPECT_NEAR(water_density(celsius(40.0 + 1e-9)).si, water_density(celsius(40.0)).si, 0.004); }

TEST(Volume, OfWortAndSyrupFollowsThePlatoTable) {
  // memory: Plato's table (NBS Circular 440), specific gravity 20/20 C of 10, 12 and 20 mass % sucrose; printed digits.
  const double water_kg_m3 = liquid_density(made(1.0, 0.0), celsius(20.0)).si;
  EXPECT_NEAR(liquid_density(made(0.90, 0.0, 0.10), celsius(20.0)).si / water_kg_m3, 1.0400, 1e-4);
  EXPECT_NEAR(liquid_density(made(0.88, 0.0, 0.12), celsius(20.0)).si / water_kg_m3, 1.0484, 1e-4);
  EXPECT_NEAR(liquid_density(made(0.80, 0.0, 0.20), celsius(20.0)).si / water_kg_m3, 1.0830, 1e-4);
}

TEST(Volume, ContractsAsTextbooksSay) {
  // memory: chemistry textbooks, 52 volumes of ethanol and 48 of water give 96.3 volumes; their temperature is not told, hence 0.2.
  const double ethanol_kg = mass(millilitres(52.0), ethanol_water_density({1.0}, celsius(20.0))).si;
  const double water_kg = mass(millilitres(48.0), ethanol_water_density({0.0}, celsius(20.0))).si;
  EXPECT_NEAR(in_millilitres(liquid_volume(made(water_kg, ethanol_kg), celsius(20.0))), 96.3, 0.2);
}

TEST(Volume, SugarHidesStrengthAsTheLawSays) {
  // 27 CFR 30.32(b): 0.1 g of solids in 100 mL obscures 0.4 degree of US proof (0.2 %vol) for spirits of 80-100 proof; the law rounds to a tenth of a degree.
  for (const double abv : {40.0, 45.0, 50.0}) {
    const double w = ethanol_mass_fraction(percent_vol(abv)).si, litre_kg = 1e-3 * ethanol_water_density({w}, celsius(20.0)).si;
    Composition spirit = made(litre_kg * (1.0 - w), litre_kg * w);
    // One gram a litre; the strength a hydrometer would show is that of a clean spirit of the same density.
    spirit[sucrose] = 1e-3;
    const double rho = liquid_density(spirit, celsius(20.0)).si;
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 60; ++i) (ethanol_water_density({0.5 * (low + high)}, celsius(20.0)).si > rho ? low : high) = 0.5 * (low + high);
    EXPECT_NEAR(2.0 * (in_percent_vol(strength(spirit)) - in_percent_vol(abv_20c({low}))), 0.4, 0.1) << abv << " %vol";
  }
}

TEST(Volume, IsExactInBothBinaryLimits) {
  for (const double t : {-15.0, 0.0, 20.0, 40.0}) {
    EXPECT_NEAR(liquid_density(made(0.6, 0.4), celsius(t)).si, ethanol_water_density({0.4}, celsius(t)).si, 1e-9);
    const double phi = sucrose_apparent_volume(0.4, t), rho = 1.0 / (0.6 / ethanol_water_density({0.0}, celsius(t)).si + 0.4 * phi);
    EXPECT_NEAR(liquid_density(made(0.6, 0.0, 0.4), celsius(t)).si, rho, 1e-9);
  }
}

TEST(Volume, OfSolutesThatBehaveAlikeDoesNotDependOnTheirNames) {
  Composition one = made(0.5, 0.1), two = one;
  one[fructose] = 0.4;
  two[fructose] = 0.1;
  two[allulose] = 0.3;  // taken as fructose
  EXPECT_NEAR(liquid_volume(one, celsius(30.0)).si, liquid_volume(two, celsius(30.0)).si, 1e-15);
}

TEST(Volume, IgnoresGas) {
  Composition still = made(0.9, 0.05, 0.05), fizzy = still;
  fizzy[carbon_dioxide] = 0.006;
  EXPECT_EQ(liquid_volume(still, celsius(5.0)).si, liquid_volume(fizzy, celsius(5.0)).si);
  EXPECT_EQ(liquid_density(still, celsius(5.0)).si, liquid_density(fizzy, celsius(5.0)).si);
}

TEST(Volume, OfNothingIsNothing) {
  EXPECT_EQ(liquid_volume(Composition{}, celsius(20.0)).si, 0.0);
  EXPECT_EQ(strength(Composition{}).si, 0.0);
}

TEST(Volume, OfEveryComponentIsFinite) {
  for (std::size_t i = 0; i < component_count; ++i)
    for (const double t : {-20.0, 20.0, 99.0}) {
      Composition c = made(0.9, 0.0);
      c.kg[i] += 0.1;
      const double m3 = liquid_volume(c, celsius(t)).si;
      EXPECT_GT(m3, 8.5e-4) << info(static_cast<Component>(i)).name;
      EXPECT_LT(m3, 1.2e-3) << info(static_cast<Component>(i)).name;
    }
}

TEST(Volume, ScalesWithTheAmount) {
  EXPECT_TRUE(rc::check("twice the drink fills twice the glass", [] {
    const auto grams = [](int most) { return 1e-3 * static_cast<double>(*rc::gen::inRange(0, most)); };
    Composition c = made(1e-3 + grams(500), grams(300), grams(400));
    c[citric_acid] = grams(30);
    c[fat] = grams(50);
    const Temperature t = celsius(static_cast<double>(*rc::gen::inRange(-20, 100)));
    const double once = liquid_volume(c, t).si, thrice = liquid_volume(c * 3.0, t).si;
    RC_ASSERT(once > 0.0);
    RC_ASSERT(std::abs(thrice / once - 3.0) < 1e-12);
    RC_ASSERT(std::abs(strength(c * 3.0).si - strength(c).si) < 1e-13);
  }));
}

TEST(Ice, WeighsWhatItWeighs) {
  // memory: CRC Handbook, ice at 0 C: 0.9167 g/mL.
  EXPECT_NEAR(ice_density(celsius(0.0)).si, 916.7, 0.5);
}

}  // namespace
}  // namespace bloomset::matter
