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
    // Four running sums: the additions overlap, and every machine adds in the same order.
    double a = 0.0, b = 0.0, c = 0.0, d = 0.0;
    std::size_t i = 0;
    for (; i + 4 <= component_count; i += 4) {
      a += kg[i];
      b += kg[i + 1];
      c += kg[i + 2];
      d += kg[i + 3];
    }
    for (; i < component_count; ++i) a += kg[i];
    return (a + b) + (c + d);
  }
  units::Mass mass() const { return {total_kg()}; }
  /// Everything dissolved that does not boil off [kg]: what true Brix counts. Fat, starch and fibre float; gases leave.
  constexpr double dissolved_kg() const {
    double sum = 0.0;
    for (std::size_t i = index(Component::sucrose); i <= index(last_agent); ++i) sum += kg[i];
    return sum - kg[index(Component::fat)] - kg[index(Component::starch)] - kg[index(Component::fibre)];
  }
  constexpr Composition& operator+=(const Composition& other) {
    pairwise(other, [](Pair& x, Pair y) { x += y; });
    return *this;
  }
  constexpr Composition& operator-=(const Composition& other) {
    pairwise(other, [](Pair& x, Pair y) { x -= y; });
    return *this;
  }
  constexpr Composition& operator*=(double k) {
    pairwise(*this, [k](Pair& x, Pair) { x *= k; });
    return *this;
  }
  friend constexpr Composition operator+(Composition a, const Composition& b) { return a += b; }
  friend constexpr Composition operator-(Composition a, const Composition& b) { return a -= b; }
  friend constexpr Composition operator*(Composition a, double k) { return a *= k; }
  friend constexpr bool operator==(const Composition&, const Composition&) = default;

 private:
  // Two components at a time: streams are added some hundred times a run. The same bits as one at a time.
  using Pair = double __attribute__((vector_size(16)));
  static_assert(component_count % 2 == 0);
  template <class Change>
  constexpr void pairwise(const Composition& other, Change change) {
    for (std::size_t i = 0; i < component_count; i += 2) {
      Pair mine = {kg[i], kg[i + 1]};
      change(mine, Pair{other.kg[i], other.kg[i + 1]});
      kg[i] = mine[0];
      kg[i + 1] = mine[1];
    }
  }
};

/// One component alone.
constexpr Composition pure(Component c, units::Mass m) {
  Composition one;
  one[c] = m.si;
  return one;
}

}  // namespace bloomset::matter
