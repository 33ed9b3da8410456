// matter/acidity.cpp - the charge balance, solved for pH, or for the base that makes a pH.
//
//   0 = [H+] + [Na+] + [K+] + 2 [Ca2+] + 2 [Mg2+] - [Cl-] - [OH-] - sum over acids of (charge of each form) x [form]
// An acid of total c, steps K1 K2 K3, at hydrogen activity a: form j has [A_j] = c b_j / sum b, b_j = K1..Kj / (a^j gamma_j).
// Davies: log10 gamma_z = z^2 log10 gamma_1, so one exponential serves all charges. The pair: [NaCit2-] = beta [Na+][Cit3-],
// beta = 10^1.03 gamma_1 gamma_3 / gamma_2; at a given a it is the root of a quadratic.
// Two unknowns, ln a and the ionic strength I, since gamma depends on I and I on the forms. The neighbourhood is found among
// pH -1, -0.5 .. 15, where every acid's charge at a middling I is worked out once; then four passes of Newton in both together
// (to the twelfth digit of pH in 99 of 100 solutions, 2e-4 at worst near pH 7 where nothing buffers).
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
const std::array<Steps, acid_count> acid_steps = {steps_of(pka_citric_acid),     steps_of(pka_malic_acid),    steps_of(pka_tartaric_acid),
                                                  steps_of(pka_lactic_acid),     steps_of(pka_acetic_acid),   steps_of(pka_ascorbic_acid),
                                                  steps_of(pka_succinic_acid),   steps_of(pka_quinic_acid),   steps_of(pka_oxalic_acid),
                                                  steps_of(pka_phosphoric_acid), steps_of(pka_gluconic_acid), steps_of(pka_carbonic_acid)};
const double water_product = power_of_ten(-pkw), pair_constant = power_of_ten(sodium_citrate_pair);

constexpr double least_ionic_strength = 1e-8;  // a tenth of pure water's
constexpr double most_ionic_strength = 0.5;    // where Davies is held to; further on his last term would run away

// A solution as the passes want it: only the acids that are there, and what does not change with pH.
struct Solution {
  struct Acid {
    double mol_l;
    Steps steps;
    std::size_t which;
  };
  std::array<Acid, acid_count + 1> acids;  // the first `count` are there, and one of nothing behind them
  std::size_t count = 0;
  bool pairs = false;  // the first acid is citric, and there is sodium for it
  double sodium = 0.0;
  double charge = 0.0, ionic = 0.0;  // of potassium, calcium, magnesium, chloride

  explicit Solution(const Molarities& m) : pairs(m.acid[0] > 0.0 && m.sodium > 0.0), sodium(m.sodium) {
    for (std::size_t i = 0; i < acid_count; ++i)
      if (m.acid[i] > 0.0) acids[count++] = {m.acid[i], acid_steps[i], i};
    acids[count] = {};
    const double divalent = m.calcium + m.magnesium;
    charge = m.potassium + 2.0 * divalent - m.chloride;
    ionic = 0.5 * (m.potassium + m.chloride) + 2.0 * divalent;
  }
};

// What a pass finds at one ln a and ionic strength: a value and its derivatives by ln a and by ln gamma_1.
struct Slopes {
  double value, by_ln_a, by_ln_gamma;
};
struct Pass {
  Slopes excess;       // of positive charge [mol/L]
  Slopes ionic;        // strength that the forms make [mol/L]
  double gamma_slope;  // d ln gamma_1 / d ionic strength
};

// Free sodium beside citrate, by the quadratic of both mass balances: sodium = free (1 + beta ion), citrate = ion (forms + beta free).
struct FreeSodium {
  double mol_l, per_ion;  // free sodium; its slope d ln free / (d ln forms - d ln beta)
};
FreeSodium free_sodium(double sodium, double citrate, double forms, double beta) {
  const double half = forms + beta * (sodium - citrate);
  const double ion = 2.0 * citrate / (half + std::sqrt(half * half + 4.0 * forms * beta * citrate));
  const double held = beta * ion, mol_l = sodium / (1.0 + held), share = 1.0 / (forms + beta * mol_l);
  return {mol_l, held * forms * share / (1.0 + held - held * beta * mol_l * share)};
}

Pass look(const Solution& s, double ln_a, double ionic_strength) {
  const double i = std::clamp(ionic_strength, least_ionic_strength, most_ionic_strength), root = std::sqrt(i), more = 1.0 + root;
  const double ln_gamma = -std::numbers::ln10 * davies_a * (root / more - davies_b * i);
  const double a = std::exp(ln_a), gamma = std::exp(ln_gamma), gamma_2 = gamma * gamma, gamma_6 = gamma_2 * gamma_2 * gamma_2;
  // What one, two and three lost protons weigh: 1 / (a^j gamma^(j^2)).
  const double per_a = 1.0 / a, per_gamma = 1.0 / gamma, per_gamma_2 = per_gamma * per_gamma, per_gamma_4 = per_gamma_2 * per_gamma_2;
  const double f1 = per_a * per_gamma, f2 = per_a * per_a * per_gamma_4, f3 = per_a * per_a * per_a * per_gamma_4 * per_gamma_4 * per_gamma;
  // d ln of the free sodium by ln a and by ln gamma; the pair's own powers of 1/a and 1/gamma.
  double sodium = s.sodium, pair = 0.0, sodium_a = 0.0, sodium_gamma = 0.0;
  if (s.pairs) {
    const auto& [citrate, k, which] = s.acids[0];
    const double beta = pair_constant * gamma_6, b1 = k[0] * f1, b2 = k[1] * f2, b3 = k[2] * f3, forms = 1.0 + b1 + b2 + b3, per_forms = 1.0 / forms;
    const FreeSodium free = free_sodium(s.sodium, citrate, forms / b3, beta);
    sodium = free.mol_l;
    pair = beta * sodium;
    sodium_a = free.per_ion * (3.0 - (b1 + 2.0 * b2 + 3.0 * b3) * per_forms);
    sodium_gamma = free.per_ion * (9.0 - (b1 + 4.0 * b2 + 9.0 * b3) * per_forms - 6.0);
  }
  const double pair_a = 3.0 - sodium_a, pair_gamma = 3.0 - sodium_gamma;
  const double hydrogen = a * per_gamma, hydroxide = water_product * f1, both = hydrogen + hydroxide, difference = hydrogen - hydroxide;
  Slopes excess{difference + sodium + s.charge, both + sodium * sodium_a, sodium * sodium_gamma - difference};
  Slopes twice{both + sodium, difference + sodium * sodium_a, sodium * sodium_gamma - both};
  std::size_t n = 0;
  if (s.pairs) {
    // Forms: charge z, protons lost (power of 1/a), power of 1/gamma: 1 1 1; 2 2 4; 3 3 9; the pair 2, pair_a, pair_gamma.
    const auto& [mol_l, k, which] = s.acids[n++];
    const double b1 = k[0] * f1, b2 = k[1] * f2, b3 = k[2] * f3, bp = pair * b3, share = 1.0 / (1.0 + b1 + b2 + b3 + bp);
    const double x1 = b1 * share, x2 = b2 * share, x3 = b3 * share, xp = bp * share;
    const double z = x1 + 2.0 * (x2 + xp) + 3.0 * x3, zz = x1 + 4.0 * (x2 + xp) + 9.0 * x3;
    const double lost = x1 + 2.0 * x2 + 3.0 * x3 + pair_a * xp, power = x1 + 4.0 * x2 + 9.0 * x3 + pair_gamma * xp;
    excess.value -= mol_l * z;
    twice.value += mol_l * zz;
    excess.by_ln_a += mol_l * (x1 + 4.0 * x2 + 9.0 * x3 + 2.0 * pair_a * xp - z * lost);
    excess.by_ln_gamma += mol_l * (x1 + 8.0 * x2 + 27.0 * x3 + 2.0 * pair_gamma * xp - z * power);
    twice.by_ln_a -= mol_l * (x1 + 8.0 * x2 + 27.0 * x3 + 4.0 * pair_a * xp - zz * lost);
    twice.by_ln_gamma -= mol_l * (x1 + 16.0 * x2 + 81.0 * x3 + 4.0 * pair_gamma * xp - zz * power);
  }
  // Without a pair, protons lost are the charge and the power of 1/gamma is its square: all is read off the means of z, z^2, z^3, z^4.
  Pair charge{}, square{}, spread{}, cross{}, square_spread{};
  for (; n < s.count; n += 2) {
    const auto& [mol_k, k, which_k] = s.acids[n];
    const auto& [mol_q, q, which_q] = s.acids[n + 1];
    const Pair mol_l = {mol_k, mol_q}, b1 = Pair{k[0], q[0]} * f1, b2 = Pair{k[1], q[1]} * f2, b3 = Pair{k[2], q[2]} * f3;
    const Pair share = 1.0 / (1.0 + b1 + b2 + b3), z = share * (b1 + 2.0 * b2 + 3.0 * b3), zz = share * (b1 + 4.0 * b2 + 9.0 * b3);
    charge += mol_l * z;
    square += mol_l * zz;
    spread += mol_l * (zz - z * z);
    cross += mol_l * (share * (b1 + 8.0 * b2 + 27.0 * b3) - z * zz);
    square_spread += mol_l * (share * (b1 + 16.0 * b2 + 81.0 * b3) - zz * zz);
  }
  excess.value -= sum(charge);
  excess.by_ln_a += sum(spread);
  excess.by_ln_gamma += sum(cross);
  twice.value += sum(square);
  twice.by_ln_a -= sum(cross);
  twice.by_ln_gamma -= sum(square_spread);
  const double gamma_slope = i == ionic_strength ? -std::numbers::ln10 * davies_a * (0.5 / (root * more * more) - davies_b) : 0.0;
  return {excess, {s.ionic + 0.5 * twice.value, 0.5 * twice.by_ln_a, 0.5 * twice.by_ln_gamma}, gamma_slope};
}

// What an acid bears at the nodes where the search begins, the pair with sodium left out: mean charge, and mean square of charge.
constexpr std::size_t nodes = 33;
constexpr double first_node_ph = -1.0, node_step = 0.5, middling_ionic_strength = 0.1;
constexpr double node_ph(std::size_t node) { return first_node_ph + node_step * static_cast<double>(node); }
struct Nodes {
  std::array<std::array<double, acid_count>, nodes> charge{}, square{};
  std::array<double, nodes> hydrogen{}, hydroxide{};

  Nodes() {
    const double root = std::sqrt(middling_ionic_strength), gamma = power_of_ten(-davies_a * (root / (1.0 + root) - davies_b * middling_ionic_strength));
    for (std::size_t node = 0; node < nodes; ++node) {
      const double a = power_of_ten(-node_ph(node)), f = 1.0 / a;
      hydrogen[node] = a / gamma;
      hydroxide[node] = water_product * f / gamma;
      for (std::size_t i = 0; i < acid_count; ++i) {
        const auto& k = acid_steps[i];
        const double b1 = k[0] * f / gamma, b2 = k[1] * f * f / std::pow(gamma, 4), b3 = k[2] * f * f * f / std::pow(gamma, 9), forms = 1.0 + b1 + b2 + b3;
        charge[node][i] = (b1 + 2.0 * b2 + 3.0 * b3) / forms;
        square[node][i] = (b1 + 4.0 * b2 + 9.0 * b3) / forms;
      }
    }
  }
};
const Nodes table_of_nodes;

// Positive charge too much, and ionic strength, at a node.
double excess_at(const Solution& s, std::size_t node) {
  double sum = table_of_nodes.hydrogen[node] - table_of_nodes.hydroxide[node] + s.sodium + s.charge;
  for (std::size_t n = 0; n < s.count; ++n) sum -= s.acids[n].mol_l * table_of_nodes.charge[node][s.acids[n].which];
  return sum;
}
double ionic_at(const Solution& s, std::size_t node) {
  double twice = table_of_nodes.hydrogen[node] + table_of_nodes.hydroxide[node] + s.sodium;
  for (std::size_t n = 0; n < s.count; ++n) twice += s.acids[n].mol_l * table_of_nodes.square[node][s.acids[n].which];
  return s.ionic + 0.5 * twice;
}

struct Answer {
  double ph, ionic_strength;
};

Answer beginning(const Solution& s) {
  std::size_t low = 0, high = nodes - 1;
  for (int pass = 0; pass < 5; ++pass) {
    const std::size_t middle = (low + high) / 2;
    (excess_at(s, middle) > 0.0 ? low : high) = middle;
  }
  const double at_low = excess_at(s, low), at_high = excess_at(s, high), part = std::clamp(at_low / (at_low - at_high), 0.0, 1.0);
  return {node_ph(low) + part * node_step, (1.0 - part) * ionic_at(s, low) + part * ionic_at(s, high)};
}

Answer solve(const Solution& s) {
  const Answer start = beginning(s);
  double ln_a = -std::numbers::ln10 * start.ph, ionic = start.ionic_strength;
  for (int pass = 0; pass < 4; ++pass) {
    const Pass at = look(s, ln_a, ionic);
    // [E_L E_I; G_L G_I] [dL dI] = -[E G], with E the excess of charge and G = ionic(L, I) - I.
    const double e = at.excess.value, e_l = at.excess.by_ln_a, e_i = at.excess.by_ln_gamma * at.gamma_slope;
    const double g = at.ionic.value - ionic, g_l = at.ionic.by_ln_a, g_i = at.ionic.by_ln_gamma * at.gamma_slope - 1.0;
    const double per_determinant = 1.0 / (e_l * g_i - e_i * g_l);
    ln_a += std::clamp((e_i * g - e * g_i) * per_determinant, -2.0, 2.0);
    ionic = std::max(ionic + (g_l * e - e_l * g) * per_determinant, 0.5 * ionic);
  }
  return {-ln_a / std::numbers::ln10, ionic};
}

double litres_25c(const Composition& c) { return 1e3 * liquid_volume(c, units::celsius(25.0)).si; }

}  // namespace

Molarities molarities(const Composition& c, double litres) {
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

Molarities molarities(const Composition& c) { return molarities(c, litres_25c(c)); }

double ph_25c(const Molarities& m) { return solve(Solution(m)).ph; }
double ph_25c(const Composition& c) { return c[Component::water] > 0.0 ? ph_25c(molarities(c)) : std::numeric_limits<double>::quiet_NaN(); }

double ionic_strength_mol_l(const Molarities& m) { return solve(Solution(m)).ionic_strength; }
double ionic_strength_mol_l(const Composition& c) { return c[Component::water] > 0.0 ? ionic_strength_mol_l(molarities(c)) : 0.0; }

double base_mol_l(const Molarities& m, double ph) {
  const Solution s(m);
  const auto node = static_cast<std::size_t>(std::clamp((ph - first_node_ph) / node_step, 0.0, static_cast<double>(nodes - 1)));
  double base = -excess_at(s, node), ionic = ionic_at(s, node) + 0.5 * std::abs(base);
  for (int pass = 0; pass < 3; ++pass) {
    // Newton for the ionic strength, the base counted.
    const Pass at = look(s, -std::numbers::ln10 * ph, ionic);
    base = -at.excess.value;
    const double miss = at.ionic.value + 0.5 * std::abs(base) - ionic;
    const double slope = at.gamma_slope * (at.ionic.by_ln_gamma - std::copysign(0.5, base) * at.excess.by_ln_gamma) - 1.0;
    ionic = std::max(ionic - miss / slope, 0.5 * ionic);
  }
  return base;
}

double titratable_mol_l(const Molarities& m) { return base_mol_l(m, titration_end); }

double citric_equivalent_g(double mol) { return mol * molar_mass_citric_acid / 3.0; }

double titratable_mol_kg(const Composition& c) {
  if (!(c[Component::water] > 0.0)) return 0.0;
  const double litres = litres_25c(c);
  return titratable_mol_l(molarities(c, litres)) * litres / c.total_kg();
}

double titratable_acidity_g_100g_citric(const Composition& c) { return 0.1 * citric_equivalent_g(titratable_mol_kg(c)); }

double titratable_acidity_g_l_citric(const Composition& c) {
  return citric_equivalent_g(titratable_mol_kg(c)) * 1e-3 * liquid_density(c, units::celsius(20.0)).si;
}

double potassium_for_ph_kg(const Composition& c, double ph) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  if (!(c[Component::water] > 0.0)) return nan;
  // Booking the potassium changes the volume a little, hence more than one pass.
  double kg = 0.0;
  for (int pass = 0; pass < 5; ++pass) {
    const Composition booked = with_potassium(c, kg);
    const double litres = litres_25c(booked);
    kg += 1e-3 * molar_mass_potassium * litres * base_mol_l(molarities(booked, litres), ph);
  }
  if (kg >= 0.0) return kg;
  // A pH that the acids have by themselves asks for nothing, give or take the last digits of both balances.
  constexpr double same_ph = 0.002;
  return std::abs(ph_25c(c) - ph) < same_ph ? 0.0 : nan;
}

Composition with_potassium(Composition c, double potassium_kg) {
  c[Component::potassium] += potassium_kg;
  c[Component::salt_hydrogen] -= potassium_kg * molar_mass_salt_hydrogen / molar_mass_potassium;
  return c;
}

}  // namespace bloomset::matter
