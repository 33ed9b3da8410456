// flow/stream.hpp - matter on its way: masses and enthalpy, and the two functions that move them.
//
// A stream's truth is its component masses and its enthalpy (zero: pure liquid components at 25 C); temperature and
// ice frozen out of the liquid are read from it. Ice lying in a drink is a stream of its own. A unit changes streams
// through `move` and `give_heat` only, so that mass and energy are kept by construction and a test can sum the ports.
#pragma once

#include "matter/composition.hpp"

namespace bloomset::flow {

struct Stream {
  matter::Composition mass;  // [kg]
  double enthalpy_j = 0.0;   // [J]

  Stream& operator+=(const Stream& other) {
    mass += other.mass;
    enthalpy_j += other.enthalpy_j;
    return *this;
  }
  Stream& operator*=(double k) {
    mass *= k;
    enthalpy_j *= k;
    return *this;
  }
};

/// Moves some matter with its enthalpy from one stream into another.
inline void move(Stream& from, Stream& to, const Stream& what) {
  from.mass -= what.mass;
  from.enthalpy_j -= what.enthalpy_j;
  to += what;
}

/// The same where only one component moves.
inline void move(Stream& from, Stream& to, matter::Component what, double kg, double enthalpy_j) {
  from.mass[what] -= kg;
  from.enthalpy_j -= enthalpy_j;
  to.mass[what] += kg;
  to.enthalpy_j += enthalpy_j;
}

/// Moves some of one dissolved gas, which carries no enthalpy of its own here (a gram of CO2 over 20 K: 17 J).
inline void move_gas(Stream& from, Stream& to, matter::Component gas, double kg) { move(from, to, gas, kg, 0.0); }

/// Moves a share of a stream, as it is, into another.
inline void move_share(Stream& from, Stream& to, double share) {
  move_share(from.mass, to.mass, share);
  const double moved_j = from.enthalpy_j * share;
  from.enthalpy_j -= moved_j;
  to.enthalpy_j += moved_j;
}

/// Heat from burner, room, cold place or vessel into a stream; `booked_j` keeps the unit's account.
inline void give_heat(Stream& to, double& booked_j, double joules) {
  to.enthalpy_j += joules;
  booked_j += joules;
}

}  // namespace bloomset::flow
