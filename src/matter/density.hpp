// matter/density.hpp - density and volume: OIML R 22 for ethanol-water, apparent specific volumes for the rest.
#pragma once

#include "matter/composition.hpp"
#include "matter/solute.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// OIML R 22 (1975), general formula; w = mass fraction of ethanol 0..1, -20 to 40 C. Outside, the excess volume stays as at the edge.
units::Density ethanol_water_density(units::MassFraction ethanol, units::Temperature);
/// The formula's pure ethanol at 20 C, 789.24 kg/m3: what a volume of ethanol means in every strength.
units::Density pure_ethanol_density_20c();
/// Pure water: Tanaka 2001 (0-40 C), Kell 1975 above, joined without a step that matters (0.004 kg/m3).
units::Density water_density(units::Temperature);

/// Mass fraction of ethanol in a spirit of that strength at 20 C (no sugar), by a fixed number of Newton passes.
units::MassFraction ethanol_mass_fraction(units::VolumeFraction abv_20c);
/// Strength at 20 C of an ethanol-water mixture: w rho(w, 20) / rho(1, 20).
units::VolumeFraction abv_20c(units::MassFraction ethanol);

/// Volume of a liquid at a temperature, rule A: V_OIML(water + ethanol) + sum m_i phi_i(w, T). Gas counts nothing. Valid -20 to 100 C.
units::Volume liquid_volume(const Composition&, units::Temperature);
units::Volume liquid_volume(const Solutes&, units::Temperature);
/// The same, prepared once for several temperatures and several waters; all else stays as it was.
template <class Real>
class LiquidVolumeOf {
 public:
  explicit LiquidVolumeOf(const SolutesOf<Real>&);
  /// Volume [m3] with this much water.
  Real m3(const Real& water_kg, const Real& t_c) const;
  /// Of it, what clouds without being dissolved: fat, starch and fibre [m3 at 20 C].
  Real clouds_20c_m3() const;

 private:
  Real ethanol_kg_, dissolved_kg_, sucrose_kg_, fat_kg_, protein_kg_, starch_kg_, fibre_kg_;
  std::array<Real, 3> sugars_{}, others_{};  // m3 at 20 C, of w^0..w^2; sugars swell as sucrose does, which stands apart
};
using LiquidVolume = LiquidVolumeOf<double>;
/// The fraction at which every solute is read: all dissolved / (all dissolved + water); fat, starch and fibre float and do not count.
double dissolved_fraction(const Solutes&);
/// Apparent specific volume of sucrose [m3/kg] at a mass fraction 0..0.85 and 0 to 80 C (ICUMSA SPS-4).
double sucrose_apparent_volume(double mass_fraction, double t_c);
/// Mass over volume, both without gas.
units::Density liquid_density(const Composition&, units::Temperature);
/// The same [kg/m3] at so many Celsius.
template <class Real>
Real liquid_density_kg_m3(const CompositionOf<Real>&, const Real& t_c);
/// Strength: volume of pure ethanol at 20 C over volume of the liquid at 20 C.
units::VolumeFraction strength(const Composition&);
/// Density of ice, 917 kg/m3 near 0 C (Choi & Okos 1986).
units::Density ice_density(units::Temperature);

}  // namespace bloomset::matter
