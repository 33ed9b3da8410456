// What the sheet says of spheres, of clarifying and of a drink under gas: each saying with a formula that raises it and a near miss.
#include <gtest/gtest.h>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;

Sheet made_of(const std::string& text) { return sheet_test::made("bloomset = 1\ntitle = \"Test\"\n" + text); }

std::string part(const std::string& name, const std::string& steps) {
  return "[[part]]\nname = \"" + name + "\"\nmade = \"ahead\"\nstep = [ " + steps + " ]\n";
}
bool raises(const std::string& text, Code code) {
  const Sheet sheet = made_of(text);
  return std::any_of(sheet.findings.begin(), sheet.findings.end(), [&](const base::Finding& f) { return f.code == code; });
}

std::string pearls(const std::string& juice, const std::string& alginate) {
  return part("bath", "{ do = \"combine\", take = [\"1 kg water\", \"6 g calcium chloride\"] }") +
         part("pearls",
              "{ do = \"combine\", take = [\"300 g " + juice + "\", \"" + alginate + " g alginate\"] }, { do = \"sphere\", bath = { in = \"1 kg 'bath'\" } }");
}

// Common practice, no source: direct spheres fail below pH 4 (lemon juice stands at 2 to 2.6: USDA and FDA tables), and 0.6 % of alginate in water holds.
TEST(Spheres, NeedAMildDropAndEnoughAlginate) {
  EXPECT_TRUE(raises(pearls("lemon juice", "1.8"), Code::too_acid));
  EXPECT_FALSE(raises(pearls("water", "1.8"), Code::too_acid));
  EXPECT_TRUE(raises(pearls("water", "0.3"), Code::sets_soft));
  EXPECT_FALSE(raises(pearls("water", "1.8"), Code::sets_soft));
}

std::string punch(const std::string& sour) {
  return part("punch", "{ do = \"combine\", take = [\"150 g whole milk\"] }, { do = \"combine\", take = [\"300 g water\", \"" + sour +
                           "\"] }, { do = \"clarify\", by = \"milk\", out = { clear = \"80 %\", curd = \"rest\" } }");
}

// Casein comes out near its isoelectric point, pH 4.6 (milk protein handbooks); without acid milk stands near 6.7.
TEST(Clarifying, WithMilkNeedsAcid) {
  EXPECT_FALSE(raises(punch("60 g lemon juice"), Code::will_not_set));
  EXPECT_TRUE(raises(punch("60 g water"), Code::will_not_set));
}

TEST(Clarifying, WithAgarNeedsAgar) {
  const auto raft = [](const std::string& agar) {
    return part("clear", "{ do = \"boil\", take = [\"440 g apple juice\"" + agar +
                             "], time = \"3 min\" }, { do = \"set\", in = \"ice bath\" }, { do = \"clarify\", by = \"agar\" }");
  };
  EXPECT_TRUE(raises(raft(""), Code::will_not_set));
  EXPECT_FALSE(raises(raft(", \"0.9 g agar\""), Code::will_not_set));
}

// The built-in bottle is stated for 5 bar on the gauge.
TEST(Carbonating, StaysBelowTheBottlesPressure) {
  const auto soda = [](const std::string& pressure) {
    return part("soda",
                "{ do = \"combine\", take = [\"900 g water\"] }, { do = \"chill\", to = \"2 C\", in = \"ice bath\" }, { do = \"carbonate\", vessel = \"bottle, "
                "1 L\", pressure = \"" +
                    pressure + "\" }");
  };
  EXPECT_TRUE(raises(soda("5.5 bar"), Code::over_pressure));
  EXPECT_FALSE(raises(soda("1.5 bar"), Code::over_pressure));
  EXPECT_TRUE(raises(soda("1.5 bar"), Code::gas_caution));
  EXPECT_TRUE(raises(soda("1.5 bar"), Code::pressure_if_warm));
}

// More of the curd than there is: the account stays closed, and the sheet says so.
TEST(Outputs, TakenBeyondWhatIsThereAreShort) {
  const auto cheese = [](const std::string& grams) {
    return punch("60 g lemon juice") + part("cheese", "{ do = \"combine\", take = [\"" + grams + " g 'punch/curd'\", \"10 g 'punch/clear'\"] }");
  };
  EXPECT_TRUE(raises(cheese("200"), Code::short_of));
  EXPECT_FALSE(raises(cheese("50"), Code::short_of));
  for (const char* grams : {"200", "50"}) {
    const Balance b = made_of(cheese(grams)).balance;
    EXPECT_NEAR(b.in_g, b.served_g + b.stays_g + b.lost_g + b.gas_g, 1e-9 * b.in_g);
  }
}

}  // namespace
}  // namespace bloomset::sheet
