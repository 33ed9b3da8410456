#include "sheet/remedies.hpp"

#include <algorithm>
#include <cmath>

namespace bloomset::sheet {
namespace {

constexpr double least_ice_g = 20.0;  // a cube: less is no iced drink: practice
constexpr double ice_step_g = 5.0;    // as one writes amounts of ice: practice

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  return lines;
}

std::string_view trimmed(std::string_view line) {
  const auto from = line.find_first_not_of(" \t\r");
  return from == std::string_view::npos ? std::string_view{} : line.substr(from);
}

// Where `batches` may be written behind a part's name: its own line in a [[part]] table that has none yet.
std::optional<base::Edit> batches_edit(const Kitchen& k, const base::Span& name, const std::string& number) {
  if (name.source != k.in.formula.source || !name.known()) return std::nullopt;
  const auto lines = lines_of(k.in.formula_text);
  if (name.line > lines.size()) return std::nullopt;
  const std::string_view here = lines[name.line - 1];
  const std::size_t quote = name.column - 1 + name.length;
  if (quote >= here.size() || (here[quote] != '"' && here[quote] != '\'') || !trimmed(here).starts_with("name")) return std::nullopt;
  if (here.find("batches") != std::string_view::npos) return std::nullopt;
  for (std::size_t n = name.line; n < lines.size(); ++n) {
    const std::string_view line = trimmed(lines[n]);
    if (line.starts_with("batches")) return std::nullopt;
    if (line.starts_with("[")) break;
  }
  base::Span behind = name;
  behind.column = static_cast<std::uint32_t>(quote + 2);
  behind.length = 0;
  return base::Edit{behind, "\nbatches = " + number};
}

}  // namespace

base::Remedy set_batches(const Kitchen& k, std::size_t part, double batches) {
  const std::string number = text::print_number(batches, 6);
  return {"make " + number + (batches == 1.0 ? " batch" : " batches") + " of '" + k.flow.parts[part].name + "': batches = " + number,
          batches_edit(k, k.flow.parts[part].span, number)};
}

std::optional<base::Remedy> less_ice(const Kitchen& k, double over_ml, double drink_density_g_ml) {
  const std::size_t serve = k.flow.parts.size() - 1;
  std::optional<std::size_t> largest;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    const bool is_ice = take.origin.part == serve && take.thing && k.flow.things[*take.thing].is_ice() && k.book.takes[t].there;
    if (is_ice && take.written.kind == text::AmountKind::mass && (!largest || k.book.takes[t].kg > k.book.takes[*largest].kg)) largest = t;
  }
  if (!largest) return std::nullopt;
  const double grams = std::floor((k.book.takes[*largest].kg * 1e3 - over_ml * drink_density_g_ml) / ice_step_g) * ice_step_g;
  if (grams < least_ice_g) return std::nullopt;
  const text::Amount& written = k.flow.takes[*largest].written;
  base::Remedy remedy{"take " + text::print_number(grams) + " g of ice", std::nullopt};
  if (written.span.source == k.in.formula.source) remedy.edit = base::Edit{written.span, text::print_number(grams) + " g"};
  return remedy;
}

std::optional<base::Remedy> larger_glass(const Kitchen& k, double needed_ml) {
  const kit::Vessel* best = nullptr;
  for (const std::string& name : k.in.kit.vessel_names()) {
    const kit::Vessel* vessel = k.in.kit.vessel(name);
    if (vessel == nullptr || vessel->kind != kit::VesselKind::glass || units::in_millilitres(vessel->brim) < needed_ml) continue;
    if (best == nullptr || vessel->brim.si < best->brim.si) best = vessel;
  }
  if (best == nullptr || !k.in.formula.serve) return std::nullopt;
  base::Remedy remedy{"pour it into \"" + best->name + "\"", std::nullopt};
  const base::Span& written = k.in.formula.serve->vessel.span;
  if (written.known()) remedy.edit = base::Edit{written, best->name};
  return remedy;
}

std::optional<base::Remedy> heat_treated(const Kitchen& k, std::size_t part) {
  for (const flow::TakeInfo& take : k.flow.takes) {
    if (take.origin.part != part || !take.thing || !k.flow.things[*take.thing].live_enzyme) continue;
    if (take.span.source != k.in.formula.source || !take.span.known()) continue;
    const larder::Thing& thing = k.flow.things[*take.thing];
    for (const char* word : {"canned", "pasteurised"}) {
      std::vector<larder::Qualifier> bracket = thing.said;
      std::erase_if(bracket, [](const larder::Qualifier& said) { return said.name == "raw"; });
      if (bracket.size() != thing.said.size()) continue;  // "raw" would have to go from the text first
      bracket.push_back({word, std::nullopt, {}});
      const auto treated = k.in.larder.resolve(thing.name, bracket, {});
      if (!treated || treated->live_enzyme) continue;
      base::Span end = take.span;
      end.column += end.length - (thing.said.empty() ? 0 : 1);
      end.length = 0;
      return base::Remedy{"take " + treated->label, base::Edit{end, thing.said.empty() ? " (" + std::string(word) + ")" : ", " + std::string(word)}};
    }
  }
  return std::nullopt;
}

std::optional<base::Edit> bring_at(const Kitchen& k, const flow::TakeInfo& take, units::Temperature to) {
  const base::Span& inside = take.span;
  if (inside.source != k.in.formula.source || !inside.known() || inside.column < 3) return std::nullopt;
  const auto lines = lines_of(k.in.formula_text);
  if (inside.line > lines.size()) return std::nullopt;
  const std::string_view here = lines[inside.line - 1];
  const std::size_t open = inside.column - 2, close = inside.column - 1 + inside.length;
  if (close >= here.size() || here[open] != '"' || here[close] != '"') return std::nullopt;
  const std::size_t before = here.find_last_not_of(" \t", open - 1);
  if (before == std::string_view::npos || (here[before] != '[' && here[before] != ',')) return std::nullopt;
  base::Span whole = inside;
  whole.column -= 1;
  whole.length += 2;
  return base::Edit{whole, "{ take = \"" + std::string(here.substr(open + 1, inside.length)) + "\", at = \"" +
                               text::print_number(std::ceil(units::in_celsius(to))) + " C\" }"};
}

}  // namespace bloomset::sheet
