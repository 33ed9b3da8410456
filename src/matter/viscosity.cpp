// matter/viscosity.cpp - the terms of ln mu. Forms, fits and sources: data/matter/viscosity.csv.
#include "matter/viscosity.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "matter/component_table.hpp"
#include "matter/density_table.hpp"
#include "matter/polynomial.hpp"
#include "matter/viscosity_table.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

constexpr double most_pa_s = 100.0;  // honey near freezing; beyond it nothing pours and the fits have no points: practice
constexpr double mpa_s = 1e-3;

double theta(double t_c) { return 1e3 / (t_c + units::zero_celsius_k) - 1e3 / (20.0 + units::zero_celsius_k); }

// How much more a sugar thickens in the cold; 0 at 20 C.
double colder(double t_c) { return (cold[0] - t_c) / (cold[1] + t_c) - (cold[0] - 20.0) / (cold[1] + 20.0); }

double ln_water(double t_c) {
  const double d = 20.0 - t_c;
  return std::log(viscosity_20c_water * mpa_s) + std::numbers::ln10 * d / (t_c + 96.0) * value_at(viscosity_water, d);
}

double ln_ethanol(double t_c) {
  const double t_k = t_c + units::zero_celsius_k;
  return viscosity_ethanol[0] + viscosity_ethanol[1] / t_k + viscosity_ethanol[2] * std::log(t_k);
}

double ln_ethanol_water(double w, double t_c) {
  const double water = ln_water(t_c);
  if (!(w > 0.0)) return water;
  const double z = 1.0 - 2.0 * w, h = theta(t_c);
  const double excess = value_at(ethanol_water_t0, z) + h * (value_at(ethanol_water_t1, z) + h * value_at(ethanol_water_t2, z));
  return (1.0 - w) * water + w * ln_ethanol(t_c) + w * (1.0 - w) * excess;
}

using Thickening = std::array<double, 3>;  // of y^1..y^3, at 20 C

template <std::size_t N>
constexpr Thickening of(const std::array<double, N>& a) {
  Thickening f{};
  for (std::size_t k = 0; k < N; ++k) f[k] = a[k];
  return f;
}
// From Jones-Dole: ln (mu/mu_water) = B c, c [mol/L] = 1000 w / M in dilute solution.
constexpr Thickening jones_dole(double b_l_mol, double g_mol) { return {1e3 * b_l_mol / g_mol, 0.0, 0.0}; }
// A cation in hydrogen's place, from sodium's and the difference of the ions.
constexpr Thickening exchange(double g_mol, double charge, double b_l_mol) {
  const double sodium_g = charge * (molar_mass_sodium - molar_mass_salt_hydrogen), cation_g = g_mol - charge * molar_mass_salt_hydrogen;
  Thickening f = of(solute_viscosity_sodium_for_hydrogen);
  for (double& a : f) a *= sodium_g / cation_g;
  f[0] += 1e3 * (b_l_mol - charge * jones_dole_sodium) / cation_g;
  return f;
}

// What has no row of its own stands with its nearest kin: acids with citric, polyols and solids with glucose or maltose (practice).
constexpr std::array<Thickening, solute_count> thickening = [] {
  std::array<Thickening, solute_count> f{};
  const auto set = [&f](Solute s, Thickening value) { f[static_cast<std::size_t>(s)] = value; };
  set(Solute::sucrose, of(solute_viscosity_sucrose));
  set(Solute::glucose, of(solute_viscosity_glucose));
  set(Solute::fructose, of(solute_viscosity_fructose));
  set(Solute::maltose, of(solute_viscosity_maltose));
  set(Solute::lactose, of(solute_viscosity_lactose));
  set(Solute::erythritol, of(solute_viscosity_glucose));
  set(Solute::allulose, of(solute_viscosity_fructose));
  set(Solute::glycerol, of(solute_viscosity_glycerol));
  for (std::size_t i = static_cast<std::size_t>(Solute::citric_acid); i <= static_cast<std::size_t>(Solute::gluconic_acid); ++i)
    f[i] = of(solute_viscosity_citric_acid);
  set(Solute::lactic_acid, of(solute_viscosity_lactic_acid));
  set(Solute::acetic_acid, of(solute_viscosity_acetic_acid));
  set(Solute::phosphoric_acid, of(solute_viscosity_phosphoric_acid));
  set(Solute::sodium_chloride, of(solute_viscosity_sodium_chloride));
  set(Solute::potassium_chloride, of(solute_viscosity_potassium_chloride));
  set(Solute::calcium_chloride, of(solute_viscosity_calcium_chloride));
  set(Solute::magnesium_chloride, jones_dole(jones_dole_magnesium + 2.0 * jones_dole_chloride, molar_mass_magnesium + 2.0 * molar_mass_chloride));
  set(Solute::sodium_for_hydrogen, of(solute_viscosity_sodium_for_hydrogen));
  set(Solute::potassium_for_hydrogen, exchange(molar_mass_potassium, 1.0, jones_dole_potassium));
  set(Solute::calcium_for_hydrogen, exchange(molar_mass_calcium, 2.0, jones_dole_calcium));
  set(Solute::magnesium_for_hydrogen, exchange(molar_mass_magnesium, 2.0, jones_dole_magnesium));
  set(Solute::protein, {solute_viscosity_protein, 0.0, 0.0});
  set(Solute::other_solids, of(solute_viscosity_maltose));
  return f;
}();

}  // namespace

bool has_thickener(const Composition& c) {
  double sum = 0.0;
  for (std::size_t i = index(first_agent); i <= index(last_agent); ++i) sum += c.kg[i];
  return sum - c[Component::lecithin] - c[Component::sucrose_ester] - c[Component::caseinate] > 0.0;
}

units::Viscosity water_viscosity(units::Temperature temperature) { return {std::exp(ln_water(units::in_celsius(temperature)))}; }

units::Viscosity viscosity(const Solutes& s, units::Temperature temperature) {
  const double t = units::in_celsius(temperature), both = s.water_kg + s.ethanol_kg;
  const double floating = s[Solute::fat] + s[Solute::starch] + s[Solute::fibre], dissolved = s.total_kg() - floating, liquid = both + dissolved;
  if (!(liquid > 0.0)) return {std::numeric_limits<double>::quiet_NaN()};
  double ln_mu = ln_ethanol_water(both > 0.0 ? s.ethanol_kg / both : 0.0, t);
  if (dissolved > 0.0) {
    Thickening sum{};
    for (std::size_t i = 0; i < solute_count; ++i)
      for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += s.kg[i] * thickening[i][k];
    const double w = dissolved / liquid, y = w / (1.0 - crowding * w);
    const double with_heat =
        1.0 + colder(t) * (solute_cold_sucrose[0] + solute_cold_sucrose[1] * y) / (solute_viscosity_sucrose[0] + solute_viscosity_sucrose[1] * y);
    ln_mu += y * value_at(sum, y) / dissolved * with_heat;
  }
  if (floating > 0.0) {
    constexpr double liquid_kg_m3 = 1000.0;  // of what carries it, near enough for a volume fraction
    const double volume = s[Solute::fat] / food_density_fat[0] + s[Solute::starch] / food_density_starch[0] + s[Solute::fibre] / food_density_fibre[0];
    const double fraction = volume / (volume + liquid / liquid_kg_m3);
    ln_mu += floating_viscosity[0] * fraction / (1.0 - floating_viscosity[1] * fraction);
  }
  const double mu = std::exp(ln_mu);
  return {mu < most_pa_s ? mu : std::numeric_limits<double>::quiet_NaN()};
}

units::Viscosity viscosity(const Composition& c, units::Temperature temperature) {
  if (has_thickener(c)) return {std::numeric_limits<double>::quiet_NaN()};
  return viscosity(solutes(c), temperature);
}

}  // namespace bloomset::matter
