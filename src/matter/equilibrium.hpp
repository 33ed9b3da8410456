// matter/equilibrium.hpp - one liquid, its ice and its vessel at rest with each other: the inner solver of freezing and ice.
#pragma once

#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::matter {

/// What meets. Masses [kg], heats [J], temperatures [C].
struct Contact {
  double water_kg = 0.0;           // of the drink, also what stands frozen in it
  double ethanol_kg = 0.0;         // of the drink
  HeatCurve dry;                   // of what else is in the drink
  WaterBond bond;                  // of the drink
  double enthalpy_j = 0.0;         // of drink, ice and vessel together; the vessel's is vessel_j_k times its temperature
  double ice_kg = 0.0;             // ice beside the drink
  double ice_enthalpy_j_kg = 0.0;  // as it came
  bool ice_follows = false;        // what does not melt ends at the drink's temperature; else it keeps its enthalpy
  double vessel_j_k = 0.0;
};

/// How it ends: ice melts into the drink, or some of the drink's water freezes, never both.
struct Balance {
  double t_c = 0.0;
  double melted_kg = 0.0;  // of the ice beside the drink
  double frozen_kg = 0.0;  // of the drink's own water
  bool ice_gone = false;
};

/// Equilibrium at the given enthalpy, by a fixed number of passes.
Balance settle(const Contact&);

}  // namespace bloomset::matter
