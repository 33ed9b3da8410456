// matter/equilibrium.hpp - one liquid, its ice and its vessel at rest with each other: the inner solver of freezing and ice.
#pragma once

#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::matter {

/// What meets. Masses [kg], heats [J], temperatures [C].
template <class Real>
struct ContactOf {
  Real water_kg = 0.0;            // of the drink, also what stands frozen in it
  Real ethanol_kg = 0.0;          // of the drink
  HeatCurveOf<Real> dry;          // of what else is in the drink
  const WaterBondOf<Real>& bond;  // of the drink; outlives the contact
  Real enthalpy_j = 0.0;          // of drink, ice and vessel together; the vessel's is vessel_j_k times its temperature
  Real ice_kg = 0.0;              // ice beside the drink
  Real ice_enthalpy_j_kg = 0.0;   // as it came
  bool ice_follows = false;       // what does not melt ends at the drink's temperature; else it keeps its enthalpy
  Real vessel_j_k = 0.0;
};

/// How it ends: ice melts into the drink, or some of the drink's water freezes, never both.
template <class Real>
struct BalanceOf {
  Real t_c = 0.0;
  Real melted_kg = 0.0;  // of the ice beside the drink
  Real frozen_kg = 0.0;  // of the drink's own water
  Truth<Real> ice_gone{};
};

/// Equilibrium at the given enthalpy, by a fixed number of passes.
template <class Real>
BalanceOf<Real> settle(const ContactOf<Real>&);

}  // namespace bloomset::matter
