#include "press/part_text.hpp"

#include <cmath>

#include "press/figure.hpp"
#include "press/property_text.hpp"
#include "press/work_text.hpp"

namespace bloomset::press {
namespace {

constexpr std::size_t part_indent = 4;

std::string heading_aside(const sheet::PartSheet& part, int serves) {
  if (part.ahead)
    return part.batches == 1.0 ? "made ahead, one batch"
                               : "made ahead, " + figure(part.batches, part.batches == std::floor(part.batches) ? Digits::whole : Digits::two) + " batches";
  std::string out = "to order, amounts a serve";
  if (part.rounds > 1) out += ", " + std::to_string(part.rounds) + " rounds for " + std::to_string(serves);
  return out;
}

void print_use(Page& page, const sheet::PartSheet& part) {
  std::string words = part.ahead ? "A batch gives " + figure(part.batch_mass_g, Digits::amount, "g") : std::string();
  if (part.ahead && part.used_per_serve_g > 0.0) words += "; " + figure(part.used_per_serve_g, Digits::amount, "g") + " goes into each serve";
  if (part.left_over_g > 0.5) words += "; " + figure(part.left_over_g, Digits::amount, "g") + " is left over";
  if (part.short_g > 0.5) words += "; " + figure(part.short_g, Digits::amount, "g") + " is missing";
  if (words.starts_with("; ")) words.erase(0, 2);
  if (!words.empty()) words += ". ";
  if (part.ahead && part.ready_after_h > 0.0) words += "Ready " + duration(part.ready_after_h * 3600.0) + " after the start. ";
  if (part.keeps_h) words += "Keeps " + duration(*part.keeps_h * 3600.0) + ".";
  if (!words.empty()) page.paragraph(std::string(part_indent, ' '), words);
}

// "Agar, 0.90 % of the base, within the band of a soft gel: sets soft, firm; sets near 40 °C and melts near 85 °C."
void print_agent(Page& page, const sheet::AgentLine& agent) {
  if (agent.verdict.empty()) return;
  std::string words = agent.thing + ", " + figure(agent.percent_of_base, Digits::agent, "%") + " of the base";
  if (!agent.effect.empty()) words += ", " + agent.dose_is + " the band of a " + agent.effect;
  words += ": " + agent.verdict;
  if (agent.verdict != "will not set") {
    if (agent.gel_class != "none" && agent.gel_class != "thickened") words += ", " + agent.gel_class;
    if (agent.sets_at_c) words += "; sets near " + figure(*agent.sets_at_c, Digits::whole, "°C");
    if (agent.melts_at_c) words += (agent.sets_at_c ? " and melts near " : "; melts near ") + figure(*agent.melts_at_c, Digits::whole, "°C");
  }
  page.paragraph(std::string(part_indent, ' '), sentence(words));
}

void print_siphon(Page& page, const sheet::SiphonLine& siphon) {
  constexpr double percent = 100.0;
  std::string words = "In the " + siphon.vessel + ": filled to " + figure(percent * siphon.fill_fraction, Digits::whole, "%") + " of its line, " +
                      std::to_string(siphon.charges) + (siphon.charges == 1 ? " charge; " : " charges; ");
  words += "at most " + figure(siphon.peak_bar_gauge, Digits::one, "bar") + " on the gauge, " + figure(siphon.at_service_bar_gauge, Digits::one, "bar") +
           " when it is served. Overrun about " + figure(siphon.overrun_mean, Digits::whole, "%") + " (first " + figure(siphon.overrun_first, Digits::whole) +
           ", last " + figure(siphon.overrun_last, Digits::whole) + "), if three fifths of the gas stay in the foam: a guess until you weigh yours.";
  if (siphon.portions) words += " " + figure(*siphon.portions, Digits::whole) + " portions.";
  page.paragraph(std::string(part_indent, ' '), words);
}

}  // namespace

void print_part(Page& page, FindingDesk& desk, const sheet::PartSheet& part, const formula::Part& written, text::Measures measures, int serves) {
  page.gap();
  page.heading(part.name, heading_aside(part, serves));
  print_takes(page, desk, part.name, part.takes);
  print_ratio(page, part.ratio);
  page.gap();
  print_steps(page, desk, part.name, part.steps, written.steps, {.amounts = false, .measures = measures});
  page.gap();
  print_losses(page, part.losses);
  print_use(page, part);
  for (const sheet::AgentLine& agent : part.agents) print_agent(page, agent);
  if (part.siphon) print_siphon(page, *part.siphon);
  page.gap();
  print_part_properties(page, part_indent, part.values);
  desk.say(page, part_indent, [&](const base::Finding& f) { return f.where.part == part.name; });
}

}  // namespace bloomset::press
