// press/mixture_text.cpp - `mix` and `chill` on paper: what was put together, what it is, what the ice did.
#include "press/mixture_text.hpp"

#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/press.hpp"
#include "press/property_text.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::press {
namespace {
using matter::Property;
}

void print_mixture(Page& page, const sheet::Mixture& mixture) {
  double total_g = 0.0;
  for (const auto& line : mixture.lines) total_g += line.mass_g;
  for (const auto& line : mixture.lines) {
    const std::string percent = total_g > 0.0 ? figure(line.mass_g / total_g * 100.0, Digits::percent, "%") : std::string();
    page.line("    " + left(cut(clean(line.thing), 40), 42) + right(figure(line.mass_g, Digits::amount, "g"), 10) + right(percent, 10));
  }
}

void print_findings(Page& page, const std::vector<base::Finding>& findings) {
  if (findings.empty()) return;
  page.gap();
  FindingDesk(findings).say(page, 4, [](const base::Finding&) { return true; });
}

std::string mixture_text(const sheet::MixtureSheet& sheet) {
  Page page;
  page.heading("Mixture", "at " + temperature(sheet.values[Property::temperature_c]));
  print_mixture(page, sheet.mixture);
  page.gap();
  print_properties(page, 4, sheet.values);
  print_findings(page, sheet.findings);
  return page.take();
}

std::string chill_text(const sheet::ChillSheet& sheet) {
  Page page;
  const double reached_c = sheet.values[Property::temperature_c];
  const bool as_asked = !sheet.asked_c || temperature(*sheet.asked_c) == temperature(reached_c);
  page.heading("On ice", as_asked ? "to " + temperature(reached_c) : "asked " + temperature(*sheet.asked_c) + ", reaches " + temperature(reached_c));
  print_mixture(page, sheet.mixture);
  page.gap();
  print_before_after(page, 4, sheet.before, sheet.values);
  page.gap();
  page.paragraph("    ", figure(sheet.melted_g, Digits::amount, "g") + " of ice melts into it (" +
                             figure(sheet.dilution_percent_of_initial_mass, Digits::percent, "%") + " of its mass before, " +
                             figure(sheet.dilution_percent_of_initial_volume, Digits::percent, "%") + " of its volume); " +
                             figure(sheet.ice_left_g, Digits::amount, "g") + " of ice is left.");
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
