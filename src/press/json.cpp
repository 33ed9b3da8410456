#include "press/json.hpp"

#include "press/press.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::press {
namespace {

using text::Json;

// "Not there" is null: an empty name, step or take 0, a place unknown.
Json known(const std::string& word) { return word.empty() ? Json() : Json(word); }
Json known(std::uint32_t number) { return number == 0 ? Json() : Json(number); }

Json edit_json(const base::Edit& edit) {
  Json out = Json::object();
  out.set("line", edit.place.line).set("column", edit.place.column).set("length", edit.place.length).set("text", edit.text);
  return out;
}

Json remedy_json(const base::Remedy& remedy) {
  Json out = Json::object();
  out.set("says", remedy.says).set("edit", remedy.edit ? edit_json(*remedy.edit) : Json());
  return out;
}

Json where_json(const base::Where& where, const base::Sources& sources) {
  const bool placed = where.span.known();
  Json out = Json::object();
  out.set("part", known(where.part)).set("step", known(where.step)).set("take", known(where.take)).set("property", known(where.property));
  out.set("file", placed ? Json(sources.name(where.span.source)) : Json()).set("line", known(where.span.line)).set("column", known(where.span.column));
  return out;
}

Json loss_json(const sheet::LossLine& loss) {
  Json out = Json::object();
  out.set("kind", loss.kind).set("step", loss.step).set("mass_g", loss.mass_g);
  return out;
}

Json take_json(const sheet::TakeLine& take) {
  Json out = Json::object();
  out.set("thing", take.thing).set("step", take.step).set("mass_g", take.mass_g).set("volume_ml", take.volume_ml).set("pieces", take.pieces);
  out.set("percent_of_base", take.percent_of_base).set("percent_of_total", take.percent_of_total).set("measure", known(take.measure));
  out.set("written", take.written);
  return out;
}

Json agent_json(const sheet::AgentLine& agent) {
  Json out = Json::object();
  out.set("agent", agent.thing).set("mass_g", agent.mass_g).set("percent_of_base", agent.percent_of_base).set("percent_of_total", agent.percent_of_total);
  out.set("effect", known(agent.effect)).set("dose_is", known(agent.dose_is));
  out.set("sets_at_c", agent.sets_at_c).set("melts_at_c", agent.melts_at_c);
  out.set("gel_class", known(agent.gel_class)).set("verdict", known(agent.verdict));
  return out;
}

Json step_json(const sheet::StepLine& step) {
  Json out = Json::object();
  out.set("do", step.act).set("vessel", known(step.vessel)).set("place", known(step.place));
  set_properties(out, step.after);
  out.set("seconds", step.seconds);
  return out;
}

Json siphon_json(const sheet::SiphonLine& siphon) {
  Json overrun = Json::object(), out = Json::object();
  overrun.set("first", siphon.overrun_first).set("mean", siphon.overrun_mean).set("last", siphon.overrun_last);
  out.set("vessel", siphon.vessel).set("fill_fraction", siphon.fill_fraction).set("charges", siphon.charges);
  out.set("pressure_peak_bar_gauge", siphon.peak_bar_gauge).set("pressure_at_service_bar_gauge", siphon.at_service_bar_gauge);
  out.set("overrun_percent", std::move(overrun)).set("portions", siphon.portions);
  return out;
}

Json ratio_json(const std::optional<sheet::Ratio>& ratio) {
  if (!ratio) return {};
  Json out = Json::object();
  out.set("parts", Json::array_of(ratio->parts, [](double n) { return Json(n); }));
  out.set("things", Json::array_of(ratio->things, [](const std::string& thing) { return Json(thing); }));
  return out;
}

Json part_json(const sheet::PartSheet& part) {
  Json out = Json::object();
  out.set("name", part.name).set("made", part.ahead ? "ahead" : "to order");
  set_properties(out, part.values);
  out.set("batch_mass_g", part.batch_mass_g).set("used_per_serve_g", part.used_per_serve_g).set("batches", part.batches).set("rounds", part.rounds);
  out.set("left_over_g", part.left_over_g).set("short_g", part.short_g);
  out.set("losses", Json::array_of(part.losses, loss_json))
      .set("takes", Json::array_of(part.takes, take_json))
      .set("steps", Json::array_of(part.steps, step_json))
      .set("ratio", ratio_json(part.ratio));
  out.set("agents", Json::array_of(part.agents, agent_json))
      .set("siphon", part.siphon ? siphon_json(*part.siphon) : Json())
      .set("ready_after_h", part.ready_after_h)
      .set("keeps_h", part.keeps_h);
  return out;
}

Json ribbon_json(const sheet::Ribbon& ribbon) {
  Json out = Json::object();
  out.set("id", ribbon.id)
      .set("from", ribbon.from)
      .set("to", ribbon.to)
      .set("mass_g", ribbon.mass_g)
      .set("temperature_c", ribbon.temperature_c)
      .set("look", ribbon.look);
  return out;
}

Json properties_json(const matter::Values& values) {
  Json out = Json::object();
  set_properties(out, values);
  return out;
}

Json glass_json(const sheet::GlassAt& at) {
  Json out = Json::object();
  out.set("minute", at.minute);
  set_properties(out, at.values);
  return out;
}

Json vessel_json(const sheet::ServeSheet& serve) {
  Json out = Json::object();
  out.set("name", serve.vessel).set("brim_ml", serve.brim_ml);
  out.set("inside_mm", Json::array_of(serve.inside_mm, [](const auto& point) {
            Json pair = Json::array();
            pair.push(point.first).push(point.second);
            return pair;
          }));
  return out;
}

Json serve_json(const sheet::ServeSheet& serve) {
  Json drinks = Json::object();
  drinks.set("us", serve.standard_drinks.us).set("uk", serve.standard_drinks.uk).set("au", serve.standard_drinks.au).set("eu", serve.standard_drinks.eu);
  Json out = Json::object();
  out.set("at_service", properties_json(serve.at_service))
      .set("merged", properties_json(serve.merged))
      .set("over_time", Json::array_of(serve.over_time, glass_json));
  out.set("headroom_ml", serve.headroom_ml)
      .set("beside_g", serve.beside_g)
      .set("solids_g", serve.solids_g)
      .set("cost", serve.cost)
      .set("vessel", vessel_json(serve));
  out.set("takes", Json::array_of(serve.takes, take_json))
      .set("steps", Json::array_of(serve.steps, step_json))
      .set("ratio", ratio_json(serve.ratio))
      .set("losses", Json::array_of(serve.losses, loss_json));
  out.set("ready_after_h", serve.ready_after_h)
      .set("standard_drinks", std::move(drinks))
      .set("allergens", Json::array_of(serve.allergens, [](const std::string& code) { return Json(code); }));
  return out;
}

Json order_json(const sheet::OrderLine& line) {
  Json out = Json::object();
  out.set("thing", line.thing).set("mass_g", line.mass_g).set("volume_ml", line.volume_ml).set("pieces", line.pieces).set("note", known(line.note));
  out.set("cost", line.cost).set("currency", known(line.currency));
  return out;
}

Json service_json(const std::optional<sheet::Service>& service) {
  if (!service) return {};
  Json out = Json::object();
  out.set("rounds", service->rounds).set("seconds", service->seconds);
  out.set("ice_in_tins_g", service->ice_in_tins_g).set("ice_in_glasses_g", service->ice_in_glasses_g);
  out.set("bottles", Json::array_of(service->bottles, [](const sheet::Service::Bottles& of) {
            Json one = Json::object();
            one.set("part", of.part).set("vessel", of.vessel).set("bottles", of.bottles).set("charges", of.charges);
            return one;
          }));
  return out;
}

Json balance_json(const sheet::Balance& balance) {
  Json out = Json::object();
  out.set("in_g", balance.in_g).set("served_g", balance.served_g).set("stays_g", balance.stays_g).set("lost_g", balance.lost_g).set("gas_g", balance.gas_g);
  return out;
}

}  // namespace

Json document() {
  Json out = Json::object();
  out.set("schema", 1);
  return out;
}

void set_properties(Json& object, const matter::Values& values) {
  for (std::size_t i = 0; i < matter::property_count; ++i) {
    const auto property = static_cast<matter::Property>(i);
    object.set(std::string(matter::key(property)), values[property]);
  }
}

Json finding_json(const base::Finding& finding, const base::Sources& sources) {
  Json out = Json::object();
  out.set("code", base::name(finding.code)).set("severity", base::name(finding.weight)).set("where", where_json(finding.where, sources));
  out.set("says", finding.says).set("why", finding.why).set("source", finding.source);
  out.set("remedies", Json::array_of(finding.remedies, remedy_json)).set("from_serves", finding.from_serves);
  return out;
}

Json findings_json(const std::vector<base::Finding>& findings, const base::Sources& sources) {
  return Json::array_of(findings, [&](const base::Finding& f) { return finding_json(f, sources); });
}

Json target_json(const sheet::TargetLine& target) {
  Json out = Json::object();
  out.set("target", target.target).set("value", target.value).set("met", target.met).set("until_minute", target.until_minute);
  return out;
}

Json fault_json(const base::Diagnostic& fault, const base::Sources& sources) {
  const bool placed = fault.span.known() && fault.span.source < sources.size();
  Json out = Json::object();
  out.set("code", fault.code).set("message", fault.message).set("hint", known(fault.hint)).set("file", placed ? Json(sources.name(fault.span.source)) : Json());
  out.set("line", placed ? Json(fault.span.line) : Json())
      .set("column", placed ? Json(fault.span.column) : Json())
      .set("length", placed ? Json(fault.span.length) : Json());
  return out;
}

std::string printed(const Json& json) { return json.print(2) + "\n"; }

std::string sheet_json(const sheet::Sheet& sheet, const base::Sources& sources, const Whiskers& whiskers) {
  Json out = document();
  out.set("title", sheet.title)
      .set("serves", sheet.serves)
      .set("parts", Json::array_of(sheet.parts, part_json))
      .set("streams", Json::array_of(sheet.streams, ribbon_json));
  out.set("serve", sheet.serve ? serve_json(*sheet.serve) : Json()).set("order", Json::array_of(sheet.order, order_json));
  out.set("service", service_json(sheet.service));
  out.set("findings", findings_json(sheet.findings, sources)).set("targets", Json::array_of(sheet.targets, target_json));
  out.set("balance", balance_json(sheet.balance)).set("digest", sheet.digest);
  if (!whiskers.empty()) out.set("scatter", Json::array_of(whiskers, spread_json));
  return printed(out);
}

std::string mixture_json(const sheet::MixtureSheet& sheet) {
  Json out = document();
  set_properties(out, sheet.values);
  out.set("findings", findings_json(sheet.findings, {}));
  return printed(out);
}

std::string chill_json(const sheet::ChillSheet& sheet) {
  Json out = document();
  set_properties(out, sheet.values);
  out.set("melted_g", sheet.melted_g).set("ice_left_g", sheet.ice_left_g);
  out.set("dilution_percent_of_initial_mass", sheet.dilution_percent_of_initial_mass);
  out.set("dilution_percent_of_initial_volume", sheet.dilution_percent_of_initial_volume);
  out.set("findings", findings_json(sheet.findings, {}));
  return printed(out);
}

}  // namespace bloomset::press
