// flow/stream.hpp - matter on its way: masses and enthalpy, and the two functions that move them.
//
// A stream's truth is its component masses and its enthalpy (zero: pure liquid components at 25 C); temperature and
// ice frozen out of the liquid are read from it. Ice lying in a drink is a stream of its own. A unit changes streams
// through `move` and `give_heat` only, so that mass and energy are kept by construction and a test can sum the ports.
#pragma once

#include "matter/composition.hpp"

namespace bloomset::flow {

template <class Real>
struct StreamOf {
  matter::CompositionOf<Real> mass;  // [kg]
  Real enthalpy_j = 0.0;             // [J]

  StreamOf& operator+=(const StreamOf& other) {
    mass += other.mass;
    enthalpy_j += other.enthalpy_j;
    return *this;
  }
  StreamOf& operator*=(const Real& k) {
    mass *= k;
    enthalpy_j *= k;
    return *this;
  }
};
using Stream = StreamOf<double>;
inline const Stream& in_lane(const Stream& s, int) { return s; }
inline Stream in_lane(const StreamOf<matter::Lanes>& s, int lane) { return {in_lane(s.mass, lane), s.enthalpy_j[lane]}; }

/// Moves some matter with its enthalpy from one stream into another.
template <class Real>
void move(StreamOf<Real>& from, StreamOf<Real>& to, const StreamOf<Real>& what) {
  from.mass -= what.mass;
  from.enthalpy_j -= what.enthalpy_j;
  to += what;
}

/// The same where only one component moves.
template <class Real>
void move(StreamOf<Real>& from, StreamOf<Real>& to, matter::Component what, const Real& kg, const Real& enthalpy_j) {
  from.mass[what] -= kg;
  from.enthalpy_j -= enthalpy_j;
  to.mass[what] += kg;
  to.enthalpy_j += enthalpy_j;
}

/// Moves some of one dissolved gas, which carries no enthalpy of its own here (a gram of CO2 over 20 K: 17 J).
template <class Real>
void move_gas(StreamOf<Real>& from, StreamOf<Real>& to, matter::Component gas, const Real& kg) {
  move(from, to, gas, kg, Real(0.0));
}

/// Moves a share of a stream, as it is, into another.
template <class Real>
void move_share(StreamOf<Real>& from, StreamOf<Real>& to, const Real& share) {
  move_share(from.mass, to.mass, share);
  const Real moved_j = from.enthalpy_j * share;
  from.enthalpy_j -= moved_j;
  to.enthalpy_j += moved_j;
}

/// Heat from burner, room, cold place or vessel into a stream; `booked_j` keeps the unit's account.
template <class Real>
void give_heat(StreamOf<Real>& to, Real& booked_j, const Real& joules) {
  to.enthalpy_j += joules;
  booked_j += joules;
}

}  // namespace bloomset::flow
