// press/scatter_text.cpp - `scatter` on paper: what to do first, how far each property swings, which wishes hold, what drives what.
#include "press/scatter_text.hpp"

#include "press/figure.hpp"
#include "press/finding_text.hpp"
#include "press/mixture_text.hpp"
#include "press/press.hpp"
#include "solve/scatter.hpp"

namespace bloomset::press {
namespace {

using matter::Property;

constexpr std::size_t most_causes = 5;  // a property; JSON has them all
constexpr std::size_t label_columns = 28, number_columns = 11;

std::string percent(double share) { return figure(100.0 * share, Digits::whole, "%"); }

void print_holds(Page& page, const solve::ScatterSheet& sheet) {
  bool targets = false, codes = false;
  for (const solve::Hold& hold : sheet.holds) {
    const bool code = !hold.code.empty();
    if (!(code ? codes : targets)) {
      page.gap();
      page.heading(code ? "Warnings" : "Targets",
                   (code ? "silent in so many of " : "met in so many of ") + figure(static_cast<double>(hold.draws), Digits::whole) + " draws");
    }
    (code ? codes : targets) = true;
    page.line("    " + left(cut(code ? hold.code : hold.target, 50), 50) + right(percent(hold.share), 8) + "  ± " +
              figure(100.0 * hold.error, Digits::one, "%"));
  }
}

void print_causes(Page& page, const solve::ScatterSheet& sheet) {
  if (sheet.causes.empty()) return;
  page.gap();
  page.heading("What drives it", "alone, and with what goes together with it");
  std::size_t printed = 0;
  for (std::size_t i = 0; i < sheet.causes.size(); ++i) {
    const solve::Cause& cause = sheet.causes[i];
    const bool first = i == 0 || sheet.causes[i - 1].of != cause.of;
    printed = first ? 0 : printed + 1;
    if (printed >= most_causes) continue;
    page.line("    " + left(first ? std::string(line_of(cause.of).label) : "", 21) + left(cut(cause.words, 38), 39) + right(percent(cause.index.first), 6) +
              right(percent(cause.index.total), 7));
  }
}

}  // namespace

void print_spreads(Page& page, const std::vector<solve::PropertySpread>& spreads) {
  std::string where;
  for (const solve::PropertySpread& row : spreads) {
    if (row.where != where) {
      where = row.where;
      page.gap();
      page.heading(where == "serve"    ? "At service"
                   : where == "merged" ? "All foam collapsed"
                                       : std::string(clean(where)),
                   figure(static_cast<double>(row.spread.draws), Digits::whole) + " draws");
      page.line("    " + left("", label_columns) + right("1 in 20", number_columns) + right("half", number_columns) + right("1 in 20", number_columns));
      page.line("    " + left("", label_columns) + right("below", number_columns) + right("below", number_columns) + right("above", number_columns));
    }
    const PropertyLine& line = line_of(row.property);
    const auto number = [&](double x) { return right(figure(x, line.digits), number_columns); };
    page.line("    " + left(line.label, label_columns) + number(row.spread.p05) + number(row.spread.p50) + number(row.spread.p95) + "  " +
              std::string(line.unit));
  }
}

std::string scatter_text(const solve::ScatterSheet& sheet) {
  Page page;
  page.heading(std::string(clean(sheet.title)), "scatter, seed " + std::to_string(sheet.seed));
  page.gap();
  page.paragraph("    ", sheet.says.empty() ? "Nothing here varies." : sentence(sheet.says));
  print_spreads(page, sheet.properties);
  print_holds(page, sheet);
  print_causes(page, sheet);
  print_findings(page, sheet.findings);
  return page.take();
}

}  // namespace bloomset::press
