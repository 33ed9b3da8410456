// gas/gas.hpp - the gases a kitchen puts under pressure: nitrous oxide and carbon dioxide.
//
// Where to look: real_gas.hpp (pressure, fugacity, vapour pressure), solubility.hpp (what a liquid holds), bottle.hpp (a charged siphon
// bottle), emptying.hpp (foam it gives), carbonation.hpp (fizz), foam.hpp (overrun and gas fraction; gas let out into a room).
// The air shut into a bottle is an ideal gas that does not dissolve. Callers: flow, and the command `charge`.
#pragma once

#include <cstdint>

#include "matter/component.hpp"
#include "units/quantity.hpp"

namespace bloomset::gas {

enum class Gas : std::uint8_t { nitrous_oxide, carbon_dioxide };
inline constexpr std::size_t gas_count = 2;

constexpr matter::Component component(Gas gas) { return gas == Gas::nitrous_oxide ? matter::Component::nitrous_oxide : matter::Component::carbon_dioxide; }
/// Molar mass [kg/mol].
inline double molar_mass_kg_mol(Gas gas) { return 1e-3 * matter::info(component(gas)).molar_mass_g_mol; }
inline units::Amount amount(Gas gas, units::Mass m) { return {m.si / molar_mass_kg_mol(gas)}; }
inline units::Mass mass(Gas gas, units::Amount n) { return {n.si * molar_mass_kg_mol(gas)}; }

}  // namespace bloomset::gas
