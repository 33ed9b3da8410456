// gas/carbonation.cpp - the pressure of the gas alone, then Henry's law.
#include "gas/carbonation.hpp"

#include <algorithm>

namespace bloomset::gas {
namespace {

Fizz fizz(Gas gas, units::Molarity dissolved) { return {dissolved, mass_per_volume(gas, dissolved), gas_volumes(gas, dissolved)}; }

}  // namespace

Fizz regulated(Gas gas, units::Pressure p, units::Temperature t, double relative_solubility) {
  const double alone_pa = std::clamp(p.si - water_vapour_pressure(t).si, 0.0, vapour_pressure(gas, t).si);
  return fizz(gas, dissolved_at(gas, {alone_pa}, t, relative_solubility));
}

Fizz at_one_atmosphere(Gas gas, units::Temperature t, double relative_solubility) {
  return regulated(gas, units::pascals(units::standard_atmosphere_pa), t, relative_solubility);
}

Fizz charged(const Bottle& bottle) {
  Bottle shaken = bottle;
  settle(shaken);
  return fizz(bottle.gas, {shaken.dissolved.si / shaken.liquid.si});
}

}  // namespace bloomset::gas
