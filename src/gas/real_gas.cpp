// gas/real_gas.cpp - the virial equation in density and the vapour pressures.
#include "gas/real_gas.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "gas/real_gas_table.hpp"
#include "matter/elementary.hpp"
#include "units/constants.hpp"

namespace bloomset::gas {
namespace {

constexpr int density_passes = 8;

// Beyond this no bottle goes; only a bound for the solvers where there is no vapour pressure.
constexpr double densest_above_critical_mol_m3 = 9000.0;

double in_reduced(const std::array<double, 3>& c, double t_k) {
  const double x = 300.0 / t_k;
  return c[0] + x * (c[1] + x * c[2]);
}

// ln(p/pc) = (Tc/T) sum n theta^t.
double vapour_pressure_pa(std::span<const double> n, std::span<const double> power, double tc_k, double pc_bar, double t_k) {
  const double theta = std::max(1.0 - t_k / tc_k, 0.0);
  double sum = 0.0;
  for (std::size_t k = 0; k < n.size(); ++k) sum += n[k] * std::pow(theta, power[k]);
  return 1e5 * pc_bar * std::exp(sum * tc_k / t_k);
}

// Water's exponents are whole halves, and so are powers by multiplying.
constexpr auto water_halves = [] {
  std::array<int, table::vapour_exponent_water.size()> halves{};
  for (std::size_t k = 0; k < halves.size(); ++k) halves[k] = static_cast<int>(2.0 * table::vapour_exponent_water[k]);
  return halves;
}();
static_assert([] {
  for (std::size_t k = 0; k < water_halves.size(); ++k)
    if (0.5 * water_halves[k] != table::vapour_exponent_water[k]) return false;
  return true;
}());
template <class Real>
Real power(const Real& root, const Real& whole, int halves) {
  Real product = halves % 2 != 0 ? root : Real(1.0), square = whole;
  for (int left = halves / 2; left > 0; left /= 2) {
    if (left % 2 != 0) product *= square;
    square *= square;
  }
  return product;
}

double critical_temperature_k(Gas gas) {
  return gas == Gas::nitrous_oxide ? table::critical_temperature_nitrous_oxide : table::critical_temperature_carbon_dioxide;
}

}  // namespace

double RealGas::pressure_pa(double c) const { return rt_j_mol * c * (1.0 + c * (b_m3_mol + c * c_m6_mol2)); }

double RealGas::pressure_slope(double c) const { return rt_j_mol * (1.0 + c * (2.0 * b_m3_mol + c * 3.0 * c_m6_mol2)); }

double RealGas::fugacity_pa(double c) const {
  // f = p exp(2Bc + 3/2 Cc^2 - ln Z) = R T c exp(2Bc + 3/2 Cc^2): Z cancels.
  return rt_j_mol * c * std::exp(c * (2.0 * b_m3_mol + c * 1.5 * c_m6_mol2));
}

double RealGas::concentration_mol_m3(double p_pa) const {
  double c = p_pa / rt_j_mol;
  for (int pass = 0; pass < density_passes; ++pass) c -= (pressure_pa(c) - p_pa) / pressure_slope(c);
  return c;
}

RealGas real_gas(Gas gas, units::Temperature t) {
  const bool n2o = gas == Gas::nitrous_oxide;
  RealGas g;
  g.t_k = t.si;
  g.rt_j_mol = units::molar_gas_constant_j_mol_k * t.si;
  g.b_m3_mol = 1e-6 * in_reduced(n2o ? table::second_virial_nitrous_oxide : table::second_virial_carbon_dioxide, t.si);
  g.c_m6_mol2 = 1e-12 * in_reduced(n2o ? table::third_virial_nitrous_oxide : table::third_virial_carbon_dioxide, t.si);
  return g;
}

double second_virial_m3_mol(Gas gas, units::Temperature t) { return real_gas(gas, t).b_m3_mol; }

units::Pressure pressure(Gas gas, units::Molarity c, units::Temperature t) { return {real_gas(gas, t).pressure_pa(c.si)}; }

units::Molarity concentration(Gas gas, units::Pressure p, units::Temperature t) { return {real_gas(gas, t).concentration_mol_m3(p.si)}; }

double compressibility(Gas gas, units::Pressure p, units::Temperature t) {
  const RealGas g = real_gas(gas, t);
  const double c = g.concentration_mol_m3(p.si);
  return 1.0 + c * (g.b_m3_mol + c * g.c_m6_mol2);
}

double fugacity_coefficient(Gas gas, units::Pressure p, units::Temperature t) {
  const RealGas g = real_gas(gas, t);
  return g.fugacity_pa(g.concentration_mol_m3(p.si)) / p.si;
}

units::Volume volume(Gas gas, units::Amount n, units::Pressure p, units::Temperature t) { return {n.si / concentration(gas, p, t).si}; }

double normal_molar_volume_m3_mol(Gas gas) {
  return 1.0 / concentration(gas, units::pascals(units::standard_atmosphere_pa), units::kelvin(units::zero_celsius_k)).si;
}

units::Pressure vapour_pressure(Gas gas, units::Temperature t) {
  const double tc_k = critical_temperature_k(gas);
  if (gas == Gas::nitrous_oxide)
    return {vapour_pressure_pa(table::vapour_pressure_nitrous_oxide, table::vapour_exponent_nitrous_oxide, tc_k, table::critical_pressure_nitrous_oxide,
                               std::min(t.si, tc_k))};
  return {vapour_pressure_pa(table::vapour_pressure_carbon_dioxide, table::vapour_exponent_carbon_dioxide, tc_k, table::critical_pressure_carbon_dioxide,
                             std::min(t.si, tc_k))};
}

template <class Real>
Real water_vapour_pressure_pa(const Real& t_c) {
  const Real t_k = t_c + units::zero_celsius_k, theta = matter::max(1.0 - t_k / table::critical_temperature_water, 0.0), root = matter::sqrt(theta);
  Real sum = 0.0;
  for (std::size_t k = 0; k < table::vapour_pressure_water.size(); ++k) sum += table::vapour_pressure_water[k] * power(root, theta, water_halves[k]);
  return 1e5 * table::critical_pressure_water * matter::exp(sum * table::critical_temperature_water / t_k);
}
template double water_vapour_pressure_pa(const double&);
template matter::Lanes water_vapour_pressure_pa(const matter::Lanes&);

units::Pressure water_vapour_pressure(units::Temperature t) { return {water_vapour_pressure_pa(units::in_celsius(t))}; }

units::Molarity densest(Gas gas, units::Temperature t) {
  if (t.si >= critical_temperature_k(gas)) return {densest_above_critical_mol_m3};
  const RealGas g = real_gas(gas, t);
  const double wanted = vapour_pressure(gas, t).si;
  // Halving, not Newton: near the critical point p(c) is almost flat.
  double low = 0.0, high = densest_above_critical_mol_m3;
  for (int pass = 0; pass < 50; ++pass) {
    const double middle = 0.5 * (low + high);
    (g.pressure_pa(middle) < wanted && g.pressure_slope(middle) > 0.0 ? low : high) = middle;
  }
  return {low};
}

}  // namespace bloomset::gas
