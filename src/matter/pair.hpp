// matter/pair.hpp - two numbers that are worked on at once, in one register of every x86-64 machine.
//
// Inner sums over components, solutes and acids go through them two at a time: a division of two costs what one does. Each half
// is rounded as a number alone would be, so the bits do not depend on the machine. An odd last one is paired with zeros.
#pragma once

#include <array>
#include <cstddef>

namespace bloomset::matter {

using Pair = double __attribute__((vector_size(16)));

inline double sum(Pair p) { return p[0] + p[1]; }

/// The sum of an even number of numbers. Two pairs run, so that the additions overlap.
template <std::size_t N>
double sum(const std::array<double, N>& all) {
  static_assert(N % 2 == 0);
  Pair one{}, other{};
  std::size_t i = 0;
  for (; i + 4 <= N; i += 4) {
    one += Pair{all[i], all[i + 1]};
    other += Pair{all[i + 2], all[i + 3]};
  }
  if (i < N) one += Pair{all[i], all[i + 1]};
  return sum(one + other);
}

/// The sum of the products of two such lists.
template <std::size_t N>
double sum_of_products(const std::array<double, N>& a, const std::array<double, N>& b) {
  static_assert(N % 2 == 0);
  Pair total{};
  for (std::size_t i = 0; i < N; i += 2) total += Pair{a[i], a[i + 1]} * Pair{b[i], b[i + 1]};
  return sum(total);
}

}  // namespace bloomset::matter
