// Problems that cooks and bartenders bring, worked out by hand elsewhere: strength, dilution, freezer, syrups, acid,
// clarified juice, ounces. Each expected number stands with its inputs and where it comes from. Volumes of spirits add
// up less than by hand (contraction), so hand-worked strengths lie up to 0.4 % of their value below the engine's.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/ice.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;
using matter::Property;

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};
const House& house() {
  static const House one;
  return one;
}

struct Made {
  matter::Values values;
  matter::State state;
  double operator[](Property p) const { return values[p]; }
};

// The first part of a document whose only part does these steps.
Made made(const std::string& steps, const std::string& head = "") {
  const std::string text =
      "bloomset = 1\ntitle = \"Problem\"\nserves = 1\n" + head + "\n[[part]]\nname = \"mix\"\nmade = \"ahead\"\nstep = [ " + steps + " ]\n";
  base::Sources sources;
  auto formula = formula::read("problem.toml", text, sources, [](const std::string&) { return std::nullopt; });
  EXPECT_TRUE(formula.has_value()) << text << (formula ? "" : base::render(formula.error().diagnostics, sources));
  if (!formula) return {};
  auto sheet = compile(*formula, house().larder, house().kit);
  EXPECT_TRUE(sheet.has_value()) << text << (sheet ? "" : base::render(sheet.error().diagnostics, sources));
  if (!sheet) return {};
  Batch<1> batch(*sheet);
  run<1>(*sheet, sheet->nominal, batch);
  Made out;
  out.state = state_at(batch, sheet->parts[0].liquid, sheet->parts[0].ice);
  out.values = matter::read_all(out.state);
  return out;
}
Made combined(const std::string& takes, const std::string& head = "") { return made("{ do = \"combine\", take = [" + takes + "] }", head); }

// Gelatin shots. 85 g of sweetened jelly powder (nearly all sugar), 240 mL of water, 240 mL at 40 %: about 530 mL at 18 %vol (within 1).
// 577 mL of spirit and 100 mL of water instead: about 32 %vol. Arithmetic of volumes with sucrose at 0.62 mL/g.
TEST(Strength, OfASetShotIsOfAllThatIsInIt) {
  const Made first = combined("\"85 g sucrose\", \"240 mL water\", \"240 mL spirit (40 %vol)\"");
  EXPECT_NEAR(first[Property::volume_20c_ml], 530.0, 10.0);
  EXPECT_NEAR(first[Property::abv_percent], 18.0, 1.0);
  const Made second = combined("\"85 g sucrose\", \"100 mL water\", \"577 mL spirit (40 %vol)\"");
  EXPECT_NEAR(second[Property::abv_percent], 32.0, 1.0);
}

// An egg white sour: 60 mL at 45 %, 22 mL lemon, 15 mL syrup, 15 mL white: about 24 %vol before ice, 15 to 16 after. Arithmetic of volumes;
// after ice by what shaking usually adds.
TEST(Strength, OfAnEggWhiteSourBeforeAndAfterIce) {
  const std::string takes = "\"60 mL spirit (45 %vol)\", \"22 mL lemon juice\", \"15 mL syrup (50 brix)\", \"15 mL egg white (pasteurised)\"";
  EXPECT_NEAR(combined(takes)[Property::abv_percent], 24.0, 0.5);
  const Made shaken = made("{ do = \"shake\", take = [" + takes + "], ice = \"200 g ice cubes\", leave = [\"ice\"], time = \"10-14 s\" }");
  EXPECT_GT(shaken[Property::abv_percent], 14.5);
  EXPECT_LT(shaken[Property::abv_percent], 16.5);
}

// Two weighed drinks (a published kitchen trial): 70 g at 40 %vol and 22.8 C, stirred to 86 g at 3.4 C, shaken to 116 g at -1.7 C.
// By mass balance 32.9 and 24.6 %vol (within 0.5); the trial's hydrometer said 30 and 22.5, which its own weights rule out.
TEST(Dilution, StrengthFollowsFromTheWeights) {
  EXPECT_NEAR(combined("\"70 g spirit (40 %vol)\", \"16 g water\"")[Property::abv_percent], 32.9, 0.5);
  EXPECT_NEAR(combined("\"70 g spirit (40 %vol)\", \"46 g water\"")[Property::abv_percent], 24.6, 0.5);
}

// The same drinks: heat alone melts 16 to 19 g (stirred) and 20 to 25 g (shaken) of dry ice at 0 C, to the whole gram; what the shaken one gained
// beyond is water on the ice, the shaker and work. Of the engine's melt about 2 g come from the heat of mixing, which a sum of specific heats lacks.
TEST(Dilution, HeatAloneExplainsTheStirAndHalfTheShake) {
  const auto spirit = combined("{ take = \"70 g spirit (40 %vol)\", at = \"22.8 C\" }");
  matter::IceContact contact;
  contact.liquid = spirit.state.liquid;
  contact.liquid_enthalpy_j = spirit.state.enthalpy_j;
  contact.ice_kg = 0.350;
  const double stirred_g = matter::melt_to(contact, 3.4).melted_kg * 1e3;
  const double shaken_g = matter::melt_to(contact, -1.7).melted_kg * 1e3;
  contact.leftover = matter::LeftoverIce::follows;
  const double shaken_all_g = matter::melt_to(contact, -1.7).melted_kg * 1e3;
  std::printf("heat alone melts: stirred %.1f g, shaken %.1f g, %.1f g if the ice left follows\n", stirred_g, shaken_g, shaken_all_g);
  EXPECT_GT(stirred_g, 15.5);
  EXPECT_LT(stirred_g, 19.5);
  EXPECT_GT(shaken_g, 19.5);
  EXPECT_LT(shaken_g, 25.5);
}

// Equal parts of 30 mL at 40, 25 and 16 %, for fifty, poured with water and without ice. Base 90 mL at 27.0 %vol; with 30 mL of water 20.3;
// a quarter of the base (22.5 mL) 21.6; a fifth (18 mL) 22.5. 19.2 g of ethanol. Arithmetic of volumes.
TEST(Dilution, WaterInsteadOfIceSaysWhatItsPercentageIsOf) {
  const std::string base = "\"30 mL spirit (40 %vol)\", \"30 mL spirit (25 %vol)\", \"30 mL spirit (16 %vol)\"";
  EXPECT_NEAR(combined(base)[Property::abv_percent], 27.0, 0.2);
  const Made full = combined(base + ", \"30 mL water\"");
  EXPECT_NEAR(full[Property::abv_percent], 20.3, 0.15);
  EXPECT_NEAR(full[Property::ethanol_g], 19.2, 0.1);
  EXPECT_NEAR(combined(base + ", \"22.5 mL water\"")[Property::abv_percent], 21.6, 0.15);
  EXPECT_NEAR(combined(base + ", \"18 mL water\"")[Property::abv_percent], 22.5, 0.15);
  // What a stir adds rests on a remembered regression of a bar-science book (39 % of the base: 35 mL, 30 to 38); printed, not judged.
  const Made stirred = made("{ do = \"stir\", take = [" + base + "], ice = \"250 g ice cubes (3 % wet)\", leave = [\"ice\"], time = \"30-40 s\" }");
  std::printf("equal parts at 27 %%vol: regression (memory) adds 35 mL of water; stirred 35 s here: %.1f mL\n",
              stirred[Property::volume_20c_ml] - combined(base)[Property::volume_20c_ml]);
}

// 3 : 2 : 1 of US fluid ounces, both spirits at 40 %: 177 mL at 33 %vol and 46.7 g of ethanol a drink. Arithmetic of volumes.
TEST(Dilution, ATubForAHundredIsThreeDrinksEach) {
  const std::string takes = "\"3 fl oz spirit (40 %vol)\", \"2 fl oz spirit (40 %vol)\", \"1 fl oz lime juice\"";
  const Made one = combined(takes, "measures = \"us\"");
  EXPECT_NEAR(one[Property::volume_20c_ml], 177.0, 1.5);
  EXPECT_NEAR(one[Property::abv_percent], 33.0, 0.5);
  EXPECT_NEAR(one[Property::ethanol_g], 46.7, 0.2);
  // Shaken dilution by a remembered regression of a bar-science book: 61 %, so 20.7 %vol in 286 mL; printed, not judged.
  const Made shaken = made("{ do = \"shake\", take = [" + takes + "], ice = \"400 g ice cubes\", leave = [\"ice\"], time = \"10-14 s\" }", "measures = \"us\"");
  std::printf("3:2:1 shaken: regression (memory) 20.7 %%vol in 286 mL; here %.1f %%vol in %.0f mL\n", shaken[Property::abv_percent],
              shaken[Property::volume_20c_ml]);
}

double ice_percent(const Made& frozen, double whole_g) { return frozen[Property::ice_g] / whole_g * 100.0; }

// A bottle of 2 : 1 : 1 spirit 40 %, fortified wine taken as 18 %vol without sugar, and water, at -18 C: 24.5 %vol, first ice at -10.4 C (within 1),
// 31 % ice by weight (within 6), worked from an antifreeze table of the CRC Handbook (24.8 %vol -10.6 C, 29.5 -14.0, 32.4 -16.0, 36.1 -18.9).
// The same worked answer gives -16 C and 7 % ice without the water (32.7 %vol) and 38 % ice at 22 %vol. Newer tables lie up to 1.4 K lower: the
// CRC Handbook's Concentrative Properties (26 mass % -16.41 C, 30 % -20.47) and Melinder 2010 (26 % -16.58, 36 % -25.88) put 27.0 mass %, which is
// 32.7 %vol, at -17.4 C, and the liquid beside ice at -18 C at 27.6 mass %: by the lever 2 % ice. Those are judged here, and both are printed.
TEST(Freezer, ABatchOfTwoOneOneIsSlushAndNotLiquid) {
  const std::string takes = "\"200 mL spirit (40 %vol)\", \"100 mL spirit (18 %vol)\", \"100 mL water\"";
  const Made mixed = combined(takes);
  EXPECT_NEAR(mixed[Property::abv_percent], 24.5, 0.3);
  EXPECT_NEAR(mixed[Property::freezing_point_c], -10.4, 1.0);
  const auto at_minus_18 = [](const std::string& what) {
    return made("{ do = \"combine\", take = [" + what + "] }, { do = \"rest\", at = \"-18 C\", time = \"12 h\" }");
  };
  EXPECT_NEAR(ice_percent(at_minus_18(takes), mixed[Property::mass_g]), 31.0, 6.0);

  const std::string undiluted = "\"200 mL spirit (40 %vol)\", \"100 mL spirit (18 %vol)\"";
  EXPECT_NEAR(combined(undiluted)[Property::abv_percent], 32.7, 0.3);
  EXPECT_NEAR(combined(undiluted)[Property::freezing_point_c], -17.4, 0.3);
  EXPECT_NEAR(ice_percent(at_minus_18(undiluted), combined(undiluted)[Property::mass_g]), 2.1, 1.0);

  const std::string weak = "\"400 mL spirit (22 %vol)\"";
  EXPECT_NEAR(ice_percent(at_minus_18(weak), combined(weak)[Property::mass_g]), 38.0, 6.0);
  EXPECT_NEAR(ice_percent(at_minus_18("\"400 mL spirit (36 %vol)\""), 380.0), 0.0, 0.5);
  std::printf("2:1:1 at -18 C: %.1f %% ice (antifreeze table: 31), first ice %.1f C (-10.4); undiluted %.1f %% (7); 22 %%vol %.1f %% (38)\n",
              ice_percent(at_minus_18(takes), mixed[Property::mass_g]), mixed[Property::freezing_point_c],
              ice_percent(at_minus_18(undiluted), combined(undiluted)[Property::mass_g]), ice_percent(at_minus_18(weak), combined(weak)[Property::mass_g]));
}

// One ounce of 1:1 syrup into 2:1. 50 and 66.7 brix hold 0.615 and 0.884 g of sugar a mL (ICUMSA densities 1.2296 and 1.327 g/mL at 20 C), ratio 1.44;
// 30 mL of the first is 20.9 mL of the second and 9.2 mL of water (within 0.3).
TEST(Syrups, RichSyrupAndWaterReplaceSimpleSyrup) {
  const Made simple = combined("\"30 mL syrup (50 brix)\""), rich = combined("\"30 mL syrup (66.7 brix)\"");
  const double simple_g_ml = simple[Property::sugars_g] / simple[Property::volume_20c_ml], rich_g_ml = rich[Property::sugars_g] / rich[Property::volume_20c_ml];
  EXPECT_NEAR(simple_g_ml, 0.615, 0.001);
  EXPECT_NEAR(rich_g_ml, 0.884, 0.0015);
  EXPECT_NEAR(rich_g_ml / simple_g_ml, 1.44, 0.005);
  const Made replaced = combined("\"20.9 mL syrup (66.7 brix)\", \"9.2 mL water\"");
  EXPECT_NEAR(replaced[Property::volume_20c_ml], 30.0, 0.3);
  EXPECT_NEAR(replaced[Property::sugars_g], simple[Property::sugars_g], 0.3 * 0.884);
}

// Orange juice of 8 g/L raised with 32 g of citric and 20 g of malic acid a litre: 60 g of acid in a litre that has grown by about 3 %, so 58 g/L.
// In 180 mL that is 5.76 + 3.60 g. Arithmetic; by titration, as the 8 g/L of the juice are meant (what of its acids is a salt does not count).
TEST(Acid, OrangeJuiceAtTheStrengthOfLime) {
  const Made juice = combined("\"180 mL orange juice (0.8 % acid)\""),
             raised = combined("\"180 mL orange juice (0.8 % acid)\", \"5.76 g citric acid\", \"3.60 g malic acid\"");
  const double growth = raised[Property::volume_20c_ml] / juice[Property::volume_20c_ml] - 1.0;
  EXPECT_NEAR(growth, 0.03, 0.006);
  std::printf("raised orange juice: volume grows by %.1f %%, titratable %.1f g/L as citric\n", growth * 100.0, raised[Property::titratable_acidity_g_l_citric]);
  EXPECT_NEAR(raised[Property::titratable_acidity_g_l_citric], 58.0, 1.5);
}

// Lime juice clarified with agar: 100 g of water at 98 C poured on 200 g of juice at 20 C lands at 46 C, at least 45; on 400 g at 35.6 C, which sets
// too soon; on 400 g warmed to 32 C at 45 C. By equal specific heats; juice holds about 6 % less heat than water, which is worth up to 1.5 K here.
TEST(Clarified, TheBlendLandsWhereTheHeatSays) {
  const auto lands = [](const std::string& grams, const std::string& juice_c) {
    return combined("{ take = \"100 g water\", at = \"98 C\" }, { take = \"" + grams + " g lime juice\", at = \"" + juice_c +
                    " C\" }")[Property::temperature_c];
  };
  EXPECT_NEAR(lands("200", "20"), 46.0, 1.5);
  EXPECT_GT(lands("200", "20"), 45.0);
  EXPECT_NEAR(lands("400", "20"), 35.6, 1.5);
  EXPECT_NEAR(lands("400", "32"), 45.0, 1.5);
}

// The same juice: a third of the blend is water, so 60 g/L of acid become 40; 0.2 % of 300 g is 0.6 g of agar, not the printed 6 g.
TEST(Clarified, TheWaterThinsTheAcidByAThird) {
  const Made juice = combined("\"200 g lime juice\""), blend = combined("\"200 g lime juice\", \"100 g water\"");
  EXPECT_NEAR(blend[Property::titratable_acidity_g_l_citric] / juice[Property::titratable_acidity_g_l_citric], 40.0 / 60.0, 0.015);
  const Made dosed = combined("\"200 g lime juice\", \"100 g water\", \"0.2 % agar\"");
  EXPECT_NEAR(dosed.state.liquid[Component::agar] * 1e3, 0.6, 0.6 * 0.15);  // agar as bought holds some water
}

// An ounce is a weight, a fluid ounce a volume: 8 oz is 227 g; 8 US fl oz of syrup of 66.7 brix weigh 314 g, 11.1 oz; a US fluid ounce of water weighs 29.5 g,
// 4 % more than an ounce. NIST Handbook 44 and ICUMSA.
TEST(Ounces, WeighAndMeasure) {
  const std::string us = "measures = \"us\"";
  EXPECT_NEAR(combined("\"8 oz water\"", us)[Property::mass_g], 226.8, 0.05);
  const double syrup_g = combined("\"8 fl oz syrup (66.7 brix)\"", us)[Property::mass_g];
  EXPECT_NEAR(syrup_g, 314.0, 0.5);
  EXPECT_NEAR(syrup_g / 28.349523125, 11.1, 0.05);
  EXPECT_NEAR(combined("\"1 fl oz water\"", us)[Property::mass_g], 29.5, 0.05);
}

// Common practice (published shaking trials, web articles 2009-2010): ten to fifteen seconds of hard shaking come within 2 C of the floor, and longer is no
// colder.
TEST(Shaking, TenToFifteenSecondsComeNearTheFloor) {
  const auto shaken = [](const std::string& time) {
    return made(
        "{ do = \"shake\", take = [\"60 mL spirit (40 %vol)\", \"25 mL lemon juice\", \"25 mL syrup (50 brix)\"], ice = \"200 g ice cubes\", time = \"" + time +
        "\", leave = [\"ice\"] }")[Property::temperature_c];
  };
  const double floor_c = shaken("10 min");
  EXPECT_LE(shaken("10 s"), floor_c + 2.0);
  EXPECT_LE(shaken("15 s"), shaken("10 s"));
  EXPECT_GT(shaken("3 s"), floor_c + 2.0);
}

}  // namespace
}  // namespace bloomset::flow
