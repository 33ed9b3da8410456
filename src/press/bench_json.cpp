// press/bench_json.cpp - `dose`, `gelatin`, `charge` and `substitute` as JSON, in the contract's keys.
#include <cmath>

#include "press/json.hpp"
#include "press/press.hpp"
#include "sheet/charging.hpp"
#include "sheet/dosing.hpp"
#include "sheet/gelatin_swap.hpp"
#include "sheet/replacing.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json triple_json(const texture::Triple& t) {
  Json out = Json::object();
  out.set("low", t.low).set("nominal", t.nominal).set("high", t.high);
  return out;
}

Json words_json(const std::vector<std::string>& words) {
  return Json::array_of(words, [](const std::string& word) { return Json(word); });
}

Json leaf_json(const texture::LeafCount& leaf) {
  Json out = Json::object();
  out.set("pieces", leaf.pieces).set("mass_g", units::in_grams(leaf.mass)).set("percent_of_base", units::in_percent(leaf.dose));
  out.set("firmness_ratio", leaf.firmness.ratio).set("exact_for_base_g", units::in_grams(leaf.base_that_fits));
  return out;
}

Json leaves_json(const std::optional<texture::Leaves>& leaves) {
  if (!leaves) return {};
  Json out = Json::object();
  out.set("whole", leaf_json(leaves->whole)).set("half", leaf_json(leaves->half)).set("fewer", leaf_json(leaves->fewer)).set("more", leaf_json(leaves->more));
  return out;
}

Json water_json(const texture::BloomingWater& water) {
  return triple_json({units::in_grams(water.least), units::in_grams(water.usual), units::in_grams(water.most)});
}

Json stock_json(const std::optional<texture::Weighing>& weighing) {
  if (!weighing || !weighing->stock) return {};
  const texture::Stock& stock = *weighing->stock;
  Json out = Json::object();
  out.set("percent", units::in_percent(stock.strength)).set("agent_g", units::in_grams(stock.agent)).set("water_g", units::in_grams(stock.water));
  out.set("used_g", units::in_grams(stock.used)).set("water_saved_g", units::in_grams(stock.water_saved));
  return out;
}

Json rule_json(const sheet::GelatinSheet& sheet, const texture::Converted& rule) {
  Json out = Json::object();
  out.set("rule", texture::name(rule.rule)).set("mass_g", rule.mass ? Json(units::in_grams(*rule.mass)) : Json()).set("pieces", rule.pieces);
  out.set("firmness_ratio", sheet.firmness[static_cast<std::size_t>(rule.rule)]);
  return out;
}

Json form_json(const sheet::AgentForm& agent) {
  Json out = Json::object();
  out.set("agent", agent.label).set("bloom", agent.form.bloom).set("leaf_g", agent.form.leaf ? Json(units::in_grams(*agent.form.leaf)) : Json());
  return out;
}

Json candidate_json(const texture::Candidate& c) {
  Json out = Json::object();
  out.set("agent", texture::info(c.agent).name).set("mass_g", c.mass_g.nominal).set("band_g", triple_json(c.mass_g));
  out.set("method", words_json(c.method)).set("differs", words_json(c.differs)).set("gained", words_json(c.gained)).set("lost", words_json(c.lost));
  out.set("cautions", Json::array_of(c.causes, [](const texture::Cause& cause) { return Json(cause.says); }));
  return out;
}

Json refused_json(const texture::Refused& refused) {
  Json out = Json::object();
  out.set("agent", texture::info(refused.agent).name).set("why", refused.why);
  return out;
}

}  // namespace

std::string dose_json(const sheet::DoseSheet& sheet) {
  const texture::Dose& dose = sheet.dose;
  Json out = document();
  out.set("agent", sheet.agent.label).set("effect", texture::name(dose.effect)).set("base_kind", texture::name(dose.kind.kind));
  out.set("mass_g", triple_json(dose.mass_g))
      .set("percent_of_base", triple_json(dose.percent_of_base))
      .set("percent_of_total", triple_json(dose.percent_of_total));
  out.set("pieces", dose.pieces ? Json(dose.pieces->nominal) : Json()).set("leaves", leaves_json(dose.leaves));
  out.set("blooming_water_g", dose.blooming ? water_json(*dose.blooming) : Json()).set("stock", stock_json(dose.weighing));
  out.set("method", words_json(dose.method));
  out.set("vessel", sheet.siphon ? Json(sheet.siphon->vessel) : Json()).set("charges", sheet.siphon ? Json(sheet.siphon->charges) : Json());
  out.set("bottles", sheet.siphon ? Json(sheet.siphon->bottles) : Json()).set("fill_fraction", sheet.siphon ? Json(sheet.siphon->fill_fraction) : Json());
  out.set("notes", Json::array_of(dose.notes, [](const texture::Note& note) { return Json(note.says); }));
  out.set("findings", findings_json(sheet.findings, {}));
  return printed(out);
}

std::string gelatin_json(const sheet::GelatinSheet& sheet) {
  Json out = document();
  out.set("from", form_json(sheet.from)).set("to", form_json(sheet.to)).set("mass_g", units::in_grams(sheet.mass)).set("pieces", sheet.pieces);
  out.set("rules", Json::array_of(sheet.conversion.rules, [&](const texture::Converted& rule) { return rule_json(sheet, rule); }));
  out.set("chosen", texture::name(sheet.conversion.chosen)).set("firmness_spread", sheet.conversion.firmness_spread);
  out.set("blooming_water_g", water_json(sheet.blooming)).set("findings", findings_json(sheet.findings, {}));
  return printed(out);
}

std::string charge_json(const sheet::ChargeSheet& sheet) {
  const auto overrun = [&](double sheet::ChargeSheet::Overrun::*which) { return sheet.overrun_percent ? Json((*sheet.overrun_percent).*which) : Json(); };
  Json foam = Json::object(), span = Json::object(), out = document();
  foam.set("first", overrun(&sheet::ChargeSheet::Overrun::first))
      .set("mean", overrun(&sheet::ChargeSheet::Overrun::mean))
      .set("last", overrun(&sheet::ChargeSheet::Overrun::last));
  span.set("low", sheet.pressure_bar_gauge.low).set("high", sheet.pressure_bar_gauge.high);
  out.set("pressure_bar_abs", sheet.pressure_bar_abs)
      .set("pressure_bar_gauge", sheet.pressure_bar_gauge.nominal)
      .set("pressure_span_bar_gauge", std::move(span));
  out.set("unshaken_bar_gauge", sheet.unshaken_bar_gauge).set("warm_bar_gauge", sheet.warm_bar_gauge);
  out.set("dissolved_g", sheet.dissolved_g).set("headspace_g", sheet.headspace_g).set("liquefied_g", sheet.liquefied_g).set("gas_volumes", sheet.gas_volumes);
  out.set("overrun_percent", std::move(foam)).set("stays_ml", sheet.stays_ml);
  out.set("liquid_ml", sheet.liquid_ml).set("fill_limit_ml", sheet.fill_limit_ml);
  out.set("relative_solubility", sheet.relative_solubility).set("relative_solubility_uncertainty", sheet.relative_solubility_uncertainty);
  out.set("findings", findings_json(sheet.findings, {}));
  return printed(out);
}

std::string substitute_json(const sheet::ReplaceSheet& sheet, const base::Sources& sources) {
  const sheet::Replacement& part = sheet.parts.front();
  Json out = document();
  out.set("part", part.part).set("agent", part.label).set("effect", texture::name(part.effect)).set("mass_g", part.agent_g);
  out.set("percent_of_base", part.percent_of_base).set("base_g", part.base_g).set("base_kind", texture::name(part.kind.kind)).set("served_c", part.served_c);
  out.set("candidates", Json::array_of(part.answer.candidates, candidate_json)).set("refused", Json::array_of(part.answer.refused, refused_json));
  out.set("findings", findings_json(sheet.findings, sources));
  return printed(out);
}

}  // namespace bloomset::press
