// flow/act_heat.cpp - to a temperature: warm, boil, reduce, infuse upwards; chill, freeze, rest to wherever they stand.
//
// Heat is booked as the difference of enthalpies, vapour included. Ice that was in the vessel melts into it, so the
// burner pays for it. Vapour takes ethanol with it (matter/vapour.hpp). Nothing gets hotter than it boils: an end above
// that is an end not reached, unless the step only said "until it boils".
#include <algorithm>
#include <cmath>

#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/vapour.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

constexpr double slack_j_kg = 4e3;       // about a kelvin: nobody means to ask for less
constexpr double near_boiling_c = 75.0;  // nothing served here boils below: 95 %vol ethanol at 78 C

// Brings `liquid` to to_c while `vapour_kg` of it boils off into the vapour port.
void heat_and_evaporate(const UnitView& view, Stream& liquid, double to_c, double vapour_kg) {
  Stream vapour;
  vapour.mass = matter::vapour_from(liquid.mass, vapour_kg);
  vapour.enthalpy_j =
      vapour.mass[Component::water] * matter::water_vapour_enthalpy_j_kg(to_c) + vapour.mass[Component::ethanol] * matter::ethanol_vapour_enthalpy_j_kg(to_c);
  const double rest_j = matter::heat_curve(liquid.mass - vapour.mass).at_c(to_c);
  const double heat_j = rest_j + vapour.enthalpy_j - liquid.enthalpy_j;
  if (heat_j < -slack_j_kg * liquid.mass.total_kg()) view.say(Event::end_not_reached);  // it was hotter already
  give_heat(liquid, view.booked_j(), heat_j);
  if (Stream* out = view.optional_out(outs::vapour)) move(liquid, *out, vapour);
}

// An open vessel loses the same share of what is left in every minute, more the nearer it is to boiling.
double steamed_off(double steams_per_s, double seconds, double t_c) { return 1.0 - std::exp(-steams_per_s * seconds * matter::steaming(t_c)); }

// The end asked for, or where it boils. Says so if an end in figures lies above that.
double reachable_c(const UnitView& view, const Stream& liquid, double asked_c) {
  constexpr double slack_k = 1.0;
  if (asked_c < near_boiling_c) return asked_c;
  const double boils_c = matter::boiling_point_c(liquid.mass);
  if (asked_c <= boils_c) return asked_c;
  if (asked_c < until_it_boils_c && asked_c > boils_c + slack_k) view.say(Event::end_not_reached);
  return boils_c;
}

double vapour_to_reach(const UnitView& view, const Stream& liquid, double t_c) {
  const double start_kg = liquid.mass.total_kg(), end = view.knob(heat_knob::end);
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
void run_heat(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const double to_c = reachable_c(view, liquid, view.knob(heat_knob::to_c));
  const double wanted_kg = vapour_to_reach(view, liquid, to_c);
  const double can_leave_kg = liquid.mass[Component::water] + liquid.mass[Component::ethanol];
  if (wanted_kg < 0.0 || wanted_kg > can_leave_kg) view.say(Event::end_not_reached);
  heat_and_evaporate(view, liquid, to_c, std::clamp(wanted_kg, 0.0, can_leave_kg));
  let_gas_go(view, liquid, view.knob(heat_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(heat_knob::sticks));
}

// In: liquids, ices, solids that steep. Out: liquid, [gas], [sticks], [vapour], then the spent solids.
// A share of what can dissolve leaves each solid; each solid ends at the liquid's temperature.
void run_infuse(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const double asked_c = view.knob(infuse_knob::to_c), to_c = asked_c < near_boiling_c ? asked_c : std::min(asked_c, matter::boiling_point_c(liquid.mass));
  const std::uint32_t first_solid_out = view.unit().out.count - view.solids_in();
  for (std::uint32_t i = 0; i < view.solids_in(); ++i) {
    Stream& solid = view.out(first_solid_out + i);
    solid = view.solid_in(i);
    Stream extract;
    for (std::size_t c = matter::index(Component::sucrose); c <= matter::index(Component::other_solids); ++c) {
      const auto component = static_cast<Component>(c);
      const bool stays = component == Component::fat || component == Component::fibre || component == Component::starch || component == Component::protein;
      if (!stays) extract.mass[component] = view.knob(infuse_knob::extracts + i) * solid.mass[component];
    }
    extract.enthalpy_j = matter::heat_curve(extract.mass).at_c(matter::heat_curve(solid.mass).celsius_at(solid.enthalpy_j));
    move(solid, liquid, extract);
    const double spent_j = matter::heat_curve(solid.mass).at_c(to_c);
    give_heat(solid, view.booked_j(), spent_j - solid.enthalpy_j);
  }
  heat_and_evaporate(view, liquid, to_c, steamed_off(view.knob(infuse_knob::steams_per_s), view.knob(infuse_knob::seconds), to_c) * liquid.mass.total_kg());
  let_gas_go(view, liquid, view.knob(infuse_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(infuse_knob::sticks));
}

// In: liquids, ices. Out: liquid (with what freezes in it), [gas], [sticks].
void run_cool(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  view.add_ices(liquid);
  const double to_c = view.knob(cool_knob::to_c);
  const double to_j = matter::equilibrium_enthalpy_j(liquid.mass, to_c);
  // Chilling takes heat away; where it would have to give some, the batch was colder already.
  if (view.unit().mode != 0 && to_j > liquid.enthalpy_j + slack_j_kg * liquid.mass.total_kg()) view.say(Event::end_not_reached);
  give_heat(liquid, view.booked_j(), to_j - liquid.enthalpy_j);
  let_gas_go(view, liquid, view.knob(cool_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(cool_knob::sticks));
}

}  // namespace bloomset::flow
