// matter/ice.cpp - a drink, its ice and its vessel: the books of the three ways a contact can end.
//
// Everything is one enthalpy balance (equilibrium.cpp). What cannot melt: a drink already at or below its freezing point
// holds no heat to melt with; beside ice that follows it may even freeze, and that ice then stays in the drink's own books
// (its enthalpy falls below freezing; `thermal_state` reads the ice). Melt is therefore never negative.
// Measured check: none was found; the balance itself is checked against tables computed by another route.
#include "matter/ice.hpp"

#include "matter/elementary.hpp"
#include "matter/enthalpy.hpp"
#include "matter/equilibrium.hpp"

namespace bloomset::matter {
namespace {

double water_at_0_j_kg() {
  static const double once = heat_curve(pure(Component::water, units::kilograms(1.0))).at_c(0.0);
  return once;
}

// The contact once the surface water has joined the drink.
template <class Real>
struct Meeting {
  const IceContactOf<Real>& in;
  Real ice_c, ice_kg;
  WaterBondOf<Real> bond;
  ContactOf<Real> all;
  Real drink_j;  // of drink and surface water, before anything else

  explicit Meeting(const IceContactOf<Real>& contact)
      : in(contact),
        ice_c(min(contact.ice_c, 0.0)),
        ice_kg(max(contact.ice_kg, 0.0)),
        bond(water_bond(contact.liquid)),
        all{.water_kg = contact.liquid[Component::water] + contact.surface_water_kg,
            .ethanol_kg = contact.liquid[Component::ethanol],
            .dry = dry_heat_curve(contact.liquid),
            .bond = bond,
            .ice_kg = ice_kg,
            .ice_enthalpy_j_kg = ice_enthalpy_j_kg(ice_c),
            .ice_follows = contact.leftover == LeftoverIce::follows,
            .vessel_j_k = contact.vessel_j_k},
        drink_j(contact.liquid_enthalpy_j + contact.surface_water_kg * water_at_0_j_kg()) {
    all.enthalpy_j = drink_j + ice_kg * all.ice_enthalpy_j_kg + contact.vessel_j_k * contact.vessel_c;
  }
  Meeting(const Meeting&) = delete;
  Meeting& operator=(const Meeting&) = delete;

  // Drink and vessel alone, when the ice has taken so much heat without melting.
  Real untouched_c(const Real& taken_j = 0.0) const {
    ContactOf<Real> alone = all;
    alone.ice_kg = 0.0;
    alone.enthalpy_j -= ice_kg * all.ice_enthalpy_j_kg + taken_j;
    return settle(alone).t_c;
  }

  // Books an end: what is not named is what the sum leaves.
  IceOutcomeOf<Real> outcome(const Real& t_c, const Real& melted_kg, const Real& left_c, const Truth<Real>& gone) const {
    IceOutcomeOf<Real> out{.liquid = in.liquid};
    out.liquid[Component::water] = all.water_kg + melted_kg;
    out.t_c = t_c;
    out.melted_kg = melted_kg + in.surface_water_kg;
    out.ice_left_kg = select(gone, 0.0, ice_kg - melted_kg);
    out.ice_left_c = left_c;
    out.ice_gone = gone;
    out.vessel_heat_j = in.vessel_j_k * (in.vessel_c - t_c);
    const Real left_j_kg = select(left_c == ice_c, all.ice_enthalpy_j_kg, ice_enthalpy_j_kg(left_c));
    out.liquid_enthalpy_j = drink_j + out.vessel_heat_j + ice_kg * all.ice_enthalpy_j_kg - out.ice_left_kg * left_j_kg;
    return out;
  }

  // An end before it is booked, so that lanes may end differently.
  struct End {
    Real t_c, melted_kg, left_c;
    Truth<Real> gone;
  };
  static End choose(const Truth<Real>& which, const End& yes, const End& no) {
    const Truth<Real> gone = (yes.gone & which) | (no.gone & !which);
    return {select(which, yes.t_c, no.t_c), select(which, yes.melted_kg, no.melted_kg), select(which, yes.left_c, no.left_c), gone};
  }
  IceOutcomeOf<Real> outcome(const End& end) const { return outcome(end.t_c, end.melted_kg, end.left_c, end.gone); }

  End at(const BalanceOf<Real>& end) const {
    return {end.t_c, end.melted_kg, all.ice_follows ? select(end.ice_gone, ice_c, min(end.t_c, 0.0)) : ice_c, end.ice_gone};
  }

  // Down to a temperature, or to equilibrium if that comes first. `untouched` is where drink and vessel stand without ice.
  End down_to(const Real& to_c, const Real& untouched, const BalanceOf<Real>& end) const {
    const Truth<Real> cold = !(to_c < untouched), too_far = !(to_c > end.t_c);
    if (matter::all(cold)) return {untouched, 0.0, ice_c, {}};
    const Real left_c = all.ice_follows ? min(to_c, 0.0) : ice_c, left_j_kg = ice_enthalpy_j_kg(left_c);
    const auto excess = [&](const Real& melted_kg) -> Real {
      const HeatCurveOf<Real> liquid = with_water_and_ethanol(all.dry, Real(all.water_kg + melted_kg), all.ethanol_kg);
      return liquid.at_c(to_c) + in.vessel_j_k * to_c + (ice_kg - melted_kg) * left_j_kg - all.enthalpy_j;
    };
    // Nearly straight in the melt: only the heat of mixing bends it.
    Real melted = 0.0, at_melted = excess(0.0), slope = -left_j_kg;
    const Truth<Real> warms = at_melted >= 0.0;  // warming the ice cools enough: it warms only as far as that takes
    const Real warmed_c =
        any(warms) ? ice_celsius_at(Real(all.ice_enthalpy_j_kg + (ice_kg * left_j_kg - ice_kg * all.ice_enthalpy_j_kg - at_melted) / ice_kg)) : left_c;
    for (int pass = 0; pass < 3; ++pass) {
      const Real next = melted - at_melted / slope, at_next = excess(next);
      slope = select(abs(next - melted) > 1e-12 * next, max((at_next - at_melted) / (next - melted), 0.3 * slope), slope);
      melted = next;
      at_melted = at_next;
    }
    melted -= at_melted / slope;
    const Truth<Real> whole = too_far | ((melted >= ice_kg) & !warms);
    End out = choose(warms, {to_c, 0.0, warmed_c, {}}, {to_c, melted, left_c, {}});
    out = choose(whole, at(end), out);
    return choose(cold, {untouched, 0.0, ice_c, {}}, out);
  }
};

}  // namespace

IceOutcome melt_to_equilibrium(const IceContact& contact) {
  const Meeting<double> meeting(contact);
  return meeting.outcome(meeting.at(settle(meeting.all)));
}

IceOutcome melt_to(const IceContact& contact, double to_c) {
  const Meeting<double> meeting(contact);
  return meeting.outcome(meeting.down_to(to_c, meeting.untouched_c(), settle(meeting.all)));
}

template <class Real>
IceOutcomeOf<Real> melt_for(const IceContactOf<Real>& contact, const Real& seconds, const Real& time_constant_s) {
  const Meeting<Real> meeting(contact);
  const BalanceOf<Real> end = settle(meeting.all);
  const Real left = select(time_constant_s > 0.0, exp(-max(seconds, 0.0) / time_constant_s), 0.0);
  const Real start_c = meeting.untouched_c();
  const Truth<Real> melts = (end.t_c < start_c) & (end.frozen_kg == 0.0);
  const auto melted = any(melts) ? meeting.down_to(end.t_c + (start_c - end.t_c) * left, start_c, end) : meeting.at(end);
  if (all(melts)) return meeting.outcome(melted);
  // Nothing melts: the ice that follows takes its share of the heat it will have taken in the end.
  const Real end_j_kg = meeting.all.ice_follows ? ice_enthalpy_j_kg(min(end.t_c, 0.0)) : meeting.all.ice_enthalpy_j_kg;
  const Real taken_j_kg = (end_j_kg - meeting.all.ice_enthalpy_j_kg) * (1.0 - left);
  return meeting.outcome(Meeting<Real>::choose(
      melts, melted, {meeting.untouched_c(meeting.ice_kg * taken_j_kg), 0.0, ice_celsius_at(Real(meeting.all.ice_enthalpy_j_kg + taken_j_kg)), {}}));
}

template IceOutcome melt_for(const IceContact&, const double&, const double&);
template IceOutcomeOf<Lanes> melt_for(const IceContactOf<Lanes>&, const Lanes&, const Lanes&);

}  // namespace bloomset::matter
