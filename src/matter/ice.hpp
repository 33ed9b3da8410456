// matter/ice.hpp - ice that lies in a drink: how much melts, and how cold it gets.
//
// Enthalpy balance: drink + vessel + melted ice (+ leftover ice that follows) keep their sum. The floor is the
// freezing point of the drink as diluted. `inert`: unmelted ice keeps its start temperature. `follows`: it ends at
// the drink's (at 0 C beside a warmer one). Wet ice carries `surface_water_kg` at 0 C, which counts as melt from the start.
//
// Melt is never negative. Where nothing can melt (a drink already partly frozen; ice so cold, and so much, that warming it
// takes more heat than the drink has) the drink's own water freezes: it stays in the liquid's books, whose enthalpy then
// lies below freezing and whose ice `thermal_state` reads.
#pragma once

#include "matter/composition.hpp"

namespace bloomset::matter {

enum class LeftoverIce { inert, follows };

/// One contact of a liquid with ice. All masses [kg], temperatures [C], heats [J].
template <class Real>
struct IceContactOf {
  CompositionOf<Real> liquid;
  Real liquid_enthalpy_j = 0.0;
  Real ice_kg = 0.0;            // dry ice, without its surface water
  Real ice_c = 0.0;             // at most 0
  Real surface_water_kg = 0.0;  // at 0 C; joins the liquid
  Real vessel_j_k = 0.0;        // heat capacity of the vessel that cools with the drink
  Real vessel_c = 20.0;
  LeftoverIce leftover = LeftoverIce::inert;
};
using IceContact = IceContactOf<double>;

/// What came of it. Mass and enthalpy are conserved: liquid + left ice + vessel hold what went in.
template <class Real>
struct IceOutcomeOf {
  CompositionOf<Real> liquid;  // with melt and surface water
  Real liquid_enthalpy_j = 0.0;
  Real t_c = 0.0;        // of the liquid, and of the vessel
  Real melted_kg = 0.0;  // surface water included
  Real ice_left_kg = 0.0;
  Real ice_left_c = 0.0;
  Real vessel_heat_j = 0.0;  // given by the vessel to the drink (negative if the vessel was colder)
  Truth<Real> ice_gone{};    // all of it melted before the end asked for
};
using IceOutcome = IceOutcomeOf<double>;

/// To thermal equilibrium: t_c is the freezing point of the result, or above it if the ice is gone.
IceOutcome melt_to_equilibrium(const IceContact&);
/// Until the liquid is at `to_c`; stops at equilibrium if `to_c` lies below it, or when the ice is gone. A drink that is
/// already colder than `to_c`, surface water and vessel counted, melts nothing. If warming the ice that follows is cold enough
/// for `to_c`, the ice warms only so far.
IceOutcome melt_to(const IceContact&, double to_c);
/// For a time: the liquid approaches equilibrium, T = T_eq + (T_0 - T_eq) exp(-seconds / time_constant_s), with T_0 after
/// surface water and vessel have joined. Where nothing melts, the ice takes up its heat at the same rate instead.
template <class Real>
IceOutcomeOf<Real> melt_for(const IceContactOf<Real>&, const Real& seconds, const Real& time_constant_s);

}  // namespace bloomset::matter
