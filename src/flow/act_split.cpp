// flow/act_split.cpp - one stream becomes two: a share worked on apart, drops in a bath, what runs clear and its curd.
//
// What goes where is a knob. A share takes its heat with it; whatever is kept back by a filter leaves at the liquid's own temperature.
#include "flow/modes.hpp"
#include "flow/unit_view.hpp"

namespace bloomset::flow {

using matter::Component;

// In: any streams. Out: of each the share that is worked on, then of each what waits.
template <class Real>
void run_split(const UnitView<Real>& view) noexcept {
  const std::uint32_t streams = view.unit().in.count;
  for (std::uint32_t i = 0; i < streams; ++i) {
    StreamOf<Real>& worked = view.out(i);
    StreamOf<Real>& waits = view.out(streams + i);
    worked = {};
    waits = view.in(i);
    move_share(waits, worked, view.knob(split_knob::share));
  }
}

// In: drops, ices (which pass), bath. Out: drops with what they take up, [ice], [gas], [sticks], the bath that is left.
template <class Real>
void run_soak(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& drops = pass_through(view);
  StreamOf<Real>& bath = view.out(view.unit().out.count - 1);
  bath = view.solid_in(0);
  const Real bath_kg = bath.mass.total_kg(), taken_kg = view.knob(soak_knob::takes_up) * drops.mass.total_kg();
  view.say(Event::more_than_there_is, taken_kg > bath_kg);
  move_share(bath, drops, select(bath_kg > 0.0, matter::min(taken_kg / bath_kg, 1.0), 0.0));
}

// In: liquids, ices (which pass). Out: what runs clear, [ice], [gas], [sticks], the curd with the liquid it holds.
template <class Real>
void run_clarify(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& clear = pass_through(view);
  StreamOf<Real>& curd = *view.optional_out(outs::pulp);
  const Real entering_kg = clear.mass.total_kg();
  const matter::Truth<Real> wet = entering_kg > 0.0;
  if (!any(wet)) return;
  StreamOf<Real> kept;
  const auto keep = [&](Component c, std::uint32_t knob) { kept.mass[c] = matter::min(view.knob(knob), 1.0) * clear.mass[c]; };
  keep(Component::fibre, clarify_knob::keeps_solids);
  keep(Component::starch, clarify_knob::keeps_solids);
  keep(Component::protein, clarify_knob::keeps_protein);
  keep(Component::fat, clarify_knob::keeps_fat);
  for (std::size_t c = matter::index(matter::first_agent); c <= matter::index(matter::last_agent); ++c)
    keep(static_cast<Component>(c), clarify_knob::keeps_agents);
  kept.enthalpy_j = select(wet, clear.enthalpy_j * kept.mass.total_kg() / entering_kg, 0.0);
  move(clear, curd, kept);
  const Real wanted_kg = view.knob(clarify_knob::clear) * entering_kg, there_kg = clear.mass.total_kg();
  view.say(Event::end_not_reached, (wanted_kg > there_kg) & wet);  // more was to run clear than is liquid
  move_share(clear, curd, select(there_kg > 0.0, matter::max(1.0 - wanted_kg / there_kg, 0.0), 0.0));
}

template void run_split(const UnitView<double>&) noexcept;
template void run_split(const UnitView<matter::Lanes>&) noexcept;
template void run_soak(const UnitView<double>&) noexcept;
template void run_soak(const UnitView<matter::Lanes>&) noexcept;
template void run_clarify(const UnitView<double>&) noexcept;
template void run_clarify(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
