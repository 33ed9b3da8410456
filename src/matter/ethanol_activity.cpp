// matter/ethanol_activity.cpp - the activity of water beside ethanol, held at both ends of what was measured.
//
//   ln gamma_w(x, T) = van Laar(x) + x^2 c(w) g(T),   g = 1000 (1/T - 1/298.15 K)
// At 25 C (g = 0) van Laar's equation with the two activity coefficients at infinite dilution. On the freezing curve, c is
// what the handbook's freezing points ask for: no equation of few constants follows their bend near 26 mass %, so c is a
// monotone cubic (Fritsch & Carlson 1980) through knots that are rows of that table. A change linear in 1/T means, by
// Gibbs and Helmholtz, water's partial heat of mixing -1000 R x^2 c, the same at all temperatures; tests hold it against
// the measured heat of mixing. Everything that does not depend on the mixture is worked out once, when the program starts.
#include "matter/ethanol_activity.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "matter/component_table.hpp"
#include "matter/freezing.hpp"
#include "matter/freezing_table.hpp"
#include "matter/polynomial.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

// van Laar: ln gamma_w = A21 (A12 x / (A12 x + A21 (1 - x)))^2, both A the logarithms at infinite dilution.
struct VanLaar {
  double a12 = std::log(activity_at_infinite_dilution_ethanol), a21 = std::log(activity_at_infinite_dilution_water);
  template <class Real>
  Real operator()(const Real& x) const {
    const Real share = a12 * x / (a12 * x + a21 * (1.0 - x));
    return a21 * share * share;
  }
};

template <class Real>
Real mass_fraction(const Real& x) {
  return x * molar_mass_ethanol / (x * molar_mass_ethanol + (1.0 - x) * molar_mass_water);
}
double mole_fraction(double w) { return w / molar_mass_ethanol / (w / molar_mass_ethanol + (1.0 - w) / molar_mass_water); }

constexpr std::size_t knots = ethanol_knot.size() + 2;  // the table's, and both ends
using Knots = std::array<double, knots>;
static_assert(std::ranges::all_of(ethanol_knot, [](double percent) { return static_cast<int>(percent) % 2 == 0; }), "cells of 2 % must end at the knots");

// The end slope of a monotone cubic: three points, held back so that it does not turn.
double end_slope(double h0, double h1, double d0, double d1) {
  const double slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0.0) return 0.0;
  return d0 * d1 <= 0.0 && std::abs(slope) > 3.0 * std::abs(d0) ? 3.0 * d0 : slope;
}

Knots monotone_slopes(const Knots& at, const Knots& value) {
  std::array<double, knots - 1> h{}, d{};
  for (std::size_t i = 0; i + 1 < knots; ++i) {
    h[i] = at[i + 1] - at[i];
    d[i] = (value[i + 1] - value[i]) / h[i];
  }
  Knots slope{};
  for (std::size_t i = 1; i + 1 < knots; ++i) {
    if (d[i - 1] * d[i] <= 0.0) continue;
    const double w1 = 2.0 * h[i] + h[i - 1], w2 = h[i] + 2.0 * h[i - 1];
    slope[i] = (w1 + w2) / (w1 / d[i - 1] + w2 / d[i]);
  }
  slope.front() = end_slope(h[0], h[1], d[0], d[1]);
  slope.back() = end_slope(h[knots - 2], h[knots - 3], d[knots - 2], d[knots - 3]);
  return slope;
}

// c(w) as one cubic a cell: cells of 2 mass % up to the last knot, so that the cell is found by one multiplication; then one to 100 %.
class SlopeCurve {
 public:
  SlopeCurve() {
    Knots at{}, value{};
    at.back() = 1.0;
    value.front() = ethanol_slope_start;
    value.back() = ethanol_slope_end;
    const VanLaar van_laar;
    for (std::size_t i = 0; i < ethanol_knot.size(); ++i) {
      const double w = ethanol_knot[i] / 100.0, x = mole_fraction(w), t_c = ethanol_freezing[i];
      const double g = 1e3 * (1.0 / (t_c + units::zero_celsius_k) - 1.0 / (25.0 + units::zero_celsius_k));
      at[i + 1] = w;
      value[i + 1] = (ln_ice_activity(t_c) - std::log(1.0 - x) - van_laar(x)) / (x * x * g);
    }
    const Knots slope = monotone_slopes(at, value);
    for (std::size_t cell = 0; cell < cells_.size(); ++cell) {
      const double from = static_cast<double>(cell) / per_unit;
      std::size_t i = 0;
      while (i + 2 < knots && from + 0.5 / per_unit > at[i + 1]) ++i;
      const double h = at[i + 1] - at[i], d = (value[i + 1] - value[i]) / h, u = from - at[i];
      const double c2 = (3.0 * d - 2.0 * slope[i] - slope[i + 1]) / h, c3 = (slope[i] + slope[i + 1] - 2.0 * d) / (h * h);
      cells_[cell] = {value[i] + u * (slope[i] + u * (c2 + u * c3)), slope[i] + u * (2.0 * c2 + u * 3.0 * c3), c2 + 3.0 * u * c3, c3};
    }
  }
  double operator()(double w) const {
    const std::size_t cell = cell_of(w);
    return value_at(cells_[cell], w - static_cast<double>(cell) / per_unit);
  }
  Lanes operator()(const Lanes& w) const {
    std::array<Lanes, 4> of;
    Lanes from;
    for (int lane = 0; lane < lane_count; ++lane) {
      const std::size_t cell = cell_of(w[lane]);
      from.set(lane, static_cast<double>(cell) / per_unit);
      for (std::size_t k = 0; k < of.size(); ++k) of[k].set(lane, cells_[cell][k]);
    }
    return value_at(of, w - from);
  }

 private:
  static constexpr double per_unit = 50.0;
  std::size_t cell_of(double w) const { return std::min(static_cast<std::size_t>(w * per_unit), cells_.size() - 1); }
  std::array<std::array<double, 4>, static_cast<std::size_t>(ethanol_knot.back()) / 2 + 1> cells_;
};

const VanLaar van_laar_25;
const SlopeCurve slope_curve;

}  // namespace

template <class Real>
EthanolActivity<Real> ethanol_activity(const Real& mole_fraction) {
  return {van_laar_25(mole_fraction), mole_fraction * mole_fraction * slope_curve(mass_fraction(mole_fraction))};
}

template EthanolActivity<double> ethanol_activity(const double&);
template EthanolActivity<Lanes> ethanol_activity(const Lanes&);

}  // namespace bloomset::matter
