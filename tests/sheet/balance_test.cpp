// The account closes: in = served + stays + lost + gas, for every demo and for random formulas; and the ribbons agree with it.
#include <cmath>
#include <map>

#include "../flow/random_plant.hpp"
#include "made.hpp"

namespace bloomset::sheet {
namespace {

using sheet_test::ahead;
using sheet_test::document;
using sheet_test::made;

double out_g(const Balance& b) { return b.served_g + b.stays_g + b.lost_g + b.gas_g; }

void expect_closed(const Sheet& sheet, const std::string& of) { EXPECT_NEAR(sheet.balance.in_g, out_g(sheet.balance), 1e-6) << of; }

// Every step's bar: what comes in leaves, into the next step, the serve, stays or lost. What a short part lacks comes as a take 0.
void expect_ribbons(const Sheet& sheet, const std::string& of) {
  std::map<std::string, double> in, out;
  std::set<std::string> ids;
  double takes_g = 0.0, served_g = 0.0, short_g = 0.0, lacked_g = 0.0;
  for (const Ribbon& ribbon : sheet.streams) {
    out[ribbon.from] += ribbon.mass_g;
    in[ribbon.to] += ribbon.mass_g;
    EXPECT_TRUE(ids.insert(ribbon.id).second) << of << ": " << ribbon.id;
    EXPECT_GT(ribbon.mass_g, 0.0);
    EXPECT_TRUE(std::isfinite(ribbon.temperature_c)) << of << ": " << ribbon.id;
    EXPECT_FALSE(ribbon.look.empty());
    if (ribbon.from.starts_with("take:") && ribbon.from.ends_with(".0")) lacked_g += ribbon.mass_g;
    if (ribbon.from.starts_with("take:")) takes_g += ribbon.mass_g;
    if (ribbon.to == "serve") served_g += ribbon.mass_g;
  }
  for (const PartSheet& part : sheet.parts) short_g += part.short_g;
  EXPECT_NEAR(takes_g, sheet.balance.in_g, 1e-6) << of;
  EXPECT_NEAR(served_g, sheet.balance.served_g, 1e-6) << of;
  EXPECT_NEAR(lacked_g, short_g, 1e-5) << of;
  EXPECT_NEAR(in["stays"], sheet.balance.stays_g, 1e-5) << of;
  EXPECT_GE(sheet.balance.stays_g, 0.0) << of;
  EXPECT_NEAR(in["lost"], sheet.balance.lost_g + sheet.balance.gas_g, 1e-6) << of;
  for (const auto& [place, grams] : in)
    if (place.starts_with("step:")) {
      EXPECT_NEAR(out[place], grams, 1e-5) << of << ": " << place;
    }
}

TEST(Balance, ClosesOverEveryDemo) {
  ASSERT_GE(sheet_test::demos().size(), 8U);
  for (const auto& path : sheet_test::demos()) {
    const Sheet sheet = sheet_test::demo(path);
    EXPECT_GT(sheet.balance.in_g, 100.0) << path;
    expect_closed(sheet, path.string());
    expect_ribbons(sheet, path.string());
  }
}

TEST(Balance, ClosesOverRandomFormulas) {
  flow_test::PlantMaker maker(4711);
  for (int n = 0; n < 150; ++n) {
    const auto plant = maker.make();
    const std::string text = formula::write(plant.formula);
    base::Sources sources;
    auto formula = formula::read("random.toml", text, sources, [&](const std::string&) { return std::optional(plant.borrowed); });
    ASSERT_TRUE(formula.has_value()) << sheet_test::shown(formula.error(), sources);
    const auto sheet = make_sheet({*formula, sheet_test::house().larder, sheet_test::house().kit, std::nullopt, text});
    ASSERT_TRUE(sheet.has_value()) << sheet_test::shown(sheet.error(), sources) << text;
    expect_closed(*sheet, text);
    expect_ribbons(*sheet, text);
    if (::testing::Test::HasFailure()) return;
  }
}

// 300 g made, three serves of 60 g: 120 g stay. By hand.
TEST(Balance, LeftOversStay) {
  const Sheet sheet = made(document(ahead("base", "{ do = \"combine\", take = [\"300 g water\"] }"), "{ take = [\"60 g 'base'\"] }", 3));
  EXPECT_NEAR(sheet.balance.in_g, 300.0, 1e-9);
  EXPECT_NEAR(sheet.balance.served_g, 180.0, 1e-9);
  EXPECT_NEAR(sheet.balance.stays_g, 120.0, 1e-9);
  EXPECT_NEAR(sheet.parts[0].left_over_g, 120.0, 1e-9);
  EXPECT_NEAR(sheet.parts[0].used_per_serve_g, 60.0, 1e-9);
}

// 100 g made, three serves of 60 g: 80 g have to come from somewhere, and nothing stays. By hand.
TEST(Balance, WhatAShortBatchLacksIsBroughtIn) {
  const Sheet sheet = made(document(ahead("base", "{ do = \"combine\", take = [\"100 g water\"] }"), "{ take = [\"60 g 'base'\"] }", 3));
  EXPECT_NEAR(sheet.balance.in_g, 180.0, 1e-9);
  EXPECT_NEAR(sheet.balance.served_g, 180.0, 1e-9);
  EXPECT_NEAR(sheet.balance.stays_g, 0.0, 1e-9);
  EXPECT_NEAR(sheet.parts[0].short_g, 80.0, 1e-9);
  expect_closed(sheet, "short");
  expect_ribbons(sheet, "short");
}

// A part left as pieces: two solids of one part are both drawn and both counted.
TEST(Balance, APartOfSeveralSolidsIsDrawnWhole) {
  const Sheet sheet = made(document(ahead("nest", "{ do = \"combine\", take = [\"2 piece cardamom pod\", \"1 piece mint sprig\", \"50 g water\"] }"),
                                    "{ take = [\"all 'nest'\"] }"));
  EXPECT_NEAR(sheet.parts[0].left_over_g, 0.0, 1e-9);
  EXPECT_NEAR(sheet.balance.served_g, sheet.balance.in_g, 1e-9);
}

TEST(Balance, TheRestOfAPartOfSeveralSolidsIsWhatIsLeftOfIt) {
  const Sheet sheet = made(document(ahead("nest", "{ do = \"combine\", take = [\"2 piece cardamom pod\", \"1 piece mint sprig\", \"50 g water\"] }"),
                                    "{ take = [\"20 g 'nest'\"] }, { take = [\"rest 'nest'\"] }"));
  EXPECT_NEAR(sheet.parts[0].left_over_g, 0.0, 1e-9);
  EXPECT_NEAR(sheet.parts[0].short_g, 0.0, 1e-9);
}

TEST(Balance, GasThatLeavesIsBooked) {
  const Sheet sheet = made(document("", "{ take = [\"100 g ice cubes\"] }, { do = \"top\", take = [\"100 mL soda water\"] }"));
  EXPECT_GT(sheet.balance.gas_g, 0.01);
  EXPECT_LT(sheet.balance.gas_g, 1.0);
  expect_closed(sheet, "soda");
}

}  // namespace
}  // namespace bloomset::sheet
