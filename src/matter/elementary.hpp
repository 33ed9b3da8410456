// matter/elementary.hpp - exponential and logarithm of our own, the same for one number and for eight.
//
// The library's take one number at a time, so eight drinks would wait in a line for them. These are made of adding, multiplying and dividing only, and so
// give the same bits in one lane and in eight, and on every machine. Held against the library's 80-bit ones (tests/matter/elementary_test.cpp): exp and log
// within one unit in the last place, expm1 within two. Reductions as in Cody and Waite, "Software Manual for the Elementary Functions", 1980; the logarithm's
// polynomial is that of Ng for 4.3 BSD (error below 2^-58).
#pragma once

#include <bit>
#include <cstdint>

#include "matter/lanes.hpp"

namespace bloomset::matter {
namespace elementary {

// Bits as numbers and back, for a number and for a pair.
inline std::uint64_t bits_of(double x) { return std::bit_cast<std::uint64_t>(x); }
inline double of_bits(std::uint64_t bits) { return std::bit_cast<double>(bits); }
inline PairBits bits_of(Pair x) { return reinterpret_cast<PairBits>(x); }
inline Pair of_bits(PairBits bits) { return reinterpret_cast<Pair>(bits); }

inline constexpr std::uint64_t bits_of_1 = 0x3FF0000000000000U, bits_of_root_half = 0x3FE6A09E667F3BCDU, fraction_bits = 0x000FFFFFFFFFFFFFU;
inline constexpr double ln_2_high = 6.93147180369123816490e-01, ln_2_low = 1.90821492927058770002e-10;  // the first with 32 bits, so that k times it is exact

// e^x as scale + scale part, the scale a power of two: x = k ln 2 + r, and e^r - 1 by its series to r^13, |r| < 0.35.
template <class X>
struct Powered {
  X scale, part;
};
template <class X>
Powered<X> powered(X x) {
  constexpr double per_ln_2 = 1.4426950408889634, to_whole = 0x1.8p52;  // adding the second leaves whole numbers only, in its last bits
  const X shifted = x * per_ln_2 + to_whole, k = shifted - to_whole;
  const X r = (x - k * ln_2_high) - k * ln_2_low, rr = r * r, r4 = rr * rr;
  const X low = (1.0 / 2.0 + r * (1.0 / 6.0)) + rr * (1.0 / 24.0 + r * (1.0 / 120.0));
  const X middle = (1.0 / 720.0 + r * (1.0 / 5040.0)) + rr * (1.0 / 40320.0 + r * (1.0 / 362880.0));
  const X high = (1.0 / 3628800.0 + r * (1.0 / 39916800.0)) + rr * (1.0 / 479001600.0 + r * (1.0 / 6227020800.0));
  return {of_bits((bits_of(shifted) << 52U) + bits_of_1), r + rr * (low + r4 * (middle + r4 * high))};
}

template <class X>
X logarithm(X x) {
  constexpr double l1 = 6.666666666666735130e-01, l2 = 3.999999999940941908e-01, l3 = 2.857142874366239149e-01, l4 = 2.222219843214978396e-01,
                   l5 = 1.818357216161805012e-01, l6 = 1.531383769920937332e-01, l7 = 1.479819860511658591e-01;
  // x = 2^k (1 + f), 1 + f between the root of a half and that of two.
  constexpr std::uint64_t bits_of_2_52 = 0x4330000000000000U;
  const auto shifted = bits_of(x) + (bits_of_1 - bits_of_root_half);
  const X k = of_bits((shifted >> 52U) | bits_of_2_52) - (0x1p52 + 1023.0), f = of_bits((shifted & fraction_bits) + bits_of_root_half) - 1.0;
  const X s = f / (2.0 + f), z = s * s, w = z * z, half = 0.5 * f * f;
  const X series = w * (l2 + w * (l4 + w * l6)) + z * (l1 + w * (l3 + w * (l5 + w * l7)));
  return k * ln_2_high - ((half - (s * (half + series) + k * ln_2_low)) - f);
}

}  // namespace elementary

/// e^x; the ends are held at -708 and 709.
inline double exp(double x) {
  const auto [scale, part] = elementary::powered(clamp(x, -708.0, 709.0));
  return scale + scale * part;
}
/// e^x - 1, without cancellation near 0; held in the same way.
inline double expm1(double x) {
  const auto [scale, part] = elementary::powered(clamp(x, -708.0, 709.0));
  return scale * part + (scale - 1.0);
}
/// The natural logarithm of a positive number that is not subnormal; of any other a number that means nothing.
inline double log(double x) { return elementary::logarithm(x); }

inline Lanes exp(const Lanes& x) {
  const Lanes held = clamp(x, -708.0, 709.0);
  Lanes out;
  for (int p = 0; p < 4; ++p) {
    const auto [scale, part] = elementary::powered(held.part[p]);
    out.part[p] = scale + scale * part;
  }
  return out;
}
inline Lanes expm1(const Lanes& x) {
  const Lanes held = clamp(x, -708.0, 709.0);
  Lanes out;
  for (int p = 0; p < 4; ++p) {
    const auto [scale, part] = elementary::powered(held.part[p]);
    out.part[p] = scale * part + (scale - 1.0);
  }
  return out;
}
inline Lanes log(const Lanes& x) {
  return {elementary::logarithm(x.part[0]), elementary::logarithm(x.part[1]), elementary::logarithm(x.part[2]), elementary::logarithm(x.part[3])};
}

/// u - 1 - ln u for u between 0.7 and 1.4, without cancellation: with s = (u - 1)/(u + 1), (u - 1) s - 2 s^3 (1/3 + s^2/5 + …) to s^19. Within 1e-15 of
/// itself.
template <class Real>
Real above_logarithm(const Real& u) {
  const Real x = u - 1.0, s = x / (u + 1.0), z = s * s, zz = z * z;
  const Real low = (1.0 / 3.0 + z * (1.0 / 5.0)) + zz * (1.0 / 7.0 + z * (1.0 / 9.0));
  const Real high = (1.0 / 11.0 + z * (1.0 / 13.0)) + zz * (1.0 / 15.0 + z * (1.0 / 17.0));
  return x * s - 2.0 * (s * z) * (low + (zz * zz) * (high + (zz * zz) * (1.0 / 19.0)));
}

}  // namespace bloomset::matter
