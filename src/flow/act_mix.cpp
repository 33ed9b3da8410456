// flow/act_mix.cpp - bringing together: combine, dissolve, dilute, pour, float, layer, top, dry shake; rinse; and
// taking solids out again (leave, strain).
//
// Masses and enthalpies add; the temperature it lands at is read from the sum. An act lets a share of the dissolved
// CO2 go and leaves a share of the mass on the wall: both are knobs.
#include "flow/modes.hpp"
#include "flow/unit_view.hpp"

namespace bloomset::flow {

using matter::Component;

template <class Real>
void let_gas_go(const UnitView<Real>& view, StreamOf<Real>& liquid, const Real& kept) noexcept {
  StreamOf<Real>* gas = view.optional_out(outs::gas);
  if (gas == nullptr) return;
  move_gas(liquid, *gas, Component::carbon_dioxide, Real((1.0 - kept) * liquid.mass[Component::carbon_dioxide]));
}

template <class Real>
void leave_on_wall(const UnitView<Real>& view, StreamOf<Real>& liquid, const Real& share) noexcept {
  if (StreamOf<Real>* sticks = view.optional_out(outs::sticks)) move_share(liquid, *sticks, share);
}

template <class Real>
StreamOf<Real>& pass_through(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  view.liquids_into(liquid);
  if (StreamOf<Real>* ice = view.optional_out(outs::ice)) view.ices_into(*ice);
  let_gas_go(view, liquid, view.knob(mix_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(mix_knob::sticks));
  return liquid;
}

// In: liquids, ices. Out: liquid, [ice], [gas], [sticks].
template <class Real>
void run_mix(const UnitView<Real>& view) noexcept {
  pass_through(view);
}

// In: what rinses. Out: the film that stays in the glass; what is poured away.
template <class Real>
void run_rinse(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& film = view.out(0);
  view.liquids_into(film);
  leave_on_wall(view, film, view.knob(mix_knob::sticks));
}

// In: liquid, solids; knobs: liquid each solid holds [kg/kg]. Out: liquid; solids with what they hold.
template <class Real>
void run_leave(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  StreamOf<Real>& stays = view.out(1);
  view.liquids_into(liquid);
  stays = {};
  const Real there_kg = liquid.mass.total_kg();
  Real held_kg = 0.0;
  for (std::uint32_t i = 0; i < view.solids_in(); ++i) {
    held_kg += view.knob(i) * view.solid_in(i).mass.total_kg();
    stays += view.solid_in(i);
  }
  const Real held = select(held_kg < there_kg, held_kg / there_kg, 1.0);
  move_share(liquid, stays, select(there_kg > 0.0, held, 0.0));
}

// In: liquids, ices (which pass). Out: liquid, [ice], [gas], [sticks], pulp with the liquid it holds.
template <class Real>
void run_strain(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = pass_through(view);
  StreamOf<Real>* pulp = view.optional_out(outs::pulp);
  if (pulp == nullptr) return;
  const Real total_kg = liquid.mass.total_kg();
  const matter::Truth<Real> wet = total_kg > 0.0;
  if (!any(wet)) return;
  const Real solid_kg = view.knob(strain_knob::pulp_out) * liquid.mass[Component::fibre], held_kg = view.knob(strain_knob::pulp_holds) * solid_kg;
  move(liquid, *pulp, Component::fibre, solid_kg, select(wet, liquid.enthalpy_j * solid_kg / total_kg, 0.0));
  move_share(liquid, *pulp, select(wet, held_kg / liquid.mass.total_kg(), 0.0));
}

template void let_gas_go(const UnitView<double>&, StreamOf<double>&, const double&) noexcept;
template void let_gas_go(const UnitView<matter::Lanes>&, StreamOf<matter::Lanes>&, const matter::Lanes&) noexcept;
template void leave_on_wall(const UnitView<double>&, StreamOf<double>&, const double&) noexcept;
template void leave_on_wall(const UnitView<matter::Lanes>&, StreamOf<matter::Lanes>&, const matter::Lanes&) noexcept;
template StreamOf<double>& pass_through(const UnitView<double>&) noexcept;
template StreamOf<matter::Lanes>& pass_through(const UnitView<matter::Lanes>&) noexcept;

template void run_mix(const UnitView<double>&) noexcept;
template void run_mix(const UnitView<matter::Lanes>&) noexcept;
template void run_rinse(const UnitView<double>&) noexcept;
template void run_rinse(const UnitView<matter::Lanes>&) noexcept;
template void run_leave(const UnitView<double>&) noexcept;
template void run_leave(const UnitView<matter::Lanes>&) noexcept;
template void run_strain(const UnitView<double>&) noexcept;
template void run_strain(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
