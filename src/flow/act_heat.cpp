// flow/act_heat.cpp - to a temperature: warm, boil, reduce, infuse upwards; chill, freeze, rest to wherever they stand.
//
// Heat is booked as the difference of enthalpies, vapour included. Ice that was in the vessel melts into it, so the
// burner pays for it. Vapour takes ethanol with it (matter/vapour.hpp). Nothing gets hotter than it boils: an end above
// that is an end not reached, unless the step only said "until it boils".
#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "matter/elementary.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/vapour.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

constexpr double slack_j_kg = 4e3;       // about a kelvin: nobody means to ask for less
constexpr double near_boiling_c = 75.0;  // nothing served here boils below: 95 %vol ethanol at 78 C

// Brings `liquid` to to_c while `vapour_kg` of it boils off into the vapour port.
template <class Real>
void heat_and_evaporate(const UnitView<Real>& view, StreamOf<Real>& liquid, const Real& to_c, const Real& vapour_kg) {
  StreamOf<Real> vapour;
  vapour.mass = matter::vapour_from(liquid.mass, vapour_kg);
  vapour.enthalpy_j =
      vapour.mass[Component::water] * matter::water_vapour_enthalpy_j_kg(to_c) + vapour.mass[Component::ethanol] * matter::ethanol_vapour_enthalpy_j_kg(to_c);
  const Real rest_j = matter::heat_curve(liquid.mass - vapour.mass).at_c(to_c);
  const Real heat_j = rest_j + vapour.enthalpy_j - liquid.enthalpy_j;
  view.say(Event::end_not_reached, heat_j < -slack_j_kg * liquid.mass.total_kg());  // it was hotter already
  give_heat(liquid, view.booked_j(), heat_j);
  if (StreamOf<Real>* out = view.optional_out(outs::vapour)) move(liquid, *out, vapour);
}

// An open vessel loses the same share of what is left in every minute, more the nearer it is to boiling.
template <class Real>
Real steamed_off(const Real& steams_per_s, const Real& seconds, const Real& t_c) {
  return 1.0 - matter::exp(-steams_per_s * seconds * matter::steaming(t_c));
}

template <class Real>
Real boils_at_c(const StreamOf<Real>& liquid) {
  return matter::lane_by_lane<Real>([&](int lane) { return matter::boiling_point_c(matter::in_lane(liquid.mass, lane)); });
}

// The end asked for, or where it boils. Says so if an end in figures lies above that.
template <class Real>
Real reachable_c(const UnitView<Real>& view, const StreamOf<Real>& liquid, const Real& asked_c) {
  constexpr double slack_k = 1.0;
  const matter::Truth<Real> far = asked_c < near_boiling_c;
  if (all(far)) return asked_c;
  const Real boils_c = boils_at_c(liquid);
  view.say(Event::end_not_reached, (asked_c < until_it_boils_c) & (asked_c > boils_c + slack_k) & !far);
  return select(far | (asked_c <= boils_c), asked_c, boils_c);
}

template <class Real>
Real vapour_to_reach(const UnitView<Real>& view, const StreamOf<Real>& liquid, const Real& t_c) {
  const Real start_kg = liquid.mass.total_kg(), end = view.knob(heat_knob::end);
  switch (static_cast<HeatEnd>(view.unit().mode)) {
    case HeatEnd::temperature:
      return steamed_off(view.knob(heat_knob::steams_per_s), view.knob(heat_knob::seconds), t_c) * start_kg;
    case HeatEnd::mass:
      return start_kg - end;
    case HeatEnd::brix:
      return start_kg - liquid.mass.dissolved_kg() / (end * 0.01);
    case HeatEnd::share_of_start:
      return (1.0 - end) * start_kg;
  }
  return 0.0;
}

}  // namespace

// In: liquids, ices. Out: liquid, [gas], [sticks], [vapour].
template <class Real>
void run_heat(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const Real to_c = reachable_c(view, liquid, view.knob(heat_knob::to_c));
  const Real wanted_kg = vapour_to_reach(view, liquid, to_c);
  const Real can_leave_kg = liquid.mass[Component::water] + liquid.mass[Component::ethanol];
  view.say(Event::end_not_reached, (wanted_kg < 0.0) | (wanted_kg > can_leave_kg));
  heat_and_evaporate(view, liquid, to_c, matter::clamp(wanted_kg, 0.0, can_leave_kg));
  let_gas_go(view, liquid, view.knob(heat_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(heat_knob::sticks));
}

// In: liquids, ices, solids that steep. Out: liquid, [gas], [sticks], [vapour], then the spent solids.
// A share of what can dissolve leaves each solid; each solid ends at the liquid's temperature.
template <class Real>
void run_infuse(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const Real asked_c = view.knob(infuse_knob::to_c);
  const matter::Truth<Real> far = asked_c < near_boiling_c;
  const Real to_c = all(far) ? asked_c : select(far, asked_c, matter::min(asked_c, boils_at_c(liquid)));
  const std::uint32_t first_solid_out = view.unit().out.count - view.solids_in();
  for (std::uint32_t i = 0; i < view.solids_in(); ++i) {
    StreamOf<Real>& solid = view.out(first_solid_out + i);
    solid = view.solid_in(i);
    StreamOf<Real> extract;
    for (std::size_t c = matter::index(Component::sucrose); c <= matter::index(Component::other_solids); ++c) {
      const auto component = static_cast<Component>(c);
      const bool stays = component == Component::fat || component == Component::fibre || component == Component::starch || component == Component::protein;
      if (!stays && matter::holds(solid.mass, component)) extract.mass[component] = view.knob(infuse_knob::extracts + i) * solid.mass[component];
    }
    extract.enthalpy_j = matter::heat_curve(extract.mass).at_c(matter::heat_curve(solid.mass).celsius_at(solid.enthalpy_j));
    move(solid, liquid, extract);
    const Real spent_j = matter::heat_curve(solid.mass).at_c(to_c);
    give_heat(solid, view.booked_j(), Real(spent_j - solid.enthalpy_j));
  }
  heat_and_evaporate(view, liquid, to_c,
                     Real(steamed_off(view.knob(infuse_knob::steams_per_s), view.knob(infuse_knob::seconds), to_c) * liquid.mass.total_kg()));
  let_gas_go(view, liquid, view.knob(infuse_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(infuse_knob::sticks));
}

// In: liquids, ices. Out: liquid (with what freezes in it), [gas], [sticks].
template <class Real>
void run_cool(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const Real to_c = view.knob(cool_knob::to_c);
  const Real to_j = matter::equilibrium_enthalpy_j(liquid.mass, to_c);
  // Chilling takes heat away; where it would have to give some, the batch was colder already.
  if (view.unit().mode != 0) view.say(Event::end_not_reached, to_j > liquid.enthalpy_j + slack_j_kg * liquid.mass.total_kg());
  give_heat(liquid, view.booked_j(), Real(to_j - liquid.enthalpy_j));
  let_gas_go(view, liquid, view.knob(cool_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(cool_knob::sticks));
}

template void run_heat(const UnitView<double>&) noexcept;
template void run_heat(const UnitView<matter::Lanes>&) noexcept;
template void run_infuse(const UnitView<double>&) noexcept;
template void run_infuse(const UnitView<matter::Lanes>&) noexcept;
template void run_cool(const UnitView<double>&) noexcept;
template void run_cool(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
