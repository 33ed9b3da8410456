// matter/freezing.hpp - water activity, freezing point and the ice that stands in equilibrium: one model.
//
//   ln a_w(T) = sum over solutes of ln a_w,i, each at its own molality in all the water, with constants that depend on T
//               + one Debye-Hueckel term of all salts together;
//   ice:  ln a_w = -(6010/R)(1/T - 1/273.15) + (38.1/R)(ln(T/273.15) + 273.15/T - 1).
// The freezing point is where both meet; the ice fraction at T is the water that must leave for T to be the freezing point.
// Checked against single solutes from 0 to -50 C and at 25 C (data/matter/freezing.csv). No measured freezing points of
// mixtures were found: claim 0.3 C down to -8 C, 1 C to -15 C, 2 C below. Constants stop changing below -60 and above
// 60 C; below -60 C the curve of ice is continued towards -120 C, so that no mixture is without an answer.
#pragma once

#include <array>

#include "matter/composition.hpp"
#include "matter/enthalpy.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// One solute's rows of the table.
struct WaterConstants;

/// What a composition does to the activity of its water: prepared once, asked at many temperatures and waters.
/// Amounts of solute stay fixed while `water_kg` may differ from the composition's (melt added, ice frozen out).
template <class Real>
struct WaterBondOf {
  // Filled by water_bond(); opaque to callers. Solutes stand two by two, as their table has them, so that a sum does not know which of them are there.
  struct Share {
    Real mol;  // of particles
    const WaterConstants* constants;
  };
  static constexpr std::size_t most = 34;
  std::array<Share, most> shares;  // the first `count` are set
  std::size_t count = 0;
  Real ethanol_mol = 0.0;
  Real ion_mol = 0.0, ionic_mol = 0.0;  // ions; half the sum of amount times charge squared
  Real least_water_mol = 0.0;           // a millionth of the solutes: keeps a dry mixture finite

  WaterBondOf() {}
  /// ln a_w at a temperature [C] with this much water [kg]. Never NaN; without water about -14 and below.
  Real ln_activity(const Real& t_c, const Real& water_kg) const;
  /// Freezing point [C] with this much water; 0 for pure water, above -120. Fixed passes.
  Real freezing_c(const Real& water_kg) const;
  /// Liquid water [kg] left in equilibrium with ice at t_c (at most water_kg: no ice above the freezing point).
  Real liquid_water_kg(const Real& t_c, const Real& water_kg) const;
};
using WaterBond = WaterBondOf<double>;
template <class Real>
WaterBondOf<Real> water_bond(const CompositionOf<Real>&);

/// ln a_w of pure ice relative to supercooled water [C]; 0 at 0 C.
double ln_ice_activity(double t_c);

/// Water activity of the liquid at a temperature (1 for pure water). Validity: each solute's in data/matter/freezing.csv.
double water_activity(const Composition&, units::Temperature);
/// Temperature at which first ice forms.
units::Temperature freezing_point(const Composition&);

/// Temperature and ice of a batch in equilibrium, read from masses and enthalpy.
template <class Real>
struct ThermalStateOf {
  Real t_c = 25.0;
  Real ice_kg = 0.0;  // of the composition's water
};
using ThermalState = ThermalStateOf<double>;
/// `enthalpy_j` on the zero of enthalpy.hpp. Above its freezing point a liquid has no ice. Fixed passes.
template <class Real>
ThermalStateOf<Real> thermal_state(const CompositionOf<Real>&, const Real& enthalpy_j);
/// For a caller who has its `dry_heat_curve`.
template <class Real>
ThermalStateOf<Real> thermal_state(const CompositionOf<Real>&, const HeatCurveOf<Real>& dry, const Real& enthalpy_j);
/// The inverse: enthalpy [J] of the batch in equilibrium at t_c, ice counted.
template <class Real>
Real equilibrium_enthalpy_j(const CompositionOf<Real>&, const Real& t_c);

}  // namespace bloomset::matter
