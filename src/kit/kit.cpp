#include "kit/kit.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "kit/kit_reader.hpp"
#include "text/document.hpp"
#include "text/fold.hpp"

namespace bloomset::kit {

std::string_view embedded(std::string_view path);

namespace {

constexpr const char* built_in_name = "built-in kit";

base::Result<KitDocument> read(std::string name, std::string text, base::Sources& sources) {
  const std::uint32_t source = sources.add(std::move(name), std::move(text));
  auto tree = text::read_toml(source, sources);
  if (!tree) return tl::unexpected<base::Error>(std::move(tree.error()));
  text::Faults faults;
  KitDocument document = read_kit(*tree, faults);
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "the kit has faults", std::move(faults));
  return document;
}

// By name, case and accents folded.
template <class Item>
const Item* find(const std::vector<Item>& items, std::string_view name) {
  const std::string folded = text::fold(name);
  const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return text::fold(item.name) == folded; });
  return found == items.end() ? nullptr : &*found;
}

template <class Item>
void put(std::vector<Item>& items, Item item) {
  const std::string folded = text::fold(item.name);
  const auto found = std::find_if(items.begin(), items.end(), [&](const Item& other) { return text::fold(other.name) == folded; });
  if (found == items.end()) {
    items.push_back(std::move(item));
  } else {
    *found = std::move(item);
  }
}

}  // namespace

base::Result<Kit> Kit::built_in() {
  base::Sources sources;
  Kit kit;
  if (auto added = kit.add(built_in_name, std::string(embedded("kit/kit.toml")), sources); !added) {
    base::Error error = std::move(added.error());
    error.kind = base::ErrorKind::internal;
    return tl::unexpected<base::Error>(std::move(error));
  }
  return kit;
}

base::Result<void> Kit::add(std::string name, std::string text, base::Sources& sources) {
  const std::string from = name == built_in_name ? "" : name;
  auto document = read(std::move(name), std::move(text), sources);
  if (!document) return tl::unexpected<base::Error>(std::move(document.error()));
  for (Vessel& v : document->vessels) {
    v.from = from;
    put(vessels_, std::move(v));
  }
  for (Place& p : document->places) {
    p.from = from;
    put(places_, std::move(p));
  }
  if (document->room_c) room = units::celsius(*document->room_c);
  if (document->room_humidity_percent) room_humidity = *document->room_humidity_percent / 100.0;
  if (document->hands) hands = *document->hands;
  if (document->burners) burners = *document->burners;
  return {};
}

const Vessel* Kit::vessel(std::string_view name) const { return find(vessels_, name); }
const Place* Kit::place(std::string_view name) const { return find(places_, name); }

const Place* Kit::first_place(PlaceKind kind) const {
  const auto found = std::find_if(places_.begin(), places_.end(), [&](const Place& p) { return p.kind == kind; });
  return found == places_.end() ? nullptr : &*found;
}

const Vessel* Kit::first_vessel(VesselKind kind) const {
  const auto found = std::find_if(vessels_.begin(), vessels_.end(), [&](const Vessel& v) { return v.kind == kind; });
  return found == vessels_.end() ? nullptr : &*found;
}

std::optional<Vessel> Kit::plain_cylinder(std::string_view text) {
  const std::size_t comma = text.rfind(',');
  if (comma == std::string_view::npos || text::fold(text.substr(0, comma)).empty()) return std::nullopt;
  text::Cursor cursor{text.substr(comma + 1), {}, 0};
  while (cursor.rest().starts_with(" ")) ++cursor.at;
  text::Faults faults;
  const auto amount = text::read_amount(cursor, text::Measures::metric, faults);
  if (!amount || amount->kind != text::AmountKind::volume || amount->value.is_band() || !(amount->value.low > 0.0) || !cursor.rest().empty())
    return std::nullopt;
  // Height three radii, as a tumbler has: V = 3 pi r^3.
  constexpr double pi = 3.14159265358979323846;
  Vessel v;
  v.name = std::string(text);
  v.brim = {amount->value.low};
  const double radius_m = std::cbrt(v.brim.si / (3.0 * pi));
  v.inside = {{{0.0}, {radius_m}}, {{3.0 * radius_m}, {radius_m}}};
  v.source = "practice";
  return v;
}

std::vector<std::string> Kit::vessel_names() const {
  std::vector<std::string> names;
  for (const Vessel& v : vessels_) names.push_back(v.name);
  return names;
}

std::vector<std::string> Kit::place_names() const {
  std::vector<std::string> names;
  for (const Place& p : places_) names.push_back(p.name);
  return names;
}

std::string Kit::fingerprint() const {
  std::string out =
      "kit " + text::print_number(room.si, 9) + ' ' + text::print_number(room_humidity, 9) + ' ' + std::to_string(hands) + ' ' + std::to_string(burners) + '\n';
  const auto put_number = [&](double x) { out += ' ' + text::print_number(x, 12); };
  for (const Vessel& v : vessels_) {
    out += v.name + '\t' + v.source + '\t' + std::to_string(static_cast<int>(v.kind)) + (v.hot_rated ? 'h' : '-') + (v.pressure_rated ? 'p' : '-');
    for (const double x : {v.brim.si * 1e6, v.heat.si, v.holds_serves.value_or(0.0), v.fill_line.value_or(units::Volume{}).si * 1e6,
                           static_cast<double>(v.most_charges.value_or(0)), v.most_pressure.value_or(units::Pressure{}).si, v.film_w_m2_k.value_or(0.0)})
      put_number(x);
    for (const Outline& point : v.inside) {
      put_number(point.height.si * 1e3);
      put_number(point.radius.si * 1e3);
    }
    out += '\n';
  }
  for (const Place& p : places_) {
    out += p.name + '\t' + p.source + '\t' + std::to_string(static_cast<int>(p.kind));
    put_number(p.temperature.si);
    out += '\n';
  }
  return out;
}

}  // namespace bloomset::kit
