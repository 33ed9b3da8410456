// Steps that part a stream or put it under gas: a share worked on apart, outputs of a part, spheres, clarifying, carbonating.
#include <gtest/gtest.h>

#include "flow/compile.hpp"
#include "flow/foam.hpp"
#include "flow/run.hpp"
#include "gas/real_gas.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};

base::Result<Flowsheet> compiled(const std::string& text, base::Sources& sources) {
  static const House house;
  auto formula = formula::read("test.toml", "bloomset = 1\ntitle = \"Test\"\n" + text, sources, {});
  EXPECT_TRUE(formula.has_value()) << (formula ? "" : base::render(formula.error().diagnostics, sources)) << text;
  return compile(formula.value(), house.larder, house.kit);
}

struct Made {
  Flowsheet sheet;
  Batch<1> batch;
  explicit Made(Flowsheet s) : sheet(std::move(s)), batch(sheet) { run<1>(sheet, sheet.nominal, batch); }
  const Stream& at(Port p) const { return batch.port(p); }
  const Stream& part(std::size_t p) const { return batch.port(sheet.parts[p].liquid); }
  double celsius(Port p) const { return matter::thermal_state(at(p).mass, at(p).enthalpy_j).t_c; }
  double lost_kg(Fate fate) const {
    double kg = 0.0;
    for (const LossInfo& loss : sheet.losses)
      if (loss.fate == fate) kg += at(loss.port).mass.total_kg();
    return kg;
  }
};

Made made(const std::string& text) {
  base::Sources sources;
  auto sheet = compiled(text, sources);
  EXPECT_TRUE(sheet.has_value()) << (sheet ? "" : base::render(sheet.error().diagnostics, sources));
  return Made(std::move(sheet.value()));
}

// The first fault's code.
std::string refused(const std::string& text) {
  base::Sources sources;
  const auto sheet = compiled(text, sources);
  return sheet.has_value() ? "" : sheet.error().diagnostics.front().code;
}

std::string part(const std::string& name, const std::string& steps) {
  return "[[part]]\nname = \"" + name + "\"\nmade = \"ahead\"\nstep = [ " + steps + " ]\n";
}

// Worked by hand: a third of 300 g of water at 20 C brought to 80 C and poured back gives (2 x 20 + 80)/3 = 40 C; water's heat capacity changes by 0.5 % over
// that.
TEST(Split, WorksOnAShareThatComesBack) {
  const Made m = made(part("w",
                           "{ do = \"combine\", take = [{ take = \"300 g water\", at = \"20 C\" }] }, "
                           "{ do = \"warm\", to = \"80 C\", split = \"third\", loss = \"0 %\" }"));
  const StepInfo& warm = m.sheet.steps.back();
  EXPECT_NEAR(m.celsius(warm.worked), 80.0, 1e-6);
  EXPECT_NEAR(m.celsius(warm.liquid), 40.0, 0.2);
  EXPECT_NEAR(m.part(0).mass.total_kg() + m.lost_kg(Fate::sticks) + m.lost_kg(Fate::evaporates), 0.3, 1e-12);
}

TEST(Split, NeedsSomethingToSplit) {
  EXPECT_EQ(refused(part("w", "{ do = \"warm\", take = [\"300 g water\"], to = \"80 C\", split = \"third\" }")), "nothing_to_split");
}

const std::string milk_punch =
    part("punch",
         "{ do = \"combine\", take = [\"150 g whole milk\"] }, { do = \"combine\", take = [\"300 g water\", \"150 g cane spirit (40 %vol)\", \"60 g lemon "
         "juice\"] }, { do = \"clarify\", by = \"milk\", out = { clear = \"80 %\", curd = \"rest\" } }");

// The shares are of what goes in; four fifths of milk protein is casein (milk protein handbooks, 76 to 82 %), and the curd holds nearly all of it.
TEST(Clarify, PartsClearFromCurd) {
  const Made m = made(milk_punch);
  const double in_kg = 0.66;
  EXPECT_NEAR(m.part(0).mass.total_kg(), 0.8 * in_kg, 1e-12);
  ASSERT_EQ(m.sheet.parts[0].outputs.size(), 2U);
  const Stream& curd = m.at(m.sheet.parts[0].outputs[1].liquid);
  EXPECT_NEAR(curd.mass.total_kg(), 0.2 * in_kg, 1e-12);
  const double protein = curd.mass[Component::protein] + m.part(0).mass[Component::protein];
  EXPECT_GT(curd.mass[Component::protein] / protein, 0.76);
  EXPECT_GT(curd.mass[Component::fat], 0.9 * (curd.mass[Component::fat] + m.part(0).mass[Component::fat]));
  // What is dissolved goes with the liquid: as strong on both sides, but for what the curd's solids displace.
  EXPECT_NEAR(curd.mass[Component::ethanol] / curd.mass[Component::water], m.part(0).mass[Component::ethanol] / m.part(0).mass[Component::water], 1e-12);
}

TEST(Outputs, AreTakenByName) {
  const Made m = made(milk_punch + part("cheese", "{ do = \"combine\", take = [\"30 g 'punch/curd'\", \"100 g 'punch/clear'\"] }"));
  EXPECT_NEAR(m.part(1).mass.total_kg(), 0.130, 1e-12);
  EXPECT_GT(m.part(1).mass[Component::fat], 5.0 * m.part(0).mass[Component::fat] * 0.1 / m.part(0).mass.total_kg());
  EXPECT_EQ(refused(milk_punch + part("x", "{ do = \"combine\", take = [\"30 g 'punch'\"] }")), "unknown_output");
  EXPECT_EQ(refused(milk_punch + part("x", "{ do = \"combine\", take = [\"30 g 'punch/whey'\"] }")), "unknown_output");
  EXPECT_EQ(refused(part("w", "{ do = \"combine\", take = [\"30 g water\"] }") + part("x", "{ do = \"combine\", take = [\"3 g 'w/clear'\"] }")),
            "unknown_output");
  EXPECT_EQ(refused(milk_punch + part("x", "{ do = \"combine\", take = [\"all 'punch/clear'\", \"5 g 'punch/clear'\"] }")), "more_than_all");
}

TEST(Sphere, TakesUpSomeOfItsBath) {
  const std::string base = part("bath", "{ do = \"combine\", take = [\"1 kg water\", \"6 g calcium chloride\"] }");
  const Made m = made(base + part("pearls",
                                  "{ do = \"combine\", take = [\"300 g water\", \"1.8 g alginate\"] }, "
                                  "{ do = \"sphere\", bath = { in = \"1 kg 'bath'\", takes_up = \"4 %\" }, size = \"10 mm\" }"));
  EXPECT_NEAR(m.part(1).mass.total_kg(), 0.3018 * 1.04, 1e-12);
  EXPECT_GT(m.part(1).mass[Component::calcium], 0.0);
  EXPECT_NEAR(m.lost_kg(Fate::stays), 1.0 - 0.3018 * 0.04, 1e-12);
  EXPECT_EQ(refused(part("x", "{ do = \"sphere\", take = [\"300 g water\"] }")), "no_bath");
}

double volumes(const Made& m, std::size_t p) {
  const Stream& drink = m.part(p);
  const double litres = 1e3 * matter::liquid_volume(drink.mass, units::celsius(m.celsius(m.sheet.parts[p].liquid))).si;
  return 1e3 * gas::normal_molar_volume_m3_mol(gas::Gas::carbon_dioxide) * drink.mass[Component::carbon_dioxide] / 0.0440095 / litres;
}

// Weiss 1974, worked by hand for water at 2 C under 1.5 bar gauge: K0 0.0717 mol/(kg atm) x 2.47 atm x 0.98 (fugacity) x 22.26 L/mol = 3.87.
TEST(Carbonate, HoldsWhatTheRegulatorDrivesIn) {
  const std::string cold = "{ do = \"combine\", take = [\"900 g water\"] }, { do = \"chill\", to = \"2 C\", in = \"ice bath\" }, ";
  const Made m =
      made(part("soda", cold + "{ do = \"carbonate\", vessel = \"bottle, 1 L\", pressure = \"1.5 bar\" }, { do = \"rest\", at = \"2 C\", time = \"12 h\" }"));
  EXPECT_NEAR(volumes(m, 0), 3.87, 0.08);
  EXPECT_TRUE(m.sheet.parts[0].fizzy);
  const Made flat = made(part("soda", cold + "{ do = \"carbonate\", pressure = \"1.5 bar\" }, { do = \"degas\" }"));
  EXPECT_LT(volumes(flat, 0), 0.1);
  EXPECT_EQ(refused(part("soda", cold + "{ do = \"carbonate\" }")), "one_source_of_gas");
  EXPECT_EQ(refused(part("soda", cold + "{ do = \"carbonate\", pressure = \"1.5 bar\", charges = 1 }")), "one_source_of_gas");
  EXPECT_EQ(refused(part("soda", cold + "{ do = \"carbonate\", pressure = \"1.5 bar\", gas = \"N2O\" }")), "wrong_gas");
}

// A charger gives all it has: dissolved and above the drink are 8 g; and more chargers give more fizz, less than twice as much.
TEST(Carbonate, SharesAChargerBetweenDrinkAndHeadSpace) {
  const auto soda = [](int charges) {
    return made(part(
        "soda", "{ do = \"combine\", take = [\"900 g water\"] }, { do = \"charge\", gas = \"CO2\", vessel = \"siphon, one litre\", at = \"4 C\", charges = " +
                    std::to_string(charges) + " }"));
  };
  const Made one = soda(1), two = soda(2);
  EXPECT_NEAR(one.part(0).mass[Component::carbon_dioxide] + one.lost_kg(Fate::gas), 0.008, 1e-9);
  EXPECT_GT(volumes(two, 0), 1.8 * volumes(one, 0));
  EXPECT_LT(volumes(two, 0), 2.0 * volumes(one, 0));
  EXPECT_FALSE(one.sheet.parts[0].charge.has_value());
}

const std::string cloud = part("cloud",
                               "{ do = \"combine\", take = [\"300 g orange juice\"] }, { do = \"bloom\", take = [\"1.1 % gelatin, gold leaf\"] }, "
                               "{ do = \"warm\", to = \"50 C\" }, { do = \"chill\", to = \"5 C\", in = \"ice bath\" }, "
                               "{ do = \"charge\", vessel = \"siphon, half litre\", charges = 1 }");
std::string served(const std::string& take) {
  return "[serve]\nvessel = \"tall glass, 400 mL\"\npour = [ { do = \"dispense\", take = [\"" + take + "\"] } ]\n";
}

// Foam over base is one more than the overrun, by the definition of overrun.
TEST(Draw, TakesAVolumeAsFoamOrAsBase) {
  const Made foam = made(cloud + served("60 mL 'cloud' as foam")), base = made(cloud + served("60 mL 'cloud' as base"));
  const double ratio = foam.at(foam.sheet.draws[0].liquid).mass.total_kg() / base.at(base.sheet.draws[0].liquid).mass.total_kg();
  EXPECT_NEAR(1.0 / ratio, 1.0 + standing_overrun(foam.sheet, foam.batch, 0), 1e-9);
  EXPECT_GT(1.0 / ratio, 2.0);
  EXPECT_EQ(refused(cloud + served("60 mL 'cloud'")), "foam_by_volume");
}

// Vented before it is used: the gas drove the liquid into the fruit, and nothing foams.
TEST(Charge, LetOutAgainIsNoFoam) {
  EXPECT_EQ(
      refused(part("base",
                   "{ do = \"combine\", take = [\"300 g water\"] }, { do = \"charge\", vessel = \"siphon, half litre\", charges = 1 }, { do = \"degas\" }") +
              served("20 g 'base'")),
      "nothing_to_dispense");
}

}  // namespace
}  // namespace bloomset::flow
