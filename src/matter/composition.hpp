// matter/composition.hpp - component masses: the half of a state that is conserved by name.
#pragma once

#include <array>
#include <bit>
#include <cstdint>

#include "matter/component.hpp"
#include "matter/few.hpp"
#include "matter/pair.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

template <class Real>
struct CompositionOf;
using Composition = CompositionOf<double>;
using Compositions = CompositionOf<Lanes>;

/// Masses [kg] of every component. `salt_hydrogen` is negative or zero; all others are not negative.
template <>
struct CompositionOf<double> {
  std::array<double, component_count> kg{};

  constexpr double& operator[](Component c) { return kg[index(c)]; }
  constexpr double operator[](Component c) const { return kg[index(c)]; }
  double total_kg() const { return sum(kg); }
  units::Mass mass() const { return {total_kg()}; }
  /// Everything dissolved that does not boil off [kg]: what true Brix counts. Fat, starch and fibre float; gases leave.
  constexpr double dissolved_kg() const {
    double sum = 0.0;
    for (std::size_t i = index(Component::sucrose); i <= index(last_agent); ++i) sum += kg[i];
    return sum - kg[index(Component::fat)] - kg[index(Component::starch)] - kg[index(Component::fibre)];
  }
  CompositionOf& operator+=(const CompositionOf& other) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) + other.pair(i));
    return *this;
  }
  CompositionOf& operator-=(const CompositionOf& other) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) - other.pair(i));
    return *this;
  }
  CompositionOf& operator*=(double k) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) * k);
    return *this;
  }
  friend CompositionOf operator+(const CompositionOf& a, const CompositionOf& b) {
    CompositionOf sum = a;
    sum += b;
    return sum;
  }
  friend CompositionOf operator-(const CompositionOf& a, const CompositionOf& b) {
    CompositionOf rest = a;
    rest -= b;
    return rest;
  }
  friend CompositionOf operator*(const CompositionOf& a, double k) {
    CompositionOf part = a;
    part *= k;
    return part;
  }
  /// Moves the same share of every component into another composition.
  friend void move_share(CompositionOf& from, CompositionOf& to, double share) {
    for (std::size_t i = 0; i < component_count; i += 2) {
      const Pair moved = from.pair(i) * share;
      from.set_pair(i, from.pair(i) - moved);
      to.set_pair(i, to.pair(i) + moved);
    }
  }
  friend constexpr bool operator==(const CompositionOf&, const CompositionOf&) = default;

 private:
  // Two components at a time: streams are added some hundred times a run.
  static_assert(component_count % 2 == 0);
  Pair pair(std::size_t i) const { return Pair{kg[i], kg[i + 1]}; }
  void set_pair(std::size_t i, Pair p) {
    kg[i] = p[0];
    kg[i + 1] = p[1];
  }
};

/// The same in eight lanes. A drink holds some twenty of the components; only those are kept and moved.
template <>
struct CompositionOf<Lanes> {
  Few<component_count> kg;

  Lanes& operator[](Component c) { return kg.at(index(c)); }
  Lanes operator[](Component c) const { return kg[index(c)]; }
  Lanes total_kg() const { return sum(kg); }
  Lanes dissolved_kg() const {
    Lanes all = 0.0;
    kg.each(index(Component::sucrose), index(last_agent), [&](std::size_t, const Lanes& some) { all += some; });
    return all - kg[index(Component::fat)] - kg[index(Component::starch)] - kg[index(Component::fibre)];
  }
  CompositionOf& operator+=(const CompositionOf& other) {
    kg.with(other.kg, [](const Lanes& a, const Lanes& b) { return a + b; });
    return *this;
  }
  CompositionOf& operator-=(const CompositionOf& other) {
    kg.with(other.kg, [](const Lanes& a, const Lanes& b) { return a - b; });
    return *this;
  }
  CompositionOf& operator*=(const Lanes& k) {
    kg.each([&](std::size_t, Lanes& some) { some *= k; });
    return *this;
  }
  friend CompositionOf operator-(const CompositionOf& a, const CompositionOf& b) {
    CompositionOf rest = a;
    rest -= b;
    return rest;
  }
  friend void move_share(CompositionOf& from, CompositionOf& to, const Lanes& share) {
    from.kg.each([&](std::size_t i, Lanes& some) {
      const Lanes moved = some * share;
      some -= moved;
      to.kg.at(i) += moved;
    });
  }
  Composition lane(int which) const {
    Composition one;
    kg.each([&](std::size_t i, const Lanes& some) { one.kg[i] = some[which]; });
    return one;
  }
};

inline const Composition& in_lane(const Composition& c, int) { return c; }
inline Composition in_lane(const Compositions& c, int lane) { return c.lane(lane); }

/// Whether a component may be there at all: one composition is not asked.
inline bool holds(const Composition&, Component) { return true; }
inline bool holds(const Compositions& c, Component of) { return c.kg.has(index(of)); }

/// Whether a number is anything but a plain 0; the 0 that a difference leaves behind may be negative.
inline bool is_something(double kg) { return std::bit_cast<std::uint64_t>(kg) != 0U; }

/// Adds so much of one composition, in each lane its own.
inline void add(Composition& to, const Composition& one, double k) {
  for (std::size_t i = 0; i < component_count; ++i) to.kg[i] += one.kg[i] * k;
}
inline void add(Compositions& to, const Composition& one, const Lanes& k) {
  for (std::size_t i = 0; i < component_count; ++i)
    if (is_something(one.kg[i])) to.kg.at(i) += one.kg[i] * k;
}
/// The same composition in each lane.
inline void put(Composition& to, const Composition& one) { to = one; }
inline void put(Compositions& to, const Composition& one) {
  to = {};
  for (std::size_t i = 0; i < component_count; ++i)
    if (is_something(one.kg[i])) to.kg.at(i) = one.kg[i];
}

/// One component alone.
constexpr Composition pure(Component c, units::Mass m) {
  Composition one;
  one[c] = m.si;
  return one;
}

}  // namespace bloomset::matter
