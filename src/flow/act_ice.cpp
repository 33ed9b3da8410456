// flow/act_ice.cpp - a drink meets ice: shake, stir, blend; and the half minute in the glass before the first sip.
//
// How cold and how much melts is matter/ice.hpp's work. Here: streams in, streams out. The liquid's enthalpy is what
// the sum leaves it once the ice that is left has taken its own, so energy is kept to the last bit.
#include <numbers>

#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "gas/real_gas.hpp"
#include "matter/elementary.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/ice.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

// Drink and ice as they stand; the caller adds the vessel.
template <class Real>
matter::IceContactOf<Real> contact_of(const StreamOf<Real>& liquid, const StreamOf<Real>& ice) {
  const Real ice_kg = ice.mass[Component::water];
  return {.liquid = liquid.mass,
          .liquid_enthalpy_j = liquid.enthalpy_j,
          .ice_kg = ice_kg,
          .ice_c = select(ice_kg > 0.0, matter::ice_celsius_at(Real(ice.enthalpy_j / ice_kg)), 0.0)};
}

// In the lanes that have ice.
template <class Real>
void meet(const UnitView<Real>& view, StreamOf<Real>& liquid, StreamOf<Real>& ice, const matter::Truth<Real>& where, const matter::IceContactOf<Real>& contact,
          const Real& seconds, const Real& time_constant_s) {
  const matter::IceOutcomeOf<Real> outcome = matter::melt_for(contact, seconds, time_constant_s);
  view.say(Event::ice_gone, outcome.ice_gone & where);
  const Real melt_kg = select(where, outcome.liquid[Component::water] - liquid.mass[Component::water], 0.0);
  give_heat(liquid, view.booked_j(), select(where, outcome.vessel_heat_j, 0.0));
  const Real left_kg = ice.mass[Component::water] - melt_kg;
  move(ice, liquid, Component::water, melt_kg, select(where, ice.enthalpy_j - left_kg * matter::ice_enthalpy_j_kg(outcome.ice_left_c), 0.0));
}

}  // namespace

// In: liquids, ices. Out: liquid, ice that is left, [gas], [sticks].
template <class Real>
void run_contact(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  StreamOf<Real>& ice = *view.optional_out(outs::ice);
  view.ices_into(ice);
  matter::IceContactOf<Real> contact = contact_of(liquid, ice);
  contact.vessel_j_k = view.knob(contact_knob::vessel_j_k);
  contact.vessel_c = view.knob(contact_knob::vessel_c);
  contact.leftover = view.unit().mode != 0 ? matter::LeftoverIce::follows : matter::LeftoverIce::inert;
  meet(view, liquid, ice, matter::everywhere<Real>(), contact, view.knob(contact_knob::seconds), view.knob(contact_knob::time_constant_s));
  let_gas_go(view, liquid, view.knob(contact_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(contact_knob::sticks));
}

// In: liquid, [ice], foams. Out: liquid, [ice], [gas], foams. In `mode` equal steps: the room and the glass give or take the
// heat of the step, ice and drink settle, foams drain into the drink, and CO2 leaves it. The part of the glass that comes to
// the drink's temperature between two times is the difference of their approaches.
template <class Real>
void run_stand(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  StreamOf<Real>* ice = view.optional_out(outs::ice);
  if (ice != nullptr) view.ices_into(*ice);
  const std::uint32_t foams = view.solids_in(), first_foam = view.unit().out.count - foams;
  for (std::uint32_t i = 0; i < foams; ++i) view.out(first_foam + i) = view.solid_in(i);

  const double steps = view.unit().mode;
  const Real step_s = view.knob(stand_knob::seconds) / steps, glass_s = view.knob(stand_knob::glass_time_s), room_c = view.knob(stand_knob::room_c);
  Real glass_away = matter::exp(-view.knob(stand_knob::since_s) / glass_s);  // share of the glass that is still at the room's temperature
  const Real glass_step = matter::exp(-step_s / glass_s);
  for (std::uint32_t n = 0; n < view.unit().mode; ++n) {
    const Real glass_j_k = view.knob(stand_knob::glass_j_k) * glass_away * (1.0 - glass_step);
    glass_away *= glass_step;
    const matter::Truth<Real> has_ice = ice != nullptr ? ice->mass[Component::water] > 0.0 : matter::Truth<Real>{};
    const matter::HeatCurveOf<Real> dry = matter::dry_heat_curve(liquid.mass);
    const Real t_c = matter::thermal_state(liquid.mass, dry, liquid.enthalpy_j).t_c;
    const Real liquid_j_k = matter::with_water_and_ethanol(dry, Real(liquid.mass[Component::water]), Real(liquid.mass[Component::ethanol])).slope_c(t_c);
    const matter::Truth<Real> wet = liquid_j_k > 0.0;
    if (any(wet)) {
      // As if the drink alone took it: a step is short beside the drink's own hour.
      const Real room_share = -matter::expm1(-view.knob(stand_knob::room_w_k) * step_s / liquid_j_k);
      const Real glass_share = select(has_ice, 0.0, glass_j_k / (liquid_j_k + glass_j_k));
      give_heat(liquid, view.booked_j(), select(wet, liquid_j_k * (room_share + (1.0 - room_share) * glass_share) * (room_c - t_c), 0.0));
      const Real dew_pa = matter::max(view.knob(stand_knob::room_vapour_pa) - gas::water_vapour_pressure_pa(t_c), 0.0);
      give_heat(liquid, view.booked_j(), select(wet, view.knob(stand_knob::dew_w_pa) * dew_pa * step_s, 0.0));
    }
    if (any(has_ice)) {
      matter::IceContactOf<Real> contact = contact_of(liquid, *ice);
      contact.vessel_j_k = glass_j_k;
      contact.vessel_c = room_c;
      meet(view, liquid, *ice, has_ice, contact, step_s, view.knob(stand_knob::ice_time_s));
    }
    for (std::uint32_t i = 0; i < foams; ++i)
      move_share(view.out(first_foam + i), liquid, Real(-matter::expm1(-std::numbers::ln2 * step_s / view.knob(stand_knob::half_time_s + i))));
  }
  let_gas_go(view, liquid, matter::exp(-view.knob(stand_knob::seconds) / view.knob(stand_knob::co2_time_s)));
}

template void run_contact(const UnitView<double>&) noexcept;
template void run_contact(const UnitView<matter::Lanes>&) noexcept;
template void run_stand(const UnitView<double>&) noexcept;
template void run_stand(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
