#include "matter/solute.hpp"

#include "matter/component_table.hpp"

namespace bloomset::matter {
namespace {

constexpr double hydrogen_g_mol = table::molar_mass_salt_hydrogen, chlorine_g_mol = table::molar_mass_chloride;

struct Cation {
  Component component;
  double molar_mass_g_mol, charge;
  Solute chloride, exchange;
};
constexpr std::array<Cation, 4> cations = {{
    {Component::sodium, table::molar_mass_sodium, 1.0, Solute::sodium_chloride, Solute::sodium_for_hydrogen},
    {Component::potassium, table::molar_mass_potassium, 1.0, Solute::potassium_chloride, Solute::potassium_for_hydrogen},
    {Component::calcium, table::molar_mass_calcium, 2.0, Solute::calcium_chloride, Solute::calcium_for_hydrogen},
    {Component::magnesium, table::molar_mass_magnesium, 2.0, Solute::magnesium_chloride, Solute::magnesium_for_hydrogen},
}};

constexpr std::size_t at(Solute s) { return static_cast<std::size_t>(s); }

}  // namespace

Solutes solutes(const Composition& c) {
  Solutes s;
  s.water_kg = c[Component::water];
  s.ethanol_kg = c[Component::ethanol];
  // Sugars, polyols and acids stand in the same order in both lists.
  for (std::size_t i = 0; i <= at(Solute::carbonic_acid); ++i) s.kg[i] = c.kg[index(Component::sucrose) + i];
  s.kg[at(Solute::protein)] = c[Component::protein];
  s.kg[at(Solute::fat)] = c[Component::fat];
  s.kg[at(Solute::starch)] = c[Component::starch];
  s.kg[at(Solute::fibre)] = c[Component::fibre];
  s.kg[at(Solute::other_solids)] = c[Component::other_solids];
  double agents = 0.0;
  for (std::size_t i = index(first_agent); i <= index(last_agent); ++i) agents += c.kg[i];
  s.kg[at(Solute::agents)] = agents;

  const double chloride_eq = c[Component::chloride] / chlorine_g_mol;  // kmol
  const double lost_hydrogen_eq = -c[Component::salt_hydrogen] / hydrogen_g_mol;
  const double anions = chloride_eq + lost_hydrogen_eq;
  if (anions <= 0.0) return s;
  const double to_chloride = chloride_eq / anions;
  for (const Cation& cation : cations) {
    const double kmol = c[cation.component] / cation.molar_mass_g_mol;
    s.kg[at(cation.chloride)] = kmol * to_chloride * (cation.molar_mass_g_mol + cation.charge * chlorine_g_mol);
    s.kg[at(cation.exchange)] = kmol * (1.0 - to_chloride) * (cation.molar_mass_g_mol - cation.charge * hydrogen_g_mol);
  }
  return s;
}

}  // namespace bloomset::matter
