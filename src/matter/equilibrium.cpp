// matter/equilibrium.cpp - the liquid water that makes an enthalpy balance close on the freezing curve.
//
// The unknown is w, the water that is liquid. It fixes the temperature, t = freezing point with w, and so the enthalpy
//   H(w) = liquid(w, t) + ice(t) + vessel t,
// which grows with w. As w grows each kg takes the heat of fusion L; as w shrinks the freezing point falls like -A / w and
// everything that cools with it (heat capacity C) gives C A / w: H is close to L w - C A / w. In s = w - (C A / L) / w it is
// close to a straight line from nearly dry to nearly all water, so a secant in s needs few passes and cannot leave w > 0.
#include "matter/equilibrium.hpp"

#include <algorithm>
#include <cmath>

namespace bloomset::matter {
namespace {

constexpr double fusion_j_kg = 3.3e5, water_j_kg_k = 4200.0, ice_j_kg_k = 2000.0;  // round: they shape the search, not its end
constexpr int passes = 5;  // the temperature is then good to 1e-3 C at worst, 1e-11 C in 99 of 100 drinks

// H(w) - wanted, and what it is made of.
struct Excess {
  const Contact& contact;

  double ice_j(double water_kg, double t_c) const {
    const double solid = contact.ice_kg + contact.water_kg - water_kg;
    if (contact.ice_follows) return solid * ice_enthalpy_j_kg(t_c);
    const double of_drink = std::max(contact.water_kg - water_kg, 0.0);
    return (solid - of_drink) * contact.ice_enthalpy_j_kg + of_drink * ice_enthalpy_j_kg(t_c);
  }
  HeatCurve curve(double water_kg) const { return with_water_and_ethanol(contact.dry, water_kg, contact.ethanol_kg); }
  double at(const HeatCurve& liquid, double water_kg, double t_c) const {
    return liquid.at_c(t_c) + contact.vessel_j_k * t_c + ice_j(water_kg, t_c) - contact.enthalpy_j;
  }
  double operator()(double water_kg) const { return at(curve(water_kg), water_kg, contact.bond.freezing_c(water_kg)); }
};

// No ice left, or none that touches: liquid and vessel share the heat.
double liquid_temperature(HeatCurve curve, double vessel_j_k, double enthalpy_j) {
  curve.coefficient[1] += vessel_j_k;
  return curve.celsius_at(enthalpy_j);
}

// Pure water frozen through: only the temperature is left to find.
double solid_temperature(const Excess& excess) {
  const Contact& contact = excess.contact;
  const double moving_kg = contact.water_kg + (contact.ice_follows ? contact.ice_kg : 0.0);
  const HeatCurve rest = excess.curve(0.0);
  double t_c = 0.0;
  for (int pass = 0; pass < 4; ++pass) {
    const double slope = rest.slope_c(t_c) + contact.vessel_j_k + moving_kg * ice_specific_heat_j_kg_k(t_c);
    if (!(slope > 0.0)) break;
    t_c -= excess.at(rest, 0.0, t_c) / slope;
  }
  return t_c;
}

// w from s = w - kappa / w, without cancellation on either side.
double water_of(double s, double kappa) {
  const double root = std::sqrt(s * s + 4.0 * kappa);
  return s >= 0.0 ? 0.5 * (s + root) : 2.0 * kappa / (root - s);
}

}  // namespace

Balance settle(const Contact& contact) {
  const Excess excess{contact};
  const double own = contact.water_kg;
  const HeatCurve start = excess.curve(own);
  const bool alone = !(contact.ice_kg > 0.0);
  const double alone_c = alone ? liquid_temperature(start, contact.vessel_j_k, contact.enthalpy_j) : 0.0;
  if (alone && alone_c >= 0.0) return {alone_c, 0.0, 0.0, false};
  const double freezes_c = contact.bond.freezing_c(own);
  const double excess_j = excess.at(start, own, freezes_c);
  const bool melts = excess_j <= 0.0;
  if (melts && alone) return {alone_c, 0.0, 0.0, false};
  const double most = melts ? own + contact.ice_kg : own, least = melts ? own : 0.0;

  if (freezes_c == 0.0) {  // nothing dissolved: H is straight in w, at 0 C throughout
    const double other_end = melts ? most : 0.0, end_j = excess(other_end);
    if (melts && end_j <= 0.0) return {liquid_temperature(excess.curve(most), contact.vessel_j_k, contact.enthalpy_j), contact.ice_kg, 0.0, true};
    if (!melts && end_j >= 0.0) return {solid_temperature(excess), 0.0, own, false};
    const double moved = (other_end - own) * excess_j / (excess_j - end_j);
    return {0.0, std::max(moved, 0.0), std::max(-moved, 0.0), false};
  }

  const double dry_j_k = std::max(start.slope_c(freezes_c) - own * water_j_kg_k, 0.0) + contact.vessel_j_k;
  const double solid_kg = (contact.ice_follows ? contact.ice_kg : 0.0) + (contact.ice_follows || !melts ? own : 0.0);
  const double kappa = -freezes_c * own * (dry_j_k + solid_kg * ice_j_kg_k) / fusion_j_kg;
  const double highest = most - kappa / most, lowest = melts ? least - kappa / least : -1e3 * (own + kappa / own);
  double s = own - kappa / own, at_s = excess_j, slope = fusion_j_kg + (water_j_kg_k - ice_j_kg_k) * freezes_c;
  for (int pass = 0; pass < passes; ++pass) {
    const double next = std::clamp(s - at_s / slope, lowest, highest);
    const double at_next = excess(water_of(next, kappa));
    if (std::abs(next - s) > 1e-12 * own) slope = std::clamp((at_next - at_s) / (next - s), 0.1 * fusion_j_kg, 10.0 * fusion_j_kg);
    s = next;
    at_s = at_next;
  }
  if (melts && s >= highest && at_s <= 0.0) return {liquid_temperature(excess.curve(most), contact.vessel_j_k, contact.enthalpy_j), contact.ice_kg, 0.0, true};
  const double water_kg = water_of(std::clamp(s - at_s / slope, lowest, highest), kappa);
  return {contact.bond.freezing_c(water_kg), std::max(water_kg - own, 0.0), std::max(own - water_kg, 0.0), false};
}

}  // namespace bloomset::matter
