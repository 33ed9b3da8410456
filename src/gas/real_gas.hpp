// gas/real_gas.hpp - pressure, fugacity and concentration of a real gas.
//
//   p = R T c (1 + B c + C c^2),   ln(f/p) = 2 B c + 3/2 C c^2 - ln Z,   B, C = c0 + c1 (300/T) + c2 (300/T)^2
// c is the concentration of the gas [mol/m3]. An ideal gas would be 8 % off at 10 bar and 38 % at 30 bar (N2O, 0-25 C). Held to 0.1 of the
// judged tolerances (0.5 % to 10 bar, 1.5 % to 31 bar) from -20 to 36 C; used to 60 C. Sources: data/gas/real_gas.csv.
// Above the vapour pressure the gas would condense: `densest` is where that begins. Called by bottle, carbonation, emptying.
#pragma once

#include "gas/gas.hpp"

namespace bloomset::gas {

/// One gas at one temperature, with everything that depends on temperature alone worked out once. SI inside: for loops.
struct RealGas {
  double t_k = 0.0;
  double rt_j_mol = 0.0;
  double b_m3_mol = 0.0, c_m6_mol2 = 0.0;

  double pressure_pa(double c_mol_m3) const;
  /// dp/dc [Pa m3/mol].
  double pressure_slope(double c_mol_m3) const;
  double fugacity_pa(double c_mol_m3) const;
  /// Concentration at a pressure, eight passes of Newton's method from the ideal gas. Below the vapour pressure only.
  double concentration_mol_m3(double p_pa) const;
};
RealGas real_gas(Gas, units::Temperature);

/// Second virial coefficient [m3/mol].
double second_virial_m3_mol(Gas, units::Temperature);
/// Pressure at a concentration.
units::Pressure pressure(Gas, units::Molarity, units::Temperature);
/// Concentration at a pressure below the vapour pressure.
units::Molarity concentration(Gas, units::Pressure, units::Temperature);
/// Z = p / (c R T) at a pressure.
double compressibility(Gas, units::Pressure, units::Temperature);
/// f/p at a pressure.
double fugacity_coefficient(Gas, units::Pressure, units::Temperature);
/// Volume that an amount takes at a pressure and temperature.
units::Volume volume(Gas, units::Amount, units::Pressure, units::Temperature);
/// Volume of one mole at 0 C and 1 atm [m3/mol]: what "volumes" of dissolved gas are counted in (22.26 L for carbon dioxide).
double normal_molar_volume_m3_mol(Gas);

/// Pressure over the liquefied gas: what a charger holds. 182-309 K (N2O), 217-304 K (CO2); the critical pressure above.
units::Pressure vapour_pressure(Gas, units::Temperature);
/// Pressure of water vapour over water, 0 to 100 C.
units::Pressure water_vapour_pressure(units::Temperature);
/// The same [Pa] at so many Celsius.
template <class Real>
Real water_vapour_pressure_pa(const Real& t_c);
/// Concentration at the vapour pressure; within 6 K of the critical point, where the virial equation tops out up to 1.2 % below that
/// pressure, at its top. Above the critical temperature 9 mol/L, far above any bottle.
units::Molarity densest(Gas, units::Temperature);

}  // namespace bloomset::gas
