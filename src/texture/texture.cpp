// texture/texture.cpp - names, and what a liquid is judged by.
#include "texture/texture.hpp"

#include <cmath>

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "texture/gelatin_table.hpp"
#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using matter::Component;

constexpr std::array<std::string_view, effect_count> effect_names = {"soft gel", "firm gel", "fluid gel", "hot gel", "cold foam",
                                                                     "hot foam", "froth",    "thickened", "sphere",  "clarify"};
constexpr std::array<std::string_view, base_kind_count> base_kind_names = {"juice", "cream", "acid", "spirit"};

template <class E, std::size_t N>
std::optional<E> find(const std::array<std::string_view, N>& names, std::string_view wanted) {
  for (std::size_t i = 0; i < N; ++i)
    if (names[i] == wanted) return static_cast<E>(i);
  return std::nullopt;
}

double percent_of(const matter::Composition& c, double part_kg) {
  const double all = c.total_kg();
  return all > 0.0 ? 100.0 * part_kg / all : 0.0;
}

double agents_kg(const matter::Composition& c) {
  double sum = 0.0;
  for (std::size_t i = matter::index(matter::first_agent); i <= matter::index(matter::last_agent); ++i) sum += c.kg[i];
  return sum;
}

}  // namespace

std::string_view name(Effect e) { return effect_names[static_cast<std::size_t>(e)]; }
std::string_view called(Effect e) {
  constexpr std::array<std::string_view, effect_count> words = {"a soft gel", "a firm gel", "a fluid gel", "a hot gel", "a cold foam",
                                                                "a hot foam", "a froth",    "thickening",  "spheres",   "clarifying"};
  return words[static_cast<std::size_t>(e)];
}
std::optional<Effect> effect_named(std::string_view wanted) { return find<Effect>(effect_names, wanted); }
std::string_view name(BaseKind k) { return base_kind_names[static_cast<std::size_t>(k)]; }
std::optional<BaseKind> base_kind_named(std::string_view wanted) { return find<BaseKind>(base_kind_names, wanted); }
std::string_view name(Confidence c) {
  constexpr std::array<std::string_view, 3> names = {"low", "medium", "high"};
  return names[static_cast<std::size_t>(c)];
}

Liquor read(const matter::Composition& c) {
  Liquor out;
  out.mass_kg = c.total_kg();
  if (!(out.mass_kg > 0.0)) return out;
  const double ph = matter::ph_25c(c);
  out.ph = std::isfinite(ph) ? ph : 7.0;
  out.abv_percent = units::in_percent_vol(matter::strength(c));
  out.fat_percent = percent_of(c, c[Component::fat]);
  out.solids_percent = percent_of(c, c.dissolved_kg() - agents_kg(c));
  const auto molar = [](Component ion) { return matter::info(ion).molar_mass_g_mol; };
  const double chloride_to_sodium = molar(Component::chloride) / molar(Component::sodium);
  out.salt_percent = percent_of(c, c[Component::sodium] * (1.0 + chloride_to_sodium));
  out.calcium_mg = 1e6 * c[Component::calcium];
  constexpr double calcium_carbonate_g_mol = 100.09;
  const double hard_mol = 1e3 * (c[Component::calcium] / molar(Component::calcium) + c[Component::magnesium] / molar(Component::magnesium));
  const double litres = units::in_litres(matter::liquid_volume(c, units::celsius(20.0)));
  out.hardness_mg_l = litres > 0.0 ? 1e3 * hard_mol * calcium_carbonate_g_mol / litres : 0.0;
  out.protein_percent = percent_of(c, c[Component::protein]);
  return out;
}

KindRead base_kind(const Liquor& l) {
  constexpr double ph_margin = 0.2, share_margin = 0.1;
  const auto near = [](double value, double border) { return std::abs(value - border) < share_margin * border; };
  const double cream = table::cream_fat, acid = table::acid_below, spirit = table::spirit_above;
  const bool near_border = near(l.fat_percent, cream) || std::abs(l.ph - acid) < ph_margin || near(l.abv_percent, spirit);
  if (l.fat_percent >= cream) return {BaseKind::cream, shown(l.fat_percent) + " % fat", near_border};
  if (l.ph < acid) return {BaseKind::acid, "pH " + shown(l.ph), near_border};
  if (l.abv_percent > spirit) return {BaseKind::spirit, shown(l.abv_percent) + " %vol", near_border};
  return {BaseKind::juice, "pH " + shown(l.ph) + ", " + shown(l.abv_percent) + " %vol, " + shown(l.fat_percent) + " % fat", near_border};
}

}  // namespace bloomset::texture
