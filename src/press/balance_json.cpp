// press/balance_json.cpp - `balance` as JSON, in the contract's keys.
#include "press/json.hpp"
#include "press/press.hpp"
#include "solve/balance.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json amount_json(const solve::AmountLine& amount) {
  Json out = Json::object();
  out.set("thing", amount.thing).set("part", amount.part).set("step", amount.step);
  out.set("before_g", amount.before_g).set("after_g", amount.after_g).set("rounded", amount.after).set("written", amount.before);
  out.set("whole", amount.whole).set("runner_up", amount.runner);
  return out;
}

Json wish_json(const solve::WishLine& wish) {
  Json out = Json::object();
  out.set("target", wish.target.target).set("value", wish.target.value).set("met", wish.target.met);
  out.set("held_by", wish.held_by.empty() ? Json() : Json(wish.held_by)).set("before", wish.before);
  return out;
}

Json exchange_json(const solve::Exchange& exchange) {
  Json out = Json::object();
  out.set("target", exchange.target).set("thing", exchange.thing).set("grams_per_unit", exchange.grams_per_unit);
  return out;
}

Json values_json(const std::optional<matter::Values>& values) {
  if (!values) return {};
  Json out = Json::object();
  set_properties(out, *values);
  return out;
}

}  // namespace

std::string balance_json(const solve::BalanceSheet& sheet, const base::Sources& sources) {
  Json out = document();
  out.set("met", sheet.met).set("amounts", Json::array_of(sheet.amounts, amount_json)).set("targets", Json::array_of(sheet.targets, wish_json));
  out.set("conflict", Json::array_of(sheet.conflict, [](const std::string& target) { return Json(target); }));
  out.set("exchange", Json::array_of(sheet.exchange, exchange_json));
  out.set("before", values_json(sheet.glass_before)).set("after", values_json(sheet.glass_after));
  out.set("formula", sheet.formula).set("findings", findings_json(sheet.findings, sources));
  return printed(out);
}

}  // namespace bloomset::press
