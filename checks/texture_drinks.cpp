// checks/texture_drinks.cpp - answers about drinks: strength, standard drinks, dilution, ice, syrup, and about cooling.
#include <algorithm>
#include <limits>
#include <string>

#include "matter/cooling.hpp"
#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "matter/ice.hpp"
#include "matter/proportion.hpp"
#include "sheet/standard_drinks.hpp"
#include "texture_ops.hpp"

namespace bloomset::checks {
namespace {

using matter::Component;
using matter::Composition;
using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

Composition of(Component c, double g) { return matter::pure(c, grams(g)); }

Composition spirit(double g, double abv_percent) {
  const double w = matter::ethanol_mass_fraction(percent_vol(abv_percent)).si;
  return of(Component::ethanol, g * w) + of(Component::water, g * (1.0 - w));
}

double abv_mix(const Given& in, std::string_view column) {
  if (column != "abv_percent") return unknown;
  return in_percent_vol(matter::strength(spirit(in.number("mass_g"), in.number("abv_percent")) + of(Component::water, in.number("water_g"))));
}

// Volumes at 20 C; the solids are sugar, as much as swells a syrup by their volume.
double gel_abv(const Given& in, std::string_view column) {
  if (column != "abv_percent") return unknown;
  const Temperature room = celsius(20.0);
  const double w = matter::ethanol_mass_fraction(percent_vol(in.number("spirit_abv_percent"))).si;
  const double spirit_g = in_grams(mass(millilitres(in.number("spirit_ml")), matter::ethanol_water_density({w}, room)));
  const double water_g = in_grams(mass(millilitres(in.number("water_ml")), matter::water_density(room)));
  constexpr double typical_fraction = 0.1;
  const double solids_g = 1e3 * millilitres(in.number("solids_ml")).si / matter::sucrose_apparent_volume(typical_fraction, in_celsius(room));
  return in_percent_vol(
      matter::strength(of(Component::ethanol, spirit_g * w) + of(Component::water, spirit_g * (1.0 - w) + water_g) + of(Component::sucrose, solids_g)));
}

double ethanol_mass(const Given& in, std::string_view column) {
  const Volume ethanol = millilitres(in.number("volume_ml")) * (0.01 * in.number("abv_percent"));
  const double g = in_grams(mass(ethanol, matter::ethanol_water_density(mass_percent(100.0), celsius(20.0))));
  if (column == "ethanol_g") return g;
  return column == "us_standard_drinks" ? sheet::standard_drinks(g).us : unknown;
}

double standard_drink(const Given& in, std::string_view column) {
  std::string region{in.text("country")};
  for (char& c : region) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  if (region == "gb") region = "uk";
  return column == "grams" ? sheet::standard_drink_g(region).value_or(unknown) : unknown;
}

double dilution_base(const Given& in, std::string_view column) {
  if (column == "percent_of_final") return 100.0 * matter::share_of_final(0.01 * in.number("percent_of_initial"));
  return column == "percent_of_initial" ? 100.0 * matter::share_of_initial(0.01 * in.number("percent_of_final")) : unknown;
}

double ice_melt(const Given& in, std::string_view column) {
  if (column != "melted_g") return unknown;
  matter::IceContact contact;
  contact.liquid = of(Component::ethanol, in.number("ethanol_g")) + of(Component::water, in.number("water_g")) + of(Component::sucrose, in.number("sucrose_g"));
  contact.liquid_enthalpy_j = matter::heat_curve(contact.liquid).at_c(in.number("start_c"));
  if (in.has("extra_heat_j")) contact.liquid_enthalpy_j += in.number("extra_heat_j");
  contact.ice_c = in.number("ice_c");
  contact.leftover = in.text("leftover_ice") == "follows" ? matter::LeftoverIce::follows : matter::LeftoverIce::inert;
  // Inert ice that is not weighed is more than can melt.
  constexpr double plenty_g = 1e4;
  if (contact.leftover == matter::LeftoverIce::follows && !in.has("ice_g")) return unknown;
  contact.ice_kg = 1e-3 * (in.has("ice_g") ? in.number("ice_g") : plenty_g);
  const matter::IceOutcome outcome = in.has("final_c") ? matter::melt_to(contact, in.number("final_c")) : matter::melt_to_equilibrium(contact);
  return 1e3 * outcome.melted_kg;
}

// Sugar per millilitre at 20 C, the second syrup over the first.
double syrup_ratio(const Given& in, std::string_view column) {
  const auto sugar_g_ml = [](double brix) {
    const Composition syrup = of(Component::sucrose, brix) + of(Component::water, 100.0 - brix);
    return brix / in_millilitres(matter::liquid_volume(syrup, celsius(20.0)));
  };
  return column == "ratio" ? sugar_g_ml(in.number("brix_b")) / sugar_g_ml(in.number("brix_a")) : unknown;
}

double cool_time(const Given& in, std::string_view column) {
  if (column != "minutes") return unknown;
  const double vessel_j_k = in.has("steel_kg") ? in.number("steel_kg") * in.number("steel_j_kg_k") : 0.0;
  const matter::Cooling cooling = {
      {in.number("liquid_kg") * in.number("liquid_j_kg_k") + vessel_j_k}, in.number("area_m2"), in.number("h_w_m2_k"), celsius(in.number("around_c"))};
  return in_seconds(matter::cool_time(cooling, celsius(in.number("start_c")), celsius(in.number("end_c")))) / 60.0;
}

double heat_transfer_coefficient(const Given& in, std::string_view column) {
  if (column != "h_w_m2_k") return unknown;
  return matter::heat_transfer_coefficient_w_m2_k({in.number("liquid_kg") * in.number("liquid_j_kg_k")}, in.number("area_m2"), celsius(in.number("start_c")),
                                                  celsius(in.number("end_c")), minutes(in.number("minutes")),
                                                  kelvins_difference(in.number("mean_difference_k")));
}

double power_exponent(const Given& in, std::string_view column) {
  return column == "exponent" ? matter::power_exponent(in.number("x1"), in.number("y1"), in.number("x2"), in.number("y2")) : unknown;
}

double percent_w_v(const Given& in, std::string_view column) {
  return column == "percent" ? matter::in_percent_w_v(matter::mass_per_volume(grams(in.number("mass_g")), millilitres(in.number("volume_ml")))) : unknown;
}

constexpr Op ops[] = {{"abv_mix", abv_mix},
                      {"gel_abv", gel_abv},
                      {"ethanol_mass", ethanol_mass},
                      {"standard_drink", standard_drink},
                      {"dilution_base", dilution_base},
                      {"ice_melt", ice_melt},
                      {"syrup_ratio", syrup_ratio},
                      {"cool_time", cool_time},
                      {"heat_transfer_coefficient", heat_transfer_coefficient},
                      {"power_exponent", power_exponent},
                      {"percent_w_v", percent_w_v}};

}  // namespace

std::span<const Op> drink_ops() { return ops; }

}  // namespace bloomset::checks
