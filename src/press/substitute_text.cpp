// press/substitute_text.cpp - `substitute` on paper: for each part, who could do the work, how, and what changes; then who could not, and why.
#include <map>

#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "sheet/replacing.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::press {
namespace {

std::string name_of(texture::Agent agent) { return std::string(texture::info(agent).name); }

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string out;
  for (const std::string& word : words) out.append(out.empty() ? "" : between).append(word);
  return out;
}

void print_list(Page& page, std::string_view label, const std::vector<std::string>& words) {
  if (words.empty()) return;
  page.paragraph("        " + left(label, 9), sentence(joined(words, "; ")));
}

void print_candidate(Page& page, std::size_t number, const texture::Candidate& c, double base_g) {
  page.gap();
  page.line(right(std::to_string(number), 6) + "  " + left(name_of(c.agent), 31) + right(fine_grams(c.mass_g.nominal), 10) +
            right(figure(100.0 * c.mass_g.nominal / base_g, Digits::two, "%"), 10) + "   (" + figure(c.mass_g.low, Digits::agent) + " to " +
            fine_grams(c.mass_g.high) + ")");
  std::string how;
  for (const std::string& step : c.method) how += sentence(step);
  page.paragraph("        " + left("How", 9), how);
  print_list(page, "Differs", c.differs);
  print_list(page, "Gained", c.gained);
  print_list(page, "Lost", c.lost);
  std::vector<std::string> minds;
  for (const texture::Cause& cause : c.causes) minds.push_back(cause.says);
  print_list(page, "Mind", minds);
}

// Those with one reason are told in one breath.
void print_refused(Page& page, const std::vector<texture::Refused>& refused) {
  if (refused.empty()) return;
  std::vector<std::string> reasons;
  std::map<std::string, std::vector<std::string>> agents;
  for (const texture::Refused& one : refused) {
    if (!agents.contains(one.why)) reasons.push_back(one.why);
    agents[one.why].push_back(name_of(one.agent));
  }
  page.gap();
  page.line("    Not here");
  for (const std::string& why : reasons) page.paragraph("        ", joined(agents[why], ", ") + ": " + clean(why) + ".");
}

void print_part(Page& page, const sheet::Replacement& part) {
  page.gap();
  page.heading("Instead of " + std::string(clean(part.label)), "'" + part.part + "', " + (part.ahead ? "one batch" : "one serve"));
  page.paragraph("    ", sentence(fine_grams(part.agent_g) + " of it, " + figure(part.percent_of_base, Digits::two, "%") + " of the " +
                                  figure(part.base_g, Digits::amount, "g") + " that are finished without it (" + std::string(texture::name(part.kind.kind)) +
                                  ": " + part.kind.why + "), for " + std::string(texture::called(part.effect)) + ": " + part.why + ". The part ends at " +
                                  temperature(part.served_c)));
  for (std::size_t i = 0; i < part.answer.candidates.size(); ++i) print_candidate(page, i + 1, part.answer.candidates[i], part.base_g);
  if (part.answer.candidates.empty()) {
    page.gap();
    page.line("    No agent that was asked about can take its place here.");
  }
  print_refused(page, part.answer.refused);
}

}  // namespace

std::string substitute_text(const sheet::ReplaceSheet& sheet) {
  Page page;
  for (const sheet::Replacement& part : sheet.parts) print_part(page, part);
  page.gap();
  page.paragraph("    ", "No ratio gives the same texture: make a small trial first. Doses hold to about ± 30 %.");
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
