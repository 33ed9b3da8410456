// How long a batch takes to come down, what a time that is written does not do, and the published times of cooling.
#include <cmath>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using sheet_test::ahead;
using sheet_test::all_findings;
using sheet_test::document;
using sheet_test::found;
using sheet_test::made;

// Half a litre of a foam's base, lukewarm, and how it is made cold.
std::string foam_base(const std::string& cold) {
  return document(ahead("base",
                        "{ do = \"combine\", take = [\"350 g orange juice\", \"145 g cream\"] }, { do = \"bloom\", take = [\"1.2 % gelatin, gold leaf\"], in = "
                        "\"cold water\" }, { do = \"warm\", to = \"25 C\" }, " +
                            cold),
                  "{ take = [\"100 g 'base'\"] }");
}
double last_seconds(const Sheet& sheet) { return sheet.parts.at(0).steps.back().seconds; }
double hours_of(const std::string& cold) { return last_seconds(made(foam_base(cold))) / 3600.0; }
std::string warm_milk(const std::string& grams, const std::string& cold) {
  return document(ahead("custard", "{ do = \"warm\", take = [\"" + grams + " g milk\"], to = \"80 C\" }, " + cold), "{ take = [\"100 g 'custard'\"] }");
}
std::size_t count(const Sheet& sheet, Code code) {
  return static_cast<std::size_t>(std::count_if(sheet.findings.begin(), sheet.findings.end(), [&](const base::Finding& f) { return f.code == code; }));
}

// Common practice, no source: a gelatin foam's base, half a litre, wants two to three hours in the fridge from lukewarm: until it is at 10 C, where leaf is
// tested.
TEST(Cooling, AFoamBaseWantsTwoToThreeHoursFromLukewarm) {
  const double hours = hours_of("{ do = \"chill\", to = \"10 C\", in = \"still fridge\" }");
  EXPECT_GE(hours, 2.0);
  EXPECT_LE(hours, 3.0);
}

// Common practice, no source: cooling to 8 C is at least three times quicker in an ice bath than in the still fridge.
TEST(Cooling, AnIceBathIsAtLeastThreeTimesQuickerThanTheFridge) {
  EXPECT_GE(hours_of("{ do = \"chill\", to = \"8 C\", in = \"still fridge\" }"), 3.0 * hours_of("{ do = \"chill\", to = \"8 C\", in = \"ice bath\" }"));
}

// By hand, with the lumped law t = m c / (h A) ln[(T0 - Ta)/(T1 - Ta)]: 500 g water, c 4186 J/(kg K) (25 C, IAPWS-95 prints 4.181 to 4.22 from 25 to 0 C:
// within 1 %), V 0.5 L so A = 5.54 * 0.0005^(2/3) = 0.0349 m2, h 7.5 W/(m2 K) (data/matter/cooling.csv), from 25 C to 8 C in 5 C: 15 214 s. c varies by 1 %
// over the range.
TEST(Cooling, WaterAgreesWithTheLawWorkedOutByHand) {
  const Sheet sheet =
      made(document(ahead("cold",
                          "{ do = \"combine\", take = [{ take = \"500 g water\", at = \"25 C\" }] }, { do = \"chill\", to = \"8 C\", in = \"still "
                          "fridge\" }"),
                    "{ take = [\"100 g 'cold'\"] }"));
  const double by_hand_s = 0.5 * 4186.0 / (7.5 * 5.54 * std::pow(0.0005, 2.0 / 3.0)) * std::log((25.0 - 5.0) / (8.0 - 5.0));
  EXPECT_NEAR(last_seconds(sheet), by_hand_s, 0.015 * by_hand_s);
}

// Freezing gives up the heat of fusion, 334 J/g, as much as 80 K of cooling: from 5 C to a block takes many times what 5 K take.
TEST(Cooling, FreezingTakesTheHeatOfFusion) {
  const auto seconds = [](const std::string& steps) {
    return last_seconds(
        made(document(ahead("cold", "{ do = \"combine\", take = [{ take = \"500 g water\", at = \"5 C\" }] }, " + steps), "{ take = [\"100 g 'cold'\"] }")));
  };
  const double to_zero = seconds("{ do = \"chill\", to = \"0.5 C\", in = \"freezer\" }"),
               to_block = seconds("{ do = \"freeze\", to = \"-5 C\", in = \"freezer\" }");
  EXPECT_GT(to_block, 10.0 * to_zero);
}

TEST(Cooling, ATimeThatIsWrittenStandsAndOneThatIsNotIsWorkedOut) {
  EXPECT_EQ(hours_of("{ do = \"chill\", to = \"8 C\", in = \"still fridge\", time = \"5 h\" }"), 5.0);
  const Sheet open = made(foam_base("{ do = \"chill\", to = \"8 C\", in = \"ice bath\" }"));
  EXPECT_GT(open.parts.at(0).ready_after_h * 3600.0, last_seconds(open));
  EXPECT_NE(all_findings(open).find("as wide as it is high"), std::string::npos) << "the shape that is taken for granted is said";
}

TEST(Cooling, APlaceThatIsTooWarmIsSaidToBe) {
  const Sheet sheet = made(foam_base("{ do = \"chill\", to = \"2 C\", in = \"still fridge\", time = \"12 h\" }"));
  const base::Finding* said = found(sheet, Code::cooling_too_slow);
  ASSERT_NE(said, nullptr) << all_findings(sheet);
  EXPECT_NE(said->says.find("never brings it to 2 C"), std::string::npos) << said->says;
}

// A gel of gelatin that has 20 minutes in the fridge from 50 C is warmer than it sets at (15 C; gelatin sets at 10 to 20 C by every maker's leaf, practice).
TEST(Cooling, WhatIsStillWarmHasNotSet) {
  const auto set_for = [](const std::string& time) {
    return made(
        document(ahead("jelly",
                       "{ do = \"warm\", take = [\"500 g orange juice\", \"10 g gelatin, gold leaf\"], to = \"50 C\" }, { do = \"set\", in = \"still fridge\", "
                       "time = \"" +
                           time + "\" }, { do = \"unmould\" }"),
                 "{ take = [\"100 g 'jelly'\"] }"));
  };
  const Sheet soon = set_for("20 min"), later = set_for("24 h");
  EXPECT_NE(found(soon, Code::will_not_set), nullptr) << all_findings(soon);
  EXPECT_EQ(found(later, Code::will_not_set), nullptr) << all_findings(later);
}

// US FDA Food Code, 3-501.14(A): from 57 C to 21 C within 2 h and to 5 C within 6 h in all. A litre in a still fridge misses the first:
// 165 min by the lumped law at h 10 W/(m2 K) already. In an ice bath it does not.
TEST(Cooling, ALitreInAStillFridgeMissesThePublishedTimes) {
  const Sheet fridge = made(warm_milk("1000", "{ do = \"rest\", in = \"still fridge\", time = \"12 h\" }"));
  const Sheet bath = made(warm_milk("1000", "{ do = \"chill\", in = \"ice bath\", to = \"4 C\" }, { do = \"rest\", in = \"fan fridge\", time = \"12 h\" }"));
  const base::Finding* said = found(fridge, Code::cooling_too_slow);
  ASSERT_NE(said, nullptr) << all_findings(fridge);
  EXPECT_EQ(said->source, "US FDA Food Code, 3-501.14");
  EXPECT_EQ(said->weight, base::Weight::mind);
  EXPECT_EQ(count(fridge, Code::cooling_too_slow), 2U) << "both limits: " << all_findings(fridge);
  EXPECT_EQ(found(bath, Code::cooling_too_slow), nullptr) << all_findings(bath);
}

// The rule is for food that calls for control: lemon juice of pH 2.4 does not.
TEST(Cooling, AcidFoodIsNotHeldAgainstThem) {
  const Sheet sheet = made(
      document(ahead("sour", "{ do = \"warm\", take = [\"1000 g lemon juice\"], to = \"80 C\" }, { do = \"rest\", in = \"still fridge\", time = \"12 h\" }"),
               "{ take = [\"100 g 'sour'\"] }"));
  EXPECT_EQ(found(sheet, Code::cooling_too_slow), nullptr) << all_findings(sheet);
}

// 3-501.14(B): what is mixed at room temperature is to be at 5 C within 4 h. By hand, lumped law, c 3.9 kJ/(kg K): a litre in still air of 5 C is within 1 K of
// it after 1.03 * 3900 / (7.5 * 0.0554) s * ln(20) = 8.0 h; 100 g in moving air of 3 C are at 5 C after 390 / (16 * 0.0117) s * ln(11) = 1.4 h.
TEST(Cooling, WhatIsMixedWarmHasFourHours) {
  const auto mixed = [](const std::string& grams, const std::string& place) {
    return made(document(ahead("base", "{ do = \"combine\", take = [{ take = \"" + grams + " g milk\", at = \"25 C\" }] }, { do = \"rest\", in = \"" + place +
                                           "\", time = \"1 d\" }"),
                         "{ take = [\"20 g 'base'\"] }"));
  };
  EXPECT_NE(found(mixed("1030", "still fridge"), Code::cooling_too_slow), nullptr) << all_findings(mixed("1030", "still fridge"));
  EXPECT_EQ(found(mixed("100", "fan fridge"), Code::cooling_too_slow), nullptr) << all_findings(mixed("100", "fan fridge"));
}

}  // namespace
}  // namespace bloomset::sheet
