// matter/freezing.cpp - one law for every solute, and the point where it meets the curve of ice.
//
//   ln a_w = -sum ln(1 + r_i) + sum [linear x_i + x_i^2 (square + cube x_i + (square_slope + cube_slope x_i) (1 - x_i) g)]
//            + Debye-Hueckel(I) + ln gamma_w(ethanol),      r = particles / water, x = r / (1 + r), g = 1000 (1/T - 1/298.15)
// so at given amounts ln a_w is a straight line in g. That is what makes it quick: the line once (one logarithm of the
// product of all 1 + r), then any number of temperatures; the freezing point is where the line meets ice, in y = 1/T:
//   ln a_ice = -h (y - y0) + c (y/y0 - 1 - ln(y/y0)),   h = 6010 J/mol / R, c = 38.1 J/(mol K) / R.
// Every term of x stays bounded when water goes to nothing, so no mixture is without an answer.
// Assumptions, beside those of the table: calcium and magnesium on acids add no particle (they are held as complexes,
// log K 4.9 with citrate); an acid's salt counts 2 mol of ionic strength an equivalent (exact for trisodium citrate, a third
// too much for disodium malate); protein, starch, fibre, fat and thickeners are too large to count.
#include "matter/freezing.hpp"

#include <algorithm>
#include <cmath>

#include "matter/component_table.hpp"
#include "matter/enthalpy.hpp"
#include "matter/equilibrium.hpp"
#include "matter/ethanol_activity.hpp"
#include "matter/freezing_table.hpp"
#include "matter/solute.hpp"
#include "units/constants.hpp"

namespace bloomset::matter {

/// One solute's rows of the table.
struct WaterBond::Constants {
  double mol_kg = 0.0;  // formula units; 0 = too large to count
  double particles = 1.0, ions = 0.0, ionic = 0.0;
  double linear = 0.0, square = 0.0, square_slope = 0.0, cube = 0.0, cube_slope = 0.0;
};

namespace {

using namespace table;
using Constants = WaterBond::Constants;

constexpr double water_kg_mol = 1e-3 * molar_mass_water, ethanol_kg_mol = 1e-3 * molar_mass_ethanol;

constexpr Constants ideal(double g_mol) { return {.mol_kg = 1e3 / g_mol}; }
constexpr Constants norrish(double g_mol, double square, double square_slope = 0.0) {
  return {.mol_kg = 1e3 / g_mol, .square = square, .square_slope = square_slope};
}
constexpr Constants acid(double g_mol, double linear, double square = 0.0, double cube = 0.0) {
  return {.mol_kg = 1e3 / g_mol, .linear = linear, .square = square, .cube = cube};
}
constexpr Constants salt(double cation_g_mol, double charge, double square, double square_slope = 0.0, double cube = 0.0) {
  const double ions = 1.0 + charge;
  return {.mol_kg = 1e3 / (cation_g_mol + charge * molar_mass_chloride),
          .particles = ions,
          .ions = ions,
          .ionic = 0.5 * (charge * charge + charge),
          .square = square,
          .square_slope = square_slope,
          .cube = cube};
}
constexpr Constants exchange(double cation_g_mol) {
  return {.mol_kg = 1e3 / (cation_g_mol - molar_mass_salt_hydrogen),
          .ions = 1.0,
          .ionic = 2.0,
          .linear = linear_sodium_for_hydrogen,
          .square = square_sodium_for_hydrogen};
}

constexpr Constants constants_of(Solute s) {
  switch (s) {
    case Solute::sucrose:
      return norrish(molar_mass_sucrose, square_sucrose, square_slope_sucrose);
    case Solute::glucose:
      return norrish(molar_mass_glucose, square_glucose, square_slope_glucose);
    case Solute::fructose:
      return norrish(molar_mass_fructose, square_fructose, square_slope_fructose);
    case Solute::maltose:
      return norrish(molar_mass_maltose, square_maltose, square_slope_maltose);
    case Solute::lactose:
      return norrish(molar_mass_lactose, square_lactose, square_slope_lactose);
    case Solute::erythritol:
      return norrish(molar_mass_erythritol, square_erythritol);
    case Solute::allulose:
      return norrish(molar_mass_allulose, square_fructose, square_slope_fructose);
    case Solute::glycerol: {
      Constants c = norrish(molar_mass_glycerol, square_glycerol, square_slope_glycerol);
      c.cube_slope = cube_slope_glycerol;
      return c;
    }
    case Solute::citric_acid:
      return acid(molar_mass_citric_acid, linear_citric_acid, square_citric_acid, cube_citric_acid);
    case Solute::malic_acid:
      return norrish(molar_mass_malic_acid, square_malic_acid);
    case Solute::tartaric_acid:
      return norrish(molar_mass_tartaric_acid, square_tartaric_acid);
    case Solute::lactic_acid:
      return acid(molar_mass_lactic_acid, linear_lactic_acid, square_lactic_acid, cube_lactic_acid);
    case Solute::acetic_acid:
      return norrish(molar_mass_acetic_acid, square_acetic_acid);
    case Solute::ascorbic_acid:
      return ideal(molar_mass_ascorbic_acid);
    case Solute::succinic_acid:
      return ideal(molar_mass_succinic_acid);
    case Solute::quinic_acid:
      return ideal(molar_mass_quinic_acid);
    case Solute::oxalic_acid:
      return ideal(molar_mass_oxalic_acid);
    case Solute::phosphoric_acid:
      return acid(molar_mass_phosphoric_acid, linear_phosphoric_acid);
    case Solute::gluconic_acid:
      return ideal(molar_mass_gluconic_acid);
    case Solute::carbonic_acid:
      return ideal(molar_mass_carbonic_acid);
    case Solute::sodium_chloride:
      return salt(molar_mass_sodium, 1.0, square_sodium_chloride, square_slope_sodium_chloride, cube_sodium_chloride);
    case Solute::potassium_chloride:
      return salt(molar_mass_potassium, 1.0, square_potassium_chloride);
    case Solute::calcium_chloride:
      return salt(molar_mass_calcium, 2.0, square_calcium_chloride);
    case Solute::magnesium_chloride:
      return salt(molar_mass_magnesium, 2.0, square_calcium_chloride);
    case Solute::sodium_for_hydrogen:
      return exchange(molar_mass_sodium);
    case Solute::potassium_for_hydrogen:
      return exchange(molar_mass_potassium);
    case Solute::other_solids:
      return ideal(other_solids_molar_mass);
    case Solute::calcium_for_hydrogen:
    case Solute::magnesium_for_hydrogen:
    case Solute::protein:
    case Solute::fat:
    case Solute::starch:
    case Solute::fibre:
    case Solute::agents:
      break;
  }
  return {};
}

constexpr std::array<Constants, solute_count> solute_constants = [] {
  std::array<Constants, solute_count> all{};
  for (std::size_t i = 0; i < solute_count; ++i) all[i] = constants_of(static_cast<Solute>(i));
  return all;
}();
constexpr auto counted = std::ranges::count_if(solute_constants, [](const Constants& c) { return c.mol_kg > 0.0; });
static_assert(counted < static_cast<std::ptrdiff_t>(WaterBond::most));

// Temperature as y = 1/T and as g, zero at 25 C. The table's constants are held to these ends: the coldest lies below any
// freezer and the fits' coldest points, the warmest is where nothing freezes and water activity is asked for last: practice.
constexpr double coldest_c = -60.0, warmest_c = 60.0;
constexpr double y_of(double t_c) { return 1.0 / (t_c + units::zero_celsius_k); }
constexpr double y_0 = y_of(0.0), y_25 = y_of(25.0), y_coldest = y_of(coldest_c), y_warmest = y_of(warmest_c);
constexpr double g_of(double y) { return 1e3 * (y - y_25); }
double g_at(double t_c) { return g_of(y_of(std::clamp(t_c, coldest_c, warmest_c))); }

// The curve of ice.
constexpr double h = heat_of_fusion_molar / units::molar_gas_constant_j_mol_k, c = heat_capacity_step / units::molar_gas_constant_j_mol_k;
double ln_ice_at(double y) {
  const double u = y / y_0;
  return -h * (y - y_0) + c * (u - 1.0 - std::log(u));
}
double ln_ice_slope_at(double y) { return -h + c * (1.0 / y_0 - 1.0 / y); }  // by y

// Below -60 C, towards an asymptote at -120 C: ln a = coldest - slope v / (1 - v / 60), v = -60 - t.
constexpr double run_out_k = 60.0;
const double ln_ice_coldest = ln_ice_at(y_coldest);
const double ice_slope_per_k = -ln_ice_slope_at(y_coldest) * y_coldest * y_coldest;

// ln a_w = at_25 + slope g for one amount of water.
struct Line {
  double at_25, slope;
  double at(double g) const { return at_25 + slope * g; }
};

constexpr double debye_hueckel_slope = (debye_hueckel_0C - debye_hueckel_25C) / g_of(y_0);

Line line(const WaterBond& bond, double water_kg) {
  const double water_mol = std::max(water_kg * (1.0 / water_kg_mol), bond.least_water_mol);
  const double per_water = 1.0 / water_mol;
  Pair products = {1.0, 1.0}, at_25s{}, slopes{};
  for (std::size_t i = 0; i < bond.count; i += 2) {
    const WaterBond::Share &one = bond.shares[i], &other = bond.shares[i + 1];
    const auto both = [&](double Constants::*of) { return Pair{one.constants->*of, other.constants->*of}; };
    const Pair r = Pair{one.mol, other.mol} * per_water, x = r / (1.0 + r), xx = x * x;
    products *= 1.0 + r;
    at_25s += both(&Constants::linear) * x + xx * (both(&Constants::square) + both(&Constants::cube) * x);
    slopes += xx * (1.0 - x) * (both(&Constants::square_slope) + both(&Constants::cube_slope) * x);
  }
  double product = products[0] * products[1], at_25 = sum(at_25s), slope = sum(slopes);
  if (bond.ethanol_mol > 0.0) {
    const double r = bond.ethanol_mol * per_water;
    const auto [ethanol_at_25, ethanol_slope] = ethanol_activity(r / (1.0 + r));
    product *= 1.0 + r;
    at_25 += ethanol_at_25;
    slope += ethanol_slope;
  }
  if (bond.ionic_mol > 0.0) {
    // Per kg of water and of its weight in ions, mole for mole: bounded as water goes.
    const double i = bond.ionic_mol / (water_kg_mol * (water_mol + bond.ion_mol)), root = std::sqrt(i);
    const double term = 2.0 * water_kg_mol * i * root / (1.0 + debye_hueckel_closeness * root);
    at_25 += debye_hueckel_25C * term;
    slope += debye_hueckel_slope * term;
  }
  return {at_25 - std::log(product), slope};
}

double freezing_of(Line line) {
  const double at_coldest = line.at(g_of(y_coldest));
  if (at_coldest < ln_ice_coldest) {
    const double below = ln_ice_coldest - at_coldest;
    return coldest_c - below / (ice_slope_per_k + below / run_out_k);
  }
  // Halley in y on line - ice, which is close to straight. The first point bends as much as the heat capacity step asks and is
  // 1 % of y away at -60 C; each pass cubes that.
  constexpr double least_slope = 50.0;
  const double straight = std::max(1e3 * line.slope + h, least_slope), u = -line.at(g_of(y_0)) / (straight * y_0);
  double y = y_0 * (1.0 + u * (1.0 + 0.5 * c * u / (straight * y_0)));
  for (int pass = 0; pass < 2; ++pass) {
    y = std::clamp(y, y_warmest, y_coldest);
    const double miss = line.at(g_of(y)) - ln_ice_at(y), towards = std::max(1e3 * line.slope - ln_ice_slope_at(y), least_slope), squared = towards * towards;
    y -= 2.0 * miss * towards / std::max(2.0 * squared + c * miss / (y * y), squared);
  }
  return (1.0 - y / y_0) / y;
}

}  // namespace

double ln_ice_activity(double t_c) {
  if (t_c >= coldest_c) return ln_ice_at(y_of(t_c));
  const double v = std::min(coldest_c - t_c, 0.99 * run_out_k);
  return ln_ice_coldest - ice_slope_per_k * v / (1.0 - v / run_out_k);
}

WaterBond water_bond(const Composition& composition) {
  const Solutes s = solutes(composition);
  WaterBond bond;
  double particles = bond.ethanol_mol = s.ethanol_kg / ethanol_kg_mol;
  for (std::size_t i = 0; i < solute_count; ++i) {
    const Constants& k = solute_constants[i];
    if (!(s.kg[i] > 0.0) || k.mol_kg == 0.0) continue;
    const double mol = s.kg[i] * k.mol_kg;
    bond.shares[bond.count++] = {k.particles * mol, &k};
    bond.ion_mol += k.ions * mol;
    bond.ionic_mol += k.ionic * mol;
    particles += k.particles * mol;
  }
  bond.shares[bond.count] = {0.0, &solute_constants.front()};
  constexpr double millionth = 1e-6, nothing_at_all = 1e-300;
  bond.least_water_mol = millionth * particles + nothing_at_all;
  return bond;
}

double WaterBond::ln_activity(double t_c, double water_kg) const { return line(*this, water_kg).at(g_at(t_c)); }

double WaterBond::freezing_c(double water_kg) const { return freezing_of(line(*this, water_kg)); }

double WaterBond::liquid_water_kg(double t_c, double water_kg) const {
  if (t_c >= 0.0) return water_kg;
  const double g = g_at(t_c), wanted = std::exp(-ln_ice_activity(t_c)) - 1.0;
  // 1/a - 1 is nearly proportional to 1/water: a secant of their logarithms.
  constexpr double most_exponent = 300.0, longest_step = 30.0;
  const auto held = [&](double kg) { return std::exp(std::min(-line(*this, kg).at(g), most_exponent)) - 1.0; };
  double strength = held(water_kg);
  if (!(strength < wanted)) return water_kg;
  if (!(strength > 0.0)) return 0.0;
  double kg = water_kg, slope = 1.0;
  constexpr double least_slope = 0.2, most_slope = 5.0;
  for (int pass = 0; pass < 8; ++pass) {
    const double step = std::clamp(std::log(wanted / strength) / slope, -longest_step, longest_step), next = held(kg * std::exp(-step));
    const double gained = std::log(next / strength);
    if (std::abs(step) > 1e-9) slope = std::clamp(gained / step, least_slope, most_slope);
    kg *= std::exp(-step);
    strength = next;
  }
  return std::min(kg, water_kg);
}

double water_activity(const Composition& composition, units::Temperature temperature) {
  return std::exp(water_bond(composition).ln_activity(units::in_celsius(temperature), composition[Component::water]));
}

units::Temperature freezing_point(const Composition& composition) { return units::celsius(water_bond(composition).freezing_c(composition[Component::water])); }

ThermalState thermal_state(const Composition& composition, double enthalpy_j) { return thermal_state(composition, dry_heat_curve(composition), enthalpy_j); }

ThermalState thermal_state(const Composition& composition, const HeatCurve& dry, double enthalpy_j) {
  const double water_kg = composition[Component::water], ethanol_kg = composition[Component::ethanol];
  const double t_c = with_water_and_ethanol(dry, water_kg, ethanol_kg).celsius_at(enthalpy_j);
  if (t_c >= 0.0 || !(water_kg > 0.0)) return {t_c, 0.0};
  const Balance balance = settle({.water_kg = water_kg, .ethanol_kg = ethanol_kg, .dry = dry, .bond = water_bond(composition), .enthalpy_j = enthalpy_j});
  return {balance.t_c, balance.frozen_kg};
}

double equilibrium_enthalpy_j(const Composition& composition, double t_c) {
  const double water_kg = composition[Component::water];
  if (t_c >= 0.0 || !(water_kg > 0.0)) return heat_curve(composition).at_c(t_c);
  const double liquid_kg = water_bond(composition).liquid_water_kg(t_c, water_kg);
  const HeatCurve liquid = with_water_and_ethanol(dry_heat_curve(composition), liquid_kg, composition[Component::ethanol]);
  return liquid.at_c(t_c) + (water_kg - liquid_kg) * ice_enthalpy_j_kg(t_c);
}

}  // namespace bloomset::matter
