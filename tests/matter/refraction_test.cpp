// Refractive index and refractometer against sugar tables; what spirits do to a Brix reading.
#include "matter/refraction.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bloomset::matter {
namespace {

using enum Component;

Solutes solution(Component solute, double percent) {
  Composition c;
  c[water] = 1.0 - percent / 100.0;
  c[solute] += percent / 100.0;
  return solutes(c);
}

TEST(Refraction, OfWaterIsThatOfTheHandbook) {
  // CRC Handbook: 1.33299 at 589 nm and 20 C.
  EXPECT_NEAR(refractive_index_20c(solution(sucrose, 0.0)), 1.33299, 1e-7);
}

TEST(Refraction, FollowsTheSugarScale) {
  struct Row {
    double percent, n;
  };
  // memory: ICUMSA SPS-3 (sucrose, 589 nm, 20 C); the fit was made on handbook rows of four digits.
  for (const Row row :
       {Row{10.0, 1.34783}, Row{20.0, 1.36384}, Row{30.0, 1.38115}, Row{40.0, 1.39986}, Row{50.0, 1.42009}, Row{60.0, 1.44193}, Row{70.0, 1.46546}})
    EXPECT_NEAR(refractive_index_20c(solution(sucrose, row.percent)), row.n, 3e-4) << row.percent << " %";
}

TEST(Refractometer, ReadsItsOwnSugar) {
  for (double percent = 0.0; percent <= 80.0; percent += 2.5) EXPECT_NEAR(brix_read_percent(solution(sucrose, percent)), percent, 1e-4);
}

TEST(Refractometer, ReadsInvertSugarNearlyTrue) {
  // memory: Brix of invert sugar reads some 1-4 % low (ICUMSA corrections for invert sugar: about 0.022 Brix per percent).
  EXPECT_NEAR(brix_read_percent(solution(fructose, 40.0)), 40.0, 1.0);
  EXPECT_NEAR(brix_read_percent(solution(glucose, 40.0)), 40.0, 1.0);
}

TEST(Refractometer, TakesEthanolForSugar) {
  // CRC Handbook: ethanol 34 mass % has n = 1.3557, which on the sugar scale (ICUMSA 10 %: 1.34783, 20 %: 1.36384) stands near 15 Brix.
  EXPECT_NEAR(brix_read_percent(solution(ethanol, 34.0)), 10.0 + 10.0 * (1.3557 - 1.34783) / (1.36384 - 1.34783), 0.4);
}

TEST(Refractometer, DoesNotSeeWhatFloats) {
  Composition c;
  c[water] = 0.9;
  c[sucrose] = 0.1;
  Composition cloudy = c;
  cloudy[fat] = 0.05;
  cloudy[fibre] = 0.01;
  EXPECT_DOUBLE_EQ(brix_read_percent(solutes(c)), brix_read_percent(solutes(cloudy)));
}

// Dissolved carbon dioxide does not: it takes about as much room as it bends (molar refraction 6.65, volume 33 cm3/mol).
TEST(Refraction, RisesWithEverySugarPolyolAndAcid) {
  const double plain = refractive_index_20c(solution(sucrose, 0.0));
  for (std::size_t i = index(sucrose); i <= index(gluconic_acid); ++i) {
    const double n = refractive_index_20c(solution(static_cast<Component>(i), 10.0));
    EXPECT_GT(n, plain + 0.004) << info(static_cast<Component>(i)).name;
    EXPECT_LT(n, plain + 0.020) << info(static_cast<Component>(i)).name;
  }
}

TEST(Refraction, OfNothingIsNotANumber) { EXPECT_TRUE(std::isnan(refractive_index_20c(Solutes{}))); }

}  // namespace
}  // namespace bloomset::matter
