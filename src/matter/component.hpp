// matter/component.hpp - the closed list of what matter is made of.
//
// Everything a kitchen pours is booked as masses of these components and nothing else; every property is read
// from those masses and the enthalpy. Acids are booked in their free form, salts as their ions, and the hydrogen
// that a salt has lost is booked negative (trisodium citrate = citric acid + 3 Na - 3 H), so that all weighs what
// it weighs and the charge balance can be written from total acids and metal ions.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace bloomset::matter {

enum class Component : std::uint8_t {
  water,
  ethanol,
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
  sodium,
  potassium,
  calcium,
  magnesium,
  chloride,
  salt_hydrogen,
  protein,
  fat,
  starch,
  fibre,
  other_solids,  // other_solids: dissolved and neither sugar, acid nor salt (dextrins, pectin, tannin, extract)
  gelatin,
  fish_gelatin,
  agar,
  gellan_low_acyl,
  gellan_high_acyl,
  kappa_carrageenan,
  iota_carrageenan,
  lambda_carrageenan,
  xanthan,
  guar,
  locust_bean,
  alginate,
  pectin_high_methoxyl,
  pectin_low_methoxyl,
  methylcellulose,
  hpmc,
  modified_starch,
  konjac,
  lecithin,
  sucrose_ester,
  caseinate,
  gum_arabic,
  nitrous_oxide,
  carbon_dioxide,
  air
};
inline constexpr std::size_t component_count = static_cast<std::size_t>(Component::air) + 1;
inline constexpr Component first_acid = Component::citric_acid, last_acid = Component::carbonic_acid;
inline constexpr Component first_agent = Component::gelatin, last_agent = Component::gum_arabic;

/// How a component behaves in the balance: what leaves as vapour, what stays when pulp is strained, what counts as dissolved.
enum class Class : std::uint8_t { water, ethanol, sugar, polyol, acid, ion, protein, fat, starch, fibre, other, agent, gas };

struct ComponentInfo {
  std::string_view name;  // as a person writes it: "citric acid"
  Class kind;
  double molar_mass_g_mol;  // 0 where a mixture has none (protein, fibre, agents)
  double energy_kcal_g;     // Regulation (EU) 1169/2011 Annex XIV
  double sweetness;         // relative to sucrose by mass; 0 if not sweet
};

/// The table row of a component; never fails.
const ComponentInfo& info(Component);
/// The component of that exact name, if there is one.
std::optional<Component> component_named(std::string_view name);

constexpr std::size_t index(Component c) { return static_cast<std::size_t>(c); }
constexpr bool is_agent(Component c) { return c >= first_agent && c <= last_agent; }
constexpr bool is_acid(Component c) { return c >= first_acid && c <= last_acid; }

}  // namespace bloomset::matter
