// What must hold for any formula: matter and energy are kept, amounts scale, order does not matter where it should
// not, and eight lanes say what one says. Over 1,000 random formulas; counts of acts are printed.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <map>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "random_plant.hpp"

namespace bloomset::flow {
namespace {

constexpr int plants = 1000;
constexpr std::uint64_t seed = 20261124;

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};
const House& house() {
  static const House one;
  return one;
}

std::string show(const base::Error& error, const base::Sources& sources) { return error.message + "\n" + base::render(error.diagnostics, sources); }

formula::Formula read_back(const flow_test::PlantMaker::Plant& plant, const std::string& text) {
  base::Sources sources;
  auto read = formula::read("random.toml", text, sources, [&](const std::string&) { return std::optional(plant.borrowed); });
  EXPECT_TRUE(read.has_value()) << show(read.error(), sources) << text;
  return read.has_value() ? *read : formula::Formula{};
}

Flowsheet made(const formula::Formula& formula, const std::string& text) {
  auto sheet = compile(formula, house().larder, house().kit);
  base::Sources sources;
  sources.add("random.toml", text);
  EXPECT_TRUE(sheet.has_value()) << show(sheet.error(), sources) << text;
  return sheet.has_value() ? std::move(*sheet) : Flowsheet{};
}

// Which ports a unit uses up and which it makes: takes and draws bring matter in.
bool brings_in(Op op) { return op == Op::take || op == Op::take_ice || op == Op::draw; }

template <int Lanes>
void check_units(const Flowsheet& sheet, const Batch<Lanes>& batch, const std::string& text) {
  for (std::size_t u = 0; u < sheet.units.size(); ++u) {
    const Unit& unit = sheet.units[u];
    if (brings_in(unit.op)) continue;
    Stream in, out;
    for (std::uint32_t i = 0; i < unit.in.count; ++i) in += batch.port(sheet.links[unit.in.first + i]);
    for (std::uint32_t i = 0; i < unit.out.count; ++i) out += batch.port(sheet.links[unit.out.first + i]);
    const double kg = in.mass.total_kg();
    for (std::size_t c = 0; c < matter::component_count; ++c)
      ASSERT_NEAR(in.mass.kg[c], out.mass.kg[c], 1e-9 * kg + 1e-15) << "component " << c << ", unit " << u << "\n" << text;
    ASSERT_NEAR(out.enthalpy_j - in.enthalpy_j, batch.heat_j[u], 1e-6 * kg * 1e3 + 1e-12) << "unit " << u << "\n" << text;
    for (std::uint32_t i = 0; i < unit.out.count; ++i) {
      const Stream& stream = batch.port(sheet.links[unit.out.first + i]);
      ASSERT_TRUE(std::isfinite(stream.enthalpy_j)) << text;
      for (std::size_t c = 0; c < matter::component_count; ++c) {
        if (c == matter::index(matter::Component::salt_hydrogen)) continue;
        ASSERT_GE(stream.mass.kg[c], -1e-12) << "component " << c << ", unit " << u << "\n" << text;
      }
    }
  }
}

TEST(RandomFormulas, PrintAndParseAgreeMassAndEnergyAreKeptAmountsScaleAndLanesAgree) {
  flow_test::PlantMaker maker(seed);
  std::map<formula::Act, int> acts;
  int with_ice = 0, with_losses = 0, split = 0, of_outputs = 0, borrowed = 0, two_users = 0;
  for (int n = 0; n < plants; ++n) {
    const auto plant = maker.make();
    const std::string text = formula::write(plant.formula);
    const formula::Formula formula = read_back(plant, text);
    // print∘parse: the document's own parts come back equal, and printing again gives the same text.
    ASSERT_EQ(formula::write(formula), text);
    const Flowsheet sheet = made(formula, text);
    if (::testing::Test::HasFailure()) return;

    for (const formula::Part& part : formula.parts)
      for (const formula::Step& step : part.steps) {
        ++acts[step.act];
        with_ice += step.ice.has_value();
        with_losses += step.loss.has_value();
        split += step.split.has_value();
      }
    for (const formula::Step& step : formula.serve->pours) ++acts[step.act];
    borrowed += !formula.borrow.empty();
    std::map<std::uint16_t, int> users;
    for (const DrawInfo& draw : sheet.draws) {
      ++users[draw.from];
      of_outputs += draw.output > 0;
    }
    for (const auto& [part, count] : users) two_users += count > 1;

    Batch<1> one(sheet);
    run<1>(sheet, sheet.nominal, one);
    check_units(sheet, one, text);
    if (::testing::Test::HasFailure()) return;

    // Scaling: three times every amount and every vessel gives three times every stream.
    std::vector<double> tripled = sheet.nominal;
    for (std::size_t k = 0; k < tripled.size(); ++k)
      if (sheet.knobs[k].kind == KnobKind::mass_kg || sheet.knobs[k].kind == KnobKind::volume_m3 || sheet.knobs[k].kind == KnobKind::joule_per_kelvin ||
          sheet.knobs[k].kind == KnobKind::watt_per_kelvin || sheet.knobs[k].kind == KnobKind::watt_per_pascal)
        tripled[k] *= 3.0;
    Batch<1> three(sheet);
    run<1>(sheet, tripled, three);
    for (Port p = 0; p < sheet.port_count; ++p)
      ASSERT_NEAR(three.port(p).mass.total_kg(), 3.0 * one.port(p).mass.total_kg(), 1e-9 * (1e-3 + 3.0 * one.port(p).mass.total_kg())) << "port " << p << "\n"
                                                                                                                                       << text;

    // Lanes: eight different sets of knobs at once are bit for bit what each is alone.
    std::vector<double> eight(sheet.nominal.size() * 8);
    for (std::size_t k = 0; k < sheet.nominal.size(); ++k)
      for (std::size_t lane = 0; lane < 8; ++lane)
        eight[k * 8 + lane] = sheet.nominal[k] * (sheet.knobs[k].kind == KnobKind::celsius ? 1.0 : 1.0 + 0.01 * double(lane));
    Batch<8> wide(sheet);
    run<8>(sheet, eight, wide);
    std::vector<double> single(sheet.nominal.size());
    for (std::size_t lane = 0; lane < 8; ++lane) {
      for (std::size_t k = 0; k < single.size(); ++k) single[k] = eight[k * 8 + lane];
      run<1>(sheet, single, one);
      for (Port p = 0; p < sheet.port_count; ++p) {
        ASSERT_EQ(one.port(p).mass, wide.port(p, static_cast<int>(lane)).mass) << "lane " << lane << "\n" << text;
        ASSERT_EQ(one.port(p).enthalpy_j, wide.port(p, static_cast<int>(lane)).enthalpy_j) << "lane " << lane << "\n" << text;
      }
    }
  }
  std::printf(
      "%d random formulas, seed %llu: %d steps with ice, %d with a loss of their own, %d borrow, %d parts with two users or more, %d steps on a share, %d "
      "draws of what was kept back\n",
      plants, static_cast<unsigned long long>(seed), with_ice, with_losses, borrowed, two_users, split, of_outputs);
  EXPECT_GE(split, 50);
  EXPECT_GE(of_outputs, 50);
  for (const ActRow& row : act_rows()) {
    using enum formula::Act;
    if (row.act == roll || row.act == rinse) continue;
    if (row.act == charge || row.act == dispense) continue;  // tests/flow/foam_test.cpp
    const int count = acts[row.act];
    std::printf("  %s %d\n", std::string(formula::name(row.act)).c_str(), count);
    EXPECT_GE(count, 50) << formula::name(row.act);
  }
}

TEST(LargeFormulas, ThreeHundredTakesInOneStepAreAllThere) {
  std::string text = "bloomset = 1\ntitle = \"Many\"\nserves = 1\n[[part]]\nname = \"many\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [";
  for (int n = 0; n < 300; ++n) text += "\"1 g water\", ";
  text += "] } ]\n[serve]\nvessel = \"tall glass, 400 mL\"\npour = [ { take = [\"all 'many'\"] } ]\n";
  flow_test::PlantMaker::Plant none;
  const Flowsheet sheet = made(read_back(none, text), text);
  ASSERT_TRUE(sheet.has_serve);
  Batch<1> batch(sheet);
  run<1>(sheet, sheet.nominal, batch);
  EXPECT_NEAR(batch.port(sheet.served_liquid).mass.total_kg(), 0.300, 1e-12);
}

TEST(RandomFormulas, TwoCombiningStepsMayChangePlaces) {
  flow_test::PlantMaker maker(seed + 1);
  int compared = 0;
  for (int n = 0; n < 400; ++n) {
    const auto plant = maker.make();
    formula::Formula formula = read_back(plant, formula::write(plant.formula));
    formula::Formula swapped = formula;
    bool changed = false;
    std::size_t p = 0, after = 0;  // the part, and the later of the two steps that changed places
    for (std::size_t i = 0; i < swapped.parts.size() && !changed; ++i)
      for (std::size_t s = 0; s + 1 < swapped.parts[i].steps.size() && !changed; ++s) {
        formula::Part& part = swapped.parts[i];
        if (part.steps[s].act == formula::Act::combine && part.steps[s + 1].act == formula::Act::combine && !part.steps[s].loss && !part.steps[s + 1].loss &&
            !part.steps[s + 1].split) {
          std::swap(part.steps[s], part.steps[s + 1]);
          changed = true;
          p = i;
          after = s + 2;
        }
      }
    if (!changed) continue;
    ++compared;
    const Flowsheet a = made(formula, ""), b = made(swapped, "");
    Batch<1> first(a), second(b);
    run<1>(a, a.nominal, first);
    run<1>(b, b.nominal, second);
    const auto port_after = [&](const Flowsheet& sheet) {
      for (const StepInfo& step : sheet.steps)
        if (step.origin.part == p && step.origin.step == after) return step.liquid;
      return no_port;
    };
    ASSERT_NE(port_after(a), no_port);
    const Stream &x = first.port(port_after(a)), &y = second.port(port_after(b));
    // Each act lets some CO2 go, so how long it has been in the vessel does matter; for all else it does not.
    for (std::size_t c = 0; c < matter::component_count; ++c) {
      if (c == matter::index(matter::Component::carbon_dioxide)) continue;
      ASSERT_NEAR(x.mass.kg[c], y.mass.kg[c], 1e-9 * x.mass.total_kg());
    }
    const double gas_kg = std::abs(x.mass.total_kg() - y.mass.total_kg());
    ASSERT_NEAR(x.enthalpy_j, y.enthalpy_j, 1e-6 * x.mass.total_kg() * 1e3 + 1e5 * gas_kg);
  }
  EXPECT_GE(compared, 20);
}

}  // namespace
}  // namespace bloomset::flow
