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
#include "matter/elementary.hpp"
#include "matter/enthalpy.hpp"
#include "matter/equilibrium.hpp"
#include "matter/ethanol_activity.hpp"
#include "matter/freezing_table.hpp"
#include "matter/solute.hpp"
#include "units/constants.hpp"

namespace bloomset::matter {

struct WaterConstants {
  double mol_kg = 0.0;  // formula units; 0 = too large to count
  double particles = 1.0, ions = 0.0, ionic = 0.0;
  double linear = 0.0, square = 0.0, square_slope = 0.0, cube = 0.0, cube_slope = 0.0;
  bool ideal() const { return linear == 0.0 && square == 0.0 && square_slope == 0.0 && cube == 0.0 && cube_slope == 0.0; }
};

namespace {

using namespace table;
using Constants = WaterConstants;

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
static_assert(solute_count % 2 == 0 && solute_count <= WaterBond::most);

// Temperature as y = 1/T and as g, zero at 25 C. The table's constants are held to these ends: the coldest lies below any
// freezer and the fits' coldest points, the warmest is where nothing freezes and water activity is asked for last: practice.
constexpr double coldest_c = -60.0, warmest_c = 60.0;
template <class Real>
constexpr Real y_of(const Real& t_c) {
  return 1.0 / (t_c + units::zero_celsius_k);
}
constexpr double y_0 = y_of(0.0), y_25 = y_of(25.0), y_coldest = y_of(coldest_c), y_warmest = y_of(warmest_c);
template <class Real>
constexpr Real g_of(const Real& y) {
  return 1e3 * (y - y_25);
}
template <class Real>
Real g_at(const Real& t_c) {
  return g_of(y_of(clamp(t_c, coldest_c, warmest_c)));
}

// The curve of ice.
constexpr double h = heat_of_fusion_molar / units::molar_gas_constant_j_mol_k, c = heat_capacity_step / units::molar_gas_constant_j_mol_k;
template <class Real>
Real ln_ice_at(const Real& y) {
  return -h * (y - y_0) + c * above_logarithm(y * (1.0 / y_0));
}
template <class Real>
Real ln_ice_slope_at(const Real& y) {  // by y
  return c / y_0 - h - c / y;
}

// Below -60 C, towards an asymptote at -120 C: ln a = coldest - slope v / (1 - v / 60), v = -60 - t.
constexpr double run_out_k = 60.0;
const double ln_ice_coldest = ln_ice_at(y_coldest);
const double ice_slope_per_k = -ln_ice_slope_at(y_coldest) * y_coldest * y_coldest;

// ln a_w = at_25 + slope g for one amount of water.
template <class Real>
struct Line {
  Real at_25, slope;
  Real at(const Real& g) const { return at_25 + slope * g; }
};

constexpr double debye_hueckel_slope = (debye_hueckel_0C - debye_hueckel_25C) / g_of(y_0);

// What the solutes make together; the product is that of all 1 + r.
template <class Real>
struct OfSolutes {
  Real product, at_25, slope;
};

OfSolutes<double> of_solutes(const WaterBond& bond, double per_water) {
  Pair products = {1.0, 1.0}, at_25s{}, slopes{};
  for (std::size_t i = 0; i < bond.count; i += 2) {
    const WaterBond::Share &one = bond.shares[i], &other = bond.shares[i + 1];
    const auto both = [&](double Constants::*of) { return Pair{one.constants->*of, other.constants->*of}; };
    const Pair r = Pair{one.mol, other.mol} * per_water, x = r / (1.0 + r), xx = x * x;
    products *= 1.0 + r;
    at_25s += both(&Constants::linear) * x + xx * (both(&Constants::square) + both(&Constants::cube) * x);
    slopes += xx * (1.0 - x) * (both(&Constants::square_slope) + both(&Constants::cube_slope) * x);
  }
  return {products[0] * products[1], sum(at_25s), sum(slopes)};
}

OfSolutes<Lanes> of_solutes(const WaterBondOf<Lanes>& bond, const Lanes& per_water) {
  std::array<OfSolutes<Lanes>, 2> sums = {{{1.0, 0.0, 0.0}, {1.0, 0.0, 0.0}}};
  for (std::size_t i = 0; i < bond.count; ++i) {
    const auto& [mol, of] = bond.shares[i];
    const Lanes r = mol * per_water;
    OfSolutes<Lanes>& to = sums[i % 2];
    to.product *= 1.0 + r;
    if (of->ideal()) continue;
    const Lanes x = r / (1.0 + r), xx = x * x;
    to.at_25 += of->linear * x + xx * (of->square + of->cube * x);
    to.slope += xx * (1.0 - x) * (of->square_slope + of->cube_slope * x);
  }
  return {sums[0].product * sums[1].product, sums[0].at_25 + sums[1].at_25, sums[0].slope + sums[1].slope};
}

template <class Real>
Line<Real> line(const WaterBondOf<Real>& bond, const Real& water_kg) {
  const Real water_mol = max(water_kg * (1.0 / water_kg_mol), bond.least_water_mol);
  const Real per_water = 1.0 / water_mol;
  auto [product, at_25, slope] = of_solutes(bond, per_water);
  if (any(bond.ethanol_mol > 0.0)) {
    const Real r = bond.ethanol_mol * per_water;
    const auto [ethanol_at_25, ethanol_slope] = ethanol_activity(Real(r / (1.0 + r)));
    product *= 1.0 + r;
    at_25 += ethanol_at_25;
    slope += ethanol_slope;
  }
  if (any(bond.ionic_mol > 0.0)) {
    // Per kg of water and of its weight in ions, mole for mole: bounded as water goes.
    const Real i = bond.ionic_mol / (water_kg_mol * (water_mol + bond.ion_mol)), root = sqrt(i);
    const Real term = 2.0 * water_kg_mol * i * root / (1.0 + debye_hueckel_closeness * root);
    at_25 += debye_hueckel_25C * term;
    slope += debye_hueckel_slope * term;
  }
  return {at_25 - log(product), slope};
}

template <class Real>
Real freezing_of(const Line<Real>& line) {
  const Real at_coldest = line.at(g_of(y_coldest)), below = ln_ice_coldest - at_coldest;
  const Truth<Real> off = below > 0.0;  // colder than the curve of ice is known
  const Real off_c = any(off) ? Real(coldest_c - below / (ice_slope_per_k + below / run_out_k)) : Real(0.0);
  if (all(off)) return off_c;
  // With v = y/y0 - 1 the line meets ice where v = u + k (v - ln(1 + v)): begun with the inverse series to v^4 (7e-5 of v off at -60 C), ended by one pass
  // of Halley in y, which cubes that.
  constexpr double least_slope = 50.0;
  const Real straight = max(1e3 * line.slope + h, least_slope), per_straight = 1.0 / (straight * y_0), u = -line.at(g_of(y_0)) * per_straight,
             k = c * per_straight;
  const Real v = u * (1.0 + u * (k * 0.5 + u * (k * (k * 0.5 - 1.0 / 3.0) + u * (k * (0.25 + k * (k * 0.625 - 5.0 / 6.0))))));
  Real y = clamp(y_0 * (1.0 + v), y_warmest, y_coldest);
  const Real miss = line.at(g_of(y)) - ln_ice_at(y), towards = max(1e3 * line.slope - ln_ice_slope_at(y), least_slope), squared = towards * towards;
  y -= 2.0 * miss * towards / max(2.0 * squared + c * miss / (y * y), squared);
  return select(off, off_c, (1.0 - y / y_0) / y);
}

template <class Real>
Real ln_ice(const Real& t_c) {
  const Truth<Real> known = t_c >= coldest_c;
  const Real near = ln_ice_at(y_of(max(t_c, coldest_c)));
  if (all(known)) return near;
  const Real v = min(coldest_c - t_c, 0.99 * run_out_k);
  return select(known, near, ln_ice_coldest - ice_slope_per_k * v / (1.0 - v / run_out_k));
}

}  // namespace

double ln_ice_activity(double t_c) { return ln_ice(t_c); }

template <class Real>
WaterBondOf<Real> water_bond(const CompositionOf<Real>& composition) {
  const SolutesOf<Real> s = solutes(composition);
  WaterBondOf<Real> bond;
  bond.ethanol_mol = s.ethanol_kg / ethanol_kg_mol;
  Real particles = bond.ethanol_mol;
  const auto counts = [&](std::size_t i) { return solute_constants[i].mol_kg != 0.0 && any(s.kg[i] > 0.0); };
  for (std::size_t pair = 0; pair < solute_count; pair += 2) {
    const bool some = counts(pair), other = counts(pair + 1);
    if (!some && !other) continue;
    for (std::size_t i = pair; i < pair + 2; ++i) {
      const Constants& k = solute_constants[i];
      const Real mol = max(s.kg[i], 0.0) * k.mol_kg;
      bond.shares[bond.count++] = {k.particles * mol, &k};
      bond.ion_mol += k.ions * mol;
      bond.ionic_mol += k.ionic * mol;
      particles += k.particles * mol;
    }
  }
  constexpr double millionth = 1e-6, nothing_at_all = 1e-300;
  bond.least_water_mol = millionth * particles + nothing_at_all;
  return bond;
}

template <class Real>
Real WaterBondOf<Real>::ln_activity(const Real& t_c, const Real& water_kg) const {
  return line(*this, water_kg).at(g_at(t_c));
}

template <class Real>
Real WaterBondOf<Real>::freezing_c(const Real& water_kg) const {
  return freezing_of(line(*this, water_kg));
}

template <class Real>
Real WaterBondOf<Real>::liquid_water_kg(const Real& t_c, const Real& water_kg) const {
  Truth<Real> liquid = t_c >= 0.0;
  if (all(liquid)) return water_kg;
  const Real g = g_at(t_c), wanted = expm1(-ln_ice(t_c));
  // 1/a - 1 is nearly proportional to 1/water: a secant of their logarithms.
  constexpr double most_exponent = 300.0, longest_step = 30.0;
  const auto held = [&](const Real& kg) { return expm1(min(-line(*this, kg).at(g), most_exponent)); };
  Real strength = held(water_kg);
  liquid = liquid | !(strength < wanted);
  const Truth<Real> pure = !(strength > 0.0);
  if (all(liquid | pure)) return select(liquid, water_kg, 0.0);
  Real kg = water_kg, slope = 1.0;
  constexpr double least_slope = 0.2, most_slope = 5.0;
  for (int pass = 0; pass < 8; ++pass) {
    const Real step = clamp(log(wanted / strength) / slope, -longest_step, longest_step), less = exp(-step), next = held(kg * less);
    const Real gained = log(next / strength);
    slope = select(abs(step) > 1e-9, clamp(gained / step, least_slope, most_slope), slope);
    kg *= less;
    strength = next;
  }
  return select(liquid, water_kg, select(pure, 0.0, min(kg, water_kg)));
}

double water_activity(const Composition& composition, units::Temperature temperature) {
  return std::exp(water_bond(composition).ln_activity(units::in_celsius(temperature), composition[Component::water]));
}

units::Temperature freezing_point(const Composition& composition) { return units::celsius(water_bond(composition).freezing_c(composition[Component::water])); }

template <class Real>
ThermalStateOf<Real> thermal_state(const CompositionOf<Real>& composition, const Real& enthalpy_j) {
  return thermal_state(composition, dry_heat_curve(composition), enthalpy_j);
}

template <class Real>
ThermalStateOf<Real> thermal_state(const CompositionOf<Real>& composition, const HeatCurveOf<Real>& dry, const Real& enthalpy_j) {
  const Real water_kg = composition[Component::water], ethanol_kg = composition[Component::ethanol];
  const Real t_c = with_water_and_ethanol(dry, water_kg, ethanol_kg).celsius_at(enthalpy_j);
  const Truth<Real> liquid = (t_c >= 0.0) | !(water_kg > 0.0);
  if (all(liquid)) return {t_c, 0.0};
  const WaterBondOf<Real> bond = water_bond(composition);
  const BalanceOf<Real> balance = settle(ContactOf<Real>{.water_kg = water_kg, .ethanol_kg = ethanol_kg, .dry = dry, .bond = bond, .enthalpy_j = enthalpy_j});
  return {select(liquid, t_c, balance.t_c), select(liquid, 0.0, balance.frozen_kg)};
}

template <class Real>
Real equilibrium_enthalpy_j(const CompositionOf<Real>& composition, const Real& t_c) {
  const Real water_kg = composition[Component::water];
  const Truth<Real> liquid = (t_c >= 0.0) | !(water_kg > 0.0);
  if (all(liquid)) return heat_curve(composition).at_c(t_c);
  const Real liquid_kg = select(liquid, water_kg, water_bond(composition).liquid_water_kg(t_c, water_kg));
  const HeatCurveOf<Real> curve = with_water_and_ethanol(dry_heat_curve(composition), liquid_kg, composition[Component::ethanol]);
  return curve.at_c(t_c) + (water_kg - liquid_kg) * ice_enthalpy_j_kg(t_c);
}

template struct WaterBondOf<double>;
template struct WaterBondOf<Lanes>;
template WaterBond water_bond(const Composition&);
template WaterBondOf<Lanes> water_bond(const Compositions&);
template ThermalState thermal_state(const Composition&, const double&);
template ThermalStateOf<Lanes> thermal_state(const Compositions&, const Lanes&);
template ThermalState thermal_state(const Composition&, const HeatCurve&, const double&);
template ThermalStateOf<Lanes> thermal_state(const Compositions&, const HeatCurveOf<Lanes>&, const Lanes&);
template double equilibrium_enthalpy_j(const Composition&, const double&);
template Lanes equilibrium_enthalpy_j(const Compositions&, const Lanes&);

}  // namespace bloomset::matter
