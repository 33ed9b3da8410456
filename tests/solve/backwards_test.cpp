// Worked problems of the trade asked backwards, and sets of wishes that nobody can have.
#include <gtest/gtest.h>

#include "solve/asked.hpp"

namespace bloomset::solve {
namespace {

using solve_test::balanced;
using solve_test::formula_of;

double after_g(const BalanceSheet& sheet, const std::string& thing) {
  for (const AmountLine& line : sheet.amounts)
    if (line.thing.starts_with(thing)) return line.after_g;
  ADD_FAILURE() << "no " << thing;
  return 0.0;
}

// Worked by hand: equal parts of 30 mL at 40, 25 and 16 %vol with 30 mL of water come to 120 mL at 20.3 %vol.
TEST(Backwards, WaterInPlaceOfIce) {
  const BalanceSheet found = balanced(formula_of("\"30 mL spirit (40 %vol)\", \"30 mL spirit (25 %vol)\", \"30 mL spirit (16 %vol)\", \"10 mL water\""),
                                      {"'mix'.abv = 20.3 %"}, {"water"});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(after_g(found, "water"), 30.0, 0.5);
}

// Worked by hand from densities of sucrose solutions: 30 mL of syrup of 50 Brix hold 18.4 g of sugar, and so do 20.9 mL of 66.7 Brix with 9.2 mL of water
// (+-0.3).
TEST(Backwards, RichSyrupForSimple) {
  const BalanceSheet found = balanced(formula_of("\"10 mL syrup (66.7 brix)\", \"10 mL water\""), {"'mix'.sugars = 18.45 g", "'mix'.volume = 30 mL"});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(after_g(found, "syrup") / 1.326, 20.9, 0.3);  // a syrup of 66.7 Brix weighs 1.326 g/mL at 20 C (sucrose tables)
  EXPECT_NEAR(after_g(found, "water"), 9.2, 0.3);
}

// A published table: 32 g of citric and 20 g of malic acid a litre bring orange juice of 8 g/L to about 60 g/L of acid. For 180 mL: 5.76 g of citric
// beside 3.60 g of malic. As citric acid (malic counts 192.1/2 against 134.1/2... 1.075 by its two protons, citric by its three) that is 62 g in 186 mL; asked
// for, the citric comes back within the spread of juices.
TEST(Backwards, OrangeJuiceAtLimeStrength) {
  const std::string juice = formula_of("\"180 mL orange juice (0.8 % acid)\", \"2 g citric acid\", \"3.6 g malic acid\"");
  const std::string reached = formula_of("\"180 mL orange juice (0.8 % acid)\", \"5.76 g citric acid\", \"3.6 g malic acid\"");
  const sheet::Sheet worked = sheet_test::made(reached);
  const double g_l = worked.parts.at(0).values[matter::Property::titratable_acidity_g_l_citric];
  EXPECT_NEAR(g_l, 58.0, 3.0);  // the table's own sum after the volume has grown by 3 %: 58 g/L
  const BalanceSheet found = balanced(juice, {"'mix'.acidity_g_l = 58 g/L"}, {"citric acid"});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(after_g(found, "citric acid"), 5.76, 0.6);
}

// 30.00 for 750 mL: a pour of two US fluid ounces, 59.15 mL, costs 2.37; so that cost buys that pour.
TEST(Backwards, APourForItsPrice) {
  base::Sources sources;
  larder::Larder larder = larder::Larder::built_in().value();
  ASSERT_TRUE(larder
                  .add("priced.toml",
                       "[[thing]]\nname = \"priced spirit\"\nlike = \"spirit\"\npack_ml = 750\nprice = 30.0\ncurrency = \"USD\"\nsource = \"test\"\n", sources)
                  .has_value());
  const std::string text =
      "bloomset = 1\ntitle = \"Test\"\n[serve]\nvessel = \"low glass, 300 mL\"\npour = [ { take = [\"40 mL priced spirit (40 %vol)\"] } ]\n";
  const BalanceSheet found = balanced(text, {"serve.cost = 2.366"}, {"priced spirit"}, true, &larder);
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(after_g(found, "priced spirit") / 0.948, 59.15, 0.2);  // 40 %vol: 0.948 g/mL at 20 C (OIML R 22)
}

// A drink of spirit, orange liqueur and lime, 3 : 2 : 1 by volume, both spirits 40 %vol, six US fluid ounces (177.4 mL) a head: worked by hand 33 %vol and
// 46.7 g of alcohol, and shaken with 61 % of melt 286 mL at 20.7 %vol. Asked for these, the ounces and the melt come back: 3 x 29.57 mL, 2 x 29.57 mL, 1
// x 29.57 mL (0.948 g/mL at 40 %vol, OIML R 22), and 0.61 x 177.4 mL = 108 mL of water. One per cent: the hand sum lets volumes add.
TEST(Backwards, AHundredInATub) {
  const BalanceSheet undiluted =
      balanced(formula_of("\"60 mL spirit (40 %vol)\", \"40 mL spirit (40.0 %vol)\", \"40 mL lime juice\""), {"'mix'.ethanol = 46.7 g", "'mix'.abv = 33.3 %"});
  EXPECT_TRUE(undiluted.met);
  EXPECT_NEAR((undiluted.amounts.at(0).after_g + undiluted.amounts.at(1).after_g) / 0.948, 5 * 29.574, 1.5);
  EXPECT_NEAR(after_g(undiluted, "lime juice") / 1.03, 29.574, 1.0);  // juice of 8 Brix: 1.03 g/mL (sucrose tables)
  const BalanceSheet shaken = balanced(formula_of("\"88.7 mL spirit (40 %vol)\", \"59.1 mL spirit (40.0 %vol)\", \"29.6 mL lime juice\", \"60 mL water\""),
                                       {"'mix'.abv = 20.7 %"}, {"water"});
  EXPECT_TRUE(shaken.met);
  EXPECT_NEAR(after_g(shaken, "water"), 108.0, 3.0);
}

// Each set contradicts itself: by definition of a share, by matter that is not there, or by a floor that ice or melting cannot reach. What is said to conflict
// is irreducible: asked again without any one of them there is an answer.
TEST(Backwards, ImpossibleSetsAreNamedIrreducibly) {
  const std::string mix = formula_of("\"90 g water\", \"25 g sucrose\", \"20 g ethanol\", \"1 g citric acid\"");
  const std::vector<std::vector<std::string>> sets = {
      {"'mix'.sugar >= 40 %", "'mix'.sugar <= 30 %"},
      {"'mix'.mass <= 50 g", "'mix'.sugars >= 60 g"},
      {"'mix'.ethanol >= 150 g", "'mix'.mass <= 120 g", "'mix'.ph <= 5"},
      {"'mix'.abv >= 70 %", "'mix'.sugar >= 60 %"},
      {"'mix'.acidity <= 0.1 %", "'mix'.acidity_g_l >= 20 g/L"},
      {"'mix'.ph >= 6", "'mix'.acidity >= 1 %"},
      {"'mix'.freezing_point <= -20 C", "'mix'.abv <= 2 %", "'mix'.sugar <= 10 %", "'mix'.acidity <= 1 %"},
      {"'mix'.brix >= 60 %", "'mix'.water_activity >= 0.98"},
      {"'mix'.density >= 1200 kg/m3", "'mix'.sugar <= 5 %", "'mix'.mass >= 100 g"},
      {"'mix'.volume <= 30 mL", "'mix'.mass >= 200 g", "'mix'.sugar <= 90 %"},
  };
  for (const auto& set : sets) {
    const BalanceSheet found = balanced(mix, set);
    EXPECT_FALSE(found.met) << set.front();
    ASSERT_FALSE(found.conflict.empty()) << set.front();
    if (found.conflict.size() < 2) continue;  // one wish that is out of reach by itself: nothing to leave out
    for (const std::string& left_out : found.conflict) {
      std::vector<std::string> rest = found.conflict;
      std::erase(rest, left_out);
      EXPECT_TRUE(balanced(mix, rest).met) << set.front() << " without " << left_out;
    }
  }
}

}  // namespace
}  // namespace bloomset::solve
