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
#include <type_traits>

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// Enthalpy of one liquid of fixed composition, as a polynomial in Celsius; [J]. Valid -35 to 110 C.
template <class Real>
class HeatCurveOf {
 public:
  /// H(T) [J].
  Real at_c(const Real& t_c) const { return value(t_c); }
  Lanes at_c(const Lanes& t_c) const requires(std::is_same_v<Real, double>) { return value(t_c); }
  /// dH/dT [J/K].
  Real slope_c(const Real& t) const {
    const auto& c = coefficient;
    const Real tt = t * t;
    return (c[1] + tt * (3.0 * c[3] + tt * (5.0 * c[5]))) + t * (2.0 * c[2] + tt * (4.0 * c[4]));
  }
  /// The temperature [C] at which H = enthalpy_j, by a fixed number of Newton passes (the curve is nearly straight).
  /// An empty composition answers 25 C.
  Real celsius_at(const Real& enthalpy_j) const;

  static constexpr int degree = 5;
  std::array<Real, degree + 1> coefficient{};  // of t_c^0 .. t_c^5

 private:
  // Even and odd powers apart: two short chains of products that the machine overlaps.
  template <class T>
  T value(const T& t) const {
    const auto& c = coefficient;
    const T tt = t * t;
    return (c[0] + tt * (c[2] + tt * c[4])) + t * (c[1] + tt * (c[3] + tt * c[5]));
  }
};
using HeatCurve = HeatCurveOf<double>;

/// The curve of a liquid (all components dissolved or suspended; no ice).
template <class Real>
HeatCurveOf<Real> heat_curve(const CompositionOf<Real>&);
/// The same in two halves, for a search that only moves water: the curve of all that is neither water nor ethanol, and these two [kg].
template <class Real>
HeatCurveOf<Real> dry_heat_curve(const CompositionOf<Real>&);
template <class Real>
HeatCurveOf<Real> with_water_and_ethanol(const HeatCurveOf<Real>& rest, const Real& water_kg, const Real& ethanol_kg);

/// cp of the liquid at a temperature [J/(kg K)].
units::SpecificHeat specific_heat(const Composition&, units::Temperature);

/// Excess enthalpy of ethanol-water per mole of mixture [J/mol]; x = mole fraction of ethanol. Valid -30 to 50 C.
double excess_enthalpy_j_mol(double x_ethanol, double t_c);

/// Enthalpy of ice [J/kg], same zero as liquid water at 25 C: -(water 25 to 0 C) - 333.6 kJ/kg + integral of cp_ice.
double ice_enthalpy_j_kg(double t_c);
Lanes ice_enthalpy_j_kg(const Lanes& t_c);
/// cp of ice [J/(kg K)], Choi & Okos 1986.
double ice_specific_heat_j_kg_k(double t_c);
Lanes ice_specific_heat_j_kg_k(const Lanes& t_c);
/// The temperature [C] of ice that has this enthalpy [J/kg]: the inverse of `ice_enthalpy_j_kg`, meant for -60 to 0 C.
double ice_celsius_at(double enthalpy_j_kg);
Lanes ice_celsius_at(const Lanes& enthalpy_j_kg);

/// Enthalpy of the vapour [J/kg] that leaves at t_c, same zero: heat of vaporization at 25 C and the gas's own cp.
double water_vapour_enthalpy_j_kg(double t_c);
double ethanol_vapour_enthalpy_j_kg(double t_c);
Lanes water_vapour_enthalpy_j_kg(const Lanes& t_c);
Lanes ethanol_vapour_enthalpy_j_kg(const Lanes& t_c);

}  // namespace bloomset::matter
