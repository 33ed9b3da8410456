// matter/properties.hpp - every property of the contract, read off one state.
//
// Properties are of the liquid: ice and undissolved gas stand in their own keys. Names are the wire names, the same in
// every document and on the page. Values come in the wire's units (grams, millilitres, Celsius, percent), since this is the door.
#pragma once

#include <array>
#include <bitset>
#include <cstdint>
#include <limits>
#include <string_view>

#include "matter/composition.hpp"

namespace bloomset::matter {

enum class Property : std::uint8_t {
  mass_g,
  volume_ml,
  volume_20c_ml,
  ice_g,
  foam_volume_ml,
  density_kg_m3,
  temperature_c,
  abv_percent,
  abv_percent_all_melted,
  ethanol_g,
  brix_percent,
  brix_read_percent,
  sugars_g,
  sugar_percent,
  sweetness_percent_sucrose,
  ph_25c,
  titratable_acidity_g_100g_citric,
  titratable_acidity_g_l_citric,
  freezing_point_c,
  water_activity,
  heat_capacity_kj_kg_k,
  viscosity_mpa_s,
  refractive_index_20c,
  co2_volumes,
  energy_kcal
};
inline constexpr std::size_t property_count = static_cast<std::size_t>(Property::energy_kcal) + 1;
using PropertySet = std::bitset<property_count>;
inline constexpr double cannot_be_given = std::numeric_limits<double>::quiet_NaN();  // printed as null, with a finding

/// The wire name: "abv_percent".
std::string_view key(Property);

/// A state to be read: the liquid's masses (all its water, also what would stand as ice), its enthalpy, ice lying in it, foam on it.
template <class Real>
struct StateOf {
  CompositionOf<Real> liquid;  // without `floating_ice_kg`
  Real enthalpy_j = 0.0;       // of `liquid`
  Real floating_ice_kg = 0.0;  // a stream of its own: counts for ice_g and abv_percent_all_melted only
  Real foam_volume_ml = 0.0;
};
using State = StateOf<double>;

/// Values in wire units, `cannot_be_given` where none can be. Only the asked ones are computed; the others are left as they are.
/// Where ice stands, all keys are of what stays liquid, mass_g too; ice_g holds what froze out and what floats. Dissolved gas weighs in
/// mass_g but adds no volume. co2_volumes is per volume at 20 C. No allocation; fixed passes.
template <class Real>
struct ValuesOf {
  std::array<Real, property_count> of{};
  Real operator[](Property p) const { return of[static_cast<std::size_t>(p)]; }
};
using Values = ValuesOf<double>;
template <class Real>
void read(const StateOf<Real>&, const PropertySet& asked, ValuesOf<Real>&);
Values read_all(const State&);

/// Why a reading left the range its models were checked in, as a set of bits; joined to findings by sheet.
enum class RangeNote : std::uint8_t {
  spirit_ph,
  sugar_over_70,
  cold_below_model,
  hot_above_model,
  ionic_strength_high,
  thickener_viscosity,
  acid_activity_unknown
};
std::bitset<8> range_notes(const State&);

}  // namespace bloomset::matter
