// matter/acidity.cpp - the charge balance, solved for pH, or for the base that makes a pH.
//
//   0 = [H+] + [Na+] + [K+] + 2 [Ca2+] + 2 [Mg2+] - [Cl-] - [OH-] - sum over acids of (charge of each form) x [form]
// An acid of total c, steps K1 K2 K3, at hydrogen activity a: form j has [A_j] = c b_j / sum b, b_j = K1..Kj / (a^j gamma_j).
// Davies: log10 gamma_z = z^2 log10 gamma_1, so one exponential serves all charges. The pair: [NaCit2-] = beta [Na+][Cit3-],
// beta = 10^1.03 gamma_1 gamma_3 / gamma_2.
// Passes: five halvings of pH -1..15 find the neighbourhood, then Newton in ln a. Ionic strength and free sodium are taken
// from the pass before; both hardly change near the end, since what they depend on is fixed by the books. Twelve acids: about 1 us.
#include "matter/acidity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "matter/acids_table.hpp"
#include "matter/component_table.hpp"
#include "matter/density.hpp"

namespace bloomset::matter {
namespace {

using namespace table;

double power_of_ten(double exponent) { return std::exp(std::numbers::ln10 * exponent); }

// Products K1, K1 K2, K1 K2 K3 of an acid; 0 for steps it lacks.
using Steps = std::array<double, 3>;
template <std::size_t N>
Steps steps_of(const std::array<double, N>& pka) {
  static_assert(N <= 3);
  Steps k{};
  double product = 1.0;
  for (std::size_t j = 0; j < N; ++j) k[j] = product *= power_of_ten(-pka[j]);
  return k;
}
// In the order of Component, from citric to carbonic acid.
const std::array<Steps, acid_count> acid_steps = {
    steps_of(pka_citric_acid),   steps_of(pka_malic_acid),      steps_of(pka_tartaric_acid), steps_of(pka_lactic_acid),
    steps_of(pka_acetic_acid),   steps_of(pka_ascorbic_acid),   steps_of(pka_succinic_acid), steps_of(pka_quinic_acid),
    steps_of(pka_oxalic_acid),   steps_of(pka_phosphoric_acid), steps_of(pka_gluconic_acid), steps_of(pka_carbonic_acid)};
const double water_product = power_of_ten(-pkw), pair_constant = power_of_ten(sodium_citrate_pair);

constexpr double citric_equivalent_g = molar_mass_citric_acid / 3.0;
constexpr double most_ionic_strength = 2.0;  // four times where Davies is held to; his last term would run away further on

// A solution as the passes want it: only the acids that are there, and what does not change with pH.
struct Solution {
  struct Acid {
    double mol_l;
    Steps steps;
    bool pairs;
  };
  std::array<Acid, acid_count> acids;
  std::size_t count = 0;
  double sodium = 0.0;
  double charge = 0.0, ionic = 0.0;  // of potassium, calcium, magnesium, chloride

  explicit Solution(const Molarities& m) : sodium(m.sodium) {
    for (std::size_t i = 0; i < acid_count; ++i)
      if (m.acid[i] > 0.0) acids[count++] = {m.acid[i], acid_steps[i], i == 0};
    const double divalent = m.calcium + m.magnesium;
    charge = m.potassium + 2.0 * divalent - m.chloride;
    ionic = 0.5 * (m.potassium + m.chloride) + 2.0 * divalent;
  }
};

// What is carried from pass to pass, and what a pass finds at one hydrogen activity.
struct Guess {
  double ionic_strength, free_sodium;
};
struct Pass {
  double excess, slope;  // of positive charge [mol/L], and by ln a
  double hydrogen;       // free, by concentration
  Guess next;
};

Pass look(const Solution& s, double ln_a, const Guess& guess) {
  const double i = std::clamp(guess.ionic_strength, 0.0, most_ionic_strength), root = std::sqrt(i);
  const double ln_gamma = -std::numbers::ln10 * davies_a * (root / (1.0 + root) - davies_b * i);
  const double a = std::exp(ln_a), gamma = std::exp(ln_gamma), gamma_2 = gamma * gamma, gamma_4 = gamma_2 * gamma_2, gamma_9 = gamma_4 * gamma_4 * gamma;
  const double per_a = 1.0 / a, f1 = per_a / gamma, f2 = per_a * per_a / gamma_4, f3 = per_a * per_a * per_a / gamma_9;
  const double beta = pair_constant * gamma_4 * gamma_2, pair = beta * guess.free_sodium;
  const double hydrogen = a / gamma, hydroxide = water_product * f1;
  Pass pass{hydrogen + guess.free_sodium + s.charge - hydroxide, hydrogen + hydroxide, hydrogen, {0.0, s.sodium}};
  double ionic = hydrogen + guess.free_sodium + hydroxide;
  for (std::size_t n = 0; n < s.count; ++n) {
    const auto& [mol_l, k, pairs] = s.acids[n];
    const double b1 = k[0] * f1, b2 = k[1] * f2, b3 = k[2] * f3, paired = pairs ? pair * b3 : 0.0;
    const double share = 1.0 / (1.0 + b1 + b2 + b3 + paired);
    const double lost = (b1 + 2.0 * b2 + 3.0 * (b3 + paired)) * share;   // protons, mean
    const double charge = (b1 + 2.0 * (b2 + paired) + 3.0 * b3) * share;
    pass.excess -= mol_l * charge;
    pass.slope += mol_l * ((b1 + 4.0 * b2 + 6.0 * paired + 9.0 * b3) * share - charge * lost);
    ionic += mol_l * (b1 + 4.0 * (b2 + paired) + 9.0 * b3) * share;
    if (pairs) pass.next.free_sodium = s.sodium / (1.0 + beta * mol_l * b3 * share);
  }
  pass.next.ionic_strength = s.ionic + 0.5 * ionic;
  return pass;
}

struct Answer {
  double ph, ionic_strength;
};
Answer solve(const Solution& s) {
  Guess guess{s.ionic + 0.5 * s.sodium, s.sodium};
  double low = -1.0, high = 15.0;
  for (int pass = 0; pass < 5; ++pass) {
    const double ph = 0.5 * (low + high);
    const Pass at = look(s, -std::numbers::ln10 * ph, guess);
    (at.excess > 0.0 ? low : high) = ph;
    guess = at.next;
  }
  double ln_a = -std::numbers::ln10 * 0.5 * (low + high);
  for (int pass = 0; pass < 8; ++pass) {
    const Pass at = look(s, ln_a, guess);
    ln_a -= std::clamp(at.excess / at.slope, -2.0, 2.0);
    guess = at.next;
  }
  return {-ln_a / std::numbers::ln10, guess.ionic_strength};
}

double litres_25c(const Composition& c) { return 1e3 * liquid_volume(c, units::celsius(25.0)).si; }

Molarities in_volume(const Composition& c, double litres) {
  Molarities m;
  if (!(litres > 0.0)) return m;
  const auto mol_l = [&](Component of, double g_mol) { return 1e3 * c[of] / g_mol / litres; };
  for (std::size_t i = 0; i < acid_count; ++i) {
    const auto acid = static_cast<Component>(index(first_acid) + i);
    m.acid[i] = mol_l(acid, info(acid).molar_mass_g_mol);
  }
  m.sodium = mol_l(Component::sodium, molar_mass_sodium);
  m.potassium = mol_l(Component::potassium, molar_mass_potassium);
  m.calcium = mol_l(Component::calcium, molar_mass_calcium);
  m.magnesium = mol_l(Component::magnesium, molar_mass_magnesium);
  m.chloride = mol_l(Component::chloride, molar_mass_chloride);
  return m;
}

}  // namespace

Molarities molarities(const Composition& c) { return in_volume(c, litres_25c(c)); }

double ph_25c(const Molarities& m) { return solve(Solution(m)).ph; }
double ph_25c(const Composition& c) { return c[Component::water] > 0.0 ? ph_25c(molarities(c)) : std::numeric_limits<double>::quiet_NaN(); }

double ionic_strength_mol_l(const Molarities& m) { return solve(Solution(m)).ionic_strength; }
double ionic_strength_mol_l(const Composition& c) { return c[Component::water] > 0.0 ? ionic_strength_mol_l(molarities(c)) : 0.0; }

double base_mol_l(const Molarities& m, double ph) {
  const Solution s(m);
  const double ln_a = -std::numbers::ln10 * ph;
  Guess guess{s.ionic + 0.5 * s.sodium, s.sodium};
  double base = 0.0;
  for (int pass = 0; pass < 8; ++pass) {
    const Pass at = look(s, ln_a, guess);
    base = -at.excess;
    guess = {at.next.ionic_strength + 0.5 * std::abs(base), at.next.free_sodium};
  }
  return base;
}

double titratable_mol_kg(const Composition& c) {
  if (!(c[Component::water] > 0.0)) return 0.0;
  const double litres = litres_25c(c);
  return base_mol_l(in_volume(c, litres), titration_end) * litres / c.total_kg();
}

double titratable_acidity_g_100g_citric(const Composition& c) { return 0.1 * citric_equivalent_g * titratable_mol_kg(c); }

double titratable_acidity_g_l_citric(const Composition& c) {
  return citric_equivalent_g * titratable_mol_kg(c) * 1e-3 * liquid_density(c, units::celsius(20.0)).si;
}

double potassium_for_ph_kg(const Composition& c, double ph) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  if (!(c[Component::water] > 0.0)) return nan;
  // Booking the potassium changes the volume a little, hence more than one pass.
  double kg = 0.0;
  for (int pass = 0; pass < 4; ++pass) {
    const Composition booked = with_potassium(c, kg);
    const double litres = litres_25c(booked);
    kg += 1e-3 * molar_mass_potassium * litres * base_mol_l(in_volume(booked, litres), ph);
    if (kg < 0.0) return nan;
  }
  return kg;
}

Composition with_potassium(Composition c, double potassium_kg) {
  c[Component::potassium] += potassium_kg;
  c[Component::salt_hydrogen] -= potassium_kg * molar_mass_salt_hydrogen / molar_mass_potassium;
  return c;
}

}  // namespace bloomset::matter
