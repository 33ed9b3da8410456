// matter/polynomial.hpp - the value of a polynomial, c[0] + c[1] t + c[2] t^2 + …, by Horner's rule.
#pragma once

#include <array>
#include <cstddef>

#include "matter/lanes.hpp"

namespace bloomset::matter {

template <std::size_t N>
constexpr double value_at(const std::array<double, N>& c, double t) {
  double sum = 0.0;
  for (std::size_t k = N; k-- > 0;) sum = sum * t + c[k];
  return sum;
}
template <class C, std::size_t N>
Lanes value_at(const std::array<C, N>& c, const Lanes& t) {
  Lanes sum = c[N - 1];
  for (std::size_t k = N - 1; k-- > 0;) sum = sum * t + c[k];
  return sum;
}

}  // namespace bloomset::matter
