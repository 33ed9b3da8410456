#include "larder/compose.hpp"

#include <algorithm>
#include <cmath>

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "text/amount.hpp"

namespace bloomset::larder {
namespace {

using matter::Component;
using matter::Composition;

constexpr int most_passes = 200;        // each pass brings three or more digits; poor starts need a few more
constexpr double close_enough = 1e-13;  // relative
constexpr double calcium_carbonate_g_mol = 40.078 + 12.011 + 3 * 15.999;

bool is_sugar(Component c) { return matter::info(c).kind == matter::Class::sugar; }
double sum_of(const Composition& c, bool (*which)(Component)) {
  double sum = 0.0;
  for (std::size_t i = 0; i < matter::component_count; ++i)
    if (which(static_cast<Component>(i))) sum += c.kg[i];
  return sum;
}
Composition scaled(Composition c, bool (*which)(Component), double k) {
  for (std::size_t i = 0; i < matter::component_count; ++i)
    if (which(static_cast<Component>(i))) c.kg[i] *= k;
  return c;
}

double kmol(const Composition& c, Component which) { return c[which] / matter::info(which).molar_mass_g_mol; }

// Listed cations beyond the listed chloride stand on acids: book the hydrogen these have lost.
Composition with_salt_hydrogen(Composition c) {
  const double charge = kmol(c, Component::sodium) + kmol(c, Component::potassium) + 2.0 * (kmol(c, Component::calcium) + kmol(c, Component::magnesium)) -
                        kmol(c, Component::chloride);
  c[Component::salt_hydrogen] = -charge * matter::info(Component::salt_hydrogen).molar_mass_g_mol;
  return c;
}

std::string too_few_acids(double ph) { return "its acids are too few for pH " + text::print_number(ph); }

// Adds water until the whole is one kilogram, potassium for the pH counted in; 0 if the solids alone are more.
struct Filled {
  Composition per_kg;
  std::string problem;
};
Filled fill_to_kilogram(Composition solids, const std::optional<double>& ph) {
  Filled out;
  solids[Component::water] = 0.0;
  solids = with_salt_hydrogen(solids);
  const double dry = solids.total_kg();
  if (dry > 1.0 + 1e-9) {
    out.problem = "what is listed weighs more than the whole";
    return out;
  }
  double net_potassium = 0.0;
  for (int pass = 0; pass < most_passes; ++pass) {
    Composition c = solids;
    c[Component::water] = std::max(0.0, 1.0 - dry - net_potassium);
    if (ph) {
      const double potassium = matter::potassium_for_ph_kg(c, *ph);
      if (!std::isfinite(potassium) || potassium < 0.0) {
        out.problem = too_few_acids(*ph);
        return out;
      }
      c = matter::with_potassium(c, potassium);
    }
    const double before = net_potassium, total = c.total_kg();
    net_potassium += total - 1.0;
    out.per_kg = c * (1.0 / total);
    if (!ph || std::abs(net_potassium - before) < close_enough) break;
  }
  return out;
}

Composed listed(const Row& row) {
  const Filled filled = fill_to_kilogram(row.listed * 0.01, row.ph);
  return {filled.per_kg, filled.problem};
}

Composed fruit(const Row& row) {
  Composition c = row.listed * 0.01;
  const auto is_acid = [](Component k) { return matter::is_acid(k); };
  Filled filled;
  for (int pass = 0; pass < most_passes; ++pass) {
    filled = fill_to_kilogram(c, row.ph);
    if (!filled.problem.empty()) break;
    double sugar_factor = 1.0, acid_factor = 1.0;
    if (row.brix) {
      const double sugars = sum_of(filled.per_kg, is_sugar), wanted = sugars + *row.brix * 0.01 - dissolved_share(filled.per_kg);
      if (!(wanted > 0.0) || sugars == 0.0) return {{}, "its acids alone are more than that Brix"};
      sugar_factor = wanted / sugars;
    }
    if (row.acid || row.acid_percent) {
      const double has = row.acid_percent ? matter::titratable_acidity_g_100g_citric(filled.per_kg) : matter::titratable_acidity_g_l_citric(filled.per_kg);
      acid_factor = (row.acid_percent ? *row.acid_percent : *row.acid) / has;
      if (!std::isfinite(acid_factor) || !(acid_factor > 0.0)) return {{}, "it has no acid to scale"};
    }
    if (std::abs(sugar_factor - 1.0) < close_enough && std::abs(acid_factor - 1.0) < close_enough) break;
    c = scaled(scaled(c, is_sugar, sugar_factor), is_acid, acid_factor);
  }
  return {filled.per_kg, filled.problem};
}

Composed solids(const Row& row) {
  const double wanted = *row.brix * 0.01;
  Composition dry = row.listed;
  dry[Component::water] = 0.0;
  dry *= wanted / (dissolved_share(dry) * dry.total_kg());
  Filled filled;
  for (int pass = 0; pass < most_passes; ++pass) {
    filled = fill_to_kilogram(dry, row.ph);
    if (!filled.problem.empty()) break;
    const double factor = wanted / dissolved_share(filled.per_kg);
    if (std::abs(factor - 1.0) < close_enough) break;
    dry *= factor;
  }
  return {filled.per_kg, filled.problem};
}

Composed litre(const Row& row) {
  constexpr double litre_m3 = 1e-3;
  const units::Temperature t20 = units::celsius(20.0);
  Composition fixed = row.listed * 1e-3;
  fixed[Component::ethanol] = row.strength.value_or(0.0) * 0.01 * litre_m3 * matter::ethanol_water_density({1.0}, t20).si;
  fixed = with_salt_hydrogen(fixed);
  double water = std::max(0.05, 1.0 - fixed.total_kg());
  Composition c;
  for (int pass = 0; pass < most_passes; ++pass) {
    c = fixed;
    c[Component::water] = water;
    if (row.ph) {
      const double potassium = matter::potassium_for_ph_kg(c, *row.ph);
      if (!std::isfinite(potassium) || potassium < 0.0) return {{}, too_few_acids(*row.ph)};
      c = matter::with_potassium(c, potassium);
    }
    const double missing = (litre_m3 - matter::liquid_volume(c, t20).si) / litre_m3;
    if (std::abs(missing) < close_enough) break;
    water += missing;  // one kilogram of water a litre; contraction is made good by the next pass
    if (!(water > 0.0)) return {{}, "so much does not fit into a litre"};
  }
  c[Component::carbon_dioxide] = row.co2.value_or(0.0) * 1e-3;
  return {c * (1.0 / c.total_kg()), {}};
}

Composed solution(const Row& row) {
  const Composition solute = with_salt_hydrogen(row.listed);
  Composition c = solute * (*row.percent * 0.01 / solute.total_kg());
  c[Component::water] += 1.0 - *row.percent * 0.01;
  return {c, {}};
}

Composed formula(const Row& row) {
  Row masses = row;
  for (std::size_t i = 0; i < matter::component_count; ++i) masses.listed.kg[i] *= matter::info(static_cast<Component>(i)).molar_mass_g_mol;
  if (!masses.percent) masses.percent = 100.0;
  return solution(masses);
}

// Calcium bicarbonate: calcium, two carbonic acids and the two hydrogens they have lost, for each unit of calcium carbonate.
Composed hard(const Row& row) {
  const double kmol_kg = *row.hardness * 1e-3 / calcium_carbonate_g_mol / matter::water_density(units::celsius(20.0)).si;  // mg/L is g/m3
  Composition c;
  c[Component::calcium] = kmol_kg * matter::info(Component::calcium).molar_mass_g_mol;
  c[Component::carbonic_acid] = 2.0 * kmol_kg * matter::info(Component::carbonic_acid).molar_mass_g_mol;
  const Filled filled = fill_to_kilogram(c, std::nullopt);
  return {filled.per_kg, filled.problem};
}

}  // namespace

double dissolved_share(const Composition& c) { return c.dissolved_kg() / c.total_kg(); }

Composed compose(const Row& row) {
  switch (row.make) {
    case Make::fruit:
      return fruit(row);
    case Make::solids:
      return row.brix ? solids(row) : listed(row);
    case Make::litre:
      return litre(row);
    case Make::solution:
      return row.percent ? solution(row) : listed(row);
    case Make::formula:
      return formula(row);
    case Make::hard:
      return row.hardness ? hard(row) : listed(row);
    case Make::listed:
      break;
  }
  return row.hardness ? hard(row) : listed(row);
}

}  // namespace bloomset::larder
