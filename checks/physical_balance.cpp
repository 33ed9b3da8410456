// checks/physical_balance.cpp - answers for the tables of pH, freezing, water activity and the melting of ice.
#include <limits>

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/ice.hpp"
#include "physical_tables.hpp"

namespace bloomset::checks {
namespace {

using matter::Component;
using matter::Composition;
using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

double mol_kg(std::string_view substance_name, double mol) {
  const auto one = substance(substance_name, 1.0);
  if (!one) return unknown;
  // Moles of a salt are counted by its anion.
  const double chloride = (*one)[Component::chloride] / matter::info(Component::chloride).molar_mass_g_mol;
  const double citrate = (*one)[Component::citric_acid] / matter::info(Component::citric_acid).molar_mass_g_mol;
  if (substance_name.starts_with("sodium") || substance_name.starts_with("trisodium")) return 1e-3 * mol / (chloride + citrate);
  return 1e-3 * mol * matter::info(*matter::component_named(substance_name)).molar_mass_g_mol;
}

// The dissolved matter and as much water as makes one litre at 25 C.
Composition one_litre(Composition dissolved) {
  double water = 1.0;
  for (int pass = 0; pass < 30; ++pass) {
    dissolved[Component::water] = water;
    water += 1.0 - in_litres(matter::liquid_volume(dissolved, celsius(25.0)));
  }
  dissolved[Component::water] = water;
  return dissolved;
}

double ph_of_acid(std::string_view acid, double kg_per_litre) {
  const auto made = substance(acid, kg_per_litre);
  return made ? matter::ph_25c(one_litre(*made)) : unknown;
}

Answers acid_by_mass(const Inputs& in) { return {{"pH_25C_davies", ph_of_acid(in.text("acid"), 1e-3 * in.number("concentration_g_per_L"))}}; }

Answers pure_acid(const Inputs& in) {
  const std::string_view acid = in.text("acid");
  if (!matter::component_named(acid)) return {{"pH_25C_published", unknown}};
  return {{"pH_25C_published", ph_of_acid(acid, mol_kg(acid, 1e-3 * in.number("concentration_mmol_per_L")))}};
}

Answers citrate_buffer(const Inputs& in) {
  const double mol = 1e-3 * in.number("total_citrate_mmol_per_L"), salt = in.number("neutralised_fraction_of_3_protons");
  Composition made = *substance("citric acid", mol_kg("citric acid", mol * (1.0 - salt)));
  made += *substance("sodium citrate", mol_kg("sodium citrate", mol * salt));
  return {{"pH_25C_davies", matter::ph_25c(one_litre(made))}};
}

Answers acid_mixture(const Inputs& in) {
  constexpr std::pair<std::string_view, std::string_view> columns[] = {{"citric_acid_mmol_per_L", "citric acid"},
                                                                       {"malic_acid_mmol_per_L", "malic acid"},
                                                                       {"tartaric_acid_mmol_per_L", "tartaric acid"},
                                                                       {"lactic_acid_mmol_per_L", "lactic acid"},
                                                                       {"acetic_acid_mmol_per_L", "acetic acid"},
                                                                       {"phosphoric_acid_mmol_per_L", "phosphoric acid"},
                                                                       {"trisodium_citrate_mmol_per_L", "trisodium citrate"},
                                                                       {"sodium_chloride_mmol_per_L", "sodium chloride"}};
  Composition made;
  for (const auto& [column, name] : columns) {
    const double mol = in.text(column).empty() ? 0.0 : 1e-3 * in.number(column);
    made += *substance(name, mol_kg(name, mol));
  }
  return {{"pH_25C_davies", matter::ph_25c(one_litre(made))}};
}

Answers freezing_point(const Inputs& in) {
  const auto made = solution(in.text("solute"), in.number("solute_mass_percent"));
  return {{"freezing_point_C", made ? in_celsius(matter::freezing_point(*made)) : unknown}};
}

Answers activity_at_temperature(const Inputs& in) {
  const auto made = solution(in.text("solute"), in.number("solute_mass_percent"));
  return {{"water_activity", made ? matter::water_activity(*made, celsius(in.number("temperature_C"))) : unknown}};
}

Answers activity_at_25c(const Inputs& in) {
  const std::string_view solute = in.text("solute");
  const double kg = mol_kg(solute, in.number("molality_mol_per_kg_water"));
  auto made = substance(solute, kg);
  if (!made) return {{"water_activity_25C", unknown}};
  (*made)[Component::water] = 1.0;
  return {{"water_activity_25C", matter::water_activity(*made, celsius(25.0))}};
}

Answers ice_dilution(const Inputs& in) {
  matter::IceContact contact;
  contact.liquid[Component::ethanol] = 1e-3 * in.number("ethanol_g");
  contact.liquid[Component::water] = 1e-3 * in.number("water_g");
  contact.liquid[Component::sucrose] = 1e-3 * in.number("sucrose_g");
  contact.liquid_enthalpy_j = matter::heat_curve(contact.liquid).at_c(in.number("start_temperature_C"));
  contact.ice_c = in.number("ice_temperature_C");
  contact.leftover = in.text("leftover_ice") == "follows" ? matter::LeftoverIce::follows : matter::LeftoverIce::inert;
  // Ice that stays inert plays no part: where none is named there is more than enough.
  constexpr double plenty = 20.0;
  contact.ice_kg = in.text("ice_mass_g").empty() ? plenty * contact.liquid.total_kg() : 1e-3 * in.number("ice_mass_g");
  const bool chosen = in.text("final_state") == "chosen";
  const matter::IceOutcome out = chosen ? matter::melt_to(contact, in.number("to_temperature_C")) : matter::melt_to_equilibrium(contact);
  Answers answers = {{"ice_melted_g", 1e3 * out.melted_kg}};
  if (!chosen) answers.push_back({"final_temperature_C", out.t_c});
  return answers;
}

}  // namespace

std::span<const Subject> balance_subjects() {
  static const std::vector<Subject> subjects = {
      {"acid_ph_by_mass_25C", {"acid", "concentration_g_per_L"}, acid_by_mass},
      {"pure_acid_ph_25C", {"acid", "concentration_mmol_per_L"}, pure_acid},
      {"citrate_buffer_ph_25C", {"total_citrate_mmol_per_L", "neutralised_fraction_of_3_protons"}, citrate_buffer},
      {"acid_mixture_ph_25C",
       {"citric_acid_mmol_per_L", "malic_acid_mmol_per_L", "tartaric_acid_mmol_per_L", "lactic_acid_mmol_per_L", "acetic_acid_mmol_per_L",
        "phosphoric_acid_mmol_per_L", "trisodium_citrate_mmol_per_L", "sodium_chloride_mmol_per_L"},
       acid_mixture},
      {"freezing_point", {"solute", "solute_mass_percent"}, freezing_point},
      {"freezing_point_melinder", {"solute", "solute_mass_percent"}, freezing_point},
      {"water_activity_from_freezing", {"solute", "solute_mass_percent", "temperature_C"}, activity_at_temperature},
      {"water_activity_25C", {"solute", "molality_mol_per_kg_water"}, activity_at_25c},
      {"ice_dilution_energy_balance",
       {"ethanol_g", "water_g", "sucrose_g", "start_temperature_C", "ice_temperature_C", "leftover_ice", "ice_mass_g", "final_state", "to_temperature_C"},
       ice_dilution},
  };
  return subjects;
}

}  // namespace bloomset::checks
