// matter/vapour.hpp - what leaves an open pan: water and the ethanol it takes with it.
//
// The vapour over ethanol and water is richer in ethanol than the liquid by the relative volatility
//   alpha = gamma_e P_e / (gamma_w P_w),   van Laar: ln gamma_e = A (B x_w / (A x_e + B x_w))^2 and its mirror,
// A = 1.6798, B = 0.9227 (1 atm; from memory: Perry's Chemical Engineers' Handbook), P_e/P_w = 2.29 near 80-90 C.
// Boiling away is a Rayleigh distillation, taken in eight equal bites. Sugar, acid and salt stay and are ignored in
// alpha; no reflux on lid or wall. Checked against the published vapour-liquid table of ethanol-water at 1 atm.
#pragma once

#include "matter/composition.hpp"

namespace bloomset::matter {

/// Relative volatility of ethanol to water by mole at that mole fraction of ethanol in ethanol + water.
double ethanol_relative_volatility(double x_ethanol);

/// The water and ethanol [kg] in `vapour_kg` of vapour drawn off this liquid. Never more than the liquid holds.
template <class Real>
CompositionOf<Real> vapour_from(const CompositionOf<Real>& liquid, const Real& vapour_kg);

/// Vapour pressure of water over that at 100 C: how briskly an open pan steams. 0-110 C.
double steaming(double t_c);
Lanes steaming(const Lanes& t_c);

/// Where the liquid boils at 1 atm [C]: ethanol and water by van Laar and Antoine, raised for what is dissolved by
/// R T^2 / dH_vap = 28.5 K for each unit of -ln a_w. Sugar to about 85 mass %; 100 for a liquid without water or ethanol.
double boiling_point_c(const Composition& liquid);

}  // namespace bloomset::matter
