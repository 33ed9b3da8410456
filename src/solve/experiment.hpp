// solve/experiment.hpp - a question asked of many draws: how the answers scatter, and which causes make them.
//
// Knows nothing of drinks: an `Experiment` turns independent uniform numbers into answers, eight draws at a time. Draws are scrambled Sobol points, cut
// into blocks that depend on their number only and are added up in order, so that one thread and many give the same bits.
// Causes are judged by variance: first order S = V[E(Y|X)]/V[Y], total T = E[V(Y|all but X)]/V[Y] (Sobol, Math. Model. Comput. Exp. 1 (1993) 407-414), by
// the estimators of Saltelli et al. (Comput. Phys. Commun. 181 (2010) 259-270, table 2 b) and Jansen (Comput. Phys. Commun. 117 (1999) 35-43), for groups
// of numbers. The errors are of blocks: two standard errors as if these were independent, which for such even points errs on the wide side.
// Nothing is allocated between the first and the last draw of a block. Callers: scatter, tests.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <stop_token>
#include <vector>

#include "solve/sobol.hpp"

namespace bloomset::solve {

/// Evaluates eight draws at a time; one a thread. Number d of lane l is `u[d * 8 + l]`, answer o `out[o * 8 + l]`.
class Worker {
 public:
  virtual ~Worker() = default;
  /// `first`: the number of the first draw. `brief`: only the answers below Experiment::brief are wanted.
  virtual void answer(std::uint64_t first, std::span<const double> u, bool brief, std::span<double> out) noexcept = 0;
  /// Brief answers for the draws of the last `answer`, the numbers of one group taken from `other`. Groups come in order, the first behind an `answer`.
  virtual void swap(std::size_t group, std::span<const double> other, std::span<double> out) noexcept = 0;
};

class Experiment {
 public:
  virtual ~Experiment() = default;
  std::size_t numbers = 0;  // independent uniform numbers a draw
  std::size_t answers = 0;
  std::size_t brief = 0;   // of them, those that every draw gives and causes are judged by; the others: the first `kept_draws` draws only
  std::size_t groups = 0;  // of numbers that are swapped together
  virtual std::unique_ptr<Worker> worker() const = 0;
};

struct Course {
  std::uint64_t draws = 4096;
  std::uint64_t seed = 1;
  unsigned threads = 1;
  std::stop_token stop = {};
  std::function<void(double share_done)> progress = {};  // called by the asking thread only
};

/// So many draws are kept as they are; beyond them percentiles come from counts in even bins.
inline constexpr std::uint64_t kept_draws = 16384;

/// How one answer scatters. NaN throughout where any draw gave none.
struct Spread {
  double p05 = 0.0, p50 = 0.0, p95 = 0.0;
  double error = 0.0;  // of the percentiles, the widest: between the ranks two standard errors of plain random draws off, and a bin
  double mean = 0.0, deviation = 0.0;
  std::uint64_t draws = 0;
};

/// One a answer. Empty if stopped.
std::vector<Spread> spreads(const Experiment&, const Course&);

struct Index {
  double first = 0.0, first_error = 0.0, total = 0.0, total_error = 0.0;
};
/// Of brief answer o and group g: `[o * groups + g]`; zero where the answer does not scatter. `draws` pairs of draws, each evaluated groups + 2 times.
/// Empty if stopped.
std::vector<Index> indices(const Experiment&, const Course&);

}  // namespace bloomset::solve
