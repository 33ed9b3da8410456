// flow/act_take.cpp - matter that enters: bought things, ice, and draws from other parts.
//
// Amounts may be a mass, a volume (bought: at 20 C; made: at its own temperature), or a share: of other takes (an
// agent's percent of the base), of what a part gives. Refs are the ports the share is a share of.
#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::flow {
namespace {

template <class Real>
Real refs_kg(const UnitView<Real>& view) {
  Real sum = 0.0;
  for (std::uint32_t i = 0; i < view.unit().refs.count; ++i) sum += view.ref(i).mass.total_kg();
  return sum;
}

template <class Real>
Real density_20c_kg_m3(const UnitView<Real>& view) {
  Real density = view.stuff().density_20c_kg_m3;
  for (const Departure& of : view.departures()) density += view.deviations(of) * of.density_20c_kg_m3;
  return density;
}

template <class Real>
Real asked_kg(const UnitView<Real>& view) {
  const Real amount = view.knob(take_knob::amount);
  switch (static_cast<TakeMode>(view.unit().mode)) {
    case TakeMode::mass:
      return amount;
    case TakeMode::volume:
      return amount * density_20c_kg_m3(view);
    case TakeMode::share_of_refs:
      return amount * refs_kg(view);
    case TakeMode::fizz:
      return fizz_kg(view);
  }
  return 0.0;
}

}  // namespace

// Knobs: amount, temperature. Out: the liquid or solid.
template <class Real>
void run_take(const UnitView<Real>& view) noexcept {
  const Real kg = asked_kg(view);
  StreamOf<Real>& out = view.out(0);
  const Real t_c = view.knob(take_knob::celsius);
  matter::put(out.mass, view.stuff().per_kg);
  Real j_kg = view.stuff().curve.at_c(t_c);
  for (const Departure& of : view.departures()) {
    const Real z = view.deviations(of);
    if (all(z == 0.0)) continue;  // adds nothing, and mostly is
    matter::add(out.mass, of.per_kg, z);
    j_kg += z * of.curve.at_c(t_c);
  }
  out.mass *= kg;
  out.enthalpy_j = kg * j_kg;
}

// Knobs: amount, temperature of the ice, share of surface water. Out: dry ice; surface water at 0 C, which is liquid.
template <class Real>
void run_take_ice(const UnitView<Real>& view) noexcept {
  const Real kg = asked_kg(view), wet = view.knob(take_knob::wet);
  StreamOf<Real>& ice = view.out(0);
  StreamOf<Real>& surface = view.out(1);
  ice = {};
  surface = {};
  ice.mass[matter::Component::water] = kg * (1.0 - wet);
  ice.enthalpy_j = kg * (1.0 - wet) * matter::ice_enthalpy_j_kg(view.knob(take_knob::celsius));
  surface.mass[matter::Component::water] = kg * wet;
  surface.enthalpy_j = kg * wet * view.stuff().curve.at_c(0.0);
}

// In: nothing is used up (a part is a spring that its users draw from; sheet settles the account). Refs: the part's
// liquid, [ice], [solids], then the draws already made of it (rest) or what the share is of. Out: the same ports, scaled.
template <class Real>
void run_draw(const UnitView<Real>& view) noexcept {
  const std::uint32_t phases = view.unit().out.count;
  Real there_kg = 0.0;
  for (std::uint32_t i = 0; i < phases; ++i) there_kg += view.ref(i).mass.total_kg();
  Real others_kg = 0.0;
  for (std::uint32_t i = phases; i < view.unit().refs.count; ++i) others_kg += view.ref(i).mass.total_kg();
  const Real amount = view.knob(draw_knob::amount);
  Real kg = 0.0;
  switch (static_cast<DrawMode>(view.unit().mode)) {
    case DrawMode::mass:
      kg = amount;
      break;
    case DrawMode::volume:
    case DrawMode::foam_volume: {
      const StreamOf<Real>& liquid = view.ref(0);
      const Real t_c = matter::thermal_state(liquid.mass, liquid.enthalpy_j).t_c;
      const Real liquid_kg = liquid.mass.total_kg();
      // Ice that goes with the liquid is not measured by the jug.
      kg = select(liquid_kg > 0.0, amount * matter::liquid_density_kg_m3(liquid.mass, t_c) * there_kg / liquid_kg, 0.0);
      if (static_cast<DrawMode>(view.unit().mode) == DrawMode::foam_volume) kg = kg / view.knob(draw_knob::foam_ratio);
      break;
    }
    case DrawMode::share:
      kg = amount * view.knob(draw_knob::there_is) * there_kg;
      break;
    case DrawMode::share_of_refs:
      kg = amount * others_kg;
      break;
    case DrawMode::rest: {
      kg = view.knob(draw_knob::there_is) * there_kg - others_kg;
      view.say(Event::more_than_there_is, kg < 0.0);
      kg = matter::max(kg, 0.0);
      break;
    }
  }
  const Real share = select(there_kg > 0.0, kg / there_kg, 0.0);
  for (std::uint32_t i = 0; i < phases; ++i) {
    view.out(i) = view.ref(i);
    view.out(i) *= share;
  }
}

template void run_take(const UnitView<double>&) noexcept;
template void run_take(const UnitView<matter::Lanes>&) noexcept;
template void run_take_ice(const UnitView<double>&) noexcept;
template void run_take_ice(const UnitView<matter::Lanes>&) noexcept;
template void run_draw(const UnitView<double>&) noexcept;
template void run_draw(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
