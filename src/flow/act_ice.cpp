// flow/act_ice.cpp - a drink meets ice: shake, stir, blend; and the half minute in the glass before the first sip.
//
// How cold and how much melts is matter/ice.hpp's work. Here: streams in, streams out. The liquid's enthalpy is what
// the sum leaves it once the ice that is left has taken its own, so energy is kept to the last bit.
#include <cmath>

#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/ice.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

double ice_celsius(const Stream& ice) {
  const double kg = ice.mass[Component::water];
  return kg > 0.0 ? matter::ice_celsius_at(ice.enthalpy_j / kg) : 0.0;
}

void meet(const UnitView& view, Stream& liquid, Stream& ice, matter::IceContact contact, double seconds, double time_constant_s) {
  contact.liquid = liquid.mass;
  contact.liquid_enthalpy_j = liquid.enthalpy_j;
  contact.ice_kg = ice.mass[Component::water];
  contact.ice_c = ice_celsius(ice);
  const matter::IceOutcome outcome = matter::melt_for(contact, seconds, time_constant_s);
  if (outcome.ice_gone) view.say(Event::ice_gone);
  const double melt_kg = outcome.liquid[Component::water] - liquid.mass[Component::water];
  give_heat(liquid, view.booked_j(), outcome.vessel_heat_j);
  Stream melt;
  melt.mass[Component::water] = melt_kg;
  const double left_kg = ice.mass[Component::water] - melt_kg;
  melt.enthalpy_j = ice.enthalpy_j - left_kg * matter::ice_enthalpy_j_kg(outcome.ice_left_c);
  move(ice, liquid, melt);
}

}  // namespace

// In: liquids, ices. Out: liquid, ice that is left, [gas], [sticks].
void run_contact(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  Stream& ice = *view.optional_out(outs::ice);
  view.ices_into(ice);
  matter::IceContact contact;
  contact.vessel_j_k = view.knob(contact_knob::vessel_j_k);
  contact.vessel_c = view.knob(contact_knob::vessel_c);
  contact.leftover = view.unit().mode != 0 ? matter::LeftoverIce::follows : matter::LeftoverIce::inert;
  meet(view, liquid, ice, contact, view.knob(contact_knob::seconds), view.knob(contact_knob::time_constant_s));
  let_gas_go(view, liquid, view.knob(contact_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(contact_knob::sticks));
}

// In: liquid, [ice]. Out: liquid, [ice]. The glass gives or takes the heat that reaches it in that time.
void run_stand(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  const double seconds = view.knob(stand_knob::seconds);
  const double glass_j_k = view.knob(stand_knob::glass_j_k) * (1.0 - std::exp(-seconds / view.knob(stand_knob::glass_time_s)));
  const double glass_c = view.knob(stand_knob::glass_c);
  if (Stream* ice = view.optional_out(outs::ice)) {
    view.ices_into(*ice);
    if (ice->mass[Component::water] > 0.0) {
      matter::IceContact contact;
      contact.vessel_j_k = glass_j_k;
      contact.vessel_c = glass_c;
      meet(view, liquid, *ice, contact, seconds, view.knob(stand_knob::ice_time_s));
      return;
    }
  }
  // No ice: drink and glass share their heat, each with the heat capacity it has here.
  const double t_c = matter::thermal_state(liquid.mass, liquid.enthalpy_j).t_c;
  const double liquid_j_k = matter::heat_curve(liquid.mass).slope_c(t_c);
  if (liquid_j_k + glass_j_k > 0.0) give_heat(liquid, view.booked_j(), liquid_j_k * glass_j_k / (liquid_j_k + glass_j_k) * (glass_c - t_c));
}

}  // namespace bloomset::flow
