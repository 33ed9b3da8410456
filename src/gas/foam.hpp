// gas/foam.hpp - overrun, gas fraction, what stands as foam, and gas let out into a room.
//
// Overrun = gas over liquid by volume (3 = 300 %), gas fraction phi = gas over foam: overrun = phi / (1 - phi). A bottle's emptying gives the
// upper bound of overrun; a share of it, the retention, stays in the foam. No measured overrun of siphon foams against pressure or charges was
// found: retention is a guess (0.6, span 0.4 to 1) until a kitchen weighs its own foam. Above 400 % no food foam stands: the rest comes as spurt.
#pragma once

#include "gas/gas.hpp"

namespace bloomset::gas {

/// Gas fraction of a foam of that overrun (0 or more): below 1.
constexpr double gas_fraction(double overrun) { return overrun / (1.0 + overrun); }
/// Overrun of a foam of that gas fraction (0 up to, not at, 1).
constexpr double overrun_of(double gas_fraction) { return gas_fraction / (1.0 - gas_fraction); }

struct Retention {
  double prior, least, most;
};
Retention retention();

/// Overrun of the foam that stands, and how much more gas than that came out with it.
struct Standing {
  double overrun = 0.0;
  double spurt = 0.0;
};
Standing standing(double upper_bound_overrun, double retention);

/// Parts per million by volume that gas let out adds to a closed room; `one_mole` is what a mole takes there (24.45 L at 25 C and 1 atm).
double room_rise_ppm(Gas, units::Mass, units::Volume room, units::Volume one_mole = units::litres(24.45));

}  // namespace bloomset::gas
