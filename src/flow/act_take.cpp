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

double refs_kg(const UnitView& view) {
  double sum = 0.0;
  for (std::uint32_t i = 0; i < view.unit().refs.count; ++i) sum += view.ref(i).mass.total_kg();
  return sum;
}

double density_20c_kg_m3(const UnitView& view) {
  double density = view.stuff().density_20c_kg_m3;
  for (const Departure& of : view.departures()) density += view.deviations(of) * of.density_20c_kg_m3;
  return density;
}

double asked_kg(const UnitView& view) {
  const double amount = view.knob(take_knob::amount);
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
void run_take(const UnitView& view) noexcept {
  const double kg = asked_kg(view);
  Stream& out = view.out(0);
  const double t_c = view.knob(take_knob::celsius);
  out.mass = view.stuff().per_kg;
  double j_kg = view.stuff().curve.at_c(t_c);
  for (const Departure& of : view.departures()) {
    const double z = view.deviations(of);
    if (z == 0.0) continue;  // adds nothing, and mostly is
    for (std::size_t c = 0; c < matter::component_count; ++c) out.mass.kg[c] += of.per_kg.kg[c] * z;
    j_kg += z * of.curve.at_c(t_c);
  }
  out.mass *= kg;
  out.enthalpy_j = kg * j_kg;
}

// Knobs: amount, temperature of the ice, share of surface water. Out: dry ice; surface water at 0 C, which is liquid.
void run_take_ice(const UnitView& view) noexcept {
  const double kg = asked_kg(view), wet = view.knob(take_knob::wet);
  Stream& ice = view.out(0);
  Stream& surface = view.out(1);
  ice = {};
  surface = {};
  ice.mass[matter::Component::water] = kg * (1.0 - wet);
  ice.enthalpy_j = kg * (1.0 - wet) * matter::ice_enthalpy_j_kg(view.knob(take_knob::celsius));
  surface.mass[matter::Component::water] = kg * wet;
  surface.enthalpy_j = kg * wet * view.stuff().curve.at_c(0.0);
}

// In: nothing is used up (a part is a spring that its users draw from; sheet settles the account). Refs: the part's
// liquid, [ice], [solids], then the draws already made of it (rest) or what the share is of. Out: the same ports, scaled.
void run_draw(const UnitView& view) noexcept {
  const std::uint32_t phases = view.unit().out.count;
  double there_kg = 0.0;
  for (std::uint32_t i = 0; i < phases; ++i) there_kg += view.ref(i).mass.total_kg();
  double others_kg = 0.0;
  for (std::uint32_t i = phases; i < view.unit().refs.count; ++i) others_kg += view.ref(i).mass.total_kg();
  const double amount = view.knob(draw_knob::amount);
  double kg = 0.0;
  switch (static_cast<DrawMode>(view.unit().mode)) {
    case DrawMode::mass:
      kg = amount;
      break;
    case DrawMode::volume:
    case DrawMode::foam_volume: {
      const Stream& liquid = view.ref(0);
      const double t_c = matter::thermal_state(liquid.mass, liquid.enthalpy_j).t_c;
      const double liquid_kg = liquid.mass.total_kg();
      // Ice that goes with the liquid is not measured by the jug.
      kg = liquid_kg > 0.0 ? amount * matter::liquid_density(liquid.mass, units::celsius(t_c)).si * there_kg / liquid_kg : 0.0;
      if (static_cast<DrawMode>(view.unit().mode) == DrawMode::foam_volume) kg /= view.knob(draw_knob::foam_ratio);
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
      if (kg < 0.0) {
        kg = 0.0;
        view.say(Event::more_than_there_is);
      }
      break;
    }
  }
  const double share = there_kg > 0.0 ? kg / there_kg : 0.0;
  for (std::uint32_t i = 0; i < phases; ++i) {
    view.out(i) = view.ref(i);
    view.out(i) *= share;
  }
}

}  // namespace bloomset::flow
