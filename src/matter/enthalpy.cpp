// matter/enthalpy.cpp - the curves of each component as polynomials in Celsius, summed by mass.
//
// Sources give cp in kelvin per kmol (water, ethanol) or in Celsius per kg (the rest). Both are turned into
// h(t) = integral of cp from 25 C, as coefficients of t^0..t^5, by the compiler. Constants: data/matter/enthalpy.csv.
// Ranges: heat of mixing fitted -30 to 50 C; from 50 to 100 C it is extrapolated (smooth, turning positive as the
// literature says for ethanol-water at 80-110 C, but unchecked here).
#include "matter/enthalpy.hpp"

#include <cmath>

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

constexpr Cubic h_of(Component c) {
  if (c == Component::glycerol || c == Component::erythritol) return integrated(heat_capacity_polyol);
  if (c < Component::citric_acid) return integrated(heat_capacity_sugar);
  if (is_acid(c)) return integrated(heat_capacity_acid);
  if (c <= Component::salt_hydrogen) return integrated(heat_capacity_ash);
  switch (c) {
    case Component::protein:
    case Component::gelatin:
    case Component::fish_gelatin:
    case Component::caseinate:
      return integrated(heat_capacity_protein);
    case Component::fat:
    case Component::lecithin:
    case Component::sucrose_ester:
      return integrated(heat_capacity_fat);
    case Component::fibre:
      return integrated(heat_capacity_fibre);
    case Component::nitrous_oxide:
    case Component::carbon_dioxide:
    case Component::air:
      return integrated(heat_capacity_gas);
    default:
      return integrated(heat_capacity_carbohydrate);
  }
}

constexpr Cubic sugar_h = h_of(Component::sucrose), polyol_h = h_of(Component::glycerol), acid_h = h_of(Component::citric_acid),
                ash_h = h_of(Component::sodium), protein_h = h_of(Component::protein), fat_h = h_of(Component::fat), carbohydrate_h = h_of(Component::starch),
                fibre_h = h_of(Component::fibre);

// Agents and gases, which most liquids have none of.
constexpr std::size_t first_rare = index(first_agent), rare = component_count - first_rare;
constexpr std::array<Cubic, rare> rare_h = [] {
  std::array<Cubic, rare> h{};
  for (std::size_t i = 0; i < rare; ++i) h[i] = h_of(static_cast<Component>(first_rare + i));
  return h;
}();

constexpr double sum(const Composition& c, std::size_t first, std::size_t last) {
  double even = 0.0, odd = 0.0;  // two running sums let the machine overlap the additions
  std::size_t i = first;
  for (; i + 1 <= last; i += 2) {
    even += c.kg[i];
    odd += c.kg[i + 1];
  }
  return (i == last ? even + c.kg[i] : even) + odd;
}

// x(1-x) sum_k a_k (1-2x)^k for each power j of (t - 25).
constexpr std::array<double, 3> excess_by_power(double x) {
  const double z = 1.0 - 2.0 * x, front = x * (1.0 - x);
  return {front * value_at(excess_enthalpy_t0, z), front * value_at(excess_enthalpy_t1, z), front * value_at(excess_enthalpy_t2, z)};
}

constexpr auto ice_h = integrated(heat_capacity_ice);
// Ice at 0 C: the water is cooled from 25 C, then its heat of fusion leaves. ice_h alone is zero at 25 C, hence the shift.
constexpr double ice_at_0_j_kg = water_h[0] - heat_of_fusion;

}  // namespace

double HeatCurve::at_c(double t_c) const { return value_at(coefficient, t_c); }

double HeatCurve::slope_c(double t_c) const {
  const auto& c = coefficient;
  return c[1] + t_c * (2.0 * c[2] + t_c * (3.0 * c[3] + t_c * (4.0 * c[4] + t_c * (5.0 * c[5]))));
}

double HeatCurve::celsius_at(double enthalpy_j) const {
  const auto& c = coefficient;
  if (!(c[1] > 0.0)) return zero_c;
  // Start from 0 C with the curve's own bend; then each pass squares the error (about 2e-3 of its square per K).
  const double first = (enthalpy_j - c[0]) / c[1];
  double t = first * (1.0 - first * c[2] / c[1]);
  for (int pass = 0; pass < 3; ++pass) t -= (at_c(t) - enthalpy_j) / slope_c(t);
  return t;
}

HeatCurve heat_curve(const Composition& composition) {
  // What shares a law of heat is weighed together: a curve is made some fifty times in one run.
  const double sugars = sum(composition, index(Component::sucrose), index(Component::lactose)) + composition[Component::allulose];
  const double polyols = composition[Component::erythritol] + composition[Component::glycerol];
  const double acids = sum(composition, index(first_acid), index(last_acid));
  const double ash = sum(composition, index(Component::sodium), index(Component::salt_hydrogen));
  const double carbohydrates = composition[Component::starch] + composition[Component::other_solids];
  const double protein = composition[Component::protein], fat = composition[Component::fat], fibre = composition[Component::fibre];
  HeatCurve curve;
  for (std::size_t k = 0; k < 4; ++k)
    curve.coefficient[k] = ((sugars * sugar_h[k] + polyols * polyol_h[k]) + (acids * acid_h[k] + ash * ash_h[k])) +
                           ((protein * protein_h[k] + fat * fat_h[k]) + (carbohydrates * carbohydrate_h[k] + fibre * fibre_h[k]));
  if (sum(composition, first_rare, component_count - 1) != 0.0)
    for (std::size_t i = 0; i < rare; ++i)
      for (std::size_t k = 0; k < 4; ++k) curve.coefficient[k] += composition.kg[first_rare + i] * rare_h[i][k];
  return with_water_and_ethanol(curve, composition[Component::water], composition[Component::ethanol]);
}

HeatCurve with_water_and_ethanol(HeatCurve curve, double water, double ethanol) {
  auto& c = curve.coefficient;
  for (std::size_t k = 0; k < water_h.size(); ++k) c[k] += water * water_h[k];
  for (std::size_t k = 0; k < ethanol_h.size(); ++k) c[k] += ethanol * ethanol_h[k];
  const double n_water = water / water_kg_mol, n_ethanol = ethanol / ethanol_kg_mol, n = n_water + n_ethanol;
  if (n_ethanol > 0.0) {
    const auto [h0, h1, h2] = excess_by_power(n_ethanol / n);
    c[0] += n * (h0 - zero_c * (h1 - zero_c * h2));
    c[1] += n * (h1 - 2.0 * zero_c * h2);
    c[2] += n * h2;
  }
  return curve;
}

units::SpecificHeat specific_heat(const Composition& composition, units::Temperature temperature) {
  return {heat_curve(composition).slope_c(units::in_celsius(temperature)) / composition.total_kg()};
}

double excess_enthalpy_j_mol(double x_ethanol, double t_c) { return value_at(excess_by_power(x_ethanol), t_c - zero_c); }

double ice_enthalpy_j_kg(double t_c) { return ice_at_0_j_kg + value_at(ice_h, t_c) - ice_h[0]; }

double ice_specific_heat_j_kg_k(double t_c) { return value_at(heat_capacity_ice, t_c); }

// The curve is a shallow parabola: its root near 0 C, without cancellation.
double ice_celsius_at(double enthalpy_j_kg) {
  static_assert(ice_h.size() == 3);
  const double beyond = enthalpy_j_kg - ice_at_0_j_kg, slope = ice_h[1];
  return 2.0 * beyond / (slope + std::sqrt(slope * slope + 4.0 * ice_h[2] * beyond));
}

double water_vapour_enthalpy_j_kg(double t_c) { return heat_of_vaporization_water + vapour_heat_capacity_water * (t_c - zero_c); }

double ethanol_vapour_enthalpy_j_kg(double t_c) { return heat_of_vaporization_ethanol + vapour_heat_capacity_ethanol * (t_c - zero_c); }

}  // namespace bloomset::matter
