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
#include "matter/elementary.hpp"

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

// A solution as the passes want it: only the acids that are there, and what does not change with pH. Acids stand two by two, as their list has them, so
// that a sum does not know which of them are there.
template <class Real>
struct Solution {
  struct Acid {
    Real mol_l;
    std::size_t which;
  };
  std::array<Acid, acid_count> acids;  // the first `count`; citric acid without what is paired
  std::size_t count = 0;
  Real paired = 0.0;           // citric acid beside sodium
  Real sodium, charge, ionic;  // the last two of potassium, calcium, magnesium, chloride

  explicit Solution(const MolaritiesOf<Real>& m) : sodium(m.sodium) {
    static_assert(acid_count % 2 == 0);
    for (std::size_t pair = 0; pair < acid_count; pair += 2) {
      if (!any(m.acid[pair] > 0.0) && !any(m.acid[pair + 1] > 0.0)) continue;
      for (std::size_t i = pair; i < pair + 2; ++i) acids[count++] = {max(m.acid[i], 0.0), i};
    }
    if (count > 0 && acids[0].which == 0) {
      const Truth<Real> pairs = m.sodium > 0.0;
      paired = select(pairs, acids[0].mol_l, 0.0);
      acids[0].mol_l = select(pairs, 0.0, acids[0].mol_l);
    }
    const Real divalent = m.calcium + m.magnesium;
    charge = m.potassium + 2.0 * divalent - m.chloride;
    ionic = 0.5 * (m.potassium + m.chloride) + 2.0 * divalent;
  }
};

// What a pass finds at one ln a and ionic strength: a value and its derivatives by ln a and by ln gamma_1.
template <class Real>
struct Slopes {
  Real value, by_ln_a, by_ln_gamma;
};
template <class Real>
struct Pass {
  Slopes<Real> excess;  // of positive charge [mol/L]
  Slopes<Real> ionic;   // strength that the forms make [mol/L]
  Real gamma_slope;     // d ln gamma_1 / d ionic strength
};

// Free sodium beside citrate, by the quadratic of both mass balances: sodium = free (1 + beta ion), citrate = ion (forms + beta free).
template <class Real>
struct FreeSodium {
  Real mol_l, per_ion;  // free sodium; its slope d ln free / (d ln forms - d ln beta)
};
template <class Real>
FreeSodium<Real> free_sodium(const Real& sodium, const Real& citrate, const Real& forms, const Real& beta) {
  const Real half = forms + beta * (sodium - citrate);
  const Real ion = 2.0 * citrate / (half + sqrt(half * half + 4.0 * forms * beta * citrate));
  const Real held = beta * ion, mol_l = sodium / (1.0 + held), share = 1.0 / (forms + beta * mol_l);
  return {mol_l, held * forms * share / (1.0 + held - held * beta * mol_l * share)};
}

// Sums over acids without a pair: protons lost are the charge and the power of 1/gamma is its square, so all is read off the means of z, z^2, z^3, z^4.
// X: two acids of one drink, or one acid of eight.
template <class X>
struct Means {
  X charge{}, square{}, spread{}, cross{}, square_spread{};

  void add(const X& mol_l, const X& b1, const X& b2, const X& b3) {
    const X share = 1.0 / (1.0 + b1 + b2 + b3), z = share * (b1 + 2.0 * b2 + 3.0 * b3), zz = share * (b1 + 4.0 * b2 + 9.0 * b3);
    charge += mol_l * z;
    square += mol_l * zz;
    spread += mol_l * (zz - z * z);
    cross += mol_l * (share * (b1 + 8.0 * b2 + 27.0 * b3) - z * zz);
    square_spread += mol_l * (share * (b1 + 16.0 * b2 + 81.0 * b3) - zz * zz);
  }
};

Means<double> means(const Solution<double>& s, double f1, double f2, double f3) {
  Means<Pair> both;
  for (std::size_t n = 0; n < s.count; n += 2) {
    const auto &k = acid_steps[s.acids[n].which], &q = acid_steps[s.acids[n + 1].which];
    both.add(Pair{s.acids[n].mol_l, s.acids[n + 1].mol_l}, Pair{k[0], q[0]} * f1, Pair{k[1], q[1]} * f2, Pair{k[2], q[2]} * f3);
  }
  return {sum(both.charge), sum(both.square), sum(both.spread), sum(both.cross), sum(both.square_spread)};
}

Means<Lanes> means(const Solution<Lanes>& s, const Lanes& f1, const Lanes& f2, const Lanes& f3) {
  std::array<Means<Lanes>, 2> half;
  for (std::size_t n = 0; n < s.count; ++n) {
    const auto& k = acid_steps[s.acids[n].which];
    half[n % 2].add(s.acids[n].mol_l, k[0] * f1, k[1] * f2, k[2] * f3);
  }
  const auto& [one, other] = half;
  return {one.charge + other.charge, one.square + other.square, one.spread + other.spread, one.cross + other.cross, one.square_spread + other.square_spread};
}

template <class Real>
Pass<Real> look(const Solution<Real>& s, const Real& ln_a, const Real& ionic_strength) {
  const Real i = clamp(ionic_strength, least_ionic_strength, most_ionic_strength), root = sqrt(i), more = 1.0 + root;
  const Real ln_gamma = -std::numbers::ln10 * davies_a * (root / more - davies_b * i);
  const Real a = exp(ln_a), gamma = exp(ln_gamma), gamma_2 = gamma * gamma, gamma_6 = gamma_2 * gamma_2 * gamma_2;
  // What one, two and three lost protons weigh: 1 / (a^j gamma^(j^2)).
  const Real per_a = 1.0 / a, per_gamma = 1.0 / gamma, per_gamma_2 = per_gamma * per_gamma, per_gamma_4 = per_gamma_2 * per_gamma_2;
  const Real f1 = per_a * per_gamma, f2 = per_a * per_a * per_gamma_4, f3 = per_a * per_a * per_a * per_gamma_4 * per_gamma_4 * per_gamma;
  const bool pairs = any(s.paired > 0.0);
  // Of citrate beside sodium: what its forms weigh; d ln of the free sodium by ln a and by ln gamma; the pair's own powers of 1/a and 1/gamma.
  Real sodium = s.sodium, pair = 0.0, sodium_a = 0.0, sodium_gamma = 0.0, b1 = 0.0, b2 = 0.0, b3 = 0.0;
  if (pairs) {
    const Steps& k = acid_steps[0];
    const Real beta = pair_constant * gamma_6;
    b1 = k[0] * f1, b2 = k[1] * f2, b3 = k[2] * f3;
    const Real forms = 1.0 + b1 + b2 + b3, per_forms = 1.0 / forms;
    const FreeSodium<Real> free = free_sodium(s.sodium, s.paired, Real(forms / b3), beta);
    sodium = free.mol_l;
    pair = beta * sodium;
    sodium_a = free.per_ion * (3.0 - (b1 + 2.0 * b2 + 3.0 * b3) * per_forms);
    sodium_gamma = free.per_ion * (9.0 - (b1 + 4.0 * b2 + 9.0 * b3) * per_forms - 6.0);
  }
  const Real pair_a = 3.0 - sodium_a, pair_gamma = 3.0 - sodium_gamma;
  const Real hydrogen = a * per_gamma, hydroxide = water_product * f1, both = hydrogen + hydroxide, difference = hydrogen - hydroxide;
  Slopes<Real> excess{difference + sodium + s.charge, both + sodium * sodium_a, sodium * sodium_gamma - difference};
  Slopes<Real> twice{both + sodium, difference + sodium * sodium_a, sodium * sodium_gamma - both};
  if (pairs) {
    // Forms: charge z, protons lost (power of 1/a), power of 1/gamma: 1 1 1; 2 2 4; 3 3 9; the pair 2, pair_a, pair_gamma.
    const Real& mol_l = s.paired;
    const Real bp = pair * b3, share = 1.0 / (1.0 + b1 + b2 + b3 + bp);
    const Real x1 = b1 * share, x2 = b2 * share, x3 = b3 * share, xp = bp * share;
    const Real z = x1 + 2.0 * (x2 + xp) + 3.0 * x3, zz = x1 + 4.0 * (x2 + xp) + 9.0 * x3;
    const Real lost = x1 + 2.0 * x2 + 3.0 * x3 + pair_a * xp, power = x1 + 4.0 * x2 + 9.0 * x3 + pair_gamma * xp;
    excess.value -= mol_l * z;
    twice.value += mol_l * zz;
    excess.by_ln_a += mol_l * (x1 + 4.0 * x2 + 9.0 * x3 + 2.0 * pair_a * xp - z * lost);
    excess.by_ln_gamma += mol_l * (x1 + 8.0 * x2 + 27.0 * x3 + 2.0 * pair_gamma * xp - z * power);
    twice.by_ln_a -= mol_l * (x1 + 8.0 * x2 + 27.0 * x3 + 4.0 * pair_a * xp - zz * lost);
    twice.by_ln_gamma -= mol_l * (x1 + 16.0 * x2 + 81.0 * x3 + 4.0 * pair_gamma * xp - zz * power);
  }
  const Means<Real> of = means(s, f1, f2, f3);
  excess.value -= of.charge;
  excess.by_ln_a += of.spread;
  excess.by_ln_gamma += of.cross;
  twice.value += of.square;
  twice.by_ln_a -= of.cross;
  twice.by_ln_gamma -= of.square_spread;
  const Real gamma_slope = select(i == ionic_strength, -std::numbers::ln10 * davies_a * (0.5 / (root * more * more) - davies_b), 0.0);
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

// Positive charge too much, and ionic strength, at a node in one lane.
template <class Real>
double excess_at(const Solution<Real>& s, std::size_t node, int lane) {
  double sum = table_of_nodes.hydrogen[node] - table_of_nodes.hydroxide[node] + in_lane(s.sodium, lane) + in_lane(s.charge, lane);
  sum -= in_lane(s.paired, lane) * table_of_nodes.charge[node][0];
  for (std::size_t n = 0; n < s.count; ++n) sum -= in_lane(s.acids[n].mol_l, lane) * table_of_nodes.charge[node][s.acids[n].which];
  return sum;
}
template <class Real>
double ionic_at(const Solution<Real>& s, std::size_t node, int lane) {
  double twice = table_of_nodes.hydrogen[node] + table_of_nodes.hydroxide[node] + in_lane(s.sodium, lane);
  twice += in_lane(s.paired, lane) * table_of_nodes.square[node][0];
  for (std::size_t n = 0; n < s.count; ++n) twice += in_lane(s.acids[n].mol_l, lane) * table_of_nodes.square[node][s.acids[n].which];
  return in_lane(s.ionic, lane) + 0.5 * twice;
}

template <class Real>
struct Answer {
  Real ph, ionic_strength;
};

template <class Real>
Answer<double> beginning(const Solution<Real>& s, int lane) {
  std::size_t low = 0, high = nodes - 1;
  for (int pass = 0; pass < 5; ++pass) {
    const std::size_t middle = (low + high) / 2;
    (excess_at(s, middle, lane) > 0.0 ? low : high) = middle;
  }
  const double at_low = excess_at(s, low, lane), at_high = excess_at(s, high, lane), part = std::clamp(at_low / (at_low - at_high), 0.0, 1.0);
  return {node_ph(low) + part * node_step, (1.0 - part) * ionic_at(s, low, lane) + part * ionic_at(s, high, lane)};
}

template <class Real>
Answer<Real> solve(const Solution<Real>& s) {
  Real ionic;
  const Real start_ph = lane_by_lane<Real>([&](int lane) {
    const Answer<double> start = beginning(s, lane);
    set_lane(ionic, lane, start.ionic_strength);
    return start.ph;
  });
  Real ln_a = -std::numbers::ln10 * start_ph;
  for (int pass = 0; pass < 4; ++pass) {
    const Pass<Real> at = look(s, ln_a, ionic);
    // [E_L E_I; G_L G_I] [dL dI] = -[E G], with E the excess of charge and G = ionic(L, I) - I.
    const Real e = at.excess.value, e_l = at.excess.by_ln_a, e_i = at.excess.by_ln_gamma * at.gamma_slope;
    const Real g = at.ionic.value - ionic, g_l = at.ionic.by_ln_a, g_i = at.ionic.by_ln_gamma * at.gamma_slope - 1.0;
    const Real per_determinant = 1.0 / (e_l * g_i - e_i * g_l);
    ln_a += clamp((e_i * g - e * g_i) * per_determinant, -2.0, 2.0);
    ionic = max(ionic + (g_l * e - e_l * g) * per_determinant, 0.5 * ionic);
  }
  return {-ln_a / std::numbers::ln10, ionic};
}

double litres_25c(const Composition& c) { return 1e3 * liquid_volume(c, units::celsius(25.0)).si; }

}  // namespace

template <class Real>
MolaritiesOf<Real> molarities(const CompositionOf<Real>& c, const Real& litres) {
  MolaritiesOf<Real> m;
  const Truth<Real> there = litres > 0.0;
  if (!any(there)) return m;
  const auto mol_l = [&](Component of, double g_mol) { return holds(c, of) ? select(there, 1e3 * c[of] / g_mol / litres, 0.0) : Real(0.0); };
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
template Molarities molarities(const Composition&, const double&);
template MolaritiesOf<Lanes> molarities(const Compositions&, const Lanes&);

Molarities molarities(const Composition& c) { return molarities(c, litres_25c(c)); }

template <class Real>
Real ph_25c(const MolaritiesOf<Real>& m) {
  return solve(Solution<Real>(m)).ph;
}
template double ph_25c(const Molarities&);
template Lanes ph_25c(const MolaritiesOf<Lanes>&);

double ph_25c(const Composition& c) { return c[Component::water] > 0.0 ? ph_25c(molarities(c)) : std::numeric_limits<double>::quiet_NaN(); }

double ionic_strength_mol_l(const Molarities& m) { return solve(Solution<double>(m)).ionic_strength; }
double ionic_strength_mol_l(const Composition& c) { return c[Component::water] > 0.0 ? ionic_strength_mol_l(molarities(c)) : 0.0; }

template <class Real>
Real base_mol_l(const MolaritiesOf<Real>& m, double ph) {
  const Solution<Real> s(m);
  const auto node = static_cast<std::size_t>(std::clamp((ph - first_node_ph) / node_step, 0.0, static_cast<double>(nodes - 1)));
  Real base = lane_by_lane<Real>([&](int lane) { return -excess_at(s, node, lane); });
  Real ionic = lane_by_lane<Real>([&](int lane) { return ionic_at(s, node, lane); }) + 0.5 * abs(base);
  for (int pass = 0; pass < 3; ++pass) {
    // Newton for the ionic strength, the base counted.
    const Pass<Real> at = look(s, Real(-std::numbers::ln10 * ph), ionic);
    base = -at.excess.value;
    const Real miss = at.ionic.value + 0.5 * abs(base) - ionic;
    const Real slope = at.gamma_slope * (at.ionic.by_ln_gamma - select(base < 0.0, -0.5, 0.5) * at.excess.by_ln_gamma) - 1.0;
    ionic = max(ionic - miss / slope, 0.5 * ionic);
  }
  return base;
}
template double base_mol_l(const Molarities&, double);
template Lanes base_mol_l(const MolaritiesOf<Lanes>&, double);

template <class Real>
Real titratable_mol_l(const MolaritiesOf<Real>& m) {
  return base_mol_l(m, titration_end);
}
template double titratable_mol_l(const Molarities&);
template Lanes titratable_mol_l(const MolaritiesOf<Lanes>&);

template <class Real>
Real citric_equivalent_g(const Real& mol) {
  return mol * molar_mass_citric_acid / 3.0;
}
template double citric_equivalent_g(const double&);
template Lanes citric_equivalent_g(const Lanes&);

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
