// press/scatter_json.cpp - `scatter` as JSON, in the contract's keys and what stands beside them.
#include <array>
#include <set>

#include "press/json.hpp"
#include "press/press.hpp"
#include "solve/scatter.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json hold_json(const solve::Hold& hold) {
  Json out = Json::object();
  const bool code = !hold.code.empty();
  out.set("target", code ? Json() : Json(hold.target))
      .set("code", code ? Json(hold.code) : Json())
      .set("share", hold.share)
      .set("error", hold.error)
      .set("draws", hold.draws);
  return out;
}

Json cause_json(const solve::Cause& cause) {
  Json out = Json::object();
  out.set("knob", cause.words).set("of", matter::key(cause.of));
  out.set("first_order", cause.index.first).set("first_order_error", cause.index.first_error);
  out.set("total", cause.index.total).set("total_error", cause.index.total_error);
  return out;
}

Json rests_json(const solve::Rests& rests) {
  const auto share = [&](flow::Ground ground) { return rests.on[static_cast<std::size_t>(ground)].first; };
  Json out = Json::object();
  out.set("of", matter::key(rests.of)).set("document", share(flow::Ground::document)).set("published", share(flow::Ground::published));
  out.set("memory", share(flow::Ground::memory)).set("practice", share(flow::Ground::practice));
  return out;
}

std::string_view name(flow::Ground ground) {
  constexpr std::array<std::string_view, flow::ground_count> names = {"document", "published", "memory", "practice"};
  return names[static_cast<std::size_t>(ground)];
}

// Who says how far a cause swings: one row a cause and source.
Json varies_json(const solve::ScatterSheet& sheet) {
  std::set<std::pair<std::string, std::string>> told;
  Json rows = Json::array();
  for (const flow::Variation& v : sheet.variation) {
    if (!told.emplace(v.cause, v.source).second) continue;
    Json row = Json::object();
    row.set("knob", v.cause).set("law", v.law == flow::Law::lognormal ? "lognormal" : "normal").set("rests_on", name(v.ground)).set("source", v.source);
    rows.push(std::move(row));
  }
  return rows;
}

}  // namespace

Json spread_json(const solve::PropertySpread& row) {
  Json out = Json::object();
  out.set("where", row.where).set("key", matter::key(row.property));
  out.set("p05", row.spread.p05).set("p50", row.spread.p50).set("p95", row.spread.p95).set("error", row.spread.error);
  out.set("mean", row.spread.mean).set("deviation", row.spread.deviation).set("draws", row.spread.draws);
  return out;
}

std::string scatter_json(const solve::ScatterSheet& sheet, const base::Sources& sources) {
  Json out = document();
  out.set("title", sheet.title).set("draws", sheet.draws).set("seed", sheet.seed).set("pairs", sheet.pairs);
  out.set("says", sheet.says.empty() ? Json() : Json(sheet.says)).set("place", sheet.place);
  out.set("properties", Json::array_of(sheet.properties, spread_json)).set("holds", Json::array_of(sheet.holds, hold_json));
  out.set("causes", Json::array_of(sheet.causes, cause_json)).set("rests_on", Json::array_of(sheet.rests, rests_json));
  out.set("varies", varies_json(sheet));
  out.set("findings", findings_json(sheet.findings, sources));
  return printed(out);
}

}  // namespace bloomset::press
