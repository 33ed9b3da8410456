// solve/problem.hpp - a formula as unknowns and wishes: which amounts are free, within what bounds, and what the targets answer. Private to solve.
#pragma once

#include <memory>

#include "sheet/probe.hpp"
#include "solve/balance.hpp"
#include "solve/search.hpp"

namespace bloomset::solve {

/// One amount that may change, as a multiple of what is written.
struct Free {
  std::size_t take = 0;  // in Flowsheet::takes
  std::uint32_t knob = 0;
  double low = 0.0, high = 0.0;  // multiples; hold 1
  bool whole = false;            // pieces, drops, dashes
};

/// Whether a take is of the thing asked for: by name and, where the asker gives one, by bracket.
bool names(const formula::Take& asked, const formula::Take&);
/// How many pieces, drops or dashes an amount of them is.
double one_of(const text::Amount&);

class Problem {
 public:
  static base::Result<std::unique_ptr<Problem>> of(const BalanceAsked&, std::vector<formula::Target>);

  const flow::Flowsheet& flow() const { return flow_; }
  const std::vector<Free>& free() const { return free_; }
  const std::vector<formula::Target>& targets() const { return targets_; }
  /// The search with the author's amounts as start; the model is this problem's own.
  Search search();
  /// Runs the flowsheet at multiples of the free amounts.
  const flow::Batch<1>& run(std::span<const double> multiples);
  void values(std::span<const double> multiples, std::span<double> out);

 private:
  Problem(const BalanceAsked&, flow::Flowsheet&&, std::vector<formula::Target>);

  flow::Flowsheet flow_;
  std::vector<formula::Target> targets_;
  sheet::Probe probe_;
  std::vector<Free> free_;
  std::vector<double> knobs_;
  flow::Batch<1> batch_;
  flow::Until until_ = flow::Until::service;
  bool aim_at_middle_ = false;
  std::function<bool()> given_up_;
  bool ends_ = false;  // given up: nothing is run any more, and every search soon ends for want of values
};

}  // namespace bloomset::solve
