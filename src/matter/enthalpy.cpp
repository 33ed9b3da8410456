// matter/enthalpy.cpp - the curves of each component as polynomials in Celsius, summed by mass.
//
// Sources give cp in kelvin per kmol (water, ethanol) or in Celsius per kg (the rest). Both are turned into
// h(t) = integral of cp from 25 C, as coefficients of t^0..t^5, by the compiler. Constants: data/matter/enthalpy.csv.
// Ranges: heat of mixing fitted -30 to 50 C; from 50 to 100 C it is extrapolated (smooth, turning positive as the
// literature says for ethanol-water at 80-110 C, but unchecked here).
#include "matter/enthalpy.hpp"

#include "matter/component_table.hpp"
#include "matter/enthalpy_table.hpp"
#include "matter/polynomial.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

constexpr double zero_c = 25.0;  // where every pure liquid's enthalpy is zero
constexpr double water_kg_mol = 1e-3 * molar_mass_water, ethanol_kg_mol = 1e-3 * molar_mass_ethanol;

// Coefficients of p(t + shift), by repeated synthetic division.
template <std::size_t N>
constexpr std::array<double, N> shifted(std::array<double, N> c, double shift) {
  for (std::size_t i = 0; i + 1 < N; ++i)
    for (std::size_t k = N - 1; k-- > i;) c[k] += shift * c[k + 1];
  return c;
}

// h(t) [J/kg], h(25 C) = 0, from cp(t).
template <std::size_t N>
constexpr std::array<double, N + 1> integrated(const std::array<double, N>& cp) {
  std::array<double, N + 1> h{};
  for (std::size_t k = 0; k < N; ++k) h[k + 1] = cp[k] / static_cast<double>(k + 1);
  h[0] = -value_at(h, zero_c);
  return h;
}

template <std::size_t N>
constexpr std::array<double, N> per_kg(std::array<double, N> per_kmol, double kg_mol) {
  for (double& c : per_kmol) c /= kg_mol * 1e3;
  return per_kmol;
}

constexpr auto water_h = integrated(per_kg(shifted(heat_capacity_water, units::zero_celsius_k), water_kg_mol));
constexpr auto ethanol_h = integrated(per_kg(shifted(heat_capacity_ethanol, units::zero_celsius_k), ethanol_kg_mol));

using Cubic = std::array<double, 4>;  // all others: h(t) of t^0..t^3

constexpr Cubic sugar_h = integrated(heat_capacity_sugar), polyol_h = integrated(heat_capacity_polyol), acid_h = integrated(heat_capacity_acid),
                ash_h = integrated(heat_capacity_ash), protein_h = integrated(heat_capacity_protein), fat_h = integrated(heat_capacity_fat),
                carbohydrate_h = integrated(heat_capacity_carbohydrate), fibre_h = integrated(heat_capacity_fibre), gas_h = integrated(heat_capacity_gas);

double sum(const Composition& c, Component first, Component last_one) {
  double even = 0.0, odd = 0.0;  // two running sums let the machine overlap the additions
  const std::size_t last = index(last_one);
  std::size_t i = index(first);
  for (; i + 1 <= last; i += 2) {
    even += c.kg[i];
    odd += c.kg[i + 1];
  }
  return (i == last ? even + c.kg[i] : even) + odd;
}
Lanes sum(const Compositions& c, Component first, Component last) {
  std::array<Lanes, 2> part = {0.0, 0.0};
  c.kg.each(index(first), index(last), [&](std::size_t i, const Lanes& some) { part[(i - index(first)) % 2] += some; });
  return part[0] + part[1];
}

// x(1-x) sum_k a_k (1-2x)^k for each power j of (t - 25).
template <class Real>
std::array<Real, 3> excess_by_power(const Real& x) {
  const Real z = 1.0 - 2.0 * x, front = x * (1.0 - x);
  return {front * value_at(excess_enthalpy_t0, z), front * value_at(excess_enthalpy_t1, z), front * value_at(excess_enthalpy_t2, z)};
}

constexpr auto ice_h = integrated(heat_capacity_ice);
// Ice at 0 C: the water is cooled from 25 C, then its heat of fusion leaves. ice_h alone is zero at 25 C, hence the shift.
constexpr double ice_at_0_j_kg = water_h[0] - heat_of_fusion;

template <class Real>
Real ice_enthalpy(const Real& t_c) {
  return ice_at_0_j_kg + value_at(ice_h, t_c) - ice_h[0];
}

// The curve is a shallow parabola: its root near 0 C, without cancellation.
template <class Real>
Real ice_celsius(const Real& enthalpy_j_kg) {
  static_assert(ice_h.size() == 3);
  const Real beyond = enthalpy_j_kg - ice_at_0_j_kg;
  constexpr double slope = ice_h[1];
  return 2.0 * beyond / (slope + sqrt(slope * slope + 4.0 * ice_h[2] * beyond));
}

template <class Real>
Real water_vapour_enthalpy(const Real& t_c) {
  return heat_of_vaporization_water + vapour_heat_capacity_water * (t_c - zero_c);
}

template <class Real>
Real ethanol_vapour_enthalpy(const Real& t_c) {
  return heat_of_vaporization_ethanol + vapour_heat_capacity_ethanol * (t_c - zero_c);
}

}  // namespace

template <class Real>
Real HeatCurveOf<Real>::celsius_at(const Real& enthalpy_j) const {
  const auto& c = coefficient;
  const Truth<Real> something = c[1] > 0.0;
  if (!any(something)) return zero_c;
  // Start from 0 C with the curve's own bend; then each pass squares the error (about 2e-3 of its square per K).
  const Real first = (enthalpy_j - c[0]) / c[1];
  Real t = first * (1.0 - first * c[2] / c[1]);
  for (int pass = 0; pass < 3; ++pass) t -= (at_c(t) - enthalpy_j) / slope_c(t);
  return select(something, t, zero_c);
}

template <class Real>
HeatCurveOf<Real> dry_heat_curve(const CompositionOf<Real>& c) {
  using enum Component;
  // What shares a law of heat is weighed together: a curve is made some thirty times in one run.
  const Real sugars = sum(c, sucrose, lactose) + c[allulose];
  const Real polyols = c[erythritol] + c[glycerol];
  const Real acids = sum(c, first_acid, last_acid);
  const Real ash = sum(c, sodium, salt_hydrogen);
  const Real proteins = (c[protein] + c[gelatin]) + (c[fish_gelatin] + c[caseinate]);
  const Real fats = c[fat] + (c[lecithin] + c[sucrose_ester]);
  const Real carbohydrates = (c[starch] + c[other_solids]) + (sum(c, agar, konjac) + c[gum_arabic]);
  const Real gases = c[nitrous_oxide] + (c[carbon_dioxide] + c[air]);
  HeatCurveOf<Real> curve;
  for (std::size_t k = 0; k < 4; ++k)
    curve.coefficient[k] = ((sugars * sugar_h[k] + polyols * polyol_h[k]) + (acids * acid_h[k] + ash * ash_h[k])) +
                           ((proteins * protein_h[k] + fats * fat_h[k]) + (carbohydrates * carbohydrate_h[k] + c[fibre] * fibre_h[k])) + gases * gas_h[k];
  return curve;
}

template <class Real>
HeatCurveOf<Real> heat_curve(const CompositionOf<Real>& c) {
  return with_water_and_ethanol(dry_heat_curve(c), c[Component::water], c[Component::ethanol]);
}

template <class Real>
HeatCurveOf<Real> with_water_and_ethanol(const HeatCurveOf<Real>& rest, const Real& water, const Real& ethanol) {
  HeatCurveOf<Real> curve = rest;
  auto& c = curve.coefficient;
  for (std::size_t k = 0; k < water_h.size(); ++k) c[k] += water * water_h[k];
  for (std::size_t k = 0; k < ethanol_h.size(); ++k) c[k] += ethanol * ethanol_h[k];
  const Truth<Real> mixed = ethanol > 0.0;
  if (any(mixed)) {
    const Real n_ethanol = ethanol * (1.0 / ethanol_kg_mol), n = water * (1.0 / water_kg_mol) + n_ethanol;
    const auto [h0, h1, h2] = excess_by_power(select(mixed, n_ethanol / n, 0.0));
    c[0] += n * (h0 - zero_c * (h1 - zero_c * h2));
    c[1] += n * (h1 - 2.0 * zero_c * h2);
    c[2] += n * h2;
  }
  return curve;
}

template class HeatCurveOf<double>;
template class HeatCurveOf<Lanes>;
template HeatCurve dry_heat_curve(const Composition&);
template HeatCurveOf<Lanes> dry_heat_curve(const Compositions&);
template HeatCurve heat_curve(const Composition&);
template HeatCurveOf<Lanes> heat_curve(const Compositions&);
template HeatCurve with_water_and_ethanol(const HeatCurve&, const double&, const double&);
template HeatCurveOf<Lanes> with_water_and_ethanol(const HeatCurveOf<Lanes>&, const Lanes&, const Lanes&);

units::SpecificHeat specific_heat(const Composition& composition, units::Temperature temperature) {
  return {heat_curve(composition).slope_c(units::in_celsius(temperature)) / composition.total_kg()};
}

double excess_enthalpy_j_mol(double x_ethanol, double t_c) { return value_at(excess_by_power(x_ethanol), t_c - zero_c); }

double ice_enthalpy_j_kg(double t_c) { return ice_enthalpy(t_c); }
Lanes ice_enthalpy_j_kg(const Lanes& t_c) { return ice_enthalpy(t_c); }

double ice_specific_heat_j_kg_k(double t_c) { return value_at(heat_capacity_ice, t_c); }
Lanes ice_specific_heat_j_kg_k(const Lanes& t_c) { return value_at(heat_capacity_ice, t_c); }

double ice_celsius_at(double enthalpy_j_kg) { return ice_celsius(enthalpy_j_kg); }
Lanes ice_celsius_at(const Lanes& enthalpy_j_kg) { return ice_celsius(enthalpy_j_kg); }

double water_vapour_enthalpy_j_kg(double t_c) { return water_vapour_enthalpy(t_c); }
Lanes water_vapour_enthalpy_j_kg(const Lanes& t_c) { return water_vapour_enthalpy(t_c); }

double ethanol_vapour_enthalpy_j_kg(double t_c) { return ethanol_vapour_enthalpy(t_c); }
Lanes ethanol_vapour_enthalpy_j_kg(const Lanes& t_c) { return ethanol_vapour_enthalpy(t_c); }

}  // namespace bloomset::matter
