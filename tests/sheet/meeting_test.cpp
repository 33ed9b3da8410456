// Where liquids meet, pairwise in the written order: what cooks know of strings, curd and layers. All of it common practice, no source.
#include "made.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using sheet_test::ahead;
using sheet_test::all_findings;
using sheet_test::document;
using sheet_test::found;
using sheet_test::made;

std::string pours(const std::string& list) { return document("", list); }
std::string hot(const std::string& take, const std::string& at) { return "{ take = \"" + take + "\", at = \"" + at + " C\" }"; }
std::string gelatin_then(const std::string& steps) {
  return document(ahead("base", "{ do = \"warm\", take = [\"100 g water\", \"4 g gelatin, gold leaf\"], to = \"50 C\" }, " + steps),
                  "{ take = [\"100 g 'base'\"] }");
}

// Common practice, no source: gelatin lands above 25 C or it strings; what is warmed through again is smooth.
TEST(Meeting, StringsThatAreWarmedAgainAreNotSaid) {
  const std::string cold = "{ do = \"combine\", take = [\"400 g orange juice\"] }";
  const Sheet strings = made(gelatin_then(cold)), warmed = made(gelatin_then(cold + ", { do = \"warm\", to = \"45 C\" }"));
  const base::Finding* said = found(strings, Code::strings_on_landing);
  ASSERT_NE(said, nullptr) << all_findings(strings);
  EXPECT_EQ(said->weight, base::Weight::stop) << "it lands below 20 C";
  EXPECT_EQ(said->where.part, "base");
  EXPECT_EQ(said->where.step, 2);
  EXPECT_EQ(said->where.take, 1);
  EXPECT_EQ(found(warmed, Code::strings_on_landing), nullptr) << all_findings(warmed);
}

// 100 g at 50 C and 4 times 100 g at 4 C, poured one by one: the second meeting is the one that is too cold.
TEST(Meeting, TheSecondOfTwoColdTakesIsTheOneNamed) {
  const Sheet sheet = made(gelatin_then("{ do = \"combine\", take = [\"60 g orange juice\", \"340 g water\"] }"));
  const base::Finding* said = found(sheet, Code::strings_on_landing);
  ASSERT_NE(said, nullptr) << all_findings(sheet);
  EXPECT_EQ(said->where.take, 2);
}

// Common practice, no source: bloomed leaf is not dissolved, so cold liquid onto it strings nothing.
TEST(Meeting, BloomedGelatinDoesNotString) {
  const Sheet sheet =
      made(document(ahead("base",
                          "{ do = \"bloom\", take = [\"4 g gelatin, gold leaf\"], in = \"cold water\" }, { do = \"combine\", take = [\"400 g orange "
                          "juice\"] }, { do = \"warm\", to = \"50 C\" }"),
                    "{ take = [\"100 g 'base'\"] }"));
  EXPECT_EQ(found(sheet, Code::strings_on_landing), nullptr) << all_findings(sheet);
}

// Common practice, no source: fresh milk or cream does not curdle in coffee or tea, hot or cold, nor with spirit; it does with lemon.
TEST(Meeting, MilkCurdlesInLemonAndNotInCoffee) {
  for (const std::string& fine :
       {"{ take = [" + hot("150 g coffee", "85") + ", \"20 g cream\"] }", "{ take = [" + hot("150 g coffee", "70") + ", \"50 g milk\"] }",
        "{ take = [" + hot("40 g espresso", "80") + ", " + hot("120 g milk", "60") + "] }", "{ take = [" + hot("200 g black tea", "75") + ", \"30 g milk\"] }",
        std::string("{ take = [\"45 mL spirit (40 %vol)\", \"20 mL coffee liqueur (20 %vol, 300 g/L sugar)\", \"30 g cream\"] }")}) {
    const Sheet sheet = made(pours(fine));
    EXPECT_EQ(found(sheet, Code::curdles), nullptr) << fine << "\n" << all_findings(sheet);
  }
  EXPECT_NE(found(made(pours("{ take = [\"100 g milk\"] }, { take = [\"20 g lime juice\"] }")), Code::curdles), nullptr);
}

TEST(Meeting, WhatCameCurdledIsNotSaidToCurdle) {
  EXPECT_EQ(found(made(pours("{ take = [\"100 g yoghurt\", \"30 g lemon juice\"] }")), Code::curdles), nullptr);
}

TEST(Meeting, WhereAPartIsClarifiedByMilkItIsMeantToCurdle) {
  const std::string punch = "{ do = \"combine\", take = [\"100 g spirit (40 %vol)\", \"50 g lemon juice\"] }, ";
  const Sheet clarified =
      made(document(ahead("punch", punch + "{ do = \"clarify\", by = \"milk\", take = [\"60 g milk\"] }"), "{ take = [\"100 g 'punch'\"] }"));
  const Sheet mixed = made(document(ahead("punch", punch + "{ do = \"combine\", take = [\"60 g milk\"] }"), "{ take = [\"100 g 'punch'\"] }"));
  EXPECT_EQ(found(clarified, Code::curdles), nullptr) << all_findings(clarified);
  EXPECT_NE(found(mixed, Code::curdles), nullptr) << all_findings(mixed);
}

// Milk is followed through a part of its own into the glass; whey protein of no dairy is none of it.
TEST(Meeting, MilkIsFollowedThroughAPart) {
  const std::string lemon = "{ take = [\"50 g 'base'\", \"30 g lemon juice\"] }";
  const Sheet milk = made(document(ahead("base", "{ do = \"combine\", take = [\"100 g milk\", \"50 g water\"] }"), lemon));
  const Sheet egg = made(document(ahead("base", "{ do = \"combine\", take = [\"100 g egg white (pasteurised)\", \"50 g water\"] }"), lemon));
  EXPECT_NE(found(milk, Code::curdles), nullptr) << all_findings(milk);
  EXPECT_EQ(found(egg, Code::curdles), nullptr) << all_findings(egg);
}

// Common practice, no source: a layered drink is built from the heaviest up. Each is held against what lies right under it.
TEST(Meeting, LayersLieFromTheHeaviestUp) {
  const auto built = [](const std::string& first, const std::string& second, const std::string& third) {
    return made(pours("{ take = [\"" + first + "\"] }, { do = \"layer\", take = [\"" + second + "\"] }, { do = \"layer\", take = [\"" + third + "\"] }"));
  };
  const std::string syrup = "20 g coffee liqueur (20 %vol, 300 g/L sugar)", juice = "20 g orange juice", spirit = "20 mL spirit (40 %vol)";
  EXPECT_EQ(found(built(syrup, juice, spirit), Code::sinks_or_floats), nullptr) << all_findings(built(syrup, juice, spirit));
  const Sheet wrong = built(syrup, spirit, juice);
  const base::Finding* said = found(wrong, Code::sinks_or_floats);
  ASSERT_NE(said, nullptr) << all_findings(wrong);
  EXPECT_EQ(said->where.step, 3) << "juice is lighter than the liqueur, and heavier than the spirit that lies under it";
}

}  // namespace
}  // namespace bloomset::sheet
