// solve/tally.hpp - yes-or-no questions asked of the first draws of a scatter: how often each is answered yes. Private to solve.
//
// Every draw is run by itself, by the same numbers as the scatter's own, and shared among threads in blocks; counts add up to the same whatever their
// number. Callers: scatter.cpp (is a target met?), code_holds.cpp (does a warning stay silent?).
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "flow/run.hpp"
#include "solve/scatter.hpp"

namespace bloomset::solve {

/// Adds one to `yes` of each question that this draw answers yes. Called by several threads at once, each with counts of its own.
using Ask = std::function<void(unsigned thread, const flow::Batch<1>&, std::span<std::uint64_t> yes)>;

/// As many threads as a tally of this course starts.
unsigned threads_of(const Course&);

/// Counts of yes over draws 0 to `draws`; nothing if it was stopped. The flowsheet has its variations.
std::optional<std::vector<std::uint64_t>> tally(const flow::Flowsheet&, const Course&, std::uint64_t draws, flow::Until, std::size_t questions, const Ask&);

/// The share of yes with its error. Agresti and Coull 1998: two in favour and two against, so that none out of many is not certainty.
Hold hold_of(std::uint64_t yes, std::uint64_t draws);

}  // namespace bloomset::solve
