// gas/solubility.hpp - how much gas a liquid holds over gas at a given concentration.
//
//   dissolved = r K0(T) f exp(-v (p - 1 atm) / (R T)),   ln K0 = a0 + a1 (100/T) + a2 ln(T/100)
// with f the fugacity and p the pressure of the gas, v its volume in water (Poynting factor) and r the solubility in this liquid over that in
// water. N2O: Weiss and Price 1980; CO2: Weiss 1974; both 0-40 C and 2-3 %, extrapolated to 60 C (up to 4 %).
// r of a liquid (relative_solubility) is weak ground, so its uncertainty comes with it. Its law:
//   r = (aqueous share) exp(-0.9 w) 10^(-sum (h_ion + h_gas) c_ion) (1 + (E - 1) u^2) + (fat share) L_fat / L_water(T),
// w = dissolved solids over dissolved solids and water by mass; shares by volume; u = (abv - 15 %)/85 % above 15 %vol and 0 below; E = solubility
// in ethanol over that in water at 25 C. Starch and fibre take room and dissolve nothing. Constants: data/gas/solubility.csv.
// Called by bottle, carbonation, flow.
#pragma once

#include "gas/real_gas.hpp"
#include "matter/composition.hpp"

namespace bloomset::gas {

/// K0 [mol/(m3 Pa)] per pascal of fugacity, fresh water.
double henry_mol_m3_pa(Gas, units::Temperature);
/// Litres of gas that a litre of water holds, at vanishing pressure: K0 R T.
double ostwald(Gas, units::Temperature);

/// A solubility worked out at one temperature. SI inside: for loops.
struct Solubility {
  RealGas gas;
  double k0_mol_m3_pa = 0.0;   // in this liquid: r K0
  double volume_m3_mol = 0.0;  // v

  /// Dissolved gas [mol/m3] over gas at c [mol/m3].
  double dissolved(double c_mol_m3) const;
  /// Its slope, given the value: d ln d / dc = (1/c - v) (dp/dc) / (R T).
  double slope(double c_mol_m3) const;
};
Solubility solubility(Gas, units::Temperature, double relative_solubility = 1.0);

/// Dissolved gas over gas at a concentration, in equilibrium.
units::Molarity dissolved(Gas, units::Molarity gas, units::Temperature, double relative_solubility = 1.0);
/// Dissolved gas over gas at a pressure of its own (without air and water vapour), in equilibrium.
units::Molarity dissolved_at(Gas, units::Pressure, units::Temperature, double relative_solubility = 1.0);
/// Litres of gas at 0 C and 1 atm per litre of liquid.
double gas_volumes(Gas, units::Molarity dissolved);
units::MassPerVolume mass_per_volume(Gas, units::Molarity dissolved);

/// Solubility in a liquid over that in water, by volume, and its relative half width (0.1 = +-10 %).
struct RelativeSolubility {
  double value = 1.0;
  double uncertainty = 0.0;
};
RelativeSolubility relative_solubility(Gas, const matter::Composition& liquid, units::Temperature);

}  // namespace bloomset::gas
