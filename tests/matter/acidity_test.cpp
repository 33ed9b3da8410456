// pH against standards and published tables, against a charge balance written a second time, and at the ends of the scale.
#include "matter/acidity.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>
#include <cmath>
#include <random>

#include "matter/component.hpp"

namespace bloomset::matter {
namespace {

using enum Component;

Molarities acid(Component a, double mol_l) {
  Molarities m;
  m.of(a) = mol_l;
  return m;
}
// Mol of a component into 1 kg of water.
void add(Composition& c, Component of, double mol) { c[of] += 1e-3 * mol * info(of).molar_mass_g_mol; }

TEST(Ph, OfPureAcidsIsThePublishedTable) {
  // Hydrochemistry reference table "pH of Common Acids and Bases", computed with a standard speciation program, 25 C.
  EXPECT_NEAR(ph_25c(acid(citric_acid, 0.001)), 3.24, 0.03);
  EXPECT_NEAR(ph_25c(acid(citric_acid, 0.010)), 2.62, 0.03);
  EXPECT_NEAR(ph_25c(acid(lactic_acid, 0.100)), 2.44, 0.03);
  EXPECT_NEAR(ph_25c(acid(acetic_acid, 0.001)), 3.91, 0.03);
  EXPECT_NEAR(ph_25c(acid(acetic_acid, 0.100)), 2.88, 0.03);
  EXPECT_NEAR(ph_25c(acid(phosphoric_acid, 0.010)), 2.26, 0.03);
}

struct Standard {
  const char* name;
  double ph, tolerance;
  Composition c;
};
std::array<Standard, 6> standards() {
  std::array<Standard, 6> all{};
  const auto in_water = [] { return pure(water, units::kilograms(1.0)); };
  const auto salt = [](Composition& c, Component metal, double mol) {
    add(c, metal, mol);
    c[salt_hydrogen] -= 1e-3 * mol * 1.008;
  };
  // Primary and secondary standards of the NIST scale, mol/kg water, 25 C (Bates, Determination of pH; NIST SP 260-53; memory).
  all[0] = {"0.05 m potassium dihydrogen citrate", 3.776, 0.03, in_water()};
  add(all[0].c, citric_acid, 0.05);
  salt(all[0].c, potassium, 0.05);
  all[1] = {"0.025 m potassium dihydrogen + 0.025 m disodium hydrogen phosphate", 6.865, 0.04, in_water()};
  add(all[1].c, phosphoric_acid, 0.05);
  salt(all[1].c, potassium, 0.025);
  salt(all[1].c, sodium, 0.05);
  all[2] = {"0.1 m acetic acid + 0.1 m sodium acetate", 4.65, 0.04, in_water()};
  add(all[2].c, acetic_acid, 0.2);
  salt(all[2].c, sodium, 0.1);
  all[3] = {"0.0341 m potassium hydrogen tartrate, saturated", 3.557, 0.04, in_water()};
  add(all[3].c, tartaric_acid, 0.0341);
  salt(all[3].c, potassium, 0.0341);
  all[4] = {"0.025 m sodium hydrogen carbonate + 0.025 m sodium carbonate", 10.012, 0.05, in_water()};
  add(all[4].c, carbonic_acid, 0.05);
  salt(all[4].c, sodium, 0.075);
  // Soerensen 1909, 0.1 mol/L disodium citrate, 18-25 C (memory).
  all[5] = {"0.1 M disodium hydrogen citrate", 4.96, 0.05, in_water()};
  add(all[5].c, citric_acid, 0.1);
  salt(all[5].c, sodium, 0.2);
  return all;
}

TEST(Ph, OfStandardsIsTheirs) {
  for (const Standard& s : standards()) EXPECT_NEAR(ph_25c(s.c), s.ph, s.tolerance) << s.name;
}

TEST(Ph, OfLemonJuiceFollowsFromItsAcidsAndMetals) {
  // Indian Food Composition Tables 2017, lemon juice D... per 100 g; acids exceed metals 13 times, so no unknown cation matters.
  // FDA list of food pH: lemon juice 2.0-2.6.
  Composition juice;
  juice[water] = 91.59;
  juice[fructose] = 1.01;
  juice[glucose] = 1.28;
  juice[sucrose] = 0.30;
  juice[citric_acid] = 3.490;
  juice[malic_acid] = 0.243;
  juice[ascorbic_acid] = 0.0482;
  juice[potassium] = 0.113;
  juice[calcium] = 0.0227;
  juice[magnesium] = 0.0089;
  juice[salt_hydrogen] = -1.008 * (0.113 / 39.098 + 0.0227 / 20.039 + 0.0089 / 12.1525);
  const double ph = ph_25c(juice);
  EXPECT_GT(ph, 2.0);
  EXPECT_LT(ph, 2.6);
}

TEST(Ph, OfPureWaterIsSeven) {
  EXPECT_NEAR(ph_25c(pure(water, units::kilograms(1.0))), 6.9975, 1e-6);  // half of pKw 13.995
  EXPECT_NEAR(ph_25c(Molarities{}), 6.9975, 1e-6);
}

TEST(Ph, OfADryMixtureIsNotANumber) {
  EXPECT_TRUE(std::isnan(ph_25c(pure(ethanol, units::kilograms(1.0)))));
  EXPECT_TRUE(std::isnan(ph_25c(Composition{})));
  EXPECT_TRUE(std::isnan(potassium_for_ph_kg(pure(sucrose, units::kilograms(1.0)), 4.0)));
  EXPECT_EQ(titratable_mol_kg(Composition{}), 0.0);
}

TEST(Ph, RunsFromStrongAcidToStrongBase) {
  Molarities hydrochloric, lye;
  hydrochloric.chloride = 0.1;
  lye.sodium = 0.1;
  // 0.1 mol/L: 1.11 and 12.9 by Davies' activity (0.79); measured 1.09-1.10 and 12.9 (Bates, memory).
  EXPECT_NEAR(ph_25c(hydrochloric), 1.10, 0.03);
  EXPECT_NEAR(ph_25c(lye), 12.88, 0.05);
}

// The balance again, as the textbook writes it: halving in pH, and at each pH ionic strength and the pair until they stand still.
struct Textbook {
  const Molarities& m;
  double ionic = 0.0;

  static double gamma(double z, double i) { return std::pow(10.0, -0.509 * z * z * (std::sqrt(i) / (1.0 + std::sqrt(i)) - 0.3 * i)); }
  double excess(double ph) {
    // Citric, malic, tartaric, lactic, acetic, -, -, -, -, phosphoric: NIST 46; Goldberg 2002; CRC.
    static const std::array<std::array<double, 3>, acid_count> pka = {{{3.128, 4.761, 6.396},
                                                                       {3.459, 5.097, 99},
                                                                       {3.036, 4.366, 99},
                                                                       {3.86, 99, 99},
                                                                       {4.757, 99, 99},
                                                                       {99, 99, 99},
                                                                       {99, 99, 99},
                                                                       {99, 99, 99},
                                                                       {99, 99, 99},
                                                                       {2.148, 7.198, 12.375},
                                                                       {99, 99, 99},
                                                                       {99, 99, 99}}};
    const double a = std::pow(10.0, -ph);
    double sum = 0.0, free_sodium = m.sodium;
    ionic = 0.0;
    for (int pass = 0; pass < 60; ++pass) {
      const double h = a / gamma(1, ionic), oh = std::pow(10.0, -13.995) / a / gamma(1, ionic);
      sum = h - oh + m.potassium + 2 * (m.calcium + m.magnesium) - m.chloride;
      double strength = 0.5 * (h + oh + m.potassium + m.chloride) + 2 * (m.calcium + m.magnesium);
      double still_free = m.sodium;
      for (std::size_t i = 0; i < acid_count; ++i) {
        double form = 1.0, forms = 1.0;
        std::array<double, 4> at{1.0};
        for (std::size_t j = 0; j < 3; ++j) {
          form *= std::pow(10.0, -pka[i][j]) / a * gamma(static_cast<double>(j), ionic) / gamma(static_cast<double>(j + 1), ionic);
          at[j + 1] = form;
          forms += form;
        }
        const double pairing = i == 0 ? std::pow(10.0, 1.03) * gamma(3, ionic) * gamma(1, ionic) / gamma(2, ionic) : 0.0;
        forms += at[3] * pairing * free_sodium;
        for (std::size_t j = 1; j < 4; ++j) {
          const double z = static_cast<double>(j), mol = m.acid[i] * at[j] / forms;
          sum -= z * mol;
          strength += 0.5 * z * z * mol;
        }
        const double pair = m.acid[i] * at[3] * pairing * free_sodium / forms;
        sum -= 2 * pair;
        strength += 2 * pair;
        if (i == 0) still_free = m.sodium / (1.0 + pairing * m.acid[i] * at[3] / forms);
      }
      sum += free_sodium;
      strength += 0.5 * free_sodium;
      ionic = 0.5 * (ionic + strength);
      free_sodium = 0.5 * (free_sodium + still_free);
    }
    return sum;
  }
  double ph() {
    double low = -1.0, high = 15.0;
    for (int pass = 0; pass < 50; ++pass) {
      const double middle = 0.5 * (low + high);
      (excess(middle) > 0.0 ? low : high) = middle;
    }
    return low;
  }
};

Molarities any_solution(std::mt19937& draw) {
  const auto amount = [&] { return draw() % 2 == 0 ? 0.0 : std::pow(10.0, std::uniform_real_distribution<>(-5.0, -0.9)(draw)); };
  Molarities m;
  double protons = 0.0;
  for (const auto& [a, n] : {std::pair{citric_acid, 3.0}, std::pair{malic_acid, 2.0}, std::pair{tartaric_acid, 2.0}, std::pair{lactic_acid, 1.0},
                             std::pair{acetic_acid, 1.0}, std::pair{phosphoric_acid, 2.0}}) {
    m.of(a) = amount();
    protons += n * m.of(a);
  }
  const double share = std::uniform_real_distribution<>(0.0, 1.1)(draw);
  m.sodium = draw() % 2 == 0 ? share * protons : 0.0;
  m.potassium = 0.5 * (share * protons - m.sodium);
  if (draw() % 3 == 0) m.chloride = amount();
  m.sodium += m.chloride;
  m.calcium = 0.1 * amount();
  return m;
}

TEST(Ph, IsWhatTheTextbookBalanceFinds) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const Molarities m = any_solution(draw);
    Textbook book{m};
    const double ph = book.ph();
    if (book.ionic > 0.5) return;  // beyond Davies
    RC_ASSERT(std::abs(ph_25c(m) - ph) < 1e-6);
    RC_ASSERT(std::abs(ionic_strength_mol_l(m) - book.ionic) < 1e-6);
  }));
}

TEST(Ph, IsANumberForAnythingAndRisesWithBase) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    Molarities m = any_solution(draw);
    for (double& a : m.acid) a *= std::pow(10.0, std::uniform_real_distribution<>(-2.0, 1.5)(draw));
    double before = -2.0;
    for (int step = 0; step < 12; ++step) {
      const double ph = ph_25c(m);
      RC_ASSERT(ph > -1.5 && ph < 15.5);
      RC_ASSERT(ph > before - 0.02);  // beyond ionic strength 0.5 the added salt may outweigh the base by a hair
      before = ph;
      m.potassium += 0.05;
    }
  }));
}

TEST(TitratableAcidity, OfCitricAcidIsItself) {
  // The unit's definition: at pH 8.2 citric acid has given all three protons (pKa3 6.396) but for a part in 200.
  Composition c = pure(water, units::kilograms(0.99));
  c[citric_acid] = 0.01;
  EXPECT_NEAR(titratable_acidity_g_100g_citric(c), 1.0, 0.01);
  EXPECT_NEAR(titratable_acidity_g_l_citric(c), 10.02, 0.1);  // 1002 g/L: CRC Handbook, 1 % citric acid at 20 C
}

TEST(TitratableAcidity, OfOtherAcidsIsByEquivalents) {
  // 192.124 / 3 over 150.087 / 2, 90.078, 134.087 / 2 g an equivalent: 0.853, 0.711, 0.955. Phosphoric gives its second proton (pKa 7.2)
  // nearly whole at 8.2, its third not at all: between 1.85 and 1.97 of 3.
  const auto of_one_percent = [](Component a) {
    Composition c = pure(water, units::kilograms(0.99));
    c[a] = 0.01;
    return titratable_acidity_g_100g_citric(c);
  };
  EXPECT_NEAR(of_one_percent(tartaric_acid), 0.853, 0.01);
  EXPECT_NEAR(of_one_percent(lactic_acid), 0.711, 0.01);
  EXPECT_NEAR(of_one_percent(malic_acid), 0.955, 0.01);
  const double phosphoric_protons = of_one_percent(phosphoric_acid) / (64.041 / 97.994);
  EXPECT_GT(phosphoric_protons, 1.85);
  EXPECT_LT(phosphoric_protons, 1.97);
}

TEST(TitratableAcidity, LeavesOutWhatIsNeutralisedAlready) {
  // Potassium dihydrogen citrate has two protons of three left; trisodium citrate none.
  Composition c = pure(water, units::kilograms(1.0));
  add(c, citric_acid, 0.05);
  const double free_acid = titratable_mol_kg(c) * c.total_kg();
  Composition half = with_potassium(c, 0.05e-3 * 39.098);
  EXPECT_NEAR(titratable_mol_kg(half) * half.total_kg() / free_acid, 2.0 / 3.0, 0.005);
  EXPECT_NEAR(half.total_kg() - c.total_kg(), 0.05e-3 * (39.098 - 1.008), 1e-12);
  const Composition none = with_potassium(c, 0.15e-3 * 39.098);
  EXPECT_NEAR(titratable_mol_kg(none), 0.0, 0.001);
}

TEST(PotassiumForPh, GivesThePhThatWasAskedFor) {
  // An orange juice by its measured pH: 12 Brix, 0.9 % acid as citric, pH 3.6 (mid-range, FDA 3.3-4.2). Its potassium, 150-200 mg/100 g in
  // composition tables (IFCT 2017: 164), is most of what is missing.
  Composition juice;
  juice[water] = 88.0;
  juice[sucrose] = 4.9;
  juice[glucose] = 2.4;
  juice[fructose] = 2.6;
  juice[citric_acid] = 1.0;
  juice[malic_acid] = 0.15;
  const double potassium_kg = potassium_for_ph_kg(juice, 3.6);
  EXPECT_NEAR(ph_25c(with_potassium(juice, potassium_kg)), 3.6, 1e-9);
  EXPECT_GT(potassium_kg, 0.10);
  EXPECT_LT(potassium_kg, 0.30);
}

TEST(PotassiumForPh, GivesNothingWhereTheAcidsAreTooFew) {
  Composition weak = pure(water, units::kilograms(1.0));
  add(weak, citric_acid, 1e-4);
  EXPECT_TRUE(std::isnan(potassium_for_ph_kg(weak, 2.0)));
  EXPECT_FALSE(std::isnan(potassium_for_ph_kg(weak, 6.0)));
}

TEST(PotassiumForPh, HoldsForAnyJuiceAndPh) {
  EXPECT_TRUE(rc::check([](unsigned seed) {
    std::mt19937 draw(seed);
    const auto up_to = [&](double most) { return std::uniform_real_distribution<>(0.0, most)(draw); };
    Composition c = pure(water, units::kilograms(1.0));
    c[citric_acid] = 1e-4 + up_to(0.05);
    c[malic_acid] = up_to(0.02);
    c[lactic_acid] = up_to(0.01);
    c[sucrose] = up_to(1.0);
    const double bare = ph_25c(c), wanted = bare + up_to(4.5);
    const double kg = potassium_for_ph_kg(c, wanted);
    RC_ASSERT(kg >= 0.0);
    // Next to the pH that the acids have by themselves the answer is a difference of two like numbers.
    RC_ASSERT(std::abs(ph_25c(with_potassium(c, kg)) - wanted) < (wanted - bare < 0.01 ? 0.002 : 1e-5));
  }));
}

}  // namespace
}  // namespace bloomset::matter
