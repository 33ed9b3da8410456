// press/charge_text.cpp - `charge` on paper: the bottle, what it stands at, where the gas is, and the most foam it can give.
#include <cmath>

#include "gas/foam.hpp"
#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "sheet/charging.hpp"

namespace bloomset::press {
namespace {

std::string_view gas_words(gas::Gas gas) { return gas == gas::Gas::nitrous_oxide ? "nitrous oxide" : "carbon dioxide"; }
std::string ml(double value) { return figure(value, Digits::amount, "mL"); }
std::string bar(double value) { return figure(value, Digits::one, "bar"); }
std::string percent(double value) { return figure(value, Digits::whole, "%"); }

std::string gas_in(const sheet::Charging& how) {
  if (how.regulator) return std::string(gas_words(how.gas)) + " from a regulator";
  const std::string each = figure(units::in_grams(how.charge), Digits::agent, "g");
  if (how.charges == 1) return "one charger of " + each + " of " + std::string(gas_words(how.gas)) + ", shaken out";
  return std::to_string(how.charges) + " chargers of " + each + " of " + std::string(gas_words(how.gas)) + ", one after the other, each shaken out";
}

void row(Page& page, std::string_view label, const std::string& value, const std::string& more = {}) {
  page.line("    " + left(label, 24) + right(value, 10) + (more.empty() ? "" : "   " + more));
}

void print_bottle(Page& page, const sheet::ChargeSheet& sheet) {
  page.paragraph("    ", sentence(clean(sheet.how.bottle) + ": " + ml(units::in_millilitres(sheet.how.gross)) + " to the brim, " + ml(sheet.liquid_ml) +
                                  " of liquid, " + ml(sheet.head_ml) + " above it; " + gas_in(sheet.how)));
}

void print_pressure(Page& page, const sheet::ChargeSheet& sheet) {
  const sheet::Spanned& p = sheet.pressure_bar_gauge;
  const bool span = bar(p.low) != bar(p.high);
  row(page, "on the gauge", bar(p.nominal), span ? figure(p.low, Digits::one) + " to " + bar(p.high) + ", by what it may hold" : "");
  row(page, "absolute", bar(sheet.pressure_bar_abs));
  if (std::isfinite(sheet.unshaken_bar_gauge)) row(page, "before it is shaken", bar(sheet.unshaken_bar_gauge), "on the gauge, right after a charger");
  if (sheet.warm_bar_gauge) row(page, "left to warm to " + figure(sheet::warm_c, Digits::whole, "°C"), bar(*sheet.warm_bar_gauge), "on the gauge");
}

void print_gas(Page& page, const sheet::ChargeSheet& sheet) {
  row(page, "gas in the liquid", fine_grams(sheet.dissolved_g), figure(sheet.gas_volumes, Digits::one) + " volumes");
  row(page, "gas above it", fine_grams(sheet.headspace_g));
  if (sheet.liquefied_g > 0.0) row(page, "of that, as a liquid", fine_grams(sheet.liquefied_g));
}

void print_overrun(Page& page, const sheet::ChargeSheet& sheet) {
  if (!sheet.overrun_percent) return;
  const auto& o = *sheet.overrun_percent;
  const gas::Retention kept = gas::retention();
  page.gap();
  page.line("    " + left("overrun", 24) + right("first", 10) + right("mean", 10) + right("last", 10));
  page.line("    " + left("at most", 24) + right(percent(o.first), 10) + right(percent(o.mean), 10) + right(percent(o.last), 10));
  const auto stands = [&](double bound) { return percent(100.0 * gas::standing(0.01 * bound, kept.prior).overrun); };
  page.line("    " + left("as foam, about", 24) + right(stands(o.first), 10) + right(stands(o.mean), 10) + right(stands(o.last), 10));
  std::string words = "At most: all that comes out of solution. A foam keeps about " + percent(100.0 * kept.prior) + " of it (" + percent(100.0 * kept.least) +
                      " to " + percent(100.0 * kept.most) + ", a guess until it is weighed), and above 400 % none stands: the rest spurts.";
  if (sheet.stays_ml >= 1.0) words += " When the pressure is gone " + ml(sheet.stays_ml) + " of the liquid are still in the bottle.";
  page.paragraph("    ", words);
}

}  // namespace

std::string charge_text(const sheet::ChargeSheet& sheet) {
  Page page;
  page.heading("Bottle", "at " + temperature(units::in_celsius(sheet.how.at)));
  print_mixture(page, sheet.liquid);
  page.gap();
  print_bottle(page, sheet);
  page.gap();
  print_pressure(page, sheet);
  page.gap();
  print_gas(page, sheet);
  print_overrun(page, sheet);
  page.gap();
  page.paragraph("    ", "This liquid holds " + figure(sheet.relative_solubility, Digits::two) + " times as much gas as water does (± " +
                             percent(100.0 * sheet.relative_solubility_uncertainty) + "). Volumes are litres of gas at 0 °C and 1 atm in a litre of liquid.");
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
