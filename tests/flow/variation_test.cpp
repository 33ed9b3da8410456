// What scatters: every number has a width and a source, a flowsheet that may vary runs as it did, and things bought depart as their property says.
#include "flow/variation.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "flow/vary.hpp"
#include "matter/acidity.hpp"
#include "random_plant.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};
const House& house() {
  static const House one;
  return one;
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

Flowsheet compiled(const std::string& text, const std::string& borrowed = {}) {
  base::Sources sources;
  const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";
  auto formula =
      formula::read("test.toml", text, sources, [&](const std::string& file) { return std::optional(borrowed.empty() ? text_of(demo / file) : borrowed); });
  EXPECT_TRUE(formula.has_value()) << text;
  auto sheet = compile(*formula, house().larder, house().kit);
  EXPECT_TRUE(sheet.has_value()) << text;
  return std::move(*sheet);
}

std::vector<std::string> demos() {
  std::vector<std::string> texts;
  for (const auto& entry : std::filesystem::directory_iterator(BLOOMSET_SOURCE_DIR "/demo"))
    if (entry.path().extension() == ".toml") texts.push_back(text_of(entry.path()));
  return texts;
}

Flowsheet one_take(const std::string& take) {
  return compiled("bloomset = 1\ntitle = \"test\"\nserves = 1\n[[part]]\nname = \"drink\"\nmade = \"to order\"\n[[part.step]]\ndo = \"combine\"\ntake = [" +
                  take + "]\n");
}

const Variation* variation(const Flowsheet& sheet, const std::string& cause) {
  for (const Variation& v : sheet.variation)
    if (v.cause == cause) return &v;
  return nullptr;
}

TEST(VariationTable, SaysOfEachRowHowFarAndWhoSaysSo) {
  const std::string bib = text_of(BLOOMSET_SOURCE_DIR "/data/sources.bib");
  std::set<std::string> seen;
  for (const VariationRow& row : variation_rows()) {
    EXPECT_TRUE(seen.insert(row.what).second) << row.what << " stands twice";
    EXPECT_EQ(row.fixed, row.width == 0.0) << row.what;
    EXPECT_LT(row.width, row.relative || row.law == Law::lognormal ? 0.6 : 1e5) << row.what;
    EXPECT_TRUE(row.source == "practice" || row.source.starts_with("memory: ") || bib.find('{' + row.source + ',') != std::string::npos) << row.what;
    EXPECT_TRUE(row.fixed || !row.cause.empty() || row.what.starts_with("said ")) << row.what;
  }
  EXPECT_GT(seen.size(), 50U);
}

TEST(VariationTable, HasARowForEveryNumberOfEveryFormula) {
  std::set<std::string> missing;
  const auto look = [&](const Flowsheet& sheet) {
    for (std::size_t u = 0; u < sheet.units.size(); ++u)
      for (std::uint32_t k = sheet.units[u].knobs.first; k < sheet.units[u].knobs.first + sheet.units[u].knobs.count; ++k)
        if (const std::string what = measured_how(sheet, sheet.units[u], sheet.unit_origin[u], k); variation_row(what) == nullptr) missing.insert(what);
  };
  for (const std::string& text : demos()) look(compiled(text));
  flow_test::PlantMaker maker(20261125);
  for (int n = 0; n < 200; ++n) {
    const auto plant = maker.make();
    look(compiled(formula::write(plant.formula), plant.borrowed));
  }
  for (const std::string& what : missing) ADD_FAILURE() << "no row for `" << what << '`';
}

TEST(Varying, FillsNoBlankAndMovesNoNumberTwice) {
  for (const std::string& text : demos()) {
    Flowsheet sheet = compiled(text);
    vary(sheet, house().larder);
    std::set<std::uint32_t> knobs;
    for (const Variation& v : sheet.variation) {
      EXPECT_TRUE(knobs.insert(v.knob).second) << v.cause;
      EXPECT_EQ(v.cause.find_first_of("{}"), std::string::npos) << v.cause;
      EXPECT_LT(v.draw, sheet.draws_a_run);
      EXPECT_GT(v.width, 0.0) << v.cause;
      EXPECT_LE(v.low, sheet.nominal[v.knob]) << v.cause;
      EXPECT_GE(v.high, sheet.nominal[v.knob]) << v.cause;
    }
  }
}

TEST(Varying, LeavesTheNominalRunAsItWasToTheLastBit) {
  for (const std::string& text : demos()) {
    const Flowsheet before = compiled(text);
    Flowsheet after = before;
    vary(after, house().larder);
    ASSERT_FALSE(after.variation.empty());
    Batch<1> a(before), b(after);
    run<1>(before, before.nominal, a);
    run<1>(after, after.nominal, b);
    ASSERT_EQ(std::memcmp(a.ports.data(), b.ports.data(), a.ports.size() * sizeof(Stream)), 0);
  }
}

TEST(Varying, IsTheSameInOneLaneAsInEightAndKeepsMatterAndEnergy) {
  for (const std::string& text : demos()) {
    Flowsheet sheet = compiled(text);
    vary(sheet, house().larder);
    std::vector<double> wide(sheet.nominal.size() * 8), narrow = sheet.nominal;
    for (std::size_t k = 0; k < wide.size(); ++k) wide[k] = sheet.nominal[k / 8];
    for (const Variation& v : sheet.variation)
      for (std::size_t lane = 0; lane < 8; ++lane) {
        const double z = 2.0 * std::sin(static_cast<double>(1 + v.draw) * static_cast<double>(lane));  // any number of deviations within two
        const double at = v.law == Law::lognormal ? sheet.nominal[v.knob] * std::exp(v.width * z) : sheet.nominal[v.knob] + v.width * z;
        wide[v.knob * 8 + lane] = std::clamp(at, v.low, v.high);
      }
    Batch<8> eight(sheet);
    Batch<1> one(sheet);
    run<8>(sheet, wide, eight);
    for (std::size_t lane = 0; lane < 8; ++lane) {
      for (std::size_t k = 0; k < narrow.size(); ++k) narrow[k] = wide[k * 8 + lane];
      run<1>(sheet, narrow, one);
      for (const PartInfo& part : sheet.parts) {
        if (part.liquid == no_port) continue;
        matter::ValuesOf<matter::Lanes> of_eight;
        matter::read(state_at(eight, part.liquid, part.ice), matter::PropertySet{}.set(), of_eight);
        const matter::Values of_one = matter::read_all(state_at(one, part.liquid, part.ice));
        for (std::size_t p = 0; p < matter::property_count; ++p) {
          const double x = of_one.of[p], y = of_eight.of[p][static_cast<int>(lane)];
          ASSERT_TRUE(x == y || (std::isnan(x) && std::isnan(y))) << matter::key(static_cast<matter::Property>(p)) << " " << x << " " << y;
        }
      }
      for (Port p = 0; p < sheet.port_count; ++p) {
        const Stream of_lane = eight.port(p, static_cast<int>(lane));
        ASSERT_EQ(std::memcmp(&one.port(p), &of_lane, sizeof(Stream)), 0);
      }
      for (std::size_t u = 0; u < sheet.units.size(); ++u) {
        const Unit& unit = sheet.units[u];
        if (unit.op == Op::take || unit.op == Op::take_ice || unit.op == Op::draw) continue;
        Stream in, out;
        for (std::uint32_t i = 0; i < unit.in.count; ++i) in += one.port(sheet.links[unit.in.first + i]);
        for (std::uint32_t i = 0; i < unit.out.count; ++i) out += one.port(sheet.links[unit.out.first + i]);
        const double kg = in.mass.total_kg();
        ASSERT_NEAR(in.mass.total_kg(), out.mass.total_kg(), 1e-9 * kg + 1e-15);
        ASSERT_NEAR(out.enthalpy_j - in.enthalpy_j, one.heat_j[u], 1e-3 * kg + 1e-12);
      }
    }
  }
}

TEST(Departures, OfAJuiceAreThoseOfItsPropertyAndWeighNothing) {
  // data/larder/variability.csv: acid of lime juice a tenth; pH 0.09; Brix 8 % (practice).
  Flowsheet sheet = one_take("\"100 g lime juice\"");
  vary(sheet, house().larder);
  const auto drink = [&](const std::string& cause, double z) {
    std::vector<double> knobs = sheet.nominal;
    const Variation* v = variation(sheet, cause);
    EXPECT_NE(v, nullptr) << cause;
    if (v != nullptr) knobs[v->knob] += v->width * z;
    Batch<1> batch(sheet);
    run<1>(sheet, knobs, batch);
    EXPECT_NEAR(batch.port(sheet.parts[0].liquid).mass.total_kg(), 0.1, 1e-12);
    return matter::read_all(state_at(batch, sheet.parts[0].liquid, no_port));
  };
  using matter::Property;
  const auto plain = drink("acid of the lime juice", 0.0);
  for (const double z : {-2.0, -1.0, 1.0, 2.0}) {
    EXPECT_NEAR(drink("acid of the lime juice", z)[Property::titratable_acidity_g_l_citric] / plain[Property::titratable_acidity_g_l_citric], 1.0 + 0.10 * z,
                0.005);
    EXPECT_NEAR(drink("pH of the lime juice", z)[Property::ph_25c] - plain[Property::ph_25c], 0.09 * z,
                std::abs(z) < 1.5 ? 0.01 : 0.03);  // matter moves straight, pH is its logarithm
    EXPECT_NEAR(drink("sugar of the lime juice", z)[Property::brix_percent] / plain[Property::brix_percent], 1.0 + 0.08 * z, 0.003);
    EXPECT_NEAR(drink("acid of the lime juice", z)[Property::temperature_c], plain[Property::temperature_c], 1e-6);  // as cold as it was taken
  }
}

TEST(Departures, OfASpiritAreWithinItsLabelsTolerance) {
  // EU 1169/2011, Annex XII: 0.3 %vol, taken as two deviations; in data/larder as 0.004 of the strength.
  Flowsheet sheet = one_take("\"50 mL cane spirit (40 %vol)\"");
  vary(sheet, house().larder);
  const Variation* v = variation(sheet, "strength of the cane spirit (40 %vol)");
  ASSERT_NE(v, nullptr);
  EXPECT_EQ(v->ground, Ground::published);
  std::vector<double> knobs = sheet.nominal;
  knobs[v->knob] = 1.0;
  Batch<1> batch(sheet);
  run<1>(sheet, knobs, batch);
  EXPECT_NEAR(matter::read_all(state_at(batch, sheet.parts[0].liquid, no_port))[matter::Property::abv_percent], 40.16, 0.005);
}

TEST(Varying, DrawsOneBottleOnceAndEachPourByItself) {
  Flowsheet sheet = one_take("\"20 mL lime juice\", \"10 mL lime juice\", \"10 mL lime juice (pH 2.2)\"");
  vary(sheet, house().larder);
  std::set<std::uint32_t> acid, pours;
  for (const Variation& v : sheet.variation) {
    if (v.cause == "acid of the lime juice") acid.insert(v.draw);
    if (v.cause == "measuring of the lime juice") pours.insert(v.draw);
  }
  EXPECT_EQ(acid.size(), 1U);
  EXPECT_EQ(pours.size(), 2U);
  EXPECT_NE(variation(sheet, "acid of the lime juice (pH 2.2)"), nullptr);
}

TEST(Varying, TakesAWrittenBandAsFourDeviations) {
  Flowsheet sheet = compiled(
      "bloomset = 1\ntitle = \"test\"\nserves = 1\n[[part]]\nname = \"drink\"\nmade = \"to order\"\n[[part.step]]\ndo = \"shake\"\ntake = [\"100 g lime "
      "juice\"]\nice = \"200 g ice cubes\"\ntime = \"10-14 s\"\n");
  vary(sheet, house().larder);
  const Variation* v = variation(sheet, "time of shaking");
  ASSERT_NE(v, nullptr);
  EXPECT_DOUBLE_EQ(v->width, 1.0);
  EXPECT_EQ(v->ground, Ground::document);
  EXPECT_NE(variation(sheet, "vigour of shaking"), nullptr);
  EXPECT_NE(variation(sheet, "wetness of the ice cubes"), nullptr);
}

TEST(Varying, GivesAMeasuredValueTheWidthOfItsInstrument) {
  Flowsheet sheet = one_take("\"20 mL lime juice (6 % acid, pH 2.2)\"");
  vary(sheet, house().larder);
  const Departure& acid = sheet.departures[1];
  const double before = matter::titratable_acidity_g_100g_citric(sheet.stuffs[0].per_kg);
  EXPECT_NEAR(matter::titratable_acidity_g_100g_citric(sheet.stuffs[0].per_kg + acid.per_kg) / before, 1.03, 0.001);  // a titration: 3 % (practice)
  EXPECT_EQ(variation(sheet, "acid of the lime juice (6 % acid, pH 2.2)")->ground, Ground::practice);
}

bool same(const Batch<8>& a, const Batch<8>& b, Port p) {
  for (int lane = 0; lane < 8; ++lane) {
    const Stream x = a.port(p, lane), y = b.port(p, lane);
    if (std::memcmp(&x, &y, sizeof(Stream)) != 0) return false;
  }
  return true;
}

TEST(UnitsAfter, AreThoseThatAKnobChangesAndNoOthers) {
  const Flowsheet sheet = compiled(text_of(BLOOMSET_SOURCE_DIR "/demo/08-harbour-light.toml"));
  Batch<8> plain(sheet), moved(sheet);
  std::vector<double> knobs(sheet.nominal.size() * 8);
  for (std::size_t i = 0; i < knobs.size(); ++i) knobs[i] = sheet.nominal[i / 8];
  run<8>(sheet, knobs, plain);
  for (std::uint32_t k = 0; k < sheet.nominal.size(); ++k) {
    for (std::size_t lane = 0; lane < 8; ++lane) knobs[k * 8 + lane] = sheet.nominal[k] * 1.01 + 1e-6;
    run<8>(sheet, knobs, moved);
    const auto after = units_after(sheet, std::span(&k, 1));
    Batch<8> some = plain;
    run_units<8>(sheet, knobs, some, after);
    for (Port p = 0; p < sheet.port_count; ++p) ASSERT_TRUE(same(some, moved, p)) << sheet.knobs[k].what;
    for (std::size_t lane = 0; lane < 8; ++lane) knobs[k * 8 + lane] = sheet.nominal[k];
  }
  const std::array<Port, 2> served = {sheet.served_liquid, sheet.served_ice};
  Batch<8> needed(sheet);
  run_units<8>(sheet, knobs, needed, units_before(sheet, served));
  EXPECT_TRUE(same(needed, plain, sheet.served_liquid));
}

}  // namespace
}  // namespace bloomset::flow
