// flow/act_mix.cpp - bringing together: combine, dissolve, dilute, pour, float, layer, top, dry shake; rinse; and
// taking solids out again (leave, strain).
//
// Masses and enthalpies add; the temperature it lands at is read from the sum. An act lets a share of the dissolved
// CO2 go and leaves a share of the mass on the wall: both are knobs.
#include "flow/modes.hpp"
#include "flow/unit_view.hpp"

namespace bloomset::flow {

using matter::Component;

void let_gas_go(const UnitView& view, Stream& liquid, double kept) noexcept {
  Stream* gas = view.optional_out(outs::gas);
  if (gas == nullptr) return;
  move_gas(liquid, *gas, Component::carbon_dioxide, (1.0 - kept) * liquid.mass[Component::carbon_dioxide]);
}

void leave_on_wall(const UnitView& view, Stream& liquid, double share) noexcept {
  if (Stream* sticks = view.optional_out(outs::sticks)) move_share(liquid, *sticks, share);
}

Stream& pass_through(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  view.liquids_into(liquid);
  if (Stream* ice = view.optional_out(outs::ice)) view.ices_into(*ice);
  let_gas_go(view, liquid, view.knob(mix_knob::co2_kept));
  leave_on_wall(view, liquid, view.knob(mix_knob::sticks));
  return liquid;
}

// In: liquids, ices. Out: liquid, [ice], [gas], [sticks].
void run_mix(const UnitView& view) noexcept { pass_through(view); }

// In: what rinses. Out: the film that stays in the glass; what is poured away.
void run_rinse(const UnitView& view) noexcept {
  Stream& film = view.out(0);
  view.liquids_into(film);
  leave_on_wall(view, film, view.knob(mix_knob::sticks));
}

// In: liquid, solids; knobs: liquid each solid holds [kg/kg]. Out: liquid; solids with what they hold.
void run_leave(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  Stream& stays = view.out(1);
  view.liquids_into(liquid);
  stays = {};
  const double there_kg = liquid.mass.total_kg();
  double held_kg = 0.0;
  for (std::uint32_t i = 0; i < view.solids_in(); ++i) {
    held_kg += view.knob(i) * view.solid_in(i).mass.total_kg();
    stays += view.solid_in(i);
  }
  if (there_kg > 0.0) move_share(liquid, stays, held_kg < there_kg ? held_kg / there_kg : 1.0);
}

// In: liquids, ices (which pass). Out: liquid, [ice], [gas], [sticks], pulp with the liquid it holds.
void run_strain(const UnitView& view) noexcept {
  Stream& liquid = pass_through(view);
  Stream* pulp = view.optional_out(outs::pulp);
  if (pulp == nullptr) return;
  const double total_kg = liquid.mass.total_kg();
  if (total_kg <= 0.0) return;
  const double solid_kg = view.knob(strain_knob::pulp_out) * liquid.mass[Component::fibre], held_kg = view.knob(strain_knob::pulp_holds) * solid_kg;
  move(liquid, *pulp, Component::fibre, solid_kg, liquid.enthalpy_j * solid_kg / total_kg);
  move_share(liquid, *pulp, held_kg / liquid.mass.total_kg());
}

}  // namespace bloomset::flow
