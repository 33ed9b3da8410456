// matter/composition.hpp - component masses: the half of a state that is conserved by name.
#pragma once

#include <array>

#include "matter/component.hpp"
#include "matter/pair.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// Masses [kg] of every component. `salt_hydrogen` is negative or zero; all others are not negative.
struct Composition {
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
  Composition& operator+=(const Composition& other) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) + other.pair(i));
    return *this;
  }
  Composition& operator-=(const Composition& other) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) - other.pair(i));
    return *this;
  }
  Composition& operator*=(double k) {
    for (std::size_t i = 0; i < component_count; i += 2) set_pair(i, pair(i) * k);
    return *this;
  }
  friend Composition operator+(const Composition& a, const Composition& b) {
    Composition sum = a;
    sum += b;
    return sum;
  }
  friend Composition operator-(const Composition& a, const Composition& b) {
    Composition rest = a;
    rest -= b;
    return rest;
  }
  friend Composition operator*(const Composition& a, double k) {
    Composition part = a;
    part *= k;
    return part;
  }
  /// Moves the same share of every component into another composition.
  friend void move_share(Composition& from, Composition& to, double share) {
    for (std::size_t i = 0; i < component_count; i += 2) {
      const Pair moved = from.pair(i) * share;
      from.set_pair(i, from.pair(i) - moved);
      to.set_pair(i, to.pair(i) + moved);
    }
  }
  friend constexpr bool operator==(const Composition&, const Composition&) = default;

 private:
  // Two components at a time: streams are added some hundred times a run.
  static_assert(component_count % 2 == 0);
  Pair pair(std::size_t i) const { return Pair{kg[i], kg[i + 1]}; }
  void set_pair(std::size_t i, Pair p) {
    kg[i] = p[0];
    kg[i + 1] = p[1];
  }
};

/// One component alone.
constexpr Composition pure(Component c, units::Mass m) {
  Composition one;
  one[c] = m.si;
  return one;
}

}  // namespace bloomset::matter
