// press/balance_text.cpp - `balance` on paper: amounts before and after, what became of each wish, what contradicts, and the document.
#include <cmath>

#include "press/figure.hpp"
#include "press/mixture_text.hpp"
#include "press/page.hpp"
#include "press/press.hpp"
#include "press/property_text.hpp"
#include "solve/balance.hpp"

namespace bloomset::press {
namespace {

constexpr std::size_t thing_wide = 36, amount_wide = 13;

void print_amounts(Page& page, const solve::BalanceSheet& sheet) {
  page.line(left("", thing_wide) + right("before", amount_wide) + right("after", amount_wide) + right("", 4) + "in");
  for (const solve::AmountLine& amount : sheet.amounts) {
    const std::vector<std::string> name = wrap(clean(amount.thing), thing_wide - 1);
    const bool moved = amount.before != amount.after;
    page.line(left(name.front(), thing_wide) + right(figure(amount.before_g, Digits::amount, "g"), amount_wide) +
              right(figure(amount.after_g, Digits::amount, "g"), amount_wide) + "    " + clean(amount.part));
    for (std::size_t n = 1; n < name.size(); ++n) page.line(name[n]);
    if (moved) page.line(left("", thing_wide) + right(clean(amount.before), amount_wide) + right(clean(amount.after), amount_wide));
    if (amount.whole && amount.runner) page.line(left("", thing_wide) + "next best: " + figure(*amount.runner, Digits::whole));
  }
}

void print_wishes(Page& page, const solve::BalanceSheet& sheet) {
  for (const solve::WishLine& wish : sheet.targets) {
    const std::string value = std::isnan(wish.target.value) ? "cannot be given" : figure(wish.target.value_as_written, Digits::two, wish.target.unit);
    std::string words = clean(wish.target.target) + ": " + value;
    if (!wish.held_by.empty()) words += (wish.target.met ? "; it answers most to " : "; held back by ") + clean(wish.held_by);
    page.paragraph(wish.target.met ? "  met      " : "  not met  ", words + ".");
  }
}

void print_glass(Page& page, const matter::Values& before, const matter::Values& after) {
  page.gap();
  page.line("In the glass at service, before and after");
  print_before_after(page, 4, before, after);
}

}  // namespace

std::string balance_text(const solve::BalanceSheet& sheet, const std::string& title) {
  Page page;
  page.heading(clean(title), sheet.met ? "all targets are met" : "not all targets can be met");
  print_amounts(page, sheet);
  page.gap();
  print_wishes(page, sheet);
  if (!sheet.conflict.empty()) {
    std::string words = "No solution was found from 32 starts with ";
    for (std::size_t t = 0; t < sheet.conflict.size(); ++t)
      words += (t == 0 ? "`" : t + 1 == sheet.conflict.size() ? "` and `" : "`, `") + clean(sheet.conflict[t]);
    words += sheet.conflict.size() > 1 ? "` together; with any one of them left out there is one." : "`, by itself: what is free does not reach it.";
    page.gap();
    page.paragraph("", words);
  }
  if (sheet.glass_before && sheet.glass_after) print_glass(page, *sheet.glass_before, *sheet.glass_after);
  if (!sheet.exchange.empty()) {
    page.gap();
    page.line("One more of a target, the others kept, costs");
    for (const solve::Exchange& exchange : sheet.exchange)
      page.paragraph("  " + left(right(figure(exchange.grams_per_unit, Digits::two, "g"), 10), 12), clean(exchange.thing) + " for " + clean(exchange.target));
  }
  print_findings(page, sheet.findings);
  page.gap();
  page.heading("The document with these amounts");
  std::string out = page.take();
  return out + sheet.formula;
}

}  // namespace bloomset::press
