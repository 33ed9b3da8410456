// flow/act_gas.cpp - carbon dioxide into a drink: under a regulator's pressure, or from chargers in a closed bottle.
//
// In equilibrium, shaken out: how long that takes is the step's own time. What is in the drink already counts.
#include <algorithm>
#include <cmath>

#include "flow/modes.hpp"
#include "flow/unit_view.hpp"
#include "gas/bottle.hpp"
#include "gas/carbonation.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

constexpr gas::Gas co2 = gas::Gas::carbon_dioxide;

struct Drink {
  units::Temperature at;
  units::Volume volume;
  double solubility = 1.0;
};
Drink drink_of(const Stream& liquid) {
  const units::Temperature at = units::celsius(matter::thermal_state(liquid.mass, liquid.enthalpy_j).t_c);
  return {at, matter::liquid_volume(liquid.mass, at), gas::relative_solubility(co2, liquid.mass, at).value};
}

}  // namespace

// Refs: the drink. Knob: the regulator's pressure, absolute.
double fizz_kg(const UnitView& view) noexcept {
  const Stream& liquid = view.ref(0);
  const Drink drink = drink_of(liquid);
  const gas::Fizz fizz = gas::regulated(co2, units::pascals(view.knob(take_knob::amount)), drink.at, drink.solubility);
  return std::max(fizz.mass.si * drink.volume.si - liquid.mass[Component::carbon_dioxide], 0.0);
}

// In: the drink, the chargers' gas. Out: the drink with what dissolves, the gas above it, which is let out. As many bottles as the fill line asks for.
void run_fizz(const UnitView& view) noexcept {
  Stream& liquid = view.out(0);
  Stream& above = view.out(1);
  liquid = view.in(0);
  above = view.in(1);
  const Drink drink = drink_of(liquid);
  const double bottles = std::max(std::ceil(drink.volume.si / view.knob(fizz_knob::fill_m3)), 1.0);
  const double there_kg = liquid.mass[Component::carbon_dioxide], came_kg = above.mass[Component::carbon_dioxide];
  gas::Bottle bottle = gas::closed(co2, {view.knob(fizz_knob::gross_m3)}, drink.volume * (1.0 / bottles), drink.at, drink.solubility, view.unit().mode != 0);
  gas::charge(bottle, units::kilograms((there_kg + came_kg) / bottles));
  gas::settle(bottle);
  const double dissolved_kg = gas::mass(co2, bottle.dissolved).si * bottles;
  move_gas(above, liquid, Component::carbon_dioxide, std::clamp(dissolved_kg - there_kg, -there_kg, came_kg));
}

}  // namespace bloomset::flow
