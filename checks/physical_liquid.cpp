// checks/physical_liquid.cpp - answers for the tables of density, heat capacity, heat of mixing, refraction and viscosity.
#include <limits>

#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/refraction.hpp"
#include "matter/viscosity.hpp"
#include "physical_tables.hpp"

namespace bloomset::checks {
namespace {

using matter::Component;
using matter::Composition;
using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr Temperature at_20c = celsius(20.0);

double mpa_s(Viscosity v) { return 1e3 * v.si; }

Composition spirit(double ethanol_fraction) {
  Composition made = matter::pure(Component::ethanol, {ethanol_fraction});
  made[Component::water] = 1.0 - ethanol_fraction;
  return made;
}

Answers ethanol_water_density(const Inputs& in) {
  return {{"density_kg_per_m3", matter::ethanol_water_density({in.number("ethanol_mass_fraction")}, celsius(in.number("temperature_C"))).si}};
}

Answers mass_fraction_of_abv(const Inputs& in) {
  const MassFraction w = matter::ethanol_mass_fraction(percent_vol(in.number("abv_percent_20C")));
  const Density rho = matter::ethanol_water_density(w, at_20c);
  return {{"ethanol_mass_fraction", w.si}, {"density_20C_kg_per_m3", rho.si}, {"ethanol_g_per_L_20C", w.si * rho.si}};
}

Answers abv_of_mass_fraction(const Inputs& in) { return {{"abv_percent_20C", in_percent_vol(matter::abv_20c({in.number("ethanol_mass_fraction")}))}}; }

Answers contraction(const Inputs& in) {
  const Volume ethanol = millilitres(in.number("pure_ethanol_mL")), water = millilitres(in.number("water_mL"));
  Composition mixed = matter::pure(Component::ethanol, mass(ethanol, matter::ethanol_water_density({1.0}, at_20c)));
  mixed += matter::pure(Component::water, mass(water, matter::ethanol_water_density({0.0}, at_20c)));
  const Volume together = matter::liquid_volume(mixed, at_20c);
  return {{"mixture_volume_mL", in_millilitres(together)},
          {"contraction_percent", 100.0 * (1.0 - together / (ethanol + water))},
          {"resulting_abv_percent", in_percent_vol(matter::strength(mixed))}};
}

Answers water_density(const Inputs& in) { return {{"density_kg_per_m3", matter::water_density(celsius(in.number("temperature_C"))).si}}; }

double thermal_value(const Inputs& in) {
  const std::string_view material = in.text("material"), property = in.text("property");
  const double t = in.number("temperature_C");
  if (property == "density") return material == "ice" ? matter::ice_density(celsius(t)).si : unknown;
  if (property != "heat capacity") return unknown;
  if (material == "ice") return matter::ice_specific_heat_j_kg_k(t);
  if (material == "sucrose solution") return matter::specific_heat(*solution("sucrose", in.number("mass_percent")), celsius(t)).si;
  if (material == "dry carbohydrate") return matter::specific_heat(matter::pure(Component::starch, {1.0}), celsius(t)).si;
  if (const auto component = matter::component_named(material)) return matter::specific_heat(matter::pure(*component, {1.0}), celsius(t)).si;
  return unknown;
}

Answers thermal_properties(const Inputs& in) { return {{"value", thermal_value(in) * (in.text("unit").starts_with("kJ") ? 1e-3 : 1.0)}}; }

Answers ethanol_water_heat_capacity(const Inputs& in) {
  const Composition made = spirit(in.number("ethanol_mass_percent") / 100.0);
  return {{"heat_capacity_J_per_kg_K", matter::specific_heat(made, celsius(in.number("temperature_C"))).si}};
}

Answers excess_enthalpy(const Inputs& in) {
  return {{"excess_enthalpy_J_per_mol", matter::excess_enthalpy_j_mol(in.number("ethanol_mole_fraction"), in.number("temperature_C"))}};
}

Answers ethanol_water_viscosity(const Inputs& in) {
  const Composition made = spirit(in.number("ethanol_mass_percent") / 100.0);
  return {{"dynamic_viscosity_mPa_s", mpa_s(matter::viscosity(made, celsius(in.number("temperature_C"))))}};
}

Answers solution_density(const Inputs& in) {
  const auto made = solution(in.text("solute"), in.number("solute_mass_percent"));
  return {{"density_20C_kg_per_m3", made ? matter::liquid_density(*made, at_20c).si : unknown}};
}

Answers sucrose_density(const Inputs& in) {
  const Composition made = *solution("sucrose", in.number("sucrose_mass_percent_brix"));
  return {{"density_kg_per_m3", matter::liquid_density(made, celsius(in.number("temperature_C"))).si}};
}

Answers brix_specific_gravity(const Inputs& in) {
  const double brix = in.number("brix_mass_percent");
  const Density rho = matter::liquid_density(*solution("sucrose", brix), at_20c), water = matter::ethanol_water_density({0.0}, at_20c);
  return {{"specific_gravity_20_20", rho / water}, {"sucrose_g_per_L_20C", brix / 100.0 * rho.si}};
}

Answers refractive_index(const Inputs& in) {
  const auto made = solution(in.text("solute"), in.number("solute_mass_percent"));
  return {{"refractive_index_nD_20C", made ? matter::refractive_index_20c(matter::solutes(*made)) : unknown}};
}

Answers viscosity(const Inputs& in) {
  const auto made = solution(in.text("solute"), in.number("solute_mass_percent"));
  return {{"dynamic_viscosity_mPa_s", made ? mpa_s(matter::viscosity(*made, celsius(in.number("temperature_C")))) : unknown}};
}

}  // namespace

std::span<const Subject> liquid_subjects() {
  static const std::vector<Subject> subjects = {
      {"ethanol_water_density", {"ethanol_mass_fraction", "temperature_C"}, ethanol_water_density},
      {"ethanol_abv_mass_fraction_20C", {"abv_percent_20C"}, mass_fraction_of_abv},
      {"ethanol_abv_from_mass_20C", {"ethanol_mass_fraction"}, abv_of_mass_fraction},
      {"ethanol_water_contraction_20C", {"pure_ethanol_mL", "water_mL"}, contraction},
      {"water_density", {"temperature_C"}, water_density},
      {"thermal_properties", {"material", "property", "mass_percent", "temperature_C", "unit"}, thermal_properties},
      {"ethanol_water_heat_capacity", {"ethanol_mass_percent", "temperature_C"}, ethanol_water_heat_capacity},
      {"ethanol_water_excess_enthalpy", {"temperature_C", "ethanol_mole_fraction"}, excess_enthalpy},
      {"ethanol_water_viscosity", {"ethanol_mass_percent", "temperature_C"}, ethanol_water_viscosity},
      {"solution_density_20C", {"solute", "solute_mass_percent"}, solution_density},
      {"sucrose_density_icumsa", {"sucrose_mass_percent_brix", "temperature_C"}, sucrose_density},
      {"brix_specific_gravity_20C", {"brix_mass_percent"}, brix_specific_gravity},
      {"refractive_index_20C", {"solute", "solute_mass_percent"}, refractive_index},
      {"viscosity", {"solute", "solute_mass_percent", "temperature_C"}, viscosity},
  };
  return subjects;
}

}  // namespace bloomset::checks
