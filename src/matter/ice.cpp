// matter/ice.cpp - a drink, its ice and its vessel: the books of the three ways a contact can end.
//
// Everything is one enthalpy balance (equilibrium.cpp). What cannot melt: a drink already at or below its freezing point
// holds no heat to melt with; beside ice that follows it may even freeze, and that ice then stays in the drink's own books
// (its enthalpy falls below freezing; `thermal_state` reads the ice). Melt is therefore never negative.
// Measured check: none was found; the balance itself is checked against tables computed by another route.
#include "matter/ice.hpp"

#include <algorithm>
#include <cmath>

#include "matter/enthalpy.hpp"
#include "matter/equilibrium.hpp"

namespace bloomset::matter {
namespace {

// The contact once the surface water has joined the drink.
struct Meeting {
  const IceContact& in;
  Contact all;
  double drink_j;  // of drink and surface water, before anything else
  double ice_c, ice_kg;

  explicit Meeting(const IceContact& contact)
      : in(contact),
        all{.water_kg = contact.liquid[Component::water] + contact.surface_water_kg,
            .ethanol_kg = contact.liquid[Component::ethanol],
            .dry = dry_heat_curve(contact.liquid),
            .bond = water_bond(contact.liquid)},
        ice_c(std::min(contact.ice_c, 0.0)),
        ice_kg(std::max(contact.ice_kg, 0.0)) {
    static const double water_at_0_j_kg = heat_curve(pure(Component::water, units::kilograms(1.0))).at_c(0.0);
    all.ice_enthalpy_j_kg = ice_enthalpy_j_kg(ice_c);
    all.ice_kg = ice_kg;
    all.ice_follows = contact.leftover == LeftoverIce::follows;
    all.vessel_j_k = contact.vessel_j_k;
    drink_j = contact.liquid_enthalpy_j + contact.surface_water_kg * water_at_0_j_kg;
    all.enthalpy_j = drink_j + ice_kg * all.ice_enthalpy_j_kg + contact.vessel_j_k * contact.vessel_c;
  }

  // Drink and vessel alone, when the ice has taken so much heat without melting.
  double untouched_c(double taken_j = 0.0) const {
    Contact alone = all;
    alone.ice_kg = 0.0;
    alone.enthalpy_j -= ice_kg * all.ice_enthalpy_j_kg + taken_j;
    return settle(alone).t_c;
  }

  // Books an end: what is not named is what the sum leaves.
  IceOutcome outcome(double t_c, double melted_kg, double left_c, bool gone) const {
    IceOutcome out{.liquid = in.liquid};
    out.liquid[Component::water] = all.water_kg + melted_kg;
    out.t_c = t_c;
    out.melted_kg = melted_kg + in.surface_water_kg;
    out.ice_left_kg = gone ? 0.0 : ice_kg - melted_kg;
    out.ice_left_c = left_c;
    out.ice_gone = gone;
    out.vessel_heat_j = in.vessel_j_k * (in.vessel_c - t_c);
    const double left_j_kg = left_c == ice_c ? all.ice_enthalpy_j_kg : ice_enthalpy_j_kg(left_c);
    out.liquid_enthalpy_j = drink_j + out.vessel_heat_j + ice_kg * all.ice_enthalpy_j_kg - out.ice_left_kg * left_j_kg;
    return out;
  }

  IceOutcome at(const Balance& end) const {
    return outcome(end.t_c, end.melted_kg, all.ice_follows && !end.ice_gone ? std::min(end.t_c, 0.0) : ice_c, end.ice_gone);
  }

  // Down to a temperature, or to equilibrium if that comes first. `untouched` is where drink and vessel stand without ice.
  IceOutcome down_to(double to_c, double untouched, const Balance& end) const {
    if (!(to_c < untouched)) return outcome(untouched, 0.0, ice_c, false);
    if (!(to_c > end.t_c)) return at(end);
    const double left_c = all.ice_follows ? std::min(to_c, 0.0) : ice_c, left_j_kg = ice_enthalpy_j_kg(left_c);
    const auto excess = [&](double melted_kg) {
      const HeatCurve liquid = with_water_and_ethanol(all.dry, all.water_kg + melted_kg, all.ethanol_kg);
      return liquid.at_c(to_c) + in.vessel_j_k * to_c + (ice_kg - melted_kg) * left_j_kg - all.enthalpy_j;
    };
    // Nearly straight in the melt: only the heat of mixing bends it.
    double melted = 0.0, at_melted = excess(0.0), slope = -left_j_kg;
    if (at_melted >= 0.0) {  // warming the ice cools enough: it warms only as far as that takes
      return outcome(to_c, 0.0, ice_celsius_at(all.ice_enthalpy_j_kg + (ice_kg * left_j_kg - ice_kg * all.ice_enthalpy_j_kg - at_melted) / ice_kg), false);
    }
    for (int pass = 0; pass < 3; ++pass) {
      const double next = melted - at_melted / slope, at_next = excess(next);
      if (std::abs(next - melted) > 1e-12 * next) slope = std::max((at_next - at_melted) / (next - melted), 0.3 * slope);
      melted = next;
      at_melted = at_next;
    }
    melted -= at_melted / slope;
    if (melted >= ice_kg) return at(end);
    return outcome(to_c, melted, left_c, false);
  }
};

}  // namespace

IceOutcome melt_to_equilibrium(const IceContact& contact) {
  const Meeting meeting(contact);
  return meeting.at(settle(meeting.all));
}

IceOutcome melt_to(const IceContact& contact, double to_c) {
  const Meeting meeting(contact);
  return meeting.down_to(to_c, meeting.untouched_c(), settle(meeting.all));
}

IceOutcome melt_for(const IceContact& contact, double seconds, double time_constant_s) {
  const Meeting meeting(contact);
  const Balance end = settle(meeting.all);
  const double left = time_constant_s > 0.0 ? std::exp(-std::max(seconds, 0.0) / time_constant_s) : 0.0;
  const double start_c = meeting.untouched_c();
  if (end.t_c < start_c && end.frozen_kg == 0.0) return meeting.down_to(end.t_c + (start_c - end.t_c) * left, start_c, end);
  // Nothing melts: the ice that follows takes its share of the heat it will have taken in the end.
  const double end_j_kg = meeting.all.ice_follows ? ice_enthalpy_j_kg(std::min(end.t_c, 0.0)) : meeting.all.ice_enthalpy_j_kg;
  const double taken_j_kg = (end_j_kg - meeting.all.ice_enthalpy_j_kg) * (1.0 - left);
  return meeting.outcome(meeting.untouched_c(meeting.ice_kg * taken_j_kg), 0.0, ice_celsius_at(meeting.all.ice_enthalpy_j_kg + taken_j_kg), false);
}

}  // namespace bloomset::matter
