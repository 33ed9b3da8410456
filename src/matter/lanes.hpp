// matter/lanes.hpp - one number in each of eight drinks, worked on at once.
//
// The laws of this house are written once, for a `Real`: `double` is one drink, `Lanes` are eight side by side, kept as four pairs. Each lane is rounded
// as a number alone would be and nothing is added across lanes, so eight drinks give, to the bit, what each gives by itself, on every machine. What a
// law asks with `if` it asks here with `select`: both sides are worked out, and each lane takes its own; `any` and `all` leave out what no lane needs.
// Eight and not two, so that the machine has four chains of pairs to overlap: a chain of divisions and roots then costs about what one drink did.
#pragma once

#include <cmath>
#include <cstring>
#include <type_traits>

#include "matter/pair.hpp"

namespace bloomset::matter {

using PairBits = unsigned long long __attribute__((vector_size(16)));
using PairTruth = long long __attribute__((vector_size(16)));  // all bits set, or none

inline constexpr int lane_count = 8;

/// A yes or no in each lane.
struct LaneTruth {
  PairTruth part[4];

  friend LaneTruth operator&(const LaneTruth& a, const LaneTruth& b) {
    return {{a.part[0] & b.part[0], a.part[1] & b.part[1], a.part[2] & b.part[2], a.part[3] & b.part[3]}};
  }
  friend LaneTruth operator|(const LaneTruth& a, const LaneTruth& b) {
    return {{a.part[0] | b.part[0], a.part[1] | b.part[1], a.part[2] | b.part[2], a.part[3] | b.part[3]}};
  }
  friend LaneTruth operator!(const LaneTruth& a) { return {{~a.part[0], ~a.part[1], ~a.part[2], ~a.part[3]}}; }
  bool operator[](int lane) const { return part[lane / 2][lane % 2] != 0; }
};

struct Lanes {
  Pair part[4];

  Lanes() = default;  // nothing in particular
  /// The same number in each lane.
  Lanes(double all) : part{Pair{all, all}, Pair{all, all}, Pair{all, all}, Pair{all, all}} {}
  Lanes(Pair a, Pair b, Pair c, Pair d) : part{a, b, c, d} {}
  /// Eight numbers that stand in a row.
  static Lanes at(const double* row) {
    Lanes out;
    std::memcpy(out.part, row, sizeof out.part);
    return out;
  }
  void put(double* row) const { std::memcpy(row, part, sizeof part); }
  double operator[](int lane) const { return part[lane / 2][lane % 2]; }
  void set(int lane, double x) { part[lane / 2][lane % 2] = x; }

  friend Lanes operator+(const Lanes& a, const Lanes& b) {
    return {a.part[0] + b.part[0], a.part[1] + b.part[1], a.part[2] + b.part[2], a.part[3] + b.part[3]};
  }
  friend Lanes operator-(const Lanes& a, const Lanes& b) {
    return {a.part[0] - b.part[0], a.part[1] - b.part[1], a.part[2] - b.part[2], a.part[3] - b.part[3]};
  }
  friend Lanes operator*(const Lanes& a, const Lanes& b) {
    return {a.part[0] * b.part[0], a.part[1] * b.part[1], a.part[2] * b.part[2], a.part[3] * b.part[3]};
  }
  friend Lanes operator/(const Lanes& a, const Lanes& b) {
    return {a.part[0] / b.part[0], a.part[1] / b.part[1], a.part[2] / b.part[2], a.part[3] / b.part[3]};
  }
  friend Lanes operator-(const Lanes& a) { return {-a.part[0], -a.part[1], -a.part[2], -a.part[3]}; }
  Lanes& operator+=(const Lanes& b) { return *this = *this + b; }
  Lanes& operator-=(const Lanes& b) { return *this = *this - b; }
  Lanes& operator*=(const Lanes& b) { return *this = *this * b; }

  friend LaneTruth operator<(const Lanes& a, const Lanes& b) {
    return {{a.part[0] < b.part[0], a.part[1] < b.part[1], a.part[2] < b.part[2], a.part[3] < b.part[3]}};
  }
  friend LaneTruth operator<=(const Lanes& a, const Lanes& b) {
    return {{a.part[0] <= b.part[0], a.part[1] <= b.part[1], a.part[2] <= b.part[2], a.part[3] <= b.part[3]}};
  }
  friend LaneTruth operator==(const Lanes& a, const Lanes& b) {
    return {{a.part[0] == b.part[0], a.part[1] == b.part[1], a.part[2] == b.part[2], a.part[3] == b.part[3]}};
  }
  friend LaneTruth operator>(const Lanes& a, const Lanes& b) { return b < a; }
  friend LaneTruth operator>=(const Lanes& a, const Lanes& b) { return b <= a; }
};

/// What a comparison of two `Real` gives.
template <class Real>
struct TruthOf;
template <>
struct TruthOf<double> {
  using type = bool;
};
template <>
struct TruthOf<Lanes> {
  using type = LaneTruth;
};
template <class Real>
using Truth = typename TruthOf<Real>::type;

/// True in each lane.
template <class Real>
Truth<Real> everywhere() {
  return Real(0.0) == Real(0.0);
}

inline bool any(bool b) { return b; }
inline bool any(const LaneTruth& t) {
  const PairTruth together = (t.part[0] | t.part[1]) | (t.part[2] | t.part[3]);
  return (together[0] | together[1]) != 0;
}
inline bool all(bool b) { return b; }
inline bool all(const LaneTruth& t) { return !any(!t); }

inline double select(bool which, double yes, double no) { return which ? yes : no; }
inline Lanes select(const LaneTruth& which, const Lanes& yes, const Lanes& no) {
  return {which.part[0] ? yes.part[0] : no.part[0], which.part[1] ? yes.part[1] : no.part[1], which.part[2] ? yes.part[2] : no.part[2],
          which.part[3] ? yes.part[3] : no.part[3]};
}

// As the standard library has them.
inline double max(double a, double b) { return a < b ? b : a; }
inline double min(double a, double b) { return b < a ? b : a; }
inline double clamp(double x, double low, double high) { return x < low ? low : high < x ? high : x; }
inline Lanes max(const Lanes& a, const Lanes& b) { return select(a < b, b, a); }
inline Lanes min(const Lanes& a, const Lanes& b) { return select(b < a, b, a); }
inline Lanes clamp(const Lanes& x, const Lanes& low, const Lanes& high) { return select(x < low, low, select(high < x, high, x)); }
inline double abs(double x) { return std::abs(x); }
inline Lanes abs(const Lanes& x) { return select(x < 0.0, -x, x); }

inline double sqrt(double x) { return std::sqrt(x); }
inline Pair sqrt(Pair x) {
#ifdef __SSE2__
  return __builtin_ia32_sqrtpd(x);
#else
  return Pair{std::sqrt(x[0]), std::sqrt(x[1])};
#endif
}
inline Lanes sqrt(const Lanes& x) { return {sqrt(x.part[0]), sqrt(x.part[1]), sqrt(x.part[2]), sqrt(x.part[3])}; }

/// Asks a law that is written for one drink in each lane: what(lane).
template <class Real, class What>
Real lane_by_lane(What&& what) {
  if constexpr (std::is_same_v<Real, double>) {
    return what(0);
  } else {
    Lanes out;
    for (int lane = 0; lane < lane_count; ++lane) out.set(lane, what(lane));
    return out;
  }
}
inline double in_lane(double x, int) { return x; }
inline double in_lane(const Lanes& x, int lane) { return x[lane]; }
inline bool in_lane(bool is, int) { return is; }
inline bool in_lane(const LaneTruth& is, int lane) { return is[lane]; }
inline void set_lane(double& x, int, double to) { x = to; }
inline void set_lane(Lanes& x, int lane, double to) { x.set(lane, to); }

}  // namespace bloomset::matter
