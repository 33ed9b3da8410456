#include "matter/vapour.hpp"

#include <algorithm>
#include <cmath>

#include "matter/vapour_table.hpp"

namespace bloomset::matter {
namespace {

using table::van_laar_ethanol, table::van_laar_water, table::vapour_pressure_ratio;
constexpr double ethanol_kg_mol = 0.046069, water_kg_mol = 0.0180153;
constexpr int bites = 8;

}  // namespace

double ethanol_relative_volatility(double x_ethanol) {
  const double x = std::clamp(x_ethanol, 0.0, 1.0), w = 1.0 - x;
  const double a = van_laar_ethanol * x, b = van_laar_water * w;
  const double ln_ethanol = van_laar_ethanol * (b / (a + b)) * (b / (a + b));
  const double ln_water = van_laar_water * (a / (a + b)) * (a / (a + b));
  return vapour_pressure_ratio * std::exp(ln_ethanol - ln_water);
}

Composition vapour_from(const Composition& liquid, double vapour_kg) {
  Composition vapour;
  double water = liquid[Component::water], ethanol = liquid[Component::ethanol];
  const double bite = std::clamp(vapour_kg, 0.0, water + ethanol) / bites;
  for (int i = 0; i < bites && bite > 0.0; ++i) {
    const double n_ethanol = ethanol / ethanol_kg_mol, n_water = water / water_kg_mol;
    const double pull = n_ethanol > 0.0 ? ethanol_relative_volatility(n_ethanol / (n_ethanol + n_water)) : 0.0;
    // Vapour mole ratio = alpha * liquid mole ratio; by mass the molar masses cancel on both sides.
    const double share = ethanol > 0.0 ? pull * ethanol / (pull * ethanol + water) : 0.0;
    const double leaves_ethanol = std::min({ethanol, bite * share, bite});
    const double leaves_water = std::min(water, bite - leaves_ethanol);
    ethanol -= leaves_ethanol;
    water -= leaves_water;
    vapour[Component::ethanol] += leaves_ethanol;
    vapour[Component::water] += leaves_water;
  }
  return vapour;
}

}  // namespace bloomset::matter
