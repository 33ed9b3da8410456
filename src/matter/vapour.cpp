#include "matter/vapour.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "matter/elementary.hpp"
#include "matter/freezing.hpp"
#include "matter/vapour_table.hpp"

namespace bloomset::matter {
namespace {

using table::antoine_ethanol, table::antoine_water, table::van_laar_ethanol, table::van_laar_water, table::vapour_pressure_ratio;
constexpr double ethanol_kg_mol = 0.046069, water_kg_mol = 0.0180153;
constexpr int bites = 8;
constexpr double atmosphere_mmhg = 760.0;
constexpr double kelvin_per_ln_activity = 28.5;  // R T^2 / dH_vap of water at 100 C: 8.314 * 373.15^2 / 40660 (memory: CRC Handbook, 40.66 kJ/mol)

template <class Real>
struct LnActivity {
  Real ethanol, water;
};
template <class Real>
LnActivity<Real> van_laar(const Real& x) {
  const Real a = van_laar_ethanol * x, b = van_laar_water * (1.0 - x);
  return {van_laar_ethanol * (b / (a + b)) * (b / (a + b)), van_laar_water * (a / (a + b)) * (a / (a + b))};
}

template <class Real>
Real antoine_mmhg(const std::array<double, 3>& c, const Real& t_c) {
  return exp(std::numbers::ln10 * (c[0] - c[1] / (c[2] + t_c)));
}
// d ln P / dt.
double antoine_slope(const std::array<double, 3>& c, double t_c) { return std::numbers::ln10 * c[1] / ((c[2] + t_c) * (c[2] + t_c)); }

template <class Real>
Real volatility(const Real& x_ethanol) {
  const LnActivity<Real> ln_gamma = van_laar(clamp(x_ethanol, 0.0, 1.0));
  return vapour_pressure_ratio * exp(ln_gamma.ethanol - ln_gamma.water);
}

}  // namespace

double ethanol_relative_volatility(double x_ethanol) { return volatility(x_ethanol); }

double steaming(double t_c) { return antoine_mmhg(antoine_water, t_c) / atmosphere_mmhg; }
Lanes steaming(const Lanes& t_c) { return antoine_mmhg(antoine_water, t_c) / atmosphere_mmhg; }

double boiling_point_c(const Composition& liquid) {
  const double n_ethanol = liquid[Component::ethanol] / ethanol_kg_mol, n_water = liquid[Component::water] / water_kg_mol;
  if (!(n_ethanol + n_water > 0.0)) return 100.0;
  const double x = n_ethanol / (n_ethanol + n_water);
  const LnActivity<double> ln_gamma = van_laar(x);
  double t_c = 100.0;
  for (int pass = 0; pass < 6; ++pass) {
    // ln P is nearly straight in t, so Newton on it settles in a few passes.
    const double ethanol = x * std::exp(ln_gamma.ethanol) * antoine_mmhg(antoine_ethanol, t_c);
    const double water = (1.0 - x) * std::exp(ln_gamma.water) * antoine_mmhg(antoine_water, t_c);
    const double slope = (ethanol * antoine_slope(antoine_ethanol, t_c) + water * antoine_slope(antoine_water, t_c)) / (ethanol + water);
    t_c -= std::log((ethanol + water) / atmosphere_mmhg) / slope;
  }
  Composition dry = liquid;
  dry[Component::ethanol] = 0.0;
  const double raised = dry[Component::water] > 0.0 ? -kelvin_per_ln_activity * std::log(water_activity(dry, units::celsius(60.0))) : 0.0;
  return t_c + raised;
}

template <class Real>
CompositionOf<Real> vapour_from(const CompositionOf<Real>& liquid, const Real& vapour_kg) {
  CompositionOf<Real> vapour;
  Real water = liquid[Component::water], ethanol = liquid[Component::ethanol];
  const Real bite = clamp(vapour_kg, 0.0, water + ethanol) / bites;
  const bool spirited = any(ethanol > 0.0);
  for (int i = 0; i < bites && any(bite > 0.0); ++i) {
    Real leaves_ethanol = 0.0;
    if (spirited) {
      const Real n_ethanol = ethanol / ethanol_kg_mol, n_water = water / water_kg_mol;
      const Real pull = volatility(Real(n_ethanol / (n_ethanol + n_water)));
      // Vapour mole ratio = alpha * liquid mole ratio; by mass the molar masses cancel on both sides.
      const Real share = select(ethanol > 0.0, pull * ethanol / (pull * ethanol + water), 0.0);
      leaves_ethanol = min(min(ethanol, bite * share), bite);
      ethanol -= leaves_ethanol;
      vapour[Component::ethanol] += leaves_ethanol;
    }
    const Real leaves_water = min(water, bite - leaves_ethanol);
    water -= leaves_water;
    vapour[Component::water] += leaves_water;
  }
  return vapour;
}

template Composition vapour_from(const Composition&, const double&);
template Compositions vapour_from(const Compositions&, const Lanes&);

}  // namespace bloomset::matter
