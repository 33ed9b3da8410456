#include "solve/code_holds.hpp"

#include <array>
#include <bitset>
#include <cmath>

#include "flow/compile.hpp"
#include "flow/vary.hpp"
#include "sheet/probe.hpp"
#include "solve/blocks.hpp"
#include "solve/drink.hpp"

namespace bloomset::solve {
namespace {

using Raised = std::bitset<base::code_count>;

Raised raised_in(const sheet::Sheet& sheet) {
  Raised raised;
  for (const base::Finding& finding : sheet.findings)
    if (finding.weight != base::Weight::note && finding.code != base::Code::target_unmet) raised.set(static_cast<std::size_t>(finding.code));
  return raised;
}

}  // namespace

base::Result<std::vector<Hold>> code_holds(const ScatterAsked& asked) {
  auto made = flow::compile(asked.in.formula, asked.in.larder, asked.in.kit, asked.in.serves);
  if (!made) return tl::unexpected(std::move(made.error()));
  flow::vary(*made, asked.in.larder);
  const flow::Flowsheet& flow = *made;
  const std::uint64_t draws = std::min(asked.course.draws, coded_draws);
  const SobolPoints points(flow.draws_a_run, asked.course.seed);
  struct Hand {
    flow::Batch<1> batch;
    std::vector<double> u, knobs;
    std::array<std::uint64_t, base::code_count> raised;
  };
  std::vector<Hand> hands;
  for (unsigned t = 0; t < std::max(1U, asked.course.threads); ++t)
    hands.push_back({flow::Batch<1>(flow), std::vector<double>(points.dimensions() * lanes), flow.nominal, {}});
  const Blocks blocks = Blocks::of(0, draws, draws);
  const auto work = [&](unsigned thread, std::size_t block) {
    Hand& hand = hands[thread];
    points.draw(blocks.begin_of(block), hand.u);
    for (std::uint64_t lane = 0; lane < blocks.end_of(block) - blocks.begin_of(block); ++lane) {
      for (const flow::Variation& v : flow.variation) hand.knobs[v.knob] = at_deviations(v, flow.nominal[v.knob], deviations(hand.u[v.draw * lanes + lane]));
      flow::run<1>(flow, hand.knobs, hand.batch);
      const Raised raised = raised_in(sheet::read_sheet(asked.in, flow, hand.batch));
      for (std::size_t c = 0; c < raised.size(); ++c) hand.raised[c] += raised.test(c);
    }
  };
  std::vector<Hold> holds;
  if (!share_out(blocks, static_cast<unsigned>(hands.size()), asked.course.stop, work, [](double) {})) return holds;
  for (std::size_t c = 0; c < base::code_count; ++c) {
    std::uint64_t raised = 0;
    for (const Hand& hand : hands) raised += hand.raised[c];
    if (raised == 0) continue;
    // Agresti and Coull 1998, as for targets: two in favour and two against, so that none out of many is not certainty.
    const auto n = static_cast<double>(draws), quiet = n - static_cast<double>(raised);
    const double eased = (quiet + 2.0) / (n + 4.0);
    holds.push_back({"", quiet / n, 2.0 * std::sqrt(eased * (1.0 - eased) / (n + 4.0)), draws, std::string(base::name(static_cast<base::Code>(c)))});
  }
  return holds;
}

}  // namespace bloomset::solve
