// matter/properties.cpp - one pass over a state: only what is asked, each shared part once.
//
// First the thermal state says how much of the water stands as ice; every other key is then read from what stays liquid.
// The rest are sums over components (masses, sugars, sweetness, energy) or calls to the model that owns the property.
#include "matter/properties.hpp"

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "matter/elementary.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"
#include "matter/property_table.hpp"
#include "matter/refraction.hpp"
#include "matter/solute.hpp"
#include "matter/viscosity.hpp"

namespace bloomset::matter {
namespace {

using units::celsius;

constexpr std::array<std::string_view, property_count> keys = {"mass_g",
                                                               "volume_ml",
                                                               "volume_20c_ml",
                                                               "ice_g",
                                                               "foam_volume_ml",
                                                               "density_kg_m3",
                                                               "temperature_c",
                                                               "abv_percent",
                                                               "abv_percent_all_melted",
                                                               "ethanol_g",
                                                               "brix_percent",
                                                               "brix_read_percent",
                                                               "sugars_g",
                                                               "sugar_percent",
                                                               "sweetness_percent_sucrose",
                                                               "ph_25c",
                                                               "titratable_acidity_g_100g_citric",
                                                               "titratable_acidity_g_l_citric",
                                                               "freezing_point_c",
                                                               "water_activity",
                                                               "heat_capacity_kj_kg_k",
                                                               "viscosity_mpa_s",
                                                               "refractive_index_20c",
                                                               "co2_volumes",
                                                               "energy_kcal"};
static_assert(keys.back() == "energy_kcal", "a key is missing");

template <class... P>
PropertySet set_of(P... p) {
  PropertySet s;
  (s.set(static_cast<std::size_t>(p)), ...);
  return s;
}

template <class Real>
Real sugars_kg(const CompositionOf<Real>& c) {
  using enum Component;
  return c[sucrose] + c[glucose] + c[fructose] + c[maltose] + c[lactose] + c[allulose];
}

// One of the table's columns, by component.
std::array<double, component_count> column(double ComponentInfo::*of) {
  std::array<double, component_count> all{};
  for (std::size_t i = 0; i < component_count; ++i) all[i] = info(static_cast<Component>(i)).*of;
  return all;
}
const auto energy_kcal_g = column(&ComponentInfo::energy_kcal_g), sweetness = column(&ComponentInfo::sweetness);

template <class Real>
Real ethanol_m3_20c(const CompositionOf<Real>& c) {
  return c[Component::ethanol] / pure_ethanol_density_20c().si;
}

// What is asked, with its parts computed when first needed.
template <class Real>
struct Reading {
  const StateOf<Real>& state;
  PropertySet asked;
  ValuesOf<Real>& values;

  bool wants(Property p) const { return asked[static_cast<std::size_t>(p)]; }
  bool wants_any(const PropertySet& some) const { return (asked & some).any(); }
  void give(Property p, const Real& value) { values.of[static_cast<std::size_t>(p)] = value; }
  template <class Compute>
  void answer(Property p, Compute&& compute) {
    if (wants(p)) give(p, compute());
  }
  // The same where it can be given.
  template <class Compute>
  void answer(Property p, const Truth<Real>& where, Compute&& compute) {
    if (wants(p)) give(p, select(where, compute(), cannot_be_given));
  }
};

template <class Real>
void read_sums(Reading<Real>& r, const CompositionOf<Real>& liquid, const Real& mass_kg) {
  const Truth<Real> there = mass_kg > 0.0;
  r.answer(Property::mass_g, [&] { return 1e3 * mass_kg; });
  r.answer(Property::ethanol_g, [&] { return 1e3 * liquid[Component::ethanol]; });
  r.answer(Property::brix_percent, there, [&] { return 100.0 * liquid.dissolved_kg() / mass_kg; });
  r.answer(Property::sugars_g, [&] { return 1e3 * sugars_kg(liquid); });
  r.answer(Property::sugar_percent, there, [&] { return 100.0 * sugars_kg(liquid) / mass_kg; });
  r.answer(Property::sweetness_percent_sucrose, there, [&] { return 100.0 * sum_of_products(liquid.kg, sweetness) / mass_kg; });
  r.answer(Property::energy_kcal, [&] { return 1e3 * sum_of_products(liquid.kg, energy_kcal_g); });
}

template <class Real>
void read_volumes(Reading<Real>& r, const CompositionOf<Real>& liquid, const SolutesOf<Real>& s, const LiquidVolumeOf<Real>& volume, const Real& t_c) {
  using enum Property;
  const Real weighed_kg = s.total_kg() + s.water_kg + s.ethanol_kg;  // gas apart, which has no volume either
  if (r.wants_any(set_of(volume_ml, density_kg_m3))) {
    const Real m3 = volume.m3(s.water_kg, t_c);
    r.answer(volume_ml, [&] { return 1e6 * m3; });
    r.answer(density_kg_m3, m3 > 0.0, [&] { return weighed_kg / m3; });
  }
  const bool acidity = r.wants_any(set_of(titratable_acidity_g_100g_citric, titratable_acidity_g_l_citric));
  const Truth<Real> wet = s.water_kg > 0.0;
  Real acid_g_100g = cannot_be_given;
  if (acidity || r.wants(ph_25c)) {
    const Real litres = 1e3 * volume.m3(s.water_kg, 25.0);
    const MolaritiesOf<Real> m = molarities(liquid, litres);
    r.answer(ph_25c, wet, [&] { return matter::ph_25c(m); });
    if (acidity) acid_g_100g = select(wet, 0.1 * citric_equivalent_g(Real(titratable_mol_l(m) * litres)) / liquid.total_kg(), 0.0);
  }
  r.answer(titratable_acidity_g_100g_citric, [&] { return acid_g_100g; });
  if (!r.wants_any(set_of(volume_20c_ml, abv_percent, co2_volumes, titratable_acidity_g_l_citric, brix_read_percent, refractive_index_20c))) return;
  const Real m3 = volume.m3(s.water_kg, 20.0);
  const Truth<Real> there = m3 > 0.0;
  r.answer(volume_20c_ml, [&] { return 1e6 * m3; });
  r.answer(abv_percent, there, [&] { return 100.0 * ethanol_m3_20c(liquid) / m3; });
  r.answer(titratable_acidity_g_l_citric, there, [&] { return 1e-2 * acid_g_100g * weighed_kg / m3; });
  r.answer(co2_volumes, there, [&] {
    const Real mol = 1e3 * liquid[Component::carbon_dioxide] / info(Component::carbon_dioxide).molar_mass_g_mol;
    return mol * table::carbon_dioxide_molar_volume / (1e3 * m3);
  });
  if (!r.wants_any(set_of(brix_read_percent, refractive_index_20c))) return;
  const Truth<Real> pours = s.water_kg + s.ethanol_kg > 0.0;
  const Real clear_m3 = m3 - volume.clouds_20c_m3();
  const auto bends = [&](int lane) { return bending(in_lane(s, lane), in_lane(clear_m3, lane)); };
  r.answer(brix_read_percent, pours, [&] { return lane_by_lane<Real>([&](int lane) { return matter::brix_read_percent(bends(lane)); }); });
  r.answer(refractive_index_20c, pours, [&] { return lane_by_lane<Real>([&](int lane) { return matter::refractive_index_20c(bends(lane)); }); });
}

}  // namespace

std::string_view key(Property p) { return keys[static_cast<std::size_t>(p)]; }

template <class Real>
void read(const StateOf<Real>& state, const PropertySet& asked, ValuesOf<Real>& values) {
  Reading<Real> r{state, asked, values};
  r.answer(Property::foam_volume_ml, [&] { return state.foam_volume_ml; });
  if ((asked & ~set_of(Property::foam_volume_ml)).none()) return;

  const HeatCurveOf<Real> dry = dry_heat_curve(state.liquid);
  const ThermalStateOf<Real> thermal = thermal_state(state.liquid, dry, state.enthalpy_j);
  const Real t_c = thermal.t_c;
  r.answer(Property::temperature_c, [&] { return t_c; });
  r.answer(Property::ice_g, [&] { return 1e3 * (thermal.ice_kg + state.floating_ice_kg); });
  CompositionOf<Real> liquid = state.liquid;
  liquid[Component::water] -= thermal.ice_kg;
  const Real mass_kg = liquid.total_kg();
  read_sums(r, liquid, mass_kg);

  const SolutesOf<Real> s = solutes(liquid);
  const LiquidVolumeOf<Real> volume(s);
  if (r.wants(Property::abv_percent_all_melted)) {
    const Real m3 = volume.m3(state.liquid[Component::water] + state.floating_ice_kg, 20.0);
    r.answer(Property::abv_percent_all_melted, m3 > 0.0, [&] { return 100.0 * ethanol_m3_20c(liquid) / m3; });
  }
  read_volumes(r, liquid, s, volume, t_c);
  r.answer(Property::viscosity_mpa_s, [&] {
    return lane_by_lane<Real>(
        [&](int lane) { return has_thickener(in_lane(liquid, lane)) ? cannot_be_given : 1e3 * viscosity(in_lane(s, lane), celsius(in_lane(t_c, lane))).si; });
  });
  if (r.wants_any(set_of(Property::freezing_point_c, Property::water_activity))) {
    const WaterBondOf<Real> bond = water_bond(liquid);
    const Truth<Real> wet = s.water_kg > 0.0, icy = thermal.ice_kg > 0.0;
    // Beside its own ice a liquid is at its freezing point.
    r.answer(Property::freezing_point_c, wet | icy, [&] { return select(icy, t_c, bond.freezing_c(s.water_kg)); });
    r.answer(Property::water_activity, wet, [&] { return exp(bond.ln_activity(t_c, s.water_kg)); });
  }
  r.answer(Property::heat_capacity_kj_kg_k, mass_kg > 0.0, [&] { return 1e-3 * with_water_and_ethanol(dry, s.water_kg, s.ethanol_kg).slope_c(t_c) / mass_kg; });
}
template void read(const State&, const PropertySet&, Values&);
template void read(const StateOf<Lanes>&, const PropertySet&, ValuesOf<Lanes>&);

Values read_all(const State& state) {
  Values values;
  read(state, PropertySet{}.set(), values);
  return values;
}

std::bitset<8> range_notes(const State& state) {
  std::bitset<8> notes;
  const auto note = [&notes](RangeNote n, bool is) { notes.set(static_cast<std::size_t>(n), is); };
  const ThermalState thermal = thermal_state(state.liquid, state.enthalpy_j);
  Composition c = state.liquid;
  c[Component::water] -= thermal.ice_kg;
  const double mass = c.total_kg();
  if (!(mass > 0.0)) return notes;
  using namespace table;
  const double sugar = sugars_kg(c) / mass, ethanol = c[Component::ethanol] / mass, t_c = thermal.t_c;
  note(RangeNote::spirit_ph, strength(c).si > spirit_ph_abv);
  note(RangeNote::sugar_over_70, sugar > sugar_most);
  note(RangeNote::cold_below_model, t_c < coldest_c);
  note(RangeNote::hot_above_model, t_c > hottest_c || (ethanol > trace && t_c > hottest_ethanol_c) || (sugar > trace && t_c > hottest_sugar_c));
  note(RangeNote::ionic_strength_high, ionic_strength_mol_l(c) > ionic_strength_most);
  note(RangeNote::thickener_viscosity, has_thickener(c));
  double acids = 0.0;
  for (std::size_t i = index(first_acid); i <= index(last_acid); ++i) acids += c.kg[i];
  acids -= c[Component::citric_acid] + c[Component::acetic_acid] + c[Component::phosphoric_acid];
  note(RangeNote::acid_activity_unknown, acids > acid_most * mass);
  return notes;
}

}  // namespace bloomset::matter
