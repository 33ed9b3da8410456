// matter/refraction.cpp - the sum over solutes, and its inverse for sucrose. Constants: data/matter/refraction.csv.
#include "matter/refraction.hpp"

#include <cmath>

#include "matter/component_table.hpp"
#include "matter/density.hpp"
#include "matter/density_table.hpp"
#include "matter/polynomial.hpp"
#include "matter/refraction_table.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

using Refraction = std::array<double, 3>;  // of w^0..w^2 [m3/kg]

constexpr double si = 1e-3;  // cm3/g -> m3/kg

template <std::size_t N>
constexpr Refraction of(const std::array<double, N>& cm3_g) {
  Refraction r{};
  for (std::size_t k = 0; k < N; ++k) r[k] = si * cm3_g[k];
  return r;
}
constexpr Refraction of(double cm3_g) { return {si * cm3_g, 0.0, 0.0}; }

// A salt whose moles refract `more` [cm3/mol] than `charge` moles of the sodium salt do.
constexpr Refraction beside(const std::array<double, 3>& sodium_salt, double sodium_g_mol, double charge, double g_mol, double more_cm3_mol) {
  Refraction r{};
  for (std::size_t k = 0; k < r.size(); ++k) r[k] = si * sodium_salt[k] * charge * sodium_g_mol / g_mol;
  r[0] += si * more_cm3_mol / g_mol;
  return r;
}

constexpr double nacl_g = molar_mass_sodium + molar_mass_chloride, kcl_g = molar_mass_potassium + molar_mass_chloride;
constexpr double cacl2_g = molar_mass_calcium + 2.0 * molar_mass_chloride, mgcl2_g = molar_mass_magnesium + 2.0 * molar_mass_chloride;
constexpr double sodium_exchange_g = molar_mass_sodium - molar_mass_salt_hydrogen;
// [cm3/mol], from the chlorides in dilute solution.
constexpr double potassium_more = specific_refraction_potassium_chloride[0] * kcl_g - specific_refraction_sodium_chloride[0] * nacl_g;
constexpr double calcium_more = specific_refraction_calcium_chloride[0] * cacl2_g - 2.0 * specific_refraction_sodium_chloride[0] * nacl_g;
constexpr double magnesium_more = calcium_more + ion_refraction_magnesium;

constexpr std::array<Refraction, solute_count> refraction = [] {
  std::array<Refraction, solute_count> r{};
  const auto set = [&r](Solute s, Refraction value) { r[static_cast<std::size_t>(s)] = value; };
  set(Solute::sucrose, of(specific_refraction_sucrose));
  set(Solute::glucose, of(specific_refraction_glucose));
  set(Solute::fructose, of(specific_refraction_fructose));
  set(Solute::maltose, of(specific_refraction_maltose));
  set(Solute::lactose, of(specific_refraction_lactose));
  set(Solute::erythritol, of(specific_refraction_erythritol));
  set(Solute::allulose, of(specific_refraction_fructose));  // fructose's epimer
  set(Solute::glycerol, of(specific_refraction_glycerol));
  set(Solute::citric_acid, of(specific_refraction_citric_acid));
  set(Solute::malic_acid, of(specific_refraction_malic_acid));
  set(Solute::tartaric_acid, of(specific_refraction_tartaric_acid));
  set(Solute::lactic_acid, of(specific_refraction_lactic_acid));
  set(Solute::acetic_acid, of(specific_refraction_acetic_acid));
  set(Solute::ascorbic_acid, of(specific_refraction_ascorbic_acid));
  set(Solute::succinic_acid, of(specific_refraction_succinic_acid));
  set(Solute::quinic_acid, of(specific_refraction_quinic_acid));
  set(Solute::oxalic_acid, of(specific_refraction_oxalic_acid));
  set(Solute::phosphoric_acid, of(specific_refraction_phosphoric_acid));
  set(Solute::gluconic_acid, of(specific_refraction_gluconic_acid));
  set(Solute::carbonic_acid, of(specific_refraction_carbonic_acid));
  set(Solute::sodium_chloride, of(specific_refraction_sodium_chloride));
  set(Solute::potassium_chloride, of(specific_refraction_potassium_chloride));
  set(Solute::calcium_chloride, of(specific_refraction_calcium_chloride));
  set(Solute::magnesium_chloride, of(specific_refraction_calcium_chloride[0] * cacl2_g / mgcl2_g + ion_refraction_magnesium / mgcl2_g));
  set(Solute::sodium_for_hydrogen, of(specific_refraction_sodium_for_hydrogen));
  const auto exchange = [](double molar_mass, double charge, double more) {
    return beside(specific_refraction_sodium_for_hydrogen, sodium_exchange_g, charge, molar_mass - charge * molar_mass_salt_hydrogen, more);
  };
  set(Solute::potassium_for_hydrogen, exchange(molar_mass_potassium, 1.0, potassium_more));
  set(Solute::calcium_for_hydrogen, exchange(molar_mass_calcium, 2.0, calcium_more));
  set(Solute::magnesium_for_hydrogen, exchange(molar_mass_magnesium, 2.0, magnesium_more));
  set(Solute::protein, of(specific_refraction_protein));
  set(Solute::other_solids, of(specific_refraction_other_solids));
  set(Solute::agents, of(specific_refraction_other_solids));
  return r;
}();

constexpr Refraction ethanol_refraction = of(specific_refraction_ethanol);
constexpr double lorentz_lorenz(double n) { return (n * n - 1.0) / (n * n + 2.0); }
constexpr units::Temperature reference = units::celsius(20.0);
// [m3/kg]: so that pure water of the mixture rule, OIML R 22 at 20 C, bends as water does.
constexpr double water_density_20c = oiml_a[0], water_refraction = lorentz_lorenz(refractive_index_water) / water_density_20c;

// (n^2-1)/(n^2+2) of sucrose in water alone.
double sucrose_bending(double w) {
  const double sum = (1.0 - w) * water_refraction + w * value_at(refraction[static_cast<std::size_t>(Solute::sucrose)], w);
  return sum / ((1.0 - w) / water_density_20c + w * sucrose_apparent_volume(w, 20.0));
}

}  // namespace

Bending bending(const Solutes& all) {
  Solutes clear = all;
  for (const Solute floats : {Solute::fat, Solute::starch, Solute::fibre}) clear.kg[static_cast<std::size_t>(floats)] = 0.0;
  return bending(clear, liquid_volume(clear, reference).si);
}

Bending bending(const Solutes& s, double clear_20c_m3) {
  const double w = dissolved_fraction(s);
  double sum0 = 0.0, sum1 = 0.0, sum2 = 0.0;
  for (std::size_t i = 0; i < solute_count; ++i) {
    sum0 += s.kg[i] * refraction[i][0];
    sum1 += s.kg[i] * refraction[i][1];
    sum2 += s.kg[i] * refraction[i][2];
  }
  const double both = s.water_kg + s.ethanol_kg, strength = both > 0.0 ? s.ethanol_kg / both : 0.0;
  const double sum = sum0 + w * (sum1 + w * sum2) + s.water_kg * water_refraction + s.ethanol_kg * value_at(ethanol_refraction, strength);
  return {sum / clear_20c_m3};
}

double refractive_index_20c(Bending b) { return std::sqrt((1.0 + 2.0 * b.value) / (1.0 - b.value)); }

double refractive_index_20c(const Solutes& s) { return refractive_index_20c(bending(s)); }

double brix_read_percent(const Solutes& s) { return brix_read_percent(bending(s)); }

double brix_read_percent(Bending b) {
  const double wanted = b.value;
  // Secant: the curve is nearly straight, so four passes leave less than 2e-5 Brix up to 80.
  static const double bending_of_none = sucrose_bending(0.0), bending_of_half = sucrose_bending(0.5);
  double low = 0.0, high = 0.5, at_low = bending_of_none - wanted, at_high = bending_of_half - wanted;
  for (int pass = 0; pass < 4 && at_high != at_low; ++pass) {
    const double next = high - at_high * (high - low) / (at_high - at_low);
    low = high;
    at_low = at_high;
    high = next;
    at_high = sucrose_bending(next) - wanted;
  }
  return 100.0 * high;
}

}  // namespace bloomset::matter
