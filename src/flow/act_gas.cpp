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
template <class Real>
Real fizz_kg(const UnitView<Real>& view) noexcept {
  return matter::lane_by_lane<Real>([&](int lane) {
    const Stream liquid = in_lane(view.ref(0), lane);
    const Drink drink = drink_of(liquid);
    const gas::Fizz fizz = gas::regulated(co2, units::pascals(matter::in_lane(view.knob(take_knob::amount), lane)), drink.at, drink.solubility);
    return std::max(fizz.mass.si * drink.volume.si - liquid.mass[Component::carbon_dioxide], 0.0);
  });
}

// In: the drink, the chargers' gas. Out: the drink with what dissolves, the gas above it, which is let out. As many bottles as the fill line asks for.
template <class Real>
void run_fizz(const UnitView<Real>& view) noexcept {
  StreamOf<Real>& liquid = view.out(0);
  StreamOf<Real>& above = view.out(1);
  liquid = view.in(0);
  above = view.in(1);
  const Real moved_kg = matter::lane_by_lane<Real>([&](int lane) {
    const Drink drink = drink_of(in_lane(liquid, lane));
    const double fill_m3 = matter::in_lane(view.knob(fizz_knob::fill_m3), lane), gross_m3 = matter::in_lane(view.knob(fizz_knob::gross_m3), lane);
    const double bottles = std::max(std::ceil(drink.volume.si / fill_m3), 1.0);
    const double there_kg = matter::in_lane(Real(liquid.mass[Component::carbon_dioxide]), lane),
                 came_kg = matter::in_lane(Real(above.mass[Component::carbon_dioxide]), lane);
    gas::Bottle bottle = gas::closed(co2, {gross_m3}, drink.volume * (1.0 / bottles), drink.at, drink.solubility, view.unit().mode != 0);
    gas::charge(bottle, units::kilograms((there_kg + came_kg) / bottles));
    gas::settle(bottle);
    const double dissolved_kg = gas::mass(co2, bottle.dissolved).si * bottles;
    return std::clamp(dissolved_kg - there_kg, -there_kg, came_kg);
  });
  move_gas(above, liquid, Component::carbon_dioxide, moved_kg);
}

template double fizz_kg(const UnitView<double>&) noexcept;
template matter::Lanes fizz_kg(const UnitView<matter::Lanes>&) noexcept;

template void run_fizz(const UnitView<double>&) noexcept;
template void run_fizz(const UnitView<matter::Lanes>&) noexcept;

}  // namespace bloomset::flow
