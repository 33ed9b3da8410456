// Siphons, foam on a drink, and the glass over time, from a formula to its flowsheet.
#include "flow/foam.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "flow/compile.hpp"
#include "matter/freezing.hpp"
#include "text/document.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

struct Made {
  Flowsheet sheet;
  Batch<1> batch;
  explicit Made(Flowsheet s) : sheet(std::move(s)), batch(sheet) { run<1>(sheet, sheet.nominal, batch); }
};

Made made(const std::string& text) {
  static const larder::Larder larder = larder::Larder::built_in().value();
  static const kit::Kit kit = kit::Kit::built_in().value();
  base::Sources sources;
  auto formula = formula::read("test.toml", "bloomset = 1\ntitle = \"Test\"\n" + text, sources, {});
  EXPECT_TRUE(formula.has_value()) << text;
  auto sheet = compile(formula.value(), larder, kit);
  EXPECT_TRUE(sheet.has_value()) << (sheet ? "" : base::render(sheet.error().diagnostics, sources));
  return Made(std::move(sheet.value()));
}

// So much water in a siphon, charged at a temperature and kept there.
std::string bottle(const std::string& vessel, const std::string& water, const std::string& at, int charges, const std::string& later = "") {
  return "[[part]]\nname = \"cloud\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [\"" + water + " water\"] }, { do = \"chill\", to = \"" + at +
         "\", in = \"ice bath\" }, { do = \"charge\", vessel = \"" + vessel + "\", charges = " + std::to_string(charges) + " }" + later + " ]\n";
}
SiphonReading read(const std::string& text) {
  const Made m = made(text);
  return read_siphon(m.sheet, m.batch, 0);
}

// Balance of real gas over water (Weiss and Price 1980), worked out apart from this program: gross 0.75 L with 0.50 L of water, closed with air at 20 C.
TEST(Siphon, StandsAtThePressureOfTheGasBalance) {
  for (const auto& [charges, bar] : {std::pair{1, 5.1}, {2, 10.5}, {3, 16.0}})
    EXPECT_NEAR(units::in_bar_gauge(read(bottle("siphon, half litre", "500 g", "4 C", charges)).at_service), bar, 0.04 * bar) << charges;
  EXPECT_NEAR(units::in_bar_gauge(read(bottle("siphon, half litre", "500 g", "4 C", 2, ", { do = \"rest\", at = \"20 C\", time = \"2 h\" }")).at_service), 15.1,
              0.04 * 15.1);
}

// Common practice, no source: two charges in half a litre and four in one litre are alike, three in the litre are about a fifth short.
TEST(Siphon, TakesChargesByTheLitre) {
  const auto per_litre = [](const std::string& vessel, const std::string& water, int charges) {
    const SiphonReading r = read(bottle(vessel, water, "4 C", charges));
    return r.dissolved.si / r.liquid.si;
  };
  const double half = per_litre("siphon, half litre", "500 g", 2);
  EXPECT_NEAR(per_litre("siphon, one litre", "1000 g", 4) / half, 1.0, 0.1);
  EXPECT_NEAR(per_litre("siphon, one litre", "1000 g", 3) / half, 0.8, 0.08);
}

TEST(Siphon, RemembersItsPeakAndGainsByWarming) {
  const SiphonReading kept = read(bottle("siphon, half litre", "400 g", "4 C", 1));
  const SiphonReading warmed = read(
      bottle("siphon, half litre", "400 g", "4 C", 1, ", { do = \"rest\", at = \"50 C\", time = \"1 h\" }, { do = \"rest\", at = \"4 C\", time = \"4 h\" }"));
  EXPECT_GT(warmed.peak.si, kept.peak.si * 1.2);
  EXPECT_NEAR(warmed.at_service.si, kept.at_service.si, 1e-3 * kept.at_service.si);
  EXPECT_GT(kept.overrun_first, kept.overrun_mean);
  EXPECT_GT(kept.overrun_mean, kept.overrun_last);
}

const std::string cloud_on_water =
    "[[part]]\nname = \"cloud\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [\"300 g orange juice\"] }, { do = \"bloom\", take = "
    "[\"1.1 % gelatin, gold leaf\"], in = \"cold water\" }, { do = \"warm\", to = \"50 C\" }, { do = \"chill\", to = \"8 C\", in = \"ice bath\" }, "
    "{ do = \"charge\", vessel = \"siphon, half litre\", charges = 1 } ]\n[serve]\nvessel = \"tall glass, 400 mL\"\npour = [ { take = [\"200 g water\", \"100 "
    "g ice "
    "cubes\"] }, { do = \"dispense\", take = [\"20 g 'cloud'\"] } ]\n";

TEST(Dispense, LaysFoamOnTheDrinkWhichDrainsIntoItAndNothingIsLost) {
  const Made m = made(cloud_on_water);
  ASSERT_EQ(m.sheet.foams.size(), 1U);
  ASSERT_EQ(m.sheet.moments.size(), 5U);  // service, 2, 5, 10, 20 min
  double foam_before = 1.0, whole = 0.0;
  for (const Moment& at : m.sheet.moments) {
    const double foam = m.batch.port(at.foams[0]).mass.total_kg(), ice = m.batch.port(at.ice).mass.total_kg();
    const double all = m.batch.port(at.liquid).mass.total_kg() + ice + foam;
    if (whole == 0.0) whole = all;
    EXPECT_NEAR(all, whole, 1e-12) << at.minute;
    EXPECT_LT(foam, foam_before) << at.minute;
    foam_before = foam;
  }
  EXPECT_NEAR(whole, 0.320, 1e-9);
}

// The agent blooms apart: five to six parts of cold water come in with it and stay (a gelatin maker's leaf; common practice).
TEST(Bloom, BringsTheWaterThatStays) {
  const Made m = made(cloud_on_water);
  double gelatin = 0.0, water = 0.0;
  for (const TakeInfo& take : m.sheet.takes) {
    if (take.agent) gelatin = m.batch.port(take.liquid).mass.total_kg();
    if (take.label == "blooming water") water = m.batch.port(take.liquid).mass.total_kg();
  }
  EXPECT_NEAR(gelatin, 0.011 * 0.300, 1e-12);
  EXPECT_GE(water / gelatin, 4.5);
  EXPECT_LE(water / gelatin, 6.5);
}

// A drink that is left ends at the room's temperature, with no ice.
TEST(Glass, ReachesTheRoom) {
  const Made m = made(
      "targets = [\"serve.mass at 1440 min >= 1 g\"]\n[serve]\nvessel = \"tall glass, 400 mL\"\npour = [ { take = [\"200 g water\", \"50 g ice cubes\"] } ]\n");
  const Moment& last = m.sheet.moments.back();
  EXPECT_EQ(last.minute, 1440.0);
  EXPECT_LT(m.batch.port(last.ice).mass.total_kg(), 1e-6);
  const Stream& drink = m.batch.port(last.liquid);
  EXPECT_NEAR(matter::thermal_state(drink.mass, drink.enthalpy_j).t_c, 20.0, 0.1);
}

// Moist air warms a cold glass faster than dry air, by its dew: at 0 C in a room of 20 C and 50 % some 40 W/m2 beside 200 W/m2 (psychrometric constant of FAO
// Irrigation and Drainage Paper 56, half of the film through the air). A double wall keeps it colder.
TEST(Glass, FeelsTheRoomsMoistureAndItsOwnWall) {
  const auto after_twenty = [](const std::string& kit_text) {
    static const larder::Larder larder = larder::Larder::built_in().value();
    kit::Kit kit = kit::Kit::built_in().value();
    base::Sources sources;
    EXPECT_TRUE(kit.add("kit.toml", kit_text, sources).has_value());
    auto formula = formula::read(
        "test.toml", "bloomset = 1\ntitle = \"Test\"\n[serve]\nvessel = \"beaker\"\npour = [ { take = [{ take = \"200 g water\", at = \"0 C\" }] } ]\n",
        sources, {});
    auto sheet = compile(formula.value(), larder, kit);
    const Made m(std::move(sheet.value()));
    const Stream& drink = m.batch.port(m.sheet.moments.back().liquid);
    return matter::thermal_state(drink.mass, drink.enthalpy_j).t_c;
  };
  const std::string glass = "[[vessel]]\nname = \"beaker\"\nkind = \"glass\"\nbrim_ml = 250\nsource = \"test\"\n";
  const double dry = after_twenty("room_humidity_percent = 0\n" + glass), usual = after_twenty(glass),
               wet = after_twenty("room_humidity_percent = 90\n" + glass);
  EXPECT_GT(usual, dry);
  EXPECT_GT(wet, usual);
  EXPECT_LT((usual - dry) / dry, 0.25);
  EXPECT_LT(after_twenty(glass + "film_w_m2_k = 3\n"), 0.5 * usual);
}

}  // namespace
}  // namespace bloomset::flow
