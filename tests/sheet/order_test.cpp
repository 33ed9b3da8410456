// What to buy and what it costs: worked problems of buying for a party and of the price of a pour.
#include <cmath>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using sheet_test::ahead;
using sheet_test::document;
using sheet_test::made;

larder::Larder with(const std::string& things) {
  larder::Larder larder = sheet_test::house().larder;
  base::Sources sources;
  const auto added = larder.add("mine.toml", things, sources);
  EXPECT_TRUE(added.has_value()) << (added ? "" : sheet_test::shown(added.error(), sources));
  return larder;
}

const OrderLine& line(const Sheet& sheet, const std::string& thing) {
  for (const OrderLine& one : sheet.order)
    if (one.thing.starts_with(thing)) return one;
  ADD_FAILURE() << "no " << thing << " in the order";
  static const OrderLine none;
  return none;
}

// A worked problem: fifty drinks of 30 mL each of a spirit at 40 %, one at 25 % and one at 16 %: 1.5 L of each, three bottles of 700 mL.
TEST(Order, WholeBottlesForFifty) {
  const Sheet sheet =
      made(document("", "{ take = [\"30 mL spirit (40 %vol)\", \"30 mL spirit (25 %vol)\", \"30 mL spirit (16 %vol)\", \"30 mL water\"] }", 50));
  for (const char* thing : {"spirit (40", "spirit (25", "spirit (16"}) {
    EXPECT_NEAR(line(sheet, thing).volume_ml, 1500.0, 1e-6);
    EXPECT_NE(line(sheet, thing).note.find("3 packs of 700 mL"), std::string::npos) << line(sheet, thing).note;
  }
  EXPECT_NEAR(line(sheet, "water").volume_ml, 1500.0, 0.5);
}

// A worked problem: a hundred drinks at 3 : 2 : 1 of 3, 2 and 1 US fl oz (29.574 mL): 8.87, 5.91 and 2.96 L; 12 and 8 bottles of 750 mL;
// 99 limes where one gives 30 mL.
TEST(Order, BottlesAndLimesForAHundred) {
  const larder::Larder larder = with(
      "[[thing]]\nname = \"tub spirit\"\nlike = \"spirit\"\npack_ml = 750\nsource = \"test\"\n"
      "[[thing]]\nname = \"tub liqueur\"\nlike = \"spirit\"\npack_ml = 750\nsource = \"test\"\n");
  const Sheet sheet = made(document("", "{ take = [\"3 fl oz tub spirit (40 %vol)\", \"2 fl oz tub liqueur (40 %vol)\", \"1 fl oz lime juice\"] }", 100,
                                    "tall glass, 400 mL", "measures = \"us\""),
                           std::nullopt, &larder);
  EXPECT_NEAR(line(sheet, "tub spirit").volume_ml, 8872.0, 1.0);
  EXPECT_NEAR(line(sheet, "tub liqueur").volume_ml, 5915.0, 1.0);
  EXPECT_NEAR(line(sheet, "lime juice").volume_ml, 2957.0, 1.0);
  EXPECT_NE(line(sheet, "tub spirit").note.find("12 packs of 750 mL"), std::string::npos) << line(sheet, "tub spirit").note;
  EXPECT_NE(line(sheet, "tub liqueur").note.find("8 packs of 750 mL"), std::string::npos) << line(sheet, "tub liqueur").note;
  ASSERT_TRUE(line(sheet, "lime juice").pieces.has_value());
}

TEST(Order, FruitsRoundUpByTheYieldOfOne) {
  // 30 mL of lime juice a fruit: 2,957 mL / 30 = 98.6, so 99 (the worked problem above). One lime of 67 g, of which 30 mL of 1.035 g/mL are juice.
  const larder::Larder larder =
      with("[[thing]]\nname = \"small lime juice\"\nlike = \"lime juice\"\nbought_piece_g = 67\nyield = 0.4634\ndensity = 1035\nsource = \"test\"\n");
  const Sheet sheet = made(document("", "{ take = [\"1 fl oz small lime juice\"] }", 100, "tall glass, 400 mL", "measures = \"us\""), std::nullopt, &larder);
  ASSERT_TRUE(line(sheet, "small lime juice").pieces.has_value());
  EXPECT_EQ(*line(sheet, "small lime juice").pieces, 99.0);
  EXPECT_EQ(std::floor(*line(sheet, "small lime juice").pieces), *line(sheet, "small lime juice").pieces);
}

TEST(Order, OneThingStandsOnceOverPartsServesAndBatches) {
  const Sheet sheet = made(
      document(ahead("base", "{ do = \"combine\", take = [\"100 g lemon juice\"] }", "batches = 2\n"), "{ take = [\"10 g 'base'\", \"5 g lemon juice\"] }", 4));
  EXPECT_EQ(std::count_if(sheet.order.begin(), sheet.order.end(), [](const OrderLine& one) { return one.thing == "lemon juice"; }), 1);
  EXPECT_NEAR(line(sheet, "lemon juice").mass_g, 220.0, 1e-9);
}

// A worked problem: a pour of 2 US fl oz from a 750 mL bottle at 30.00 costs 2.37 (12.68 pours); with 5 % lost, 2.49 (12.05 pours).
TEST(Cost, OfAPourFromABottle) {
  const larder::Larder larder =
      with("[[thing]]\nname = \"priced spirit\"\nlike = \"spirit\"\npack_ml = 750\nprice = 30.0\ncurrency = \"USD\"\nsource = \"test\"\n");
  const std::string us = "measures = \"us\"";
  const Sheet plain = made(document("", "{ take = [\"2 fl oz priced spirit (40 %vol)\"] }", 1, "low glass, 300 mL", us), std::nullopt, &larder);
  ASSERT_TRUE(plain.serve->cost.has_value()) << sheet_test::all_findings(plain);
  EXPECT_NEAR(*plain.serve->cost, 2.37, 0.005);
  EXPECT_EQ(plain.serve->currency, "USD");
  const Sheet lossy = made(document(ahead("poured", "{ do = \"combine\", take = [\"750 mL priced spirit (40 %vol)\"], loss = \"5 %\" }"),
                                    "{ take = [\"2 fl oz 'poured'\"] }", 1, "low glass, 300 mL", us),
                           std::nullopt, &larder);
  ASSERT_TRUE(lossy.serve->cost.has_value());
  EXPECT_NEAR(*lossy.serve->cost, 2.49, 0.005) << "what is left over is not charged, what is lost is";
  ASSERT_TRUE(line(lossy, "priced spirit").cost.has_value());
  EXPECT_NEAR(*line(lossy, "priced spirit").cost, 30.0, 1e-9) << "the order pays for the whole bottle";
}

TEST(Cost, AMissingPriceOrTwoCurrenciesGiveNoCost) {
  const larder::Larder larder = with(
      "[[thing]]\nname = \"dollar spirit\"\nlike = \"spirit\"\npack_ml = 700\nprice = 20.0\ncurrency = \"USD\"\nsource = \"test\"\n"
      "[[thing]]\nname = \"euro spirit\"\nlike = \"spirit\"\npack_ml = 700\nprice = 20.0\ncurrency = \"EUR\"\nsource = \"test\"\n");
  const Sheet missing = made(document("", "{ take = [\"50 mL dollar spirit (40 %vol)\", \"20 mL lemon juice\"] }"), std::nullopt, &larder);
  EXPECT_FALSE(missing.serve->cost.has_value());
  EXPECT_NE(sheet_test::all_findings(missing).find("no price for lemon juice"), std::string::npos) << sheet_test::all_findings(missing);
  const Sheet mixed = made(document("", "{ take = [\"50 mL dollar spirit (40 %vol)\", \"20 mL euro spirit (40 %vol)\"] }"), std::nullopt, &larder);
  EXPECT_FALSE(mixed.serve->cost.has_value());
  EXPECT_NE(sheet_test::all_findings(mixed).find("more than one currency"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::sheet
