// matter/freezing.hpp - water activity, freezing point and the ice that stands in equilibrium: one model.
//
//   ln a_w(T) = sum over solutes of ln a_w,i, each at its own molality in all the water, with constants that depend on T;
//   ice:  ln a_w = -(6010/R)(1/T - 1/273.15) + (38.1/R)(ln(T/273.15) + 273.15/T - 1).
// The freezing point is where both meet; the ice fraction at T is the water that must leave for T to be the freezing point.
#pragma once

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// What a composition does to the activity of its water: prepared once, asked at many temperatures and waters.
/// Amounts of solute stay fixed while `water_kg` may differ from the composition's (melt added, ice frozen out).
struct WaterBond {
  // Filled by water_bond(); opaque to callers.
  struct Solute {
    double n_mol = 0.0;              // particles
    double k0 = 0.0, k1 = 0.0;       // of x^2 at 0 C and its slope per K
    double l0 = 0.0;                 // of x^3
  };
  static constexpr int most = 32;
  std::array<Solute, most> solutes{};
  int count = 0;
  double ethanol_kg = 0.0;

  /// ln a_w at a temperature [C] with this much water [kg].
  double ln_activity(double t_c, double water_kg) const;
  /// Freezing point [C] with this much water; 0 for pure water. Fixed passes.
  double freezing_c(double water_kg) const;
  /// Liquid water [kg] left in equilibrium with ice at t_c (at most water_kg: no ice above the freezing point).
  double liquid_water_kg(double t_c, double water_kg) const;
};
WaterBond water_bond(const Composition&);

/// ln a_w of pure ice relative to supercooled water [C]; 0 at 0 C.
double ln_ice_activity(double t_c);

/// Water activity of the liquid at a temperature (1 for pure water). Validity: see README limits of each solute.
double water_activity(const Composition&, units::Temperature);
/// Temperature at which first ice forms.
units::Temperature freezing_point(const Composition&);

/// Temperature and ice of a batch in equilibrium, read from masses and enthalpy.
struct ThermalState {
  double t_c = 25.0;
  double ice_kg = 0.0;       // of the composition's water
};
/// `enthalpy_j` on the zero of enthalpy.hpp. Above its freezing point a liquid has no ice. Fixed passes.
ThermalState thermal_state(const Composition&, double enthalpy_j);
/// The inverse: enthalpy [J] of the batch in equilibrium at t_c, ice counted.
double equilibrium_enthalpy_j(const Composition&, double t_c);

}  // namespace bloomset::matter
