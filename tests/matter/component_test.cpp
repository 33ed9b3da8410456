// The closed list: names, molar masses, food energy, sweetness, and how ions pair to salts.
#include "matter/component.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <set>

#include "matter/composition.hpp"
#include "matter/solute.hpp"

namespace bloomset::matter {
namespace {

using enum Component;

TEST(Component, IsFoundByItsNameAndByNoOther) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < component_count; ++i) {
    const auto c = static_cast<Component>(i);
    EXPECT_EQ(component_named(info(c).name), c) << info(c).name;
    EXPECT_TRUE(names.insert(info(c).name).second) << info(c).name << " stands twice";
  }
  EXPECT_EQ(component_named("Water"), std::nullopt);
  EXPECT_EQ(component_named(""), std::nullopt);
}

TEST(Component, HasTheMolarMassOfHandbooks) {
  struct Row {
    Component component;
    double g_mol;
  };
  // CRC Handbook of Chemistry and Physics 102nd ed., physical constants of organic and inorganic compounds; printed digits.
  for (const Row row :
       {Row{water, 18.015},       Row{ethanol, 46.068},        Row{sucrose, 342.296},       Row{glucose, 180.155},        Row{lactose, 342.296},
        Row{glycerol, 92.094},    Row{erythritol, 122.120},    Row{citric_acid, 192.124},   Row{malic_acid, 134.088},     Row{tartaric_acid, 150.087},
        Row{lactic_acid, 90.078}, Row{acetic_acid, 60.052},    Row{ascorbic_acid, 176.124}, Row{phosphoric_acid, 97.995}, Row{quinic_acid, 192.166},
        Row{oxalic_acid, 90.035}, Row{gluconic_acid, 196.155}, Row{succinic_acid, 118.089}, Row{nitrous_oxide, 44.013},   Row{carbon_dioxide, 44.010}})
    EXPECT_NEAR(info(row.component).molar_mass_g_mol, row.g_mol, 0.002) << info(row.component).name;
}

TEST(Component, IsAsSweetAsReviewsSay) {
  struct Row {
    Component component;
    double low, high;
  };
  // Ranges of three review tables: PMC10346066 (2022) Table 2, PMC5756564 (2017) Table 1, PMC3982014 (2011) Table 2.
  for (const Row row : {Row{sucrose, 1.0, 1.0}, Row{fructose, 1.2, 1.8}, Row{glucose, 0.5, 0.8}, Row{lactose, 0.2, 0.4}, Row{maltose, 0.3, 0.5},
                        Row{erythritol, 0.6, 0.8}, Row{glycerol, 0.5, 0.7}, Row{allulose, 0.6, 0.7}}) {
    EXPECT_GE(info(row.component).sweetness, row.low) << info(row.component).name;
    EXPECT_LE(info(row.component).sweetness, row.high) << info(row.component).name;
  }
}

TEST(Component, GivesTheEnergyOfTheRegulation) {
  // Regulation (EU) 1169/2011 Annex XIV [kcal/g].
  EXPECT_EQ(info(sucrose).energy_kcal_g, 4.0);
  EXPECT_EQ(info(ethanol).energy_kcal_g, 7.0);
  EXPECT_EQ(info(fat).energy_kcal_g, 9.0);
  EXPECT_EQ(info(protein).energy_kcal_g, 4.0);
  EXPECT_EQ(info(fibre).energy_kcal_g, 2.0);
  EXPECT_EQ(info(citric_acid).energy_kcal_g, 3.0);
  EXPECT_EQ(info(glycerol).energy_kcal_g, 2.4);
  EXPECT_EQ(info(erythritol).energy_kcal_g, 0.0);
  EXPECT_EQ(info(water).energy_kcal_g, 0.0);
}

TEST(Solutes, PairPureChloridesWhole) {
  Composition c;
  c[water] = 1.0;
  c[sodium] = 0.010;
  c[chloride] = 0.010 * info(chloride).molar_mass_g_mol / info(sodium).molar_mass_g_mol;
  const Solutes s = solutes(c);
  EXPECT_NEAR(s[Solute::sodium_chloride], c[sodium] + c[chloride], 1e-15);
  EXPECT_EQ(s[Solute::sodium_for_hydrogen], 0.0);
}

TEST(Solutes, BookASaltOfAnAcidAsExchange) {
  // Trisodium citrate, 258.069 g/mol: citric acid and three sodium in the place of three hydrogen.
  Composition c;
  c[citric_acid] = 0.192123;
  c[sodium] = 3.0 * 0.022990;
  c[salt_hydrogen] = -3.0 * 0.001008;
  const Solutes s = solutes(c);
  EXPECT_NEAR(s.total_kg(), 0.258069, 2e-6);
  EXPECT_NEAR(s[Solute::sodium_for_hydrogen], 3.0 * (0.022990 - 0.001008), 1e-6);
}

TEST(Solutes, WeighWhatTheirNeutralIonsWeigh) {
  EXPECT_TRUE(rc::check("salts share the cations", [] {
    const auto grams = [](int most) { return 1e-3 * static_cast<double>(*rc::gen::inRange(0, most)); };
    const auto mol = [](Component ion) { return info(ion).molar_mass_g_mol; };
    Composition c;
    c[water] = 1.0;
    c[citric_acid] = 0.3;
    c[sodium] = grams(20);
    c[potassium] = grams(20);
    c[calcium] = grams(5);
    const double charge = c[sodium] / mol(sodium) + c[potassium] / mol(potassium) + 2.0 * c[calcium] / mol(calcium);
    const double chlorides = 0.01 * static_cast<double>(*rc::gen::inRange(0, 101));
    c[chloride] = chlorides * charge * mol(chloride);
    c[salt_hydrogen] = -(1.0 - chlorides) * charge * mol(salt_hydrogen);
    const Solutes s = solutes(c);
    RC_ASSERT(std::abs(s.total_kg() + s.water_kg - c.total_kg()) < 1e-12);
  }));
}

}  // namespace
}  // namespace bloomset::matter
