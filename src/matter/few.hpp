// matter/few.hpp - a long list of numbers in eight lanes, of which most are nothing in every lane.
//
// Eight lanes of all components are 3.7 KB; a drink holds a third of them. So a list knows what it holds, copies and adds only that, and answers 0 for the
// rest. Nothing added to nothing is left out, which no sum notices: the bits are those of the whole list.
#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

#include "matter/lanes.hpp"

namespace bloomset::matter {

template <std::size_t N>
class Few {
  static_assert(N <= 64);

 public:
  Few() {}
  Few(const Few& other) { *this = other; }
  Few& operator=(const Few& other) {
    holds_ = other.holds_;
    other.each([this](std::size_t i, const Lanes& x) { of_[i] = x; });
    return *this;
  }
  ~Few() = default;

  [[gnu::always_inline]] Lanes operator[](std::size_t i) const { return has(i) ? of_[i] : Lanes(0.0); }
  /// To be changed: held from now on.
  Lanes& at(std::size_t i) {
    if (!has(i)) {
      of_[i] = 0.0;
      holds_ |= bit(i);
    }
    return of_[i];
  }
  bool has(std::size_t i) const { return (holds_ & bit(i)) != 0; }

  /// what(i, number) for all that is held, in rising order.
  template <class What>
  void each(What&& what) const {
    for (std::uint64_t left = holds_; left != 0; left &= left - 1U) what(first_of(left), of_[first_of(left)]);
  }
  template <class What>
  void each(What&& what) {
    for (std::uint64_t left = holds_; left != 0; left &= left - 1U) what(first_of(left), of_[first_of(left)]);
  }
  template <class What>
  void each(std::size_t first, std::size_t last, What&& what) const {
    for (std::uint64_t left = holds_ & (~std::uint64_t{0} << first) & (~std::uint64_t{0} >> (63U - last)); left != 0; left &= left - 1U)
      what(first_of(left), of_[first_of(left)]);
  }
  /// Each number becomes what it makes together with that of another list.
  template <class Make>
  void with(const Few& other, Make&& make) {
    other.each([&](std::size_t i, const Lanes& x) { of_[i] = make(has(i) ? of_[i] : Lanes(0.0), x); });
    holds_ |= other.holds_;
  }

 private:
  static constexpr std::uint64_t bit(std::size_t i) { return std::uint64_t{1} << i; }
  static std::size_t first_of(std::uint64_t bits) { return static_cast<std::size_t>(std::countr_zero(bits)); }

  std::uint64_t holds_ = 0;
  std::array<Lanes, N> of_;  // what is not held is not set
};

/// In the order of pair.hpp's sum, so that the bits are the same.
template <std::size_t N>
Lanes sum(const Few<N>& all) {
  std::array<Lanes, 4> part = {0.0, 0.0, 0.0, 0.0};
  all.each([&](std::size_t i, const Lanes& x) { part[i % 4] += x; });
  return (part[0] + part[2]) + (part[1] + part[3]);
}

/// The sum of the products with a list of constants, likewise.
template <std::size_t N>
Lanes sum_of_products(const Few<N>& a, const std::array<double, N>& b) {
  std::array<Lanes, 2> part = {0.0, 0.0};
  a.each([&](std::size_t i, const Lanes& x) { part[i % 2] += x * b[i]; });
  return part[0] + part[1];
}

}  // namespace bloomset::matter
