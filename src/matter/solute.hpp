// matter/solute.hpp - what the water sees: molecules and salts, from booked components.
//
// Components book ions; handbooks measure salts. `solutes` pairs them: each cation is shared between chloride and
// the acids' anions in the ratio of their equivalents, so that pure NaCl, KCl, CaCl2 come back whole and any
// mixture is smooth in every mass. A cation bound to an acid is booked as an exchange solute (Na for H): trisodium
// citrate is citric acid + sodium_for_hydrogen. Called by density, refraction, viscosity and freezing.
#pragma once

#include <array>
#include <type_traits>

#include "matter/composition.hpp"

namespace bloomset::matter {

enum class Solute : std::uint8_t {
  sucrose,
  glucose,
  fructose,
  maltose,
  lactose,
  erythritol,
  allulose,
  glycerol,
  citric_acid,
  malic_acid,
  tartaric_acid,
  lactic_acid,
  acetic_acid,
  ascorbic_acid,
  succinic_acid,
  quinic_acid,
  oxalic_acid,
  phosphoric_acid,
  gluconic_acid,
  carbonic_acid,
  sodium_chloride,
  potassium_chloride,
  calcium_chloride,
  magnesium_chloride,
  sodium_for_hydrogen,
  potassium_for_hydrogen,
  calcium_for_hydrogen,
  magnesium_for_hydrogen,
  protein,
  fat,
  starch,
  fibre,
  other_solids,
  agents
};
inline constexpr std::size_t solute_count = static_cast<std::size_t>(Solute::agents) + 1;

/// Masses [kg] of solutes, water and ethanol; together they are the composition without its gases.
template <class Real>
struct SolutesOf {
  std::conditional_t<std::is_same_v<Real, double>, std::array<double, solute_count>, Few<solute_count>> kg{};
  Real water_kg = 0.0, ethanol_kg = 0.0;
  Real operator[](Solute s) const { return kg[static_cast<std::size_t>(s)]; }
  /// All solutes together [kg].
  Real total_kg() const { return sum(kg); }
};
using Solutes = SolutesOf<double>;
inline const Solutes& in_lane(const Solutes& s, int) { return s; }
inline Solutes in_lane(const SolutesOf<Lanes>& s, int lane) {
  Solutes one{{}, s.water_kg[lane], s.ethanol_kg[lane]};
  s.kg.each([&](std::size_t i, const Lanes& some) { one.kg[i] = some[lane]; });
  return one;
}
template <class Real>
SolutesOf<Real> solutes(const CompositionOf<Real>&);

}  // namespace bloomset::matter
