#include "solve/normal.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "matter/elementary.hpp"

namespace bloomset::solve {
namespace {

// Coefficients as printed by Wichura 1988, highest power last.
constexpr std::array<double, 8> as241_a = {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
                                           4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3};
constexpr std::array<double, 8> as241_b = {1.0,
                                           4.2313330701600911252e1,
                                           6.8718700749205790830e2,
                                           5.3941960214247511077e3,
                                           2.1213794301586595867e4,
                                           3.9307895800092710610e4,
                                           2.8729085735721942674e4,
                                           5.2264952788528545610e3};
constexpr std::array<double, 8> as241_c = {1.42343711074968357734e0, 4.63033784615654529590e0,  5.76949722146069140550e0,  3.64784832476320460504e0,
                                           1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr std::array<double, 8> as241_d = {1.0,
                                           2.05319162663775882187e0,
                                           1.67638483018380384940e0,
                                           6.89767334985100004550e-1,
                                           1.48103976427480074590e-1,
                                           1.51986665636164571966e-2,
                                           5.47593808499534494600e-4,
                                           1.05075007164441684324e-9};
constexpr double split = 0.425, split_squared = 0.180625, tail_shift = 1.6;

using matter::Lanes, matter::Pair, matter::PairBits;
using matter::elementary::bits_of, matter::elementary::of_bits;

double polynomial(const std::array<double, 8>& of, double x) {
  double sum = of[7];
  for (int i = 6; i >= 0; --i) sum = sum * x + of[static_cast<std::size_t>(i)];
  return sum;
}

double quantile(double share) {
  const double q = share - 0.5;
  if (std::abs(q) <= split) {
    const double r = split_squared - q * q;
    return q * polynomial(as241_a, r) / polynomial(as241_b, r);
  }
  const double r = std::sqrt(-std::log(q < 0.0 ? share : 1.0 - share)) - tail_shift;
  const double z = polynomial(as241_c, r) / polynomial(as241_d, r);
  return q < 0.0 ? -z : z;
}

// The quantile of shares from 2^-15 to a half in cells, sixteen for each doubling: a polynomial each through nine of its points. The cell is read off the
// first bits of the share, where it lies in the cell off the others.
class Cells {
 public:
  Cells() {
    for (std::size_t n = 0; n < cells_.size(); ++n) {
      const double from = of_bits((first_cell + n) << other_bits), width = of_bits((first_cell + n + 1) << other_bits) - from;
      cells_[n] = through_points([&](double x) { return quantile(from + width * x); });
    }
  }
  double operator()(double share) const {
    const std::uint64_t bits = bits_of(share);
    const Cell& c = cell_of(bits);
    return value([&](std::size_t k) { return c[k]; }, place_of<double>(bits));
  }
  Pair operator()(Pair share) const {
    const PairBits bits = bits_of(share);
    const Cell &one = cell_of(bits[0]), &other = cell_of(bits[1]);
    return value([&](std::size_t k) { return Pair{one[k], other[k]}; }, place_of<Pair>(bits));
  }

 private:
  static constexpr std::size_t doublings = 14, parts = 16, terms = 9;
  static constexpr unsigned other_bits = 48;  // behind sign, exponent and four bits of the fraction
  static constexpr std::uint64_t first_cell = std::bit_cast<std::uint64_t>(0x1p-15) >> other_bits, others = (std::uint64_t{1} << other_bits) - 1U;
  using Cell = std::array<double, terms>;

  const Cell& cell_of(std::uint64_t bits) const { return cells_[std::min<std::size_t>((bits >> other_bits) - first_cell, cells_.size() - 1)]; }
  template <class X, class Bits>
  static X place_of(Bits bits) {
    return of_bits(((bits & others) << 4U) | matter::elementary::bits_of_1) - 1.0;
  }
  template <class Of, class X>
  static X value(Of&& c, X x) {
    const X xx = x * x, x4 = xx * xx;
    return ((c(0) + x * c(1)) + xx * (c(2) + x * c(3))) + x4 * (((c(4) + x * c(5)) + xx * (c(6) + x * c(7))) + x4 * c(8));
  }
  // Newton's divided differences at Chebyshev's points, multiplied out.
  template <class F>
  static Cell through_points(F&& f) {
    Cell at{}, d{};
    for (std::size_t k = 0; k < terms; ++k) {
      at[k] = 0.5 - 0.5 * std::cos(std::numbers::pi * (static_cast<double>(k) + 0.5) / static_cast<double>(terms));
      d[k] = f(at[k]);
    }
    for (std::size_t order = 1; order < terms; ++order)
      for (std::size_t k = terms; k-- > order;) d[k] = (d[k] - d[k - 1]) / (at[k] - at[k - order]);
    Cell c{};
    for (std::size_t k = terms; k-- > 0;) {
      for (std::size_t n = terms; n-- > 1;) c[n] = c[n - 1] - at[k] * c[n];
      c[0] = d[k] - at[k] * c[0];
    }
    return c;
  }

  std::array<Cell, doublings * parts + 1> cells_{};  // the last begins at a half
};

const Cells& cells() {
  static const Cells once;
  return once;
}

}  // namespace

double normal_quantile(double share) { return quantile(share); }

double drawn_normal(double share) {
  const double q = share - 0.5, z = cells()(0.5 - std::abs(q));
  return q < 0.0 ? z : -z;
}

Lanes drawn_normal(const Lanes& share) {
  const Lanes q = share - 0.5, tail = 0.5 - matter::abs(q);
  const Cells& of = cells();
  const Lanes z{of(tail.part[0]), of(tail.part[1]), of(tail.part[2]), of(tail.part[3])};
  return matter::select(q < 0.0, z, -z);
}

}  // namespace bloomset::solve
