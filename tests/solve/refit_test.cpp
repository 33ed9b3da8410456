// The same drink with other things: amounts worked by hand, the document kept, and what cannot be.
#include "solve/refit.hpp"

#include <gtest/gtest.h>

#include "solve/asked.hpp"

namespace bloomset::solve {
namespace {

using solve_test::formula_of;

struct Question {
  base::Sources words, sources;
  formula::Formula formula;
  std::string text;
  std::vector<Swap> swaps;
  bool exact = true;
};

base::Result<BalanceSheet> ask(const std::string& text, const std::vector<std::pair<std::string, std::string>>& swaps, bool exact = true) {
  const auto borrower = [](const std::string& file) { return std::optional(sheet_test::text_of(BLOOMSET_SOURCE_DIR "/demo/" + file)); };
  base::Sources words, sources;
  const auto formula = formula::read("test.toml", text, sources, borrower);
  EXPECT_TRUE(formula.has_value()) << text;
  std::vector<Swap> all;
  for (const auto& [from, to] : swaps) {
    const std::uint32_t first = words.add("--swap", from);
    all.push_back({first, words.add("--swap", to)});
  }
  return refit({{*formula, sheet_test::house().larder, sheet_test::house().kit, {}, text}, "test.toml", text, borrower, words, all, exact});
}

BalanceSheet refitted(const std::string& text, const std::vector<std::pair<std::string, std::string>>& swaps, bool exact = true) {
  auto made = ask(text, swaps, exact);
  EXPECT_TRUE(made.has_value()) << (made || made.error().diagnostics.empty() ? (made ? "" : made.error().message) : made.error().diagnostics.front().message);
  return made ? std::move(*made) : BalanceSheet{};
}

std::string refused(const std::string& text, const std::string& from, const std::string& to) {
  const auto made = ask(text, {{from, to}});
  if (made) return "";
  return made.error().diagnostics.empty() ? made.error().message : made.error().diagnostics.front().code;
}

const AmountLine& line(const BalanceSheet& sheet, const std::string& thing) {
  for (const AmountLine& one : sheet.amounts)
    if (one.thing.starts_with(thing)) return one;
  ADD_FAILURE() << "no " << thing;
  static const AmountLine none;
  return none;
}

// Worked by hand from densities of sucrose solutions: 30 mL of 50 Brix are 20.9 mL of 66.7 Brix (1.326 g/mL) and 9.2 mL of water, +-0.3.
TEST(Refit, RichSyrupAndWaterForSimple) {
  const BalanceSheet found = refitted(formula_of("\"60 mL spirit (40 %vol)\", \"30 mL syrup (50 brix)\""), {{"syrup (50 brix)", "syrup (66.7 brix)"}});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(line(found, "syrup").after_g / 1.326, 20.9, 0.3);
  EXPECT_NEAR(line(found, "water").after_g, 9.2, 0.3);
  EXPECT_NEAR(line(found, "syrup").before_g, 30.0 * 1.2296, 0.1);  // 50 Brix: 1.2296 g/mL at 20 C (sucrose tables)
  EXPECT_EQ(line(found, "syrup").before, "30 mL");
}

// 60 mL of 40 %vol weigh 56.9 g; 48 mL of 50 %vol hold as much ethanol and weigh 44.6 g (OIML R 22: 0.9480 and 0.9301 g/mL at 20 C): 12.2 g of water are
// missing.
TEST(Refit, AStrongerSpiritNeedsWater) {
  const BalanceSheet found = refitted(formula_of("\"60 mL spirit (40 %vol)\", \"20 mL lime juice\""), {{"spirit (40 %vol)", "spirit (50 %vol)"}});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(line(found, "spirit").after_g / 0.9301, 48.0, 0.5);
  EXPECT_NEAR(line(found, "water").after_g, 12.2, 0.6);
  for (const WishLine& wish : found.targets) EXPECT_NEAR(wish.target.value, wish.before, same_within * wish.before + 1e-9) << wish.target.target;
}

// An acid is a share of its juice: of a juice of half the acid (3 % and 6 %) it takes twice as much, where the drink holds water to give way.
TEST(Refit, AMilderJuiceTakesMoreOfIt) {
  const BalanceSheet found =
      refitted(formula_of("\"20 mL lemon juice (6 % acid)\", \"100 mL water\", \"15 g white sugar\""), {{"lemon juice (6 % acid)", "lemon juice (3 % acid)"}});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(line(found, "lemon juice").after_g / line(found, "lemon juice").before_g, 2.0, 0.06);
}

// Square root of the Bloom ratio (gelatin manufacturers' handbook, from memory): three leaves of 2 g at 200 Bloom are 6 (200/225)^0.5 = 5.66 g of powder.
TEST(Refit, GelatinByTheHousesRules) {
  const std::string text = formula_of("\"500 g water\", \"3 piece gelatin, gold leaf\"");
  const BalanceSheet found = refitted(text, {{"gelatin, gold leaf", "gelatin, powder (225 bloom)"}});
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(line(found, "gelatin, powder").after_g, 5.66, 0.02);
  EXPECT_NE(found.formula.find("g gelatin, powder (225 bloom)\""), std::string::npos) << found.formula;
  const BalanceSheet leaf = refitted(text, {{"gelatin, gold leaf", "gelatin, bronze leaf"}});
  EXPECT_EQ(line(leaf, "gelatin, bronze leaf").after, "3 piece");  // leaf for leaf: grades are made so (common practice)
  const BalanceSheet share =
      refitted(formula_of("\"500 g water\", \"1.2 % gelatin, powder (200 bloom)\""), {{"gelatin, powder (200 bloom)", "gelatin, powder (250 bloom)"}});
  EXPECT_NEAR(line(share, "gelatin").after_g / line(share, "gelatin").before_g, 0.894, 0.001);  // (200/250)^0.5
}

TEST(Refit, AnotherBottleIsFilledToItsLine) {
  const std::string text = sheet_test::text_of(BLOOMSET_SOURCE_DIR "/demo/08-harbour-light.toml");
  const BalanceSheet found = refitted(text, {{"siphon, half litre", "siphon, one litre"}}, false);
  EXPECT_NE(found.formula.find("vessel  = \"siphon, one litre\""), std::string::npos);
  EXPECT_TRUE(found.formula.starts_with("# Invented"));
  std::string faults;
  const auto sheet = sheet_test::try_make(found.formula, {}, nullptr, &faults, BLOOMSET_SOURCE_DIR "/demo");
  ASSERT_TRUE(sheet.has_value()) << faults;
  const auto original = sheet_test::demo(BLOOMSET_SOURCE_DIR "/demo/08-harbour-light.toml");
  const auto &is = *sheet->parts.at(0).siphon, &was = *original.parts.at(0).siphon;
  EXPECT_NEAR(is.fill_fraction, 1.0, 0.02);  // the kit's line is 1.0 L; pieces and steps of a scale
  EXPECT_GT(is.charges, was.charges);
  EXPECT_NEAR(is.overrun_mean / was.overrun_mean, 1.0, 0.25);  // whole chargers
}

TEST(Refit, TheDocumentKeepsItsCommentsAndTablesAndNamesWhatIsLeft) {
  const std::string text = "# ours\n" + formula_of("{ take = \"60 mL spirit (40 %vol)\", at = \"4 C\" }, \"20 mL lime juice\"");
  const BalanceSheet found = refitted(text, {{"spirit (40 %vol)", "spirit (50 %vol)"}}, false);
  EXPECT_TRUE(found.met);
  EXPECT_TRUE(found.formula.starts_with("# ours\n"));
  EXPECT_NE(found.formula.find("mL water\", { take = \""), std::string::npos) << found.formula;
  EXPECT_NE(found.formula.find("spirit (50 %vol)\", at = \"4 C\" }"), std::string::npos) << found.formula;
  const BalanceSheet pods = refitted(
      "bloomset = 1\ntitle = \"Test\"\n[[part]]\nname = \"tea\"\nmade = \"ahead\"\nstep = [ { do = \"infuse\", take = [\"200 g water\", \"4 piece "
      "cardamom pod\"], at = \"70 C\", time = \"10 min\" }, { do = \"strain\", leave = [\"cardamom pod\"] } ]\n",
      {{"cardamom pod", "star anise"}});
  EXPECT_NE(pods.formula.find("leave = [\"star anise\"]"), std::string::npos) << pods.formula;
}

// 20 mL of juice at 6 % hold some 1.2 g of acid (juice of 8 Brix weighs 1.03 g/mL): so much of the dry acid, in grams. Ice is ice: as much of another kind.
TEST(Refit, DryThingsAreWeighedAndIceStays) {
  const BalanceSheet acid =
      refitted(formula_of("\"20 mL lemon juice (6 % acid)\", \"100 mL water\", \"15 g white sugar\""), {{"lemon juice (6 % acid)", "citric acid"}}, false);
  EXPECT_NEAR(line(acid, "citric acid").after_g, 0.06 * 20 * 1.03, 0.1);
  EXPECT_TRUE(line(acid, "citric acid").after.ends_with(" g")) << line(acid, "citric acid").after;
  const BalanceSheet ice = refitted(sheet_test::document("", "{ take = [\"140 g ice cubes\", \"60 mL spirit (40 %vol)\"] }"), {{"ice cubes", "crushed ice"}});
  EXPECT_EQ(line(ice, "crushed ice").after, "140 g");
}

// No water to take away: strength cannot come back from 50 to 40 %vol. As much ethanol goes in, 90 x 50 / 40 mL, and what is missed is told.
TEST(Refit, WhatCannotBeMetIsToldSo) {
  const BalanceSheet weak = refitted(formula_of("\"90 mL spirit (50 %vol)\", \"20 mL lime juice\""), {{"spirit (50 %vol)", "spirit (40 %vol)"}});
  EXPECT_FALSE(weak.met);
  EXPECT_NEAR(line(weak, "spirit").after_g / 0.948, 112.5, 0.3);
  int missed = 0;
  for (const WishLine& wish : weak.targets) missed += wish.target.missed();
  EXPECT_EQ(missed, 4);  // 45/110 and 45/132.5 mL, the acid of 20 mL likewise
}

TEST(Refit, RefusesWhatIsNotThere) {
  const std::string text = formula_of("\"60 mL spirit (40 %vol)\", \"2 piece gelatin, gold leaf\"");
  EXPECT_EQ(refused(text, "plum wine", "spirit (50 %vol)"), "unknown_thing");
  EXPECT_EQ(refused(text, "spirit (40 %vol)", "'house syrup'"), "unknown_part");
  EXPECT_EQ(refused(text, "spirit (40 %vol)", "spirit (400 %vol)"), "too_large");
  EXPECT_EQ(refused(text, "gelatin, gold leaf", "white sugar"), "unknown_agent");
  const std::string harbour = sheet_test::text_of(BLOOMSET_SOURCE_DIR "/demo/08-harbour-light.toml");
  EXPECT_EQ(refused(harbour, "siphon, half litre", "bucket"), "unknown_vessel");
  EXPECT_EQ(refused(harbour, "siphon, half litre", "pan, 2 L"), "no_siphon");
  EXPECT_EQ(refused(harbour, "white sugar", "demerara sugar"), "unknown_thing");  // it is in a borrowed file
  EXPECT_EQ(refused(formula_of("\"100 g water\", \"2 g agar\""), "agar", "xanthan"), "no_gelatin");
  const auto twice = ask(text, {{"spirit (40 %vol)", "spirit (50 %vol)"}, {"spirit (40 %vol)", "water"}});
  ASSERT_FALSE(twice.has_value());
  EXPECT_EQ(twice.error().diagnostics.front().code, "swapped_twice");
}

}  // namespace
}  // namespace bloomset::solve
