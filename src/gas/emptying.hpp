// gas/emptying.hpp - the foam a charged bottle gives, from the first portion to the last.
//
// Emptied slowly, head down: liquid leaves with the gas it holds, head space and liquid stay in equilibrium, the bottle keeps its
// temperature. With s the liquid that has left, dn/ds = -d(c) and n = c (G - V) + d(c) V give
//   d ln c / ds = -1 / (G - V + d'(c) V),   V = V_0 - s
// (Runge and Kutta's fourth order, 40 steps; 4000 steps that solve the balance anew differ by less than 0.05 %). What comes out of solution
// down to 1 atm of the gas, as gas at the bottle's temperature, over the liquid, is the upper bound of overrun (foam.hpp takes it from there).
// Air pushes too: where the pressure is down to the room's, liquid stays behind. Called by flow's `dispense` and by the command `charge`.
#pragma once

#include "gas/bottle.hpp"

namespace bloomset::gas {

/// What left a bottle and what it carried. Overruns are ratios (3 = 300 %), upper bounds.
struct Dispensed {
  units::Volume liquid;  // that left: less than asked where the pressure ran out
  units::Mass gas;       // that left with it
  double first = 0.0, mean = 0.0, last = 0.0;
};

/// Lets liquid out of a bottle, which is shaken first. Emptied gas is booked as the difference of the bottle's own, so that none is lost.
Dispensed dispense(Bottle&, units::Volume liquid);
/// The same by mass, as a kitchen weighs portions.
Dispensed dispense(Bottle&, units::Mass liquid, units::Density);
/// The whole bottle, from full to empty; the bottle itself stays as it is.
Dispensed emptying(const Bottle&);

}  // namespace bloomset::gas
