// gas/carbonation.hpp - fizz: what a drink holds under a regulator, from a charger, and open to the gas at 1 atm.
//
// A regulator keeps the whole pressure: p_gas = p - p_water(T), and the liquid takes what solubility.hpp says. A charger gives an amount of
// gas to a closed vessel: bottle.hpp with carbon dioxide. Volumes are L of gas at 0 C and 1 atm per L of liquid. In water within 1.2 % of the
// mean of two laws of solubility; brewers' tables for beer lie 0-6 % lower. What survives pouring and topping is flow's business.
#pragma once

#include "gas/bottle.hpp"

namespace bloomset::gas {

struct Fizz {
  units::Molarity dissolved;
  units::MassPerVolume mass;
  double volumes = 0.0;
};

/// In equilibrium under a regulator's pressure (absolute, water vapour counted in).
Fizz regulated(Gas, units::Pressure, units::Temperature, double relative_solubility = 1.0);
/// In equilibrium with the gas at 1 atm, water vapour counted in: all that an open glass could keep for good, under its own gas.
Fizz at_one_atmosphere(Gas, units::Temperature, double relative_solubility = 1.0);
/// From chargers in a closed vessel, shaken out.
Fizz charged(const Bottle&);

}  // namespace bloomset::gas
