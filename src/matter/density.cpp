// matter/density.cpp - how the published formulas are evaluated and joined.
//
// Rule A: V = V(ethanol + water at their own ratio and t) + sum m_i phi_i. Every phi is read at the one fraction
// w = all dissolved / (all dissolved + water), so any single solute in water, and any ethanol-water, is exact, and
// two solutes that behave alike may be exchanged. Sucrose is the ICUMSA polynomial turned into an apparent volume:
//   phi = (1 - S/rho) / rho_w,  rho = rho_w + w S.
// Temperature: the other sugars swell as sucrose does; fat, protein, starch and fibre by Choi & Okos; all else keeps its volume at 20 C.
// Outside -20 to 40 C ethanol-water keeps the excess volume it has at the edge, while its water (Kell) and its ethanol
// (DIPPR) go on by their own formulas: the volume is continuous, its slope is not quite.
// No measured densities of ethanol with sugar and water were found: +-2 kg/m3 for sweet spirits (the spread between additive rules).
#include "matter/density.hpp"

#include "matter/component_table.hpp"
#include "matter/density_table.hpp"
#include "matter/elementary.hpp"
#include "matter/polynomial.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

constexpr double low_c = -20.0, high_c = 40.0, reference_c = 20.0;

// The general formula of OIML R 22 [kg/m3].
template <class Real>
Real oiml(const Real& p, const Real& t_c) {
  const Real d = t_c - reference_c;
  const std::array<Real, 6> slope = {oiml_b[0] + p * value_at(oiml_c1, p), oiml_b[1] + p * value_at(oiml_c2, p), oiml_b[2] + p * value_at(oiml_c3, p),
                                     oiml_b[3] + p * value_at(oiml_c4, p), oiml_b[4] + p * value_at(oiml_c5, p), oiml_b[5]};
  Real sum = 0.0;
  for (std::size_t k = 6; k-- > 0;) sum = (sum + slope[k]) * d;
  return value_at(oiml_a, p) + sum;
}

template <class Real>
Real kell(const Real& t) {
  return value_at(kell_numerator, t) / (1.0 + kell_denominator * t);
}

template <class Real>
Real ethanol_alone(const Real& t_c) {
  const auto& c = density_ethanol;
  const Real t_k = t_c + units::zero_celsius_k;
  // A power is an exponential of a logarithm; c[1] stands below 1.
  return molar_mass_ethanol * c[0] / exp((1.0 + exp(c[3] * log(1.0 - t_k / c[2]))) * log(c[1]));
}

// Volume [m3] of water and ethanol together.
template <class Real>
Real ethanol_water_m3(const Real& water, const Real& ethanol, const Real& t_c) {
  const Real both = water + ethanol;
  const Truth<Real> wet = both > 0.0;
  if (!any(wet)) return 0.0;
  const Real edge = clamp(t_c, low_c, high_c);
  Real volume = both / oiml(Real(ethanol / both), edge);
  const Truth<Real> inside = edge == t_c;
  if (!all(inside)) {
    volume += select(inside, 0.0, water * (1.0 / kell(t_c) - 1.0 / kell(edge)));
    if (any(ethanol > 0.0)) volume += select(inside, 0.0, ethanol * (1.0 / ethanol_alone(t_c) - 1.0 / ethanol_alone(edge)));
  }
  return select(wet, volume, 0.0);
}

using Phi = std::array<double, 3>;  // of w^0..w^2 [m3/kg] at 20 C

template <std::size_t N>
constexpr Phi in_m3(const std::array<double, N>& cm3_g) {
  Phi phi{};
  for (std::size_t k = 0; k < N; ++k) phi[k] = 1e-3 * cm3_g[k];
  return phi;
}
constexpr Phi in_m3(double cm3_g) { return {1e-3 * cm3_g, 0.0, 0.0}; }

constexpr double food_m3_kg(const std::array<double, 2>& food) { return 1.0 / value_at(food, reference_c); }

// A cation other than sodium in hydrogen's place: the molar volume of sodium's, `charge` times, and the difference of the ions.
constexpr Phi exchange(double molar_mass, double charge, double more_cm3_mol) {
  const double sodium_g = charge * (molar_mass_sodium - molar_mass_salt_hydrogen), cation_g = molar_mass - charge * molar_mass_salt_hydrogen;
  Phi phi{};
  for (std::size_t k = 0; k < phi.size(); ++k) phi[k] = 1e-3 * apparent_volume_sodium_for_hydrogen[k] * sodium_g / cation_g;
  phi[0] += 1e-3 * more_cm3_mol / cation_g;
  return phi;
}

constexpr std::array<Phi, solute_count> phi_20c = [] {
  std::array<Phi, solute_count> phi{};
  const auto set = [&phi](Solute s, Phi value) { phi[static_cast<std::size_t>(s)] = value; };
  set(Solute::glucose, in_m3(apparent_volume_glucose));
  set(Solute::fructose, in_m3(apparent_volume_fructose));
  set(Solute::maltose, in_m3(apparent_volume_maltose));
  set(Solute::lactose, in_m3(apparent_volume_lactose));
  set(Solute::erythritol, in_m3(apparent_volume_erythritol));
  set(Solute::allulose, in_m3(apparent_volume_fructose));  // fructose's epimer
  set(Solute::glycerol, in_m3(apparent_volume_glycerol));
  set(Solute::citric_acid, in_m3(apparent_volume_citric_acid));
  set(Solute::malic_acid, in_m3(apparent_volume_malic_acid));
  set(Solute::tartaric_acid, in_m3(apparent_volume_tartaric_acid));
  set(Solute::lactic_acid, in_m3(apparent_volume_lactic_acid));
  set(Solute::acetic_acid, in_m3(apparent_volume_acetic_acid));
  set(Solute::ascorbic_acid, in_m3(apparent_volume_ascorbic_acid));
  set(Solute::succinic_acid, in_m3(apparent_volume_succinic_acid));
  set(Solute::quinic_acid, in_m3(apparent_volume_quinic_acid));
  set(Solute::oxalic_acid, in_m3(apparent_volume_oxalic_acid));
  set(Solute::phosphoric_acid, in_m3(apparent_volume_phosphoric_acid));
  set(Solute::gluconic_acid, in_m3(apparent_volume_gluconic_acid));
  set(Solute::carbonic_acid, in_m3(apparent_volume_carbonic_acid));
  set(Solute::sodium_chloride, in_m3(apparent_volume_sodium_chloride));
  set(Solute::potassium_chloride, in_m3(apparent_volume_potassium_chloride));
  set(Solute::calcium_chloride, in_m3(apparent_volume_calcium_chloride));
  set(Solute::magnesium_chloride, in_m3(apparent_volume_magnesium_chloride));
  set(Solute::sodium_for_hydrogen, in_m3(apparent_volume_sodium_for_hydrogen));
  set(Solute::potassium_for_hydrogen, exchange(molar_mass_potassium, 1.0, exchange_volume_potassium));
  set(Solute::calcium_for_hydrogen, exchange(molar_mass_calcium, 2.0, exchange_volume_calcium));
  set(Solute::magnesium_for_hydrogen, exchange(molar_mass_magnesium, 2.0, exchange_volume_magnesium));
  set(Solute::protein, {food_m3_kg(food_density_protein), 0.0, 0.0});
  set(Solute::fat, {food_m3_kg(food_density_fat), 0.0, 0.0});
  set(Solute::starch, {food_m3_kg(food_density_starch), 0.0, 0.0});
  set(Solute::fibre, {food_m3_kg(food_density_fibre), 0.0, 0.0});
  set(Solute::other_solids, in_m3(apparent_volume_other_solids));
  set(Solute::agents, in_m3(apparent_volume_other_solids));
  return phi;
}();

constexpr std::size_t at(Solute s) { return static_cast<std::size_t>(s); }

template <class Real>
void add(std::array<Real, 3>& sum, const Real& kg, const Phi& phi) {
  for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += kg * phi[k];
}

template <class What>
void for_each(const std::array<double, solute_count>& kg, What&& what) {
  for (std::size_t i = 0; i < solute_count; ++i) what(i, kg[i]);
}
template <class What>
void for_each(const Few<solute_count>& kg, What&& what) {
  kg.each(what);
}

template <class Real>
Real food_swelling(const std::array<double, 2>& food, const Real& t_c) {
  return 1.0 / value_at(food, t_c) - food_m3_kg(food);
}

template <class Real>
Real apparent_volume_of_sucrose(const Real& w, const Real& t_c) {
  const Real water = value_at(icumsa_water_numerator, t_c) / (1.0 + icumsa_water_denominator * t_c), d = (t_c - reference_c) / 100.0;
  Real s = value_at(icumsa_c0, w);
  if (!all(d == 0.0)) s += d * (value_at(icumsa_c1, w) + d * (value_at(icumsa_c2, w) + d * (value_at(icumsa_c3, w) + d * value_at(icumsa_c4, w))));
  return (1.0 - s / (water + w * s)) / water;
}

}  // namespace

double sucrose_apparent_volume(double w, double t_c) { return apparent_volume_of_sucrose(w, t_c); }

double dissolved_fraction(const Solutes& s) {
  const double dissolved = s.total_kg() - s[Solute::fat] - s[Solute::starch] - s[Solute::fibre], with_water = dissolved + s.water_kg;
  return with_water > 0.0 ? dissolved / with_water : 0.0;
}

template <class Real>
LiquidVolumeOf<Real>::LiquidVolumeOf(const SolutesOf<Real>& s)
    : ethanol_kg_(s.ethanol_kg),
      sucrose_kg_(s[Solute::sucrose]),
      fat_kg_(s[Solute::fat]),
      protein_kg_(s[Solute::protein]),
      starch_kg_(s[Solute::starch]),
      fibre_kg_(s[Solute::fibre]) {
  for_each(s.kg, [this](std::size_t i, const Real& kg) {
    const bool swells = i < at(Solute::erythritol) || i == at(Solute::allulose);
    add(swells ? sugars_ : others_, kg, phi_20c[i]);
  });
  dissolved_kg_ = s.total_kg() - fat_kg_ - starch_kg_ - fibre_kg_;
}

template <class Real>
Real LiquidVolumeOf<Real>::m3(const Real& water_kg, const Real& t_c) const {
  const Real with_water = dissolved_kg_ + water_kg, w = select(with_water > 0.0, dissolved_kg_ / with_water, 0.0);
  const Real sugars = value_at(sugars_, w), sucrose = apparent_volume_of_sucrose(w, t_c);
  const Real volume = ethanol_water_m3(water_kg, ethanol_kg_, t_c) + value_at(others_, w) + sucrose_kg_ * sucrose;
  const Truth<Real> at_reference = t_c == reference_c;
  if (all(at_reference)) return volume + sugars;
  const Real swollen = any(sugars > 0.0) ? Real(sugars * (sucrose / apparent_volume_of_sucrose(w, Real(reference_c)))) : Real(0.0);
  const Real warm = volume + select(sugars > 0.0, swollen, 0.0) + fat_kg_ * food_swelling(food_density_fat, t_c) +
                    protein_kg_ * food_swelling(food_density_protein, t_c) + starch_kg_ * food_swelling(food_density_starch, t_c) +
                    fibre_kg_ * food_swelling(food_density_fibre, t_c);
  return select(at_reference, volume + sugars, warm);
}

template <class Real>
Real LiquidVolumeOf<Real>::clouds_20c_m3() const {
  return fat_kg_ * food_m3_kg(food_density_fat) + starch_kg_ * food_m3_kg(food_density_starch) + fibre_kg_ * food_m3_kg(food_density_fibre);
}

template class LiquidVolumeOf<double>;
template class LiquidVolumeOf<Lanes>;

units::Density ethanol_water_density(units::MassFraction ethanol, units::Temperature temperature) {
  return {1.0 / ethanol_water_m3(1.0 - ethanol.si, ethanol.si, units::in_celsius(temperature))};
}

units::Density pure_ethanol_density_20c() {
  constexpr double rho = value_at(oiml_a, 1.0);
  return {rho};
}

units::Density water_density(units::Temperature temperature) {
  const double t = units::in_celsius(temperature);
  if (t > high_c) return {kell(t)};
  const auto& a = tanaka;
  return {a[4] * (1.0 - (t + a[0]) * (t + a[0]) * (t + a[1]) / (a[2] * (t + a[3])))};
}

units::MassFraction ethanol_mass_fraction(units::VolumeFraction abv) {
  // f(w) = w rho(w) - abv rho(1): rising in w all the way; the guess leaves out the contraction.
  const double ethanol = pure_ethanol_density_20c().si, water = oiml_a[0];
  double w = abv.si * ethanol / (abv.si * ethanol + (1.0 - abv.si) * water);
  for (int pass = 0; pass < 5; ++pass) {
    double rho = 0.0, slope = 0.0;
    for (std::size_t k = oiml_a.size(); k-- > 0;) {
      slope = slope * w + rho;
      rho = rho * w + oiml_a[k];
    }
    w -= (w * rho - abv.si * ethanol) / (rho + w * slope);
  }
  return {w};
}

units::VolumeFraction abv_20c(units::MassFraction ethanol) { return {ethanol.si * value_at(oiml_a, ethanol.si) / pure_ethanol_density_20c().si}; }

units::Volume liquid_volume(const Solutes& s, units::Temperature temperature) { return {LiquidVolume(s).m3(s.water_kg, units::in_celsius(temperature))}; }

units::Volume liquid_volume(const Composition& composition, units::Temperature temperature) { return liquid_volume(solutes(composition), temperature); }

template <class Real>
Real liquid_density_kg_m3(const CompositionOf<Real>& composition, const Real& t_c) {
  const SolutesOf<Real> s = solutes(composition);
  return (s.total_kg() + s.water_kg + s.ethanol_kg) / LiquidVolumeOf<Real>(s).m3(s.water_kg, t_c);
}
template double liquid_density_kg_m3(const Composition&, const double&);
template Lanes liquid_density_kg_m3(const Compositions&, const Lanes&);

units::Density liquid_density(const Composition& composition, units::Temperature temperature) {
  return {liquid_density_kg_m3(composition, units::in_celsius(temperature))};
}

units::VolumeFraction strength(const Composition& composition) {
  const units::Temperature reference = units::celsius(reference_c);
  const double ethanol_m3 = composition[Component::ethanol] / pure_ethanol_density_20c().si;
  return ethanol_m3 > 0.0 ? units::VolumeFraction{ethanol_m3 / liquid_volume(composition, reference).si} : units::VolumeFraction{0.0};
}

units::Density ice_density(units::Temperature temperature) { return {value_at(food_density_ice, units::in_celsius(temperature))}; }

}  // namespace bloomset::matter
