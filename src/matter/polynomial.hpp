// matter/polynomial.hpp - the value of a polynomial, c[0] + c[1] t + c[2] t^2 + …, by Horner's rule.
#pragma once

#include <array>
#include <cstddef>

namespace bloomset::matter {

template <std::size_t N>
constexpr double value_at(const std::array<double, N>& c, double t) {
  double sum = 0.0;
  for (std::size_t k = N; k-- > 0;) sum = sum * t + c[k];
  return sum;
}

}  // namespace bloomset::matter
