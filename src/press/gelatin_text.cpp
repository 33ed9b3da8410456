// press/gelatin_text.cpp - `gelatin` on paper: every rule with its grams and its firmness, the chosen one marked, and the blooming water.
#include <array>
#include <cmath>

#include "press/figure.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "sheet/gelatin_swap.hpp"

namespace bloomset::press {
namespace {

constexpr std::array<std::string_view, 3> rule_words = {"leaf for leaf", "mass × Bloom (linear)", "equal firmness (root of Bloom)"};

std::string form_words(const sheet::AgentForm& agent) {
  std::string out = clean(agent.label) + ", " + figure(agent.form.bloom, Digits::whole) + " Bloom";
  if (agent.form.leaf) out += ", leaves of " + fine_grams(units::in_grams(*agent.form.leaf));
  return out;
}

std::string leaves_words(const std::optional<double>& pieces) { return pieces ? figure(*pieces, Digits::one) : std::string(not_given); }

void print_rules(Page& page, const sheet::GelatinSheet& sheet) {
  page.line("      " + left("by rule", 32) + right("grams", 12) + right("leaves", 10) + right("as firm", 16));
  for (const texture::Converted& rule : sheet.conversion.rules) {
    const std::size_t i = static_cast<std::size_t>(rule.rule);
    const std::string lead = rule.rule == sheet.conversion.chosen ? "    → " : "      ";
    if (!rule.mass) {
      page.line(lead + left(rule_words[i], 32) + "  does not apply: only leaves are counted");
      continue;
    }
    page.line(lead + left(rule_words[i], 32) + right(fine_grams(units::in_grams(*rule.mass)), 12) + right(leaves_words(rule.pieces), 10) +
              right(figure(sheet.firmness[i], Digits::two) + " times", 16));
  }
}

}  // namespace

std::string gelatin_text(const sheet::GelatinSheet& sheet) {
  Page page;
  page.heading("Gelatin", fine_grams(units::in_grams(sheet.mass)) + (sheet.pieces ? " = " + leaves_words(sheet.pieces) + " leaves" : std::string()));
  page.paragraph("    from  ", form_words(sheet.from));
  page.paragraph("    to    ", form_words(sheet.to));
  page.gap();
  print_rules(page, sheet);
  page.gap();
  page.paragraph(
      "    ", "Take " + fine_grams(units::in_grams(*sheet.chosen().mass)) +
                  (sheet.counted && sheet.chosen().rule == texture::Rule::piece_for_piece ? ": the recipe counts leaves, and makers size leaves to set alike."
                                                                                          : ": the rule that keeps the firmness.") +
                  " The rules differ " + figure(sheet.conversion.firmness_spread, Digits::two) +
                  " times in firmness, as gels of 2 % and more go by the square of the mass; below that they differ more.");
  const auto water = [](units::Mass m) { return figure(units::in_grams(m), Digits::amount, "g"); };
  page.paragraph("    ", sheet.to.form.leaf
                             ? "Bloom the leaves in plenty of cold water and press them out: about " + water(sheet.blooming.usual) + " (" +
                                   water(sheet.blooming.least) + " to " + water(sheet.blooming.most) + ") stay in them, to be taken out of the recipe's water."
                             : "Bloom it in " + water(sheet.blooming.usual) + " (" + water(sheet.blooming.least) + " to " + water(sheet.blooming.most) +
                                   ") of cold water, taken out of the recipe's: it stays in.");
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
