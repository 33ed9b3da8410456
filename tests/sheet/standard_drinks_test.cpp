// Standard drinks: a worked example of a mixed drink, and published examples.
#include "sheet/standard_drinks.hpp"

#include <gtest/gtest.h>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using matter::Property;
using sheet_test::document;
using sheet_test::made;

// A worked problem: 44.36 mL at 40 %, 29.57 mL at 20 %, 147.87 mL of juice hold 14.00 + 4.67 = 18.67 g of ethanol (density 0.789 g/mL):
// 1.33 US drinks of 14 g, 2.37 UK units of 10 mL, 1.87 AU drinks of 10 g, all within 1 %.
TEST(StandardDrinks, AMixedDrinkOfTwoSpiritsAndJuice) {
  const Sheet sheet = made(document("", "{ take = [\"44.36 mL spirit (40 %vol)\", \"29.57 mL spirit (20 %vol)\", \"147.87 mL orange juice\"] }"));
  ASSERT_TRUE(sheet.serve.has_value());
  EXPECT_NEAR(sheet.serve->at_service[Property::ethanol_g], 18.67, 0.1867);
  EXPECT_NEAR(sheet.serve->standard_drinks.us, 1.33, 0.0133);
  EXPECT_NEAR(sheet.serve->standard_drinks.uk, 2.37, 0.0237);
  EXPECT_NEAR(sheet.serve->standard_drinks.au, 1.87, 0.0187);
  EXPECT_NEAR(sheet.serve->standard_drinks.eu, 1.87, 0.0187);
  // The same problem: 10.7 % before ice, to the last printed digit (volumes added; contraction moves it by less).
  EXPECT_NEAR(sheet.serve->at_service[Property::abv_percent], 10.7, 0.1);
}

TEST(StandardDrinks, IceChangesTheStrengthAndNotTheDrinks) {
  const std::string shaken =
      "[[part]]\nname = \"sour\"\nmade = \"to order\"\nstep = [ { do = \"shake\", take = [\"60 mL spirit (40 %vol)\", \"20 mL lemon juice\"], ice = \"200 g "
      "ice cubes\", leave = [\"ice\"], time = \"12 s\" } ]\n";
  const Sheet with_ice = made(document(shaken, "{ take = [\"all 'sour'\"] }")),
              without = made(document("", "{ take = [\"60 mL spirit (40 %vol)\", \"20 mL lemon juice\"] }"));
  EXPECT_LT(with_ice.serve->at_service[Property::abv_percent], without.serve->at_service[Property::abv_percent] - 3.0);
  EXPECT_NEAR(with_ice.serve->standard_drinks.us, without.serve->standard_drinks.us, 1e-9);
}

// Food Standards Code 2.7.1 and the Australian guide: 375 mL at 5 % with 0.789 kg/L is 1.479375; UK: 568 mL at 4 % is 2.272 units.
TEST(StandardDrinks, PublishedExamples) {
  EXPECT_NEAR(standard_drinks(375.0 * 0.05 * 0.789).au, 1.479375, 1e-9);
  EXPECT_NEAR(standard_drinks(568.0 * 0.04 * 0.78924).uk, 2.272, 2.272e-5);  // OIML R 22: 789.24 kg/m3 at 20 C
}

}  // namespace
}  // namespace bloomset::sheet
