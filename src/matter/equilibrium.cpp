// matter/equilibrium.cpp - the liquid water that makes an enthalpy balance close on the freezing curve.
//
// The unknown is w, the water that is liquid. It fixes the temperature, t = freezing point with w, and so the enthalpy
//   H(w) = liquid(w, t) + ice(t) + vessel t,
// which grows with w. As w grows each kg takes the heat of fusion L; as w shrinks the freezing point falls like -A / w and
// everything that cools with it (heat capacity C) gives C A / w: H is close to L w - C A / w. In s = w - (C A / L) / w it is
// close to a straight line from nearly dry to nearly all water, so a secant in s needs few passes and cannot leave w > 0.
#include "matter/equilibrium.hpp"

namespace bloomset::matter {
namespace {

constexpr double fusion_j_kg = 3.3e5, water_j_kg_k = 4200.0, ice_j_kg_k = 2000.0;  // round: they shape the search, not its end
constexpr int passes = 5;  // the temperature is then good to 1e-3 C at worst, 1e-11 C in 99 of 100 drinks

// H(w) - wanted, and what it is made of.
template <class Real>
struct Excess {
  const ContactOf<Real>& contact;

  Real ice_j(const Real& water_kg, const Real& t_c) const {
    const Real solid = contact.ice_kg + contact.water_kg - water_kg;
    if (contact.ice_follows) return solid * ice_enthalpy_j_kg(t_c);
    const Real of_drink = max(contact.water_kg - water_kg, 0.0);
    return (solid - of_drink) * contact.ice_enthalpy_j_kg + of_drink * ice_enthalpy_j_kg(t_c);
  }
  HeatCurveOf<Real> curve(const Real& water_kg) const { return with_water_and_ethanol(contact.dry, water_kg, contact.ethanol_kg); }
  Real at(const HeatCurveOf<Real>& liquid, const Real& water_kg, const Real& t_c) const {
    return liquid.at_c(t_c) + contact.vessel_j_k * t_c + ice_j(water_kg, t_c) - contact.enthalpy_j;
  }
  Real operator()(const Real& water_kg) const { return at(curve(water_kg), water_kg, contact.bond.freezing_c(water_kg)); }
};

// No ice left, or none that touches: liquid and vessel share the heat.
template <class Real>
Real liquid_temperature(HeatCurveOf<Real> curve, const Real& vessel_j_k, const Real& enthalpy_j) {
  curve.coefficient[1] += vessel_j_k;
  return curve.celsius_at(enthalpy_j);
}

// Pure water frozen through: only the temperature is left to find.
template <class Real>
Real solid_temperature(const Excess<Real>& excess) {
  const ContactOf<Real>& contact = excess.contact;
  const Real moving_kg = contact.water_kg + (contact.ice_follows ? contact.ice_kg : Real(0.0));
  const HeatCurveOf<Real> rest = excess.curve(0.0);
  Real t_c = 0.0;
  for (int pass = 0; pass < 4; ++pass) {
    const Real slope = rest.slope_c(t_c) + contact.vessel_j_k + moving_kg * ice_specific_heat_j_kg_k(t_c);
    t_c = select(slope > 0.0, t_c - excess.at(rest, 0.0, t_c) / slope, t_c);
  }
  return t_c;
}

// w from s = w - kappa / w, without cancellation on either side.
template <class Real>
Real water_of(const Real& s, const Real& kappa) {
  const Real root = sqrt(s * s + 4.0 * kappa);
  return select(s >= 0.0, 0.5 * (s + root), 2.0 * kappa / (root - s));
}

template <class Real>
BalanceOf<Real> choose(const Truth<Real>& which, const BalanceOf<Real>& yes, const BalanceOf<Real>& no) {
  const Truth<Real> ice_gone = (yes.ice_gone & which) | (no.ice_gone & !which);
  return {select(which, yes.t_c, no.t_c), select(which, yes.melted_kg, no.melted_kg), select(which, yes.frozen_kg, no.frozen_kg), ice_gone};
}

// All of it melted: no ice is left to hold the temperature.
template <class Real>
BalanceOf<Real> all_melted(const Excess<Real>& excess, const Real& most, const Truth<Real>& gone) {
  const ContactOf<Real>& contact = excess.contact;
  return {liquid_temperature(excess.curve(most), contact.vessel_j_k, contact.enthalpy_j), contact.ice_kg, 0.0, gone};
}

// Nothing dissolved: H is straight in w, at 0 C throughout.
template <class Real>
BalanceOf<Real> settle_pure(const Excess<Real>& excess, const Truth<Real>& melts, const Real& most, const Real& excess_j) {
  const ContactOf<Real>& contact = excess.contact;
  const Real own = contact.water_kg, other_end = select(melts, most, 0.0), end_j = excess(other_end);
  const Truth<Real> gone = melts & (end_j <= 0.0), solid = (end_j >= 0.0) & !melts;
  const Real moved = (other_end - own) * excess_j / (excess_j - end_j);
  BalanceOf<Real> out{0.0, max(moved, 0.0), max(-moved, 0.0)};
  if (any(gone)) out = choose(gone, all_melted(excess, most, gone), out);
  if (any(solid)) out = choose<Real>(solid, {solid_temperature(excess), 0.0, own}, out);
  return out;
}

}  // namespace

template <class Real>
BalanceOf<Real> settle(const ContactOf<Real>& contact) {
  const Excess<Real> excess{contact};
  const Real own = contact.water_kg;
  const HeatCurveOf<Real> start = excess.curve(own);
  const Truth<Real> alone = !(contact.ice_kg > 0.0);
  const BalanceOf<Real> without_ice{any(alone) ? liquid_temperature(start, contact.vessel_j_k, contact.enthalpy_j) : Real(0.0)};
  Truth<Real> liquid = alone & (without_ice.t_c >= 0.0);
  if (all(liquid)) return without_ice;
  const Real freezes_c = contact.bond.freezing_c(own);
  const Real excess_j = excess.at(start, own, freezes_c);
  const Truth<Real> melts = excess_j <= 0.0;
  liquid = liquid | (melts & alone);
  if (all(liquid)) return without_ice;
  const Real most = select(melts, own + contact.ice_kg, own);

  const Truth<Real> pure = freezes_c == 0.0;
  const BalanceOf<Real> of_pure = any(pure) ? settle_pure(excess, melts, most, excess_j) : without_ice;
  if (all(pure | liquid)) return choose(liquid, without_ice, of_pure);

  const Real dry_j_k = max(start.slope_c(freezes_c) - own * water_j_kg_k, 0.0) + contact.vessel_j_k;
  const Real solid_kg = contact.ice_follows ? Real(contact.ice_kg + own) : select(melts, 0.0, own);
  const Real kappa = -freezes_c * own * (dry_j_k + solid_kg * ice_j_kg_k) / fusion_j_kg;
  const Real bent = kappa / own, highest = most - kappa / most, lowest = select(melts, own - bent, -1e3 * (own + bent));
  Real s = own - bent, at_s = excess_j, slope = fusion_j_kg + (water_j_kg_k - ice_j_kg_k) * freezes_c;
  for (int pass = 0; pass < passes; ++pass) {
    const Real next = clamp(s - at_s / slope, lowest, highest);
    const Real at_next = excess(water_of(next, kappa));
    slope = select(abs(next - s) > 1e-12 * own, clamp((at_next - at_s) / (next - s), 0.1 * fusion_j_kg, 10.0 * fusion_j_kg), slope);
    s = next;
    at_s = at_next;
  }
  const Real water_kg = water_of(clamp(s - at_s / slope, lowest, highest), kappa);
  BalanceOf<Real> out{contact.bond.freezing_c(water_kg), max(water_kg - own, 0.0), max(own - water_kg, 0.0)};
  const Truth<Real> gone = melts & (s >= highest) & (at_s <= 0.0);
  if (any(gone)) out = choose(gone, all_melted(excess, most, gone), out);
  return choose(liquid, without_ice, choose(pure, of_pure, out));
}

template BalanceOf<double> settle(const ContactOf<double>&);
template BalanceOf<Lanes> settle(const ContactOf<Lanes>&);

}  // namespace bloomset::matter
