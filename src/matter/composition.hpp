// matter/composition.hpp - component masses: the half of a state that is conserved by name.
#pragma once

#include <array>

#include "matter/component.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// Masses [kg] of every component. `salt_hydrogen` is negative or zero; all others are not negative.
struct Composition {
  std::array<double, component_count> kg{};

  constexpr double& operator[](Component c) { return kg[index(c)]; }
  constexpr double operator[](Component c) const { return kg[index(c)]; }
  constexpr double total_kg() const {
    double sum = 0.0;
    for (const double m : kg) sum += m;
    return sum;
  }
  units::Mass mass() const { return {total_kg()}; }
  /// Everything dissolved that does not boil off [kg]: what true Brix counts. Fat, starch and fibre float; gases leave.
  constexpr double dissolved_kg() const {
    double sum = 0.0;
    for (std::size_t i = index(Component::sucrose); i <= index(last_agent); ++i) sum += kg[i];
    return sum - kg[index(Component::fat)] - kg[index(Component::starch)] - kg[index(Component::fibre)];
  }
  constexpr Composition& operator+=(const Composition& other) {
    for (std::size_t i = 0; i < component_count; ++i) kg[i] += other.kg[i];
    return *this;
  }
  constexpr Composition& operator-=(const Composition& other) {
    for (std::size_t i = 0; i < component_count; ++i) kg[i] -= other.kg[i];
    return *this;
  }
  constexpr Composition& operator*=(double k) {
    for (double& m : kg) m *= k;
    return *this;
  }
  friend constexpr Composition operator+(Composition a, const Composition& b) { return a += b; }
  friend constexpr Composition operator-(Composition a, const Composition& b) { return a -= b; }
  friend constexpr Composition operator*(Composition a, double k) { return a *= k; }
  friend constexpr bool operator==(const Composition&, const Composition&) = default;
};

/// One component alone.
constexpr Composition pure(Component c, units::Mass m) {
  Composition one;
  one[c] = m.si;
  return one;
}

}  // namespace bloomset::matter
