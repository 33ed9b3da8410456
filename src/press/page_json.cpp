#include "press/page_json.hpp"

#include <algorithm>

#include "flow/compile.hpp"
#include "matter/component.hpp"
#include "press/json.hpp"
#include "sheet/names.hpp"
#include "sheet/probe.hpp"
#include "text/line_diff.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json texts_json(const std::vector<std::string>& texts) {
  return Json::array_of(texts, [](const std::string& one) { return Json(one); });
}

Json unless_empty(const std::string& text) { return text.empty() ? Json() : Json(text); }

Json faults_of(const std::vector<base::Diagnostic>& faults, const base::Sources& sources) {
  return Json::array_of(faults, [&](const base::Diagnostic& fault) { return fault_json(fault, sources); });
}

Json line_json(const sheet::LineRead& line, const base::Sources& sources) {
  Json out = Json::object();
  out.set("written", line.written).set("read", !line.take.empty()).set("known", line.known);
  out.set("amount", unless_empty(line.amount)).set("thing", unless_empty(line.thing)).set("nearest", texts_json(line.nearest));
  out.set("fault", line.fault ? fault_json(*line.fault, sources) : Json());
  return out;
}

// Numbers of a row in the wire's units; those it lacks are null.
Json numbers_json(const larder::Listing& row, const larder::Thing& thing) {
  const auto number = [&](std::string_view key) -> std::optional<double> {
    const auto at = std::find_if(row.numbers.begin(), row.numbers.end(), [key](const auto& one) { return one.first == key; });
    return at == row.numbers.end() ? std::nullopt : std::optional(at->second);
  };
  const double density = thing.density_20c.si;
  const auto acid_g_l = number("acid_g_l");
  Json out = Json::object();
  out.set("brix", number("brix")).set("acid_percent", acid_g_l && density > 0.0 ? Json(*acid_g_l / density * 100.0) : Json()).set("ph", number("ph"));
  out.set("strength_percent", number("strength")).set("density_kg_m3", density > 0.0 ? Json(density) : Json());
  out.set("piece_g", number("piece_g")).set("storage_c", thing.storage_c);
  const auto yield = number("yield");
  out.set("yield_percent", yield ? Json(*yield * 100.0) : Json()).set("co2_g_l", number("co2_g_l")).set("bloom", number("bloom"));
  return out;
}

Json composition_json(const matter::Composition& per_kg) {
  Json out = Json::array();
  for (std::size_t i = 0; i < matter::component_count; ++i) {
    const auto component = static_cast<matter::Component>(i);
    if (per_kg[component] == 0.0) continue;
    Json share = Json::object();
    share.set("component", matter::info(component).name).set("percent", per_kg[component] * 100.0);
    out.push(std::move(share));
  }
  return out;
}

Json pack_json(const std::optional<larder::Pack>& pack) {
  if (!pack) return {};
  Json out = Json::object();
  out.set("mass_g", pack->mass ? Json(units::in_grams(*pack->mass)) : Json())
      .set("volume_ml", pack->volume ? Json(units::in_millilitres(*pack->volume)) : Json());
  out.set("price", pack->price > 0.0 ? Json(pack->price) : Json()).set("currency", unless_empty(pack->currency));
  return out;
}

Json varies_json(const larder::Variability& varies) {
  Json out = Json::object();
  out.set("property", varies.property).set("width", varies.width).set("relative", varies.relative).set("source", varies.source);
  return out;
}

Json thing_json(const larder::Listing& row, const larder::Thing& thing) {
  Json out = Json::object();
  out.set("name", row.name).set("also", texts_json(row.also)).set("family", larder::name(thing.family)).set("from", unless_empty(row.from));
  out.set("source", thing.source).set("solid", thing.solid).set("numbers", numbers_json(row, thing)).set("composition", composition_json(thing.per_kg));
  out.set("allergens", texts_json(thing.allergens)).set("allergens_known", thing.allergens_known).set("pack", pack_json(thing.pack));
  out.set("varies", Json::array_of(thing.varies, varies_json)).set("assumptions", texts_json(thing.assumptions));
  out.set("live_enzyme", thing.live_enzyme).set("raw_egg", thing.raw_egg);
  return out;
}

Json outline_points(const std::vector<kit::Outline>& inside) {
  return Json::array_of(inside, [](const kit::Outline& point) {
    Json pair = Json::array();
    pair.push(point.height.si * 1e3).push(point.radius.si * 1e3);
    return pair;
  });
}

Json kit_vessel_json(const kit::Vessel& vessel) {
  Json out = Json::object();
  out.set("name", vessel.name).set("kind", kit::name(vessel.kind)).set("brim_ml", units::in_millilitres(vessel.brim));
  out.set("inside_mm", outline_points(vessel.inside)).set("heat_j_k", vessel.heat.si > 0.0 ? Json(vessel.heat.si) : Json());
  out.set("holds_serves", vessel.holds_serves).set("fill_line_ml", vessel.fill_line ? Json(units::in_millilitres(*vessel.fill_line)) : Json());
  out.set("most_charges", vessel.most_charges);
  out.set("most_pressure_bar", vessel.most_pressure ? Json(units::in_bar_gauge(*vessel.most_pressure)) : Json());
  out.set("hot_rated", vessel.hot_rated).set("pressure_rated", vessel.pressure_rated).set("source", vessel.source).set("from", unless_empty(vessel.from));
  return out;
}

Json kit_place_json(const kit::Place& place) {
  Json out = Json::object();
  out.set("name", place.name).set("kind", kit::name(place.kind)).set("temperature_c", units::in_celsius(place.temperature));
  out.set("source", place.source).set("from", unless_empty(place.from));
  return out;
}

std::vector<base::Diagnostic> formula_faults(const std::string& name, const std::string& text, base::Sources& sources, const larder::Larder& larder,
                                             const kit::Kit& kit, const formula::Borrower& borrower) {
  auto formula = formula::read(name, text, sources, borrower);
  if (!formula) return formula.error().diagnostics;
  std::vector<base::Diagnostic> faults = sheet::target_faults(*formula);
  if (auto flow = flow::compile(*formula, larder, kit); !flow) faults.insert(faults.begin(), flow.error().diagnostics.begin(), flow.error().diagnostics.end());
  return faults;
}

}  // namespace

Json lines_json(const sheet::LinesRead& read, const std::string& lines) {
  base::Sources sources;
  sources.add("lines", lines);
  Json out = document();
  out.set("lines", Json::array_of(read.lines, [&](const sheet::LineRead& line) { return line_json(line, sources); })).set("text", read.text);
  return out;
}

Json compare_json(std::string_view before, std::string_view after) {
  Json out = document();
  out.set("rows", Json::array_of(text::line_diff(before, after), [](const text::LineRow& row) {
            Json line = Json::object();
            line.set("kind", text::name(row.kind)).set("before", row.before).set("after", row.after);
            return line;
          }));
  return out;
}

Json larder_json(const larder::Larder& larder) {
  Json things = Json::array();
  for (const larder::Listing& row : larder.listing())
    if (const auto thing = larder.resolve(row.name, {}, {})) things.push(thing_json(row, *thing));
  Json out = document();
  out.set("things", std::move(things));
  return out;
}

Json kit_json(const kit::Kit& kit) {
  Json out = document();
  out.set("room_c", units::in_celsius(kit.room)).set("humidity", kit.room_humidity).set("hands", kit.hands).set("burners", kit.burners);
  out.set("vessels", Json::array_of(kit.vessels(), kit_vessel_json)).set("places", Json::array_of(kit.places(), kit_place_json));
  return out;
}

Json names_json(const larder::Larder& larder, std::string_view words, std::size_t most) {
  const std::vector<larder::Listing> rows = larder.listing();
  std::vector<std::string> names;
  std::vector<std::size_t> row_of;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    names.push_back(rows[r].name);
    names.insert(names.end(), rows[r].also.begin(), rows[r].also.end());
    row_of.resize(names.size(), r);
  }
  Json things = Json::array();
  for (const std::size_t i : sheet::best_names(words, names, most)) {
    const auto thing = larder.resolve(rows[row_of[i]].name, {}, {});
    Json line = Json::object();
    line.set("name", names[i]).set("family", thing ? larder::name(thing->family) : std::string_view("other"));
    things.push(std::move(line));
  }
  Json out = document();
  out.set("things", std::move(things));
  return out;
}

Json draft_json(const larder::Draft& thing, const larder::Larder& in_force) {
  const std::string text = larder::draft(thing);
  larder::Larder trial = in_force;
  base::Sources sources;
  const auto added = trial.add("draft", text, sources);
  Json out = document();
  out.set("text", text).set("faults", added ? Json::array() : faults_of(added.error().diagnostics, sources));
  return out;
}

Json read_json(ReadKind kind, const std::string& name, const std::string& text, const larder::Larder& larder, const kit::Kit& kit,
               const formula::Borrower& borrower) {
  base::Sources sources;
  std::vector<base::Diagnostic> faults;
  if (kind == ReadKind::larder) {
    larder::Larder trial = larder;
    if (auto added = trial.add(name, text, sources); !added) faults = std::move(added.error().diagnostics);
  } else if (kind == ReadKind::kit) {
    kit::Kit trial = kit;
    if (auto added = trial.add(name, text, sources); !added) faults = std::move(added.error().diagnostics);
  } else {
    faults = formula_faults(name, text, sources, larder, kit, borrower);
  }
  Json out = document();
  out.set("faults", faults_of(faults, sources));
  return out;
}

}  // namespace bloomset::press
