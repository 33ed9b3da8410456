// solve/swap_bottle.cpp - a part in another bottle, as changes of the text: sheet/scaling.hpp says how large it becomes and how many chargers it takes.
#include <cmath>

#include "sheet/scaling.hpp"
#include "solve/measures.hpp"
#include "solve/swap.hpp"
#include "text/fold.hpp"

namespace bloomset::solve {

std::vector<std::size_t> parts_in(const formula::Formula& formula, std::string_view bottle) {
  std::vector<std::size_t> parts;
  for (std::size_t p = 0; p < formula.parts.size(); ++p)
    for (const formula::Step& step : formula.parts[p].steps)
      if (step.act == formula::Act::charge && step.vessel && text::fold(step.vessel->text) == text::fold(bottle) && formula.parts[p].source == formula.source)
        parts.push_back(p);
  return parts;
}

base::Result<Changes> swap_bottle(const RefitAsked& asked, const Swap& swap, const Cooked& cooked) {
  Changes out;
  const Inputs in{cooked.formula, asked.in.larder, asked.in.kit, asked.in.serves, {}};
  const text::Measures measures = cooked.formula.measures;
  for (const std::size_t p : parts_in(cooked.formula, asked.sources.text(swap.from))) {
    auto fitted = sheet::fit(in, {cooked.formula.parts[p].name, std::string(asked.sources.text(swap.to)),
                                  base::Span{swap.to, 1, 1, static_cast<std::uint32_t>(asked.sources.text(swap.to).size())}});
    if (!fitted) return tl::unexpected(std::move(fitted.error()));
    const auto change = [&](const text::Amount& was, const text::Amount& is) {
      if (was == is) return;
      const double times = is.value.nominal() / was.value.nominal();
      const bool whole_ones = was.kind == text::AmountKind::pieces;
      const text::Amount now = asked.exact && !whole_ones ? scaled(was, times, measures) : practical(was, times, fineness_levels - 1, measures);
      out.edits.push_back({was.span, text::print(now, measures)});
      const double off = now.value.nominal() / is.value.nominal() - 1.0;
      if (!whole_ones || std::abs(off) < same_within) return;
      const std::string about = text::print_number(is.value.nominal(), 3) + " pieces are no whole number: " + text::print(now, measures) + " is " +
                                text::print_number(std::abs(100.0 * off), 2) + (off > 0.0 ? " % more" : " % less");
      out.findings.push_back(sheet::finding({base::Code::pieces_rounded, {static_cast<std::uint16_t>(p), 0, 0}, was.span, about}, cooked.flow));
    };
    const formula::Part &was = cooked.formula.parts[p], &is = fitted->formula.parts[p];
    for (std::size_t s = 0; s < was.steps.size(); ++s) {
      const formula::Step &before = was.steps[s], &after = is.steps[s];
      for (std::size_t t = 0; t < before.takes.size(); ++t) change(before.takes[t].amount, after.takes[t].amount);
      if (before.bath) change(before.bath->in.amount, after.bath->in.amount);
      if (before.until && !(*before.until == *after.until)) out.edits.push_back({before.until->span, text::print_number(after.until->value * 1e3, 4) + " g"});
      if (before.vessel && !(*before.vessel == *after.vessel)) out.edits.push_back({before.vessel->span, after.vessel->text});
      if (before.charges && before.charges != after.charges) out.edits.push_back({before.charges_span, std::to_string(*after.charges)});
    }
    if (was.makes) change(*was.makes, *is.makes);
    out.findings.insert(out.findings.end(), fitted->findings.begin(), fitted->findings.end());
  }
  return out;
}

}  // namespace bloomset::solve
