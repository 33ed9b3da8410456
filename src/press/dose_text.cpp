// press/dose_text.cpp - `dose` on paper: how much, in which pieces, how it goes in, and what bottle it goes into.
#include <cmath>

#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "sheet/dosing.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::press {
namespace {

std::string count_of(double n, const char* one, const char* more) {
  const bool whole = n == static_cast<double>(static_cast<int>(n));
  return figure(n, whole ? Digits::whole : Digits::one) + " " + (n <= 1.0 ? one : more);
}

void print_row(Page& page, std::string_view label, const texture::Triple& t, Digits digits, std::string_view unit) {
  std::string line = "    " + left(label, 38);
  for (const double value : {t.low, t.nominal, t.high}) line += right(figure(value, digits, unit), 12);
  page.line(line);
}

void print_table(Page& page, const sheet::DoseSheet& sheet) {
  const texture::Dose& dose = sheet.dose;
  page.line("    " + left("", 38) + right("least", 12) + right("usual", 12) + right("most", 12));
  print_row(page, cut(clean(sheet.agent.label), 37), dose.mass_g, Digits::agent, "g");
  print_row(page, "of the base", dose.percent_of_base, Digits::two, "%");
  print_row(page, "of the total", dose.percent_of_total, Digits::two, "%");
  if (dose.pieces) print_row(page, "leaves of " + figure(units::in_grams(*sheet.agent.form.leaf), Digits::two, "g"), *dose.pieces, Digits::one, "");
}

std::string firm_words(const texture::Firmness& firmness) {
  constexpr double as_firm = 0.05;  // nobody tells a smaller difference apart
  if (firmness.at_the_limit) return "at the limit of gelling";
  if (std::abs(firmness.ratio - 1.0) < as_firm) return "as firm";
  return "about " + figure(firmness.ratio, Digits::one) + " times as firm";
}

// "5 leaves (10.00 g) are 24.5 % more, about 2.1 times as firm, and exact for 909 g of base."
std::string leaf_sentence(const texture::LeafCount& leaf, double nominal_g) {
  const double weighs_g = units::in_grams(leaf.mass), off = 100.0 * (weighs_g / nominal_g - 1.0);
  const bool one = leaf.pieces <= 1.0;
  std::string out = count_of(leaf.pieces, "leaf", "leaves") + " (" + fine_grams(weighs_g) + (one ? ") is " : ") are ");
  if (std::abs(off) < 0.05) return out + "the usual dose. ";
  out += figure(std::abs(off), Digits::percent, "%") + (off > 0.0 ? " more, " : " less, ") + firm_words(leaf.firmness);
  return out + ", and exact for " + figure(units::in_grams(leaf.base_that_fits), Digits::amount, "g") + " of base. ";
}

void print_leaves(Page& page, const texture::Dose& dose) {
  if (!dose.leaves) return;
  const texture::Leaves& leaves = *dose.leaves;
  std::string words = leaf_sentence(leaves.whole, dose.mass_g.nominal);
  if (leaves.half.pieces != leaves.whole.pieces) words += leaf_sentence(leaves.half, dose.mass_g.nominal);
  for (const texture::LeafCount* other : {&leaves.fewer, &leaves.more})
    if (other->pieces != leaves.whole.pieces) words += leaf_sentence(*other, dose.mass_g.nominal);
  if (leaves.more.firmness.by_threshold) words += "Below 2 % firmness is an estimate.";
  page.gap();
  page.paragraph("    Leaves  ", words);
}

void print_water(Page& page, const texture::Dose& dose, bool leaf) {
  if (!dose.blooming) return;
  const texture::BloomingWater& water = *dose.blooming;
  const auto ml = [](units::Mass m) { return figure(units::in_grams(m), Digits::amount, "g"); };
  page.paragraph("    Water   ", leaf ? "The leaves take up about " + ml(water.usual) + " (" + ml(water.least) + " to " + ml(water.most) +
                                            "), and it stays in: take it out of the recipe's water, or count it."
                                      : "Bloom it in " + ml(water.usual) + " (" + ml(water.least) + " to " + ml(water.most) +
                                            ") of cold water, taken out of the recipe: it stays in.");
}

void print_stock(Page& page, const sheet::DoseSheet& sheet) {
  const auto& weighing = sheet.dose.weighing;
  if (!weighing || !weighing->stock) return;
  const texture::Stock& stock = *weighing->stock;
  page.paragraph("    Stock   ", "Dissolve " + fine_grams(units::in_grams(stock.agent)) + " in " + figure(units::in_grams(stock.water), Digits::amount, "g") +
                                     " of water (" + figure(units::in_percent(stock.strength), Digits::percent, "%") + "); " +
                                     figure(units::in_grams(stock.used), Digits::amount, "g") + " of it hold the usual dose, and " +
                                     figure(units::in_grams(stock.water_saved), Digits::amount, "g") + " less water goes into the recipe.");
}

void print_method(Page& page, const texture::Dose& dose) {
  page.gap();
  for (std::size_t i = 0; i < dose.method.size(); ++i) page.paragraph(right(std::to_string(i + 1), 6) + "  ", clean(dose.method[i]) + ".");
}

void print_siphon(Page& page, const sheet::DoseSheet& sheet) {
  if (!sheet.siphon) return;
  const sheet::SiphonChoice& s = *sheet.siphon;
  const bool one = s.bottles == 1;
  std::string words = (one ? "One " : std::to_string(s.bottles) + " × ") + s.vessel + ", with " + figure(s.liquid_ml, Digits::amount, "mL") +
                      (one ? "" : " each") + " filled to " + figure(100.0 * s.fill_fraction, Digits::whole, "%") + " of the fill line; " +
                      count_of(s.charges, "charger", "chargers") + (one ? "" : " each") + " of nitrous oxide";
  words += s.most_charges ? " (its maker allows " + std::to_string(*s.most_charges) + ")." : " (ask its maker how many it takes).";
  page.gap();
  page.paragraph("    Siphon  ", clean(words));
}

}  // namespace

std::string dose_text(const sheet::DoseSheet& sheet) {
  Page page;
  page.heading("Dose", std::string(texture::info(sheet.dose.agent).name) + " for " + std::string(texture::called(sheet.dose.effect)));
  print_mixture(page, sheet.base);
  page.gap();
  print_table(page, sheet);
  print_leaves(page, sheet.dose);
  page.gap();
  print_water(page, sheet.dose, sheet.agent.form.leaf.has_value());
  print_stock(page, sheet);
  print_method(page, sheet.dose);
  print_siphon(page, sheet);
  page.gap();
  std::string band = "Judged as " + std::string(texture::name(sheet.dose.kind.kind)) + " (" + sheet.dose.kind.why + "). ";
  for (const texture::Note& note : sheet.dose.notes) band += sentence(note.says);
  page.paragraph("    ", clean(band));
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
