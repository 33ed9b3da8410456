#include "solve/tally.hpp"

#include <algorithm>
#include <cmath>

#include "solve/blocks.hpp"
#include "solve/drink.hpp"

namespace bloomset::solve {

unsigned threads_of(const Course& course) { return std::max(1U, course.threads); }

std::optional<std::vector<std::uint64_t>> tally(const flow::Flowsheet& flow, const Course& course, std::uint64_t draws, flow::Until until,
                                                std::size_t questions, const Ask& ask) {
  const SobolPoints points(flow.draws_a_run, course.seed);
  struct Hand {
    flow::Batch<1> batch;
    std::vector<double> u, knobs;
    std::vector<std::uint64_t> yes;
  };
  std::vector<Hand> hands;
  for (unsigned t = 0; t < threads_of(course); ++t)
    hands.push_back({flow::Batch<1>(flow), std::vector<double>(points.dimensions() * lanes), flow.nominal, std::vector<std::uint64_t>(questions, 0)});
  const Blocks blocks = Blocks::of(0, draws, draws);
  const auto work = [&](unsigned thread, std::size_t block) {
    Hand& hand = hands[thread];
    points.draw(blocks.begin_of(block), hand.u);
    for (std::uint64_t lane = 0; lane < blocks.end_of(block) - blocks.begin_of(block); ++lane) {
      for (const flow::Variation& v : flow.variation) hand.knobs[v.knob] = at_deviations(v, flow.nominal[v.knob], deviations(hand.u[v.draw * lanes + lane]));
      flow::run<1>(flow, hand.knobs, hand.batch, until);
      ask(thread, hand.batch, hand.yes);
    }
  };
  if (!share_out(blocks, threads_of(course), course.stop, work, [](double) {})) return std::nullopt;
  std::vector<std::uint64_t> yes(questions, 0);
  for (const Hand& hand : hands)
    for (std::size_t q = 0; q < questions; ++q) yes[q] += hand.yes[q];
  return yes;
}

Hold hold_of(std::uint64_t yes, std::uint64_t draws) {
  const auto n = static_cast<double>(draws), y = static_cast<double>(yes);
  const double eased = (y + 2.0) / (n + 4.0);
  Hold hold;
  hold.share = y / n;
  hold.error = standard_errors * std::sqrt(eased * (1.0 - eased) / (n + 4.0));
  hold.draws = draws;
  return hold;
}

}  // namespace bloomset::solve
