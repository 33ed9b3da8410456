// matter/enthalpy.hpp - one surface h(composition, T): heat capacity, heat of mixing, and temperature from enthalpy.
//
// Zero is each pure liquid component at 25 C. For water and ethanol
//   H = m_w h_w(T) + m_e h_e(T) + n HE(x, T),   HE(x,T) = x (1-x) sum_k sum_j a_kj (1-2x)^k (T-25)^j
// so that cp = dH/dT holds the excess heat capacity; every other component adds m_i times the integral of its own
// apparent cp. For a fixed composition H is a polynomial in T, a `HeatCurve`: built once, evaluated often.
// Heats of solution and of dilution of sugars and acids are left out (sucrose: about +16 J/g, from memory).
// Called by ice, freezing and every unit of flow.
#pragma once

#include <array>

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// Enthalpy of one liquid of fixed composition, as a polynomial in Celsius; [J]. Valid -35 to 110 C.
class HeatCurve {
 public:
  /// H(T) [J].
  double at_c(double t_c) const;
  /// dH/dT [J/K].
  double slope_c(double t_c) const;
  /// The temperature [C] at which H = enthalpy_j, by a fixed number of Newton passes (the curve is nearly straight).
  /// An empty composition answers 25 C.
  double celsius_at(double enthalpy_j) const;

  static constexpr int degree = 5;
  std::array<double, degree + 1> coefficient{};  // of t_c^0 .. t_c^5
};

/// The curve of a liquid (all components dissolved or suspended; no ice).
HeatCurve heat_curve(const Composition&);
/// The same in two halves, for a search that only moves water: the curve of all that is neither water nor ethanol, and these two [kg].
HeatCurve dry_heat_curve(const Composition&);
HeatCurve with_water_and_ethanol(HeatCurve rest, double water_kg, double ethanol_kg);

/// cp of the liquid at a temperature [J/(kg K)].
units::SpecificHeat specific_heat(const Composition&, units::Temperature);

/// Excess enthalpy of ethanol-water per mole of mixture [J/mol]; x = mole fraction of ethanol. Valid -30 to 50 C.
double excess_enthalpy_j_mol(double x_ethanol, double t_c);

/// Enthalpy of ice [J/kg], same zero as liquid water at 25 C: -(water 25 to 0 C) - 333.6 kJ/kg + integral of cp_ice.
double ice_enthalpy_j_kg(double t_c);
/// cp of ice [J/(kg K)], Choi & Okos 1986.
double ice_specific_heat_j_kg_k(double t_c);
/// The temperature [C] of ice that has this enthalpy [J/kg]: the inverse of `ice_enthalpy_j_kg`, meant for -60 to 0 C.
double ice_celsius_at(double enthalpy_j_kg);

/// Enthalpy of the vapour [J/kg] that leaves at t_c, same zero: heat of vaporization at 25 C and the gas's own cp.
double water_vapour_enthalpy_j_kg(double t_c);
double ethanol_vapour_enthalpy_j_kg(double t_c);

}  // namespace bloomset::matter
