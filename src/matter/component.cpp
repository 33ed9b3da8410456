// matter/component.cpp - one row for each component: name, class, molar mass, food energy, sweetness.
// Numbers and their sources: data/matter/component.csv. The rows stand in the order of `Component`; the compiler checks it.
#include "matter/component.hpp"

#include "matter/component_table.hpp"

namespace bloomset::matter {
namespace {

using enum Component;
using namespace table;

struct Row {
  Component component;
  ComponentInfo info;
};

constexpr double none = 0.0;
constexpr Row sugar(Component c, std::string_view name, double molar_mass, double sweetness) {
  return {c, {name, Class::sugar, molar_mass, energy_carbohydrate, sweetness}};
}
constexpr Row acid(Component c, std::string_view name, double molar_mass, double energy = energy_organic_acid) {
  return {c, {name, Class::acid, molar_mass, energy, none}};
}
constexpr Row ion(Component c, std::string_view name, double molar_mass) { return {c, {name, Class::ion, molar_mass, none, none}}; }
constexpr Row agent(Component c, std::string_view name, double energy = energy_fibre) { return {c, {name, Class::agent, none, energy, none}}; }

constexpr std::array<Row, component_count> rows = {{
    {water, {"water", Class::water, molar_mass_water, none, none}},
    {ethanol, {"ethanol", Class::ethanol, molar_mass_ethanol, energy_ethanol, none}},
    sugar(sucrose, "sucrose", molar_mass_sucrose, sweetness_sucrose),
    sugar(glucose, "glucose", molar_mass_glucose, sweetness_glucose),
    sugar(fructose, "fructose", molar_mass_fructose, sweetness_fructose),
    sugar(maltose, "maltose", molar_mass_maltose, sweetness_maltose),
    sugar(lactose, "lactose", molar_mass_lactose, sweetness_lactose),
    {erythritol, {"erythritol", Class::polyol, molar_mass_erythritol, energy_erythritol, sweetness_erythritol}},
    sugar(allulose, "allulose", molar_mass_allulose, sweetness_allulose),
    {glycerol, {"glycerol", Class::polyol, molar_mass_glycerol, energy_polyol, sweetness_glycerol}},
    acid(citric_acid, "citric acid", molar_mass_citric_acid),
    acid(malic_acid, "malic acid", molar_mass_malic_acid),
    acid(tartaric_acid, "tartaric acid", molar_mass_tartaric_acid),
    acid(lactic_acid, "lactic acid", molar_mass_lactic_acid),
    acid(acetic_acid, "acetic acid", molar_mass_acetic_acid),
    acid(ascorbic_acid, "ascorbic acid", molar_mass_ascorbic_acid),
    acid(succinic_acid, "succinic acid", molar_mass_succinic_acid),
    acid(quinic_acid, "quinic acid", molar_mass_quinic_acid),
    acid(oxalic_acid, "oxalic acid", molar_mass_oxalic_acid),
    acid(phosphoric_acid, "phosphoric acid", molar_mass_phosphoric_acid, none),
    acid(gluconic_acid, "gluconic acid", molar_mass_gluconic_acid),
    acid(carbonic_acid, "carbonic acid", molar_mass_carbonic_acid, none),
    ion(sodium, "sodium", molar_mass_sodium),
    ion(potassium, "potassium", molar_mass_potassium),
    ion(calcium, "calcium", molar_mass_calcium),
    ion(magnesium, "magnesium", molar_mass_magnesium),
    ion(chloride, "chloride", molar_mass_chloride),
    ion(salt_hydrogen, "hydrogen lost to salts", molar_mass_salt_hydrogen),
    {protein, {"protein", Class::protein, none, energy_protein, none}},
    {fat, {"fat", Class::fat, none, energy_fat, none}},
    {starch, {"starch", Class::starch, none, energy_carbohydrate, none}},
    {fibre, {"fibre", Class::fibre, none, energy_fibre, none}},
    {other_solids, {"other solids", Class::other, none, energy_carbohydrate, none}},
    agent(gelatin, "gelatin", energy_protein),
    agent(fish_gelatin, "fish gelatin", energy_protein),
    agent(agar, "agar"),
    agent(gellan_low_acyl, "low acyl gellan"),
    agent(gellan_high_acyl, "high acyl gellan"),
    agent(kappa_carrageenan, "kappa carrageenan"),
    agent(iota_carrageenan, "iota carrageenan"),
    agent(lambda_carrageenan, "lambda carrageenan"),
    agent(xanthan, "xanthan"),
    agent(guar, "guar"),
    agent(locust_bean, "locust bean gum"),
    agent(alginate, "alginate"),
    agent(pectin_high_methoxyl, "high methoxyl pectin"),
    agent(pectin_low_methoxyl, "low methoxyl pectin"),
    agent(methylcellulose, "methylcellulose"),
    agent(hpmc, "hydroxypropyl methylcellulose"),
    agent(modified_starch, "modified starch", energy_carbohydrate),
    agent(konjac, "konjac"),
    agent(lecithin, "lecithin", energy_fat),
    agent(sucrose_ester, "sucrose ester", energy_fat),
    agent(caseinate, "caseinate", energy_protein),
    agent(gum_arabic, "gum arabic"),
    {nitrous_oxide, {"nitrous oxide", Class::gas, molar_mass_nitrous_oxide, none, none}},
    {carbon_dioxide, {"carbon dioxide", Class::gas, molar_mass_carbon_dioxide, none, none}},
    {air, {"air", Class::gas, molar_mass_air, none, none}},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < component_count; ++i)
    if (index(rows[i].component) != i) return false;
  return true;
}
static_assert(in_order(), "a component's row stands in the wrong place");

}  // namespace

const ComponentInfo& info(Component c) { return rows[index(c)].info; }

std::optional<Component> component_named(std::string_view name) {
  for (const Row& row : rows)
    if (row.info.name == name) return row.component;
  return std::nullopt;
}

}  // namespace bloomset::matter
