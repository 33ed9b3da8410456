// gas/solubility.cpp - Henry's law with fugacity and Poynting factor; what sugar, salt, ethanol and fat do to it.
#include "gas/solubility.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gas/solubility_table.hpp"
#include "matter/density.hpp"
#include "units/constants.hpp"

namespace bloomset::gas {
namespace {

using matter::Component;
using matter::Composition;

constexpr bool is_n2o(Gas gas) { return gas == Gas::nitrous_oxide; }

constexpr std::array ions = {Component::sodium, Component::potassium, Component::calcium, Component::magnesium, Component::chloride};
constexpr std::array salting = {table::salting_sodium, table::salting_potassium, table::salting_calcium, table::salting_magnesium, table::salting_chloride};

// log10 of what the ions leave, per litre of aqueous liquid.
double salting_out(Gas gas, const Composition& liquid, double aqueous_m3) {
  const double h_gas = is_n2o(gas) ? table::salting_gas_nitrous_oxide : table::salting_gas_carbon_dioxide;
  double sum = 0.0;
  for (std::size_t i = 0; i < ions.size(); ++i) {
    const double mol_l = liquid[ions[i]] / matter::info(ions[i]).molar_mass_g_mol / aqueous_m3;
    sum += (salting[i] + h_gas) * mol_l;
  }
  return sum;
}

double salt_kg(const Composition& liquid) {
  double sum = liquid[Component::salt_hydrogen];
  for (const Component ion : ions) sum += liquid[ion];
  return sum;
}

// Solubility in ethanol over that in water at 25 C.
double ethanol_over_water(Gas gas) {
  constexpr double at_k = 298.15;
  const double x = is_n2o(gas) ? table::ethanol_mole_fraction_nitrous_oxide : table::ethanol_mole_fraction_carbon_dioxide;
  const double mol_m3 = x / (1.0 - x) / (1e-6 * table::ethanol_molar_volume);
  return mol_m3 / (henry_mol_m3_pa(gas, units::kelvin(at_k)) * units::standard_atmosphere_pa);
}

}  // namespace

double henry_mol_m3_pa(Gas gas, units::Temperature t) {
  const auto& a = is_n2o(gas) ? table::henry_nitrous_oxide : table::henry_carbon_dioxide;
  const double k = t.si / 100.0;
  const double k0_mol_l_atm = std::exp(a[0] + a[1] / k + a[2] * std::log(k));
  return 1e3 * k0_mol_l_atm / units::standard_atmosphere_pa;
}

double ostwald(Gas gas, units::Temperature t) { return henry_mol_m3_pa(gas, t) * units::molar_gas_constant_j_mol_k * t.si; }

double Solubility::dissolved(double c) const {
  const double excess_pa = gas.pressure_pa(c) - units::standard_atmosphere_pa;
  return k0_mol_m3_pa * gas.fugacity_pa(c) * std::exp(-volume_m3_mol * excess_pa / gas.rt_j_mol);
}

double Solubility::slope(double c) const {
  if (c <= 0.0) return k0_mol_m3_pa * gas.rt_j_mol * std::exp(volume_m3_mol * units::standard_atmosphere_pa / gas.rt_j_mol);
  return dissolved(c) * (1.0 / c - volume_m3_mol) * gas.pressure_slope(c) / gas.rt_j_mol;
}

Solubility solubility(Gas gas, units::Temperature t, double relative) {
  return {real_gas(gas, t), relative * henry_mol_m3_pa(gas, t),
          1e-6 * (is_n2o(gas) ? table::dissolved_volume_nitrous_oxide : table::dissolved_volume_carbon_dioxide)};
}

units::Molarity dissolved(Gas gas, units::Molarity c, units::Temperature t, double relative) { return {solubility(gas, t, relative).dissolved(c.si)}; }

units::Molarity dissolved_at(Gas gas, units::Pressure p, units::Temperature t, double relative) {
  const Solubility s = solubility(gas, t, relative);
  return {s.dissolved(s.gas.concentration_mol_m3(p.si))};
}

double gas_volumes(Gas gas, units::Molarity dissolved) { return dissolved.si * normal_molar_volume_m3_mol(gas); }

units::MassPerVolume mass_per_volume(Gas gas, units::Molarity dissolved) { return {dissolved.si * molar_mass_kg_mol(gas)}; }

RelativeSolubility relative_solubility(Gas gas, const Composition& liquid, units::Temperature t) {
  Composition aqueous = liquid;
  for (const Component c : {Component::fat, Component::starch, Component::fibre}) aqueous[c] = 0.0;
  const double whole_m3 = matter::liquid_volume(liquid, t).si, aqueous_m3 = matter::liquid_volume(aqueous, t).si;
  if (!(aqueous_m3 > 0.0)) return {1.0, table::uncertainty_water};
  const double fat_m3 = std::max(matter::liquid_volume(aqueous + pure(Component::fat, {liquid[Component::fat]}), t).si - aqueous_m3, 0.0);

  const double all_dissolved = liquid.dissolved_kg(), solids = all_dissolved - salt_kg(liquid), water = liquid[Component::water];
  const double w = solids > 0.0 ? solids / (solids + water) : 0.0;
  const double u = std::max((matter::strength(aqueous).si - table::ethanol_neutral) / (1.0 - table::ethanol_neutral), 0.0);
  const double ethanol_gain = (ethanol_over_water(gas) - 1.0) * u * u;
  const double in_water = std::exp(table::solids_effect * w) * std::pow(10.0, -salting_out(gas, liquid, aqueous_m3)) * (1.0 + ethanol_gain);
  const double in_fat = (is_n2o(gas) ? table::fat_ostwald_nitrous_oxide : table::fat_ostwald_carbon_dioxide) / ostwald(gas, t);

  const double by_water = in_water * aqueous_m3 / whole_m3, by_fat = in_fat * fat_m3 / whole_m3;
  const double value = by_water + by_fat;
  // Below half a mass percent of anything else (gas does not count) the liquid is water: practice. Tap water and salted
  // water for cooking lie below it, and the effect of solids at it is less than the uncertainty of water's own table.
  constexpr double nearly_water = 0.005;
  const double not_water = all_dissolved + liquid[Component::ethanol] + liquid[Component::fat] + liquid[Component::starch] + liquid[Component::fibre];
  if (not_water < nearly_water * water) return {value, table::uncertainty_water};
  const double of_ethanol = by_water * ethanol_gain / (1.0 + ethanol_gain) / value;
  return {value, table::uncertainty_other + table::uncertainty_ethanol * of_ethanol + table::uncertainty_fat * by_fat / value};
}

}  // namespace bloomset::gas
