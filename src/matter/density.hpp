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
/// The fraction at which every solute is read: all dissolved / (all dissolved + water); fat, starch and fibre float and do not count.
double dissolved_fraction(const Solutes&);
/// Apparent specific volume of sucrose [m3/kg] at a mass fraction 0..0.85 and 0 to 80 C (ICUMSA SPS-4).
double sucrose_apparent_volume(double mass_fraction, double t_c);
/// Mass over volume, both without gas.
units::Density liquid_density(const Composition&, units::Temperature);
/// Strength: volume of pure ethanol at 20 C over volume of the liquid at 20 C.
units::VolumeFraction strength(const Composition&);
/// Density of ice, 917 kg/m3 near 0 C (Choi & Okos 1986).
units::Density ice_density(units::Temperature);

}  // namespace bloomset::matter
