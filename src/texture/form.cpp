#include "texture/form.hpp"

#include <algorithm>
#include <cmath>

#include "texture/catalogue.hpp"
#include "texture/gelatin_table.hpp"
#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

std::optional<double> pieces_of(units::Mass mass, const Form& form) {
  if (!form.leaf) return std::nullopt;
  return mass / *form.leaf;
}

// Same Bloom: firmness goes with the square of the mass.
double spread(const std::array<Converted, 3>& rules) {
  double least = 0.0, most = 0.0;
  for (const Converted& c : rules) {
    if (!c.mass) continue;
    least = least == 0.0 ? c.mass->si : std::min(least, c.mass->si);
    most = std::max(most, c.mass->si);
  }
  return least > 0.0 ? std::pow(most / least, table::force_exponent) : 1.0;
}

LeafCount count(double pieces, units::Mass base, units::Mass wanted, const Form& form) {
  LeafCount c;
  c.pieces = pieces;
  c.mass = pieces * *form.leaf;
  c.dose = {c.mass / base};
  c.firmness = firmness({wanted / base}, form.bloom, c.dose, form.bloom);
  c.base_that_fits = base * (c.mass / wanted);
  return c;
}

}  // namespace

std::string_view name(Rule r) {
  constexpr std::array<std::string_view, 3> names = {"piece_for_piece", "linear_bloom", "root_bloom"};
  return names[static_cast<std::size_t>(r)];
}

Conversion convert(units::Mass mass, const Form& from, const Form& to, bool counted) {
  Conversion out;
  const double b = from.bloom / to.bloom;
  std::optional<units::Mass> by_piece;
  if (from.leaf && to.leaf) by_piece = mass * (*to.leaf / *from.leaf);
  const std::array<std::optional<units::Mass>, 3> masses = {by_piece, mass * b, mass * std::sqrt(b)};
  for (std::size_t i = 0; i < masses.size(); ++i) {
    out.rules[i].rule = static_cast<Rule>(i);
    out.rules[i].mass = masses[i];
    if (masses[i]) out.rules[i].pieces = pieces_of(*masses[i], to);
  }
  out.chosen = counted && by_piece ? Rule::piece_for_piece : Rule::root_bloom;
  out.firmness_spread = spread(out.rules);
  out.mind = out.firmness_spread > Firmness::mind_above();
  if (out.mind)
    out.notes.push_back({"the rules differ " + shown(out.firmness_spread) + " times in firmness: find out which one the recipe was written by",
                         {"ward1977", Confidence::medium}});
  if (from.agent != to.agent)
    out.notes.push_back({"fish gelatin sets and melts 8 to 10 K lower than mammal gelatin of the same Bloom: equal mass is no equal gel",
                         {"memory: gelatin handbooks, fish-gelatin reviews", Confidence::low}});
  if (counted && !by_piece) out.notes.push_back({"leaf for leaf does not apply: one of the two is not sold in leaves", {"practice", Confidence::high}});
  return out;
}

Conversion convert_pieces(double pieces, const Form& from, const Form& to) { return convert(pieces * from.leaf.value_or(units::Mass{0.0}), from, to, true); }

Leaves leaves(units::Mass base, units::Mass gelatin, const Form& form) {
  Leaves out;
  out.exact = gelatin / *form.leaf;
  const double below = std::max(std::floor(out.exact + 1e-9), 1.0), above = std::max(std::ceil(out.exact - 1e-9), 1.0);
  out.whole = count(std::max(std::round(out.exact), 1.0), base, gelatin, form);
  out.half = count(std::max(std::round(2.0 * out.exact), 1.0) / 2.0, base, gelatin, form);
  out.fewer = count(below, base, gelatin, form);
  out.more = count(above, base, gelatin, form);
  return out;
}

BloomingWater blooming_water(units::Mass gelatin, bool leaf) {
  const auto& parts = leaf ? table::bloom_water_leaf : table::bloom_water_powder;
  return {gelatin * parts[0], gelatin * parts[1], gelatin * parts[2], {"practice", Confidence::medium}};
}

Weighing weighing(Agent agent, units::Mass dose, units::Mass scale_step) {
  Weighing w;
  w.error_share = dose.si > 0.0 ? scale_step / dose : 0.0;
  w.least_weighable = scale_step / table::scale_share;
  w.too_small = w.error_share > table::scale_share;
  if (!w.too_small) return w;
  // The strongest stock that still pours and whose share can be weighed.
  constexpr std::array<double, 7> percents = {10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1};
  const Limit* most = limit(agent, Quantity::stock);
  const double most_percent = most != nullptr && most->high ? *most->high : 1.0;
  for (const double percent : percents) {
    const units::Mass used = dose / (0.01 * percent);
    if (percent > most_percent || used < w.least_weighable) continue;
    Stock s;
    s.strength = units::mass_percent(percent);
    s.agent = std::max(w.least_weighable, dose);
    s.water = s.agent / s.strength.si - s.agent;
    s.used = used;
    s.water_saved = used - dose;
    w.stock = s;
    return w;
  }
  return w;
}

}  // namespace bloomset::texture
