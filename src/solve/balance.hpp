// solve/balance.hpp - amounts that meet targets: nearest to what the author wrote, whole things whole, rounded to what a kitchen can measure.
//
// The flowsheet is compiled once; an amount is one of its knobs. Where targets contradict, the answer is the least miss and a set of targets that cannot be
// had together, while with any one of them left out they can (as far as 32 starts tell). An agent's dose stays in the band of its usual use.
// Callers: the command `balance`, the page's server.
#pragma once

#include <functional>

#include "solve/solve.hpp"

namespace bloomset::solve {

/// A thing whose amounts may change, as asked: bought with its bracket, or a part.
struct Vary {
  formula::Take thing;  // its amount means nothing
  std::string written;
  base::Span span;
  std::optional<text::Amount> within;  // the amount stays between these ends; without, `least_share` to `most_times` of what is written
};
/// Reads one as a text that stands at `span`: a thing as the document names it, or a part in quotes; before it, if wanted, the bounds of its amount.
std::optional<Vary> read_vary(const std::string& written, base::Span span, text::Measures, text::Faults&);

// A drink with a tenth of its lime, or with ten times it, is another drink; a piece stays at least one piece. Practice.
inline constexpr double least_share = 0.1, most_times = 10.0;

struct BalanceAsked {
  Inputs in;
  std::string document;                                                                // text of the formula's own file, into which the amounts are written
  std::vector<formula::Target> targets;                                                // none: the document's own
  std::vector<Vary> vary;                                                              // none: all that is bought by mass or volume, but ice and agents
  bool besides = false;                                                                // `vary` stands beside that, not in its place
  std::function<bool(const flow::Flowsheet&, const flow::TakeInfo&)> may_change = {};  // amounts of other takes stay; none: all may
  bool aim_at_middle = false;           // of a band, so that rounding stays inside; else the nearest edge will do
  bool exact = false;                   // not rounded
  std::function<bool()> given_up = {};  // asked now and then; once it says so the work ends soon, and its answer means nothing
};

struct AmountLine {
  std::string thing, part;
  std::uint16_t step = 0;
  double before_g = 0.0, after_g = 0.0;
  std::string before, after;     // as written: "45 mL"
  bool whole = false;            // counted in pieces
  std::optional<double> runner;  // of whole things: the count of the next best answer
};

struct WishLine {
  sheet::TargetLine target;
  double before = 0.0;  // the value as the author wrote it
  std::string held_by;  // at its edge: the thing it answers to most; not met: what stands in its way; else empty
};

/// What a small change of one target costs, the others at their edge kept: grams of a thing for one unit of the target.
struct Exchange {
  std::string target, thing;
  double grams_per_unit = 0.0;
};

struct BalanceSheet {
  bool met = false;
  std::vector<AmountLine> amounts;  // that may change
  std::vector<WishLine> targets;
  std::vector<std::string> conflict;  // targets; empty if all can be had
  std::vector<Exchange> exchange;
  std::string formula;                                      // the document with the new amounts
  std::optional<matter::Values> glass_before, glass_after;  // at service
  std::vector<base::Finding> findings;
};

/// bad_input: nothing is free, a thing or part that is not there, a share above 100 %. Else compile's errors.
base::Result<BalanceSheet> balance(const BalanceAsked&);

}  // namespace bloomset::solve
