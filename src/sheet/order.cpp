// sheet/order.cpp - what to have at hand for all serves and whole batches, and what one serve costs.
//
// An order counts whole batches and whole packs, fruits round up. A price per serve counts what came into the serve, with
// what was lost on the way and not what is left over: as-purchased quantity = used quantity / yield (culinary arithmetic).
// A pack that is a mass is the thing as bought (fruit, where there is a yield); a pack that is a volume is the thing itself.
// Water and ice cost nothing unless the larder prices them.
#include <algorithm>
#include <cmath>
#include <map>

#include "sheet/readings.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

using larder::Family;
using larder::Thing;

// Price of one kilogram as used.
struct Price {
  double per_kg = 0.0;
  std::string currency;
};
std::optional<double> kg_used_a_pack(const Thing& thing) {
  if (!thing.pack) return std::nullopt;
  if (thing.pack->volume) return thing.pack->volume->si * thing.density_20c.si;
  if (thing.pack->mass) return thing.pack->mass->si * thing.yield_of_bought.value_or(1.0);
  return std::nullopt;
}
std::optional<Price> price_of(const Thing& thing) {
  const auto kg = kg_used_a_pack(thing);
  if (kg && *kg > 0.0 && thing.pack->price > 0.0) return Price{thing.pack->price / *kg, thing.pack->currency};
  if (thing.family == Family::water || thing.is_ice()) return Price{};
  return std::nullopt;
}

// 5.0000000001 lemons are five.
double whole(double count) { return std::ceil(count - 1e-9 * std::max(1.0, count)); }

OrderLine order_line(const Thing& thing, double kg) {
  OrderLine line;
  line.thing = thing.label;
  line.mass_g = kg * 1e3;
  line.volume_ml = is_poured(thing.family) && !thing.solid && thing.density_20c.si > 0.0 ? kg / thing.density_20c.si * 1e6 : matter::cannot_be_given;
  const auto pack_kg = kg_used_a_pack(thing);
  if (thing.bought_piece && thing.yield_of_bought && thing.bought_piece->si * *thing.yield_of_bought > 0.0) {
    const double each_kg = thing.bought_piece->si * *thing.yield_of_bought;
    line.pieces = whole(kg / each_kg);
    line.note = "about " + text::print_number(*line.pieces, 6) + " as bought, " + text::print_number(each_kg * 1e3, 3) + " g from each";
  } else if (thing.piece && thing.piece->si > 0.0) {
    line.pieces = whole(kg / thing.piece->si);
    line.note =
        text::print_number(*line.pieces, 6) + (*line.pieces == 1.0 ? " piece" : " pieces") + " of " + text::print_number(thing.piece->si * 1e3, 3) + " g";
  }
  if (pack_kg && *pack_kg > 0.0) {
    const double packs = whole(kg / *pack_kg);
    const std::string size = thing.pack->volume ? text::print_number(units::in_millilitres(*thing.pack->volume)) + " mL"
                                                : text::print_number(units::in_grams(*thing.pack->mass)) + " g";
    if (!line.note.empty()) line.note += "; ";
    line.note += text::print_number(packs, 6) + (packs == 1.0 ? " pack" : " packs") + " of " + size;
    if (thing.pack->price > 0.0) {
      line.cost = packs * thing.pack->price;
      line.currency = thing.pack->currency;
    }
  }
  return line;
}

}  // namespace

std::vector<OrderLine> order_list(const Kitchen& k) {
  std::map<std::string, std::size_t> at;
  std::vector<std::pair<const Thing*, double>> sums;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    if (!take.thing || !k.book.takes[t].there) continue;
    const Thing& thing = k.flow.things[*take.thing];
    const auto [entry, is_new] = at.emplace(text::fold(thing.label), sums.size());
    if (is_new) sums.emplace_back(&thing, 0.0);
    sums[entry->second].second += k.book.takes[t].kg * k.book.parts[take.origin.part].times;
  }
  std::vector<OrderLine> lines;
  for (const auto& [thing, kg] : sums) lines.push_back(order_line(*thing, kg));
  return lines;
}

Cost cost_of_serve(const Kitchen& k) {
  Cost cost;
  std::vector<std::string> missing;
  // Parts in the order in which they were compiled would do; takes are grouped so, users behind what they use.
  std::vector<double> of_basis(k.flow.parts.size(), 0.0);
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    if (!k.book.parts[take.origin.part].in_use || !k.book.takes[t].there) continue;
    if (take.made) {
      const double from_kg = k.book.parts[*take.made].finished_kg;
      if (from_kg > 0.0) of_basis[take.origin.part] += of_basis[*take.made] * k.book.takes[t].kg / from_kg;
      continue;
    }
    const Thing& thing = k.flow.things[*take.thing];
    const auto price = price_of(thing);
    if (!price) {
      if (std::find(missing.begin(), missing.end(), thing.label) == missing.end()) missing.push_back(thing.label);
      continue;
    }
    if (!price->currency.empty()) {
      if (!cost.currency.empty() && cost.currency != price->currency) cost.mixed_currencies = true;
      cost.currency = price->currency;
    }
    of_basis[take.origin.part] += price->per_kg * k.book.takes[t].kg;
  }
  cost.without_price = std::move(missing);
  if (cost.without_price.empty() && !cost.mixed_currencies) cost.per_serve = of_basis.back();
  return cost;
}

}  // namespace bloomset::sheet
