#include "kit/kit_reader.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "kit/outline.hpp"
#include "text/fold.hpp"

namespace bloomset::kit {
namespace {

template <class Kind>
struct Named {
  std::string_view name;
  Kind kind;
};
constexpr std::array<Named<VesselKind>, 8> vessel_kinds = {{{"glass", VesselKind::glass},
                                                            {"shaker", VesselKind::shaker},
                                                            {"mixing_glass", VesselKind::mixing_glass},
                                                            {"blender", VesselKind::blender},
                                                            {"siphon", VesselKind::siphon},
                                                            {"bottle", VesselKind::bottle},
                                                            {"pan", VesselKind::pan},
                                                            {"tray", VesselKind::tray}}};
constexpr std::array<Named<PlaceKind>, 6> place_kinds = {{{"still_fridge", PlaceKind::still_fridge},
                                                          {"fan_fridge", PlaceKind::fan_fridge},
                                                          {"freezer", PlaceKind::freezer},
                                                          {"ice_bath", PlaceKind::ice_bath},
                                                          {"water_bath", PlaceKind::water_bath},
                                                          {"room", PlaceKind::room}}};

void fault(text::Faults& faults, base::Span span, std::string code, std::string message, std::string hint = {}) {
  faults.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
}

// One table of the document, its numbers asked for with the band in which they make sense.
struct Entry {
  const text::Node& node;
  text::Fields fields;
  text::Faults& faults;

  Entry(const text::Node& table, std::string what, const std::vector<std::string>& known, text::Faults& out)
      : node(table), fields(table, std::move(what), known, out), faults(out) {}

  std::string text(std::string_view key, std::string_view hint) const {
    if (!fields.require(key, hint)) return {};
    const text::Node* value = fields.string(key);
    if (value == nullptr) return {};
    if (text::fold(value->string).empty()) fault(faults, value->span, "empty_text", "`" + value->key + "` may not be empty");
    return value->string;
  }
  std::optional<double> number(std::string_view key, double low, double high) const {
    const text::Node* value = fields.number(key);
    if (value == nullptr) return std::nullopt;
    if (value->number >= low && value->number <= high) return value->number;
    fault(faults, value->span, "out_of_range",
          "`" + value->key + "` is " + text::print_number(value->number) + ", allowed is " + text::print_number(low) + " to " + text::print_number(high));
    return std::nullopt;
  }
  bool flag(std::string_view key, bool otherwise) const {
    const text::Node* value = fields.boolean(key);
    return value == nullptr ? otherwise : value->boolean;
  }
  template <class Kind, std::size_t n>
  std::optional<Kind> one_of(const std::array<Named<Kind>, n>& kinds) const {
    if (!fields.require("kind")) return std::nullopt;
    const text::Node* value = fields.string("kind");
    if (value == nullptr) return std::nullopt;
    std::vector<std::string> names;
    for (const auto& row : kinds) {
      if (row.name == value->string) return row.kind;
      names.emplace_back(row.name);
    }
    std::string hint = "one of:";
    for (const std::string& name : names) hint += (name == names.front() ? " " : ", ") + name;
    const std::string near = base::nearest(value->string, names);
    fault(faults, value->span, "unknown_kind", "`" + value->string + "` is not a kind the kit knows", near.empty() ? hint : "did you mean `" + near + "`?");
    return std::nullopt;
  }
};

std::vector<Outline> read_outline(const text::Node& list, text::Faults& faults) {
  std::vector<Outline> points;
  for (const text::Node& item : list.items) {
    const bool pair = item.is(text::NodeKind::array) && item.items.size() == 2 && std::isfinite(item.items[0].number) && std::isfinite(item.items[1].number) &&
                      !item.items[0].is(text::NodeKind::string) && !item.items[1].is(text::NodeKind::string);
    if (!pair) {
      fault(faults, item.span, "bad_outline", "a point of `inside_mm` is [height, radius] in millimetres");
      return {};
    }
    const double height = item.items[0].number, radius = item.items[1].number;
    if (height < 0.0 || height > 1000.0 || radius < 0.0 || radius > 500.0 || (!points.empty() && height <= points.back().height.si * 1e3)) {
      fault(faults, item.span, "bad_outline", "heights of `inside_mm` must rise from 0 to at most 1000, radii lie in 0 to 500 millimetres");
      return {};
    }
    points.push_back({units::millimetres(height), units::millimetres(radius)});
  }
  if (points.size() < 2 || points.front().height.si != 0.0) {
    fault(faults, list.span, "bad_outline", "`inside_mm` needs at least two points, the first at height 0");
    return {};
  }
  return points;
}

std::optional<Vessel> read_vessel(const text::Node& node, text::Faults& faults) {
  static const std::vector<std::string> keys = {
      "name",      "kind",           "brim_ml",     "inside_mm", "heat_j_k", "holds_serves", "fill_line_ml", "most_charges", "most_pressure_bar_gauge",
      "hot_rated", "pressure_rated", "film_w_m2_k", "source"};
  const std::size_t before = faults.size();
  const Entry entry(node, "a vessel", keys, faults);
  Vessel v;
  v.name = entry.text("name", "as formulas will write it");
  v.source = entry.text("source", "say where its figures come from: the maker's leaf, own weighing, a guess");
  v.kind = entry.one_of(vessel_kinds).value_or(VesselKind::glass);
  if (const text::Node* outline = entry.fields.array("inside_mm")) v.inside = read_outline(*outline, faults);
  const auto brim = entry.number("brim_ml", 1.0, 200000.0);
  if (brim) v.brim = units::millilitres(*brim);
  if (!brim && !v.inside.empty()) v.brim = volume_inside(v.inside);
  if (!brim && v.inside.empty() && faults.size() == before) fault(faults, node.span, "missing_key", "a vessel must have `brim_ml` or `inside_mm`");
  if (brim && !v.inside.empty()) {
    const double inside_ml = units::in_millilitres(volume_inside(v.inside));
    if (std::abs(inside_ml / *brim - 1.0) > 0.01)
      fault(faults, entry.fields.any("inside_mm")->span, "outline_and_brim",
            "the outline holds " + text::print_number(inside_ml) + " mL, `brim_ml` says " + text::print_number(*brim),
            "they must agree within 1 %; leave one out");
  }
  v.heat = {entry.number("heat_j_k", 0.0, 100000.0).value_or(0.0)};
  v.film_w_m2_k = entry.number("film_w_m2_k", 0.1, 100.0);
  v.holds_serves = entry.number("holds_serves", 0.1, 1000.0);
  if (const auto line = entry.number("fill_line_ml", 1.0, 200000.0)) {
    v.fill_line = units::millilitres(*line);
    if (v.brim.si > 0.0 && v.fill_line->si > v.brim.si)
      fault(faults, entry.fields.any("fill_line_ml")->span, "out_of_range", "the fill line lies above the brim");
  }
  if (const text::Node* charges = entry.fields.integer("most_charges")) {
    if (charges->integer < 1 || charges->integer > 20) {
      fault(faults, charges->span, "out_of_range", "`most_charges` must be 1 to 20");
    } else {
      v.most_charges = static_cast<int>(charges->integer);
    }
  }
  if (const auto bar = entry.number("most_pressure_bar_gauge", 0.1, 100.0)) v.most_pressure = units::bar_gauge(*bar);
  v.hot_rated = entry.flag("hot_rated", true);
  v.pressure_rated = entry.flag("pressure_rated", false);
  if (faults.size() != before) return std::nullopt;
  return v;
}

std::optional<Place> read_place(const text::Node& node, text::Faults& faults) {
  static const std::vector<std::string> keys = {"name", "kind", "temperature_c", "source"};
  const std::size_t before = faults.size();
  const Entry entry(node, "a place", keys, faults);
  Place p;
  p.name = entry.text("name", "as formulas will write it");
  p.source = entry.text("source", "say where its temperature comes from: a thermometer, the dial, a guess");
  p.kind = entry.one_of(place_kinds).value_or(PlaceKind::room);
  entry.fields.require("temperature_c");
  p.temperature = units::celsius(entry.number("temperature_c", -80.0, 100.0).value_or(20.0));
  if (faults.size() != before) return std::nullopt;
  return p;
}

template <class Item, class Read>
void read_list(const text::Node* list, const std::string& what, std::vector<Item>& out, Read read, text::Faults& faults) {
  if (list == nullptr) return;
  std::vector<std::string> seen;
  for (const text::Node& node : list->items) {
    if (!node.is(text::NodeKind::table)) {
      text::fault_kind(faults, node, "a table", "write it as [[" + what + "]]");
      continue;
    }
    auto item = read(node, faults);
    if (!item) continue;
    const std::string name = text::fold(item->name);
    for (const std::string& other : seen)
      if (other == name) fault(faults, node.find("name")->span, "twice", "\"" + item->name + "\" stands twice in this kit");
    seen.push_back(name);
    out.push_back(std::move(*item));
  }
}

}  // namespace

std::string_view name(VesselKind kind) {
  const auto row = std::find_if(vessel_kinds.begin(), vessel_kinds.end(), [kind](const auto& one) { return one.kind == kind; });
  return row->name;
}

std::string_view name(PlaceKind kind) {
  const auto row = std::find_if(place_kinds.begin(), place_kinds.end(), [kind](const auto& one) { return one.kind == kind; });
  return row->name;
}

KitDocument read_kit(const text::Node& root, text::Faults& faults) {
  static const std::vector<std::string> keys = {"hands", "burners", "room_c", "room_humidity_percent", "vessel", "place"};
  const Entry entry(root, "a kit", keys, faults);
  KitDocument document;
  document.room_c = entry.number("room_c", -10.0, 50.0);
  document.room_humidity_percent = entry.number("room_humidity_percent", 0.0, 100.0);
  const auto count = [&](std::string_view key, long long least) -> std::optional<int> {
    const text::Node* value = entry.fields.integer(key);
    if (value == nullptr) return std::nullopt;
    if (value->integer >= least && value->integer <= 1000) return static_cast<int>(value->integer);
    fault(faults, value->span, "out_of_range", "`" + value->key + "` must be " + std::to_string(least) + " to 1000");
    return std::nullopt;
  };
  document.hands = count("hands", 1);
  document.burners = count("burners", 0);
  read_list(entry.fields.array("vessel"), "vessel", document.vessels, read_vessel, faults);
  read_list(entry.fields.array("place"), "place", document.places, read_place, faults);
  return document;
}

}  // namespace bloomset::kit
