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

// Sugars, polyols and acids stand in the same order in both lists.
constexpr std::size_t same_in_both = at(Solute::carbonic_acid) + 1;

void take_over(std::array<double, solute_count>& kg, const Composition& c) {
  for (std::size_t i = 0; i < same_in_both; ++i) kg[i] = c.kg[index(Component::sucrose) + i];
  kg[at(Solute::protein)] = c[Component::protein];
  kg[at(Solute::fat)] = c[Component::fat];
  kg[at(Solute::starch)] = c[Component::starch];
  kg[at(Solute::fibre)] = c[Component::fibre];
  kg[at(Solute::other_solids)] = c[Component::other_solids];
  for (std::size_t i = index(first_agent); i <= index(last_agent); ++i) kg[at(Solute::agents)] += c.kg[i];
}

void take_over(Few<solute_count>& kg, const Compositions& c) {
  constexpr std::size_t first = index(Component::sucrose);
  c.kg.each(first, first + same_in_both - 1, [&](std::size_t i, const Lanes& some) { kg.at(i - first) = some; });
  static_assert(index(Component::other_solids) - index(Component::protein) == at(Solute::other_solids) - at(Solute::protein));
  c.kg.each(index(Component::protein), index(Component::other_solids),
            [&](std::size_t i, const Lanes& some) { kg.at(i - index(Component::protein) + at(Solute::protein)) = some; });
  c.kg.each(index(first_agent), index(last_agent), [&](std::size_t, const Lanes& some) { kg.at(at(Solute::agents)) += some; });
}

double& place(std::array<double, solute_count>& kg, Solute s) { return kg[at(s)]; }
Lanes& place(Few<solute_count>& kg, Solute s) { return kg.at(at(s)); }

}  // namespace

template <class Real>
SolutesOf<Real> solutes(const CompositionOf<Real>& c) {
  SolutesOf<Real> s;
  s.water_kg = c[Component::water];
  s.ethanol_kg = c[Component::ethanol];
  take_over(s.kg, c);
  const Real chloride_eq = c[Component::chloride] / chlorine_g_mol;  // kmol
  const Real lost_hydrogen_eq = -c[Component::salt_hydrogen] / hydrogen_g_mol;
  const Real anions = chloride_eq + lost_hydrogen_eq;
  const Truth<Real> salty = anions > 0.0;
  if (!any(salty)) return s;
  const Real to_chloride = select(salty, chloride_eq / anions, 0.0), to_acids = select(salty, 1.0 - to_chloride, 0.0);
  for (const Cation& cation : cations) {
    if (!holds(c, cation.component)) continue;
    const Real kmol = c[cation.component] / cation.molar_mass_g_mol;
    place(s.kg, cation.chloride) = kmol * to_chloride * (cation.molar_mass_g_mol + cation.charge * chlorine_g_mol);
    place(s.kg, cation.exchange) = kmol * to_acids * (cation.molar_mass_g_mol - cation.charge * hydrogen_g_mol);
  }
  return s;
}

template Solutes solutes(const Composition&);
template SolutesOf<Lanes> solutes(const Compositions&);

}  // namespace bloomset::matter
