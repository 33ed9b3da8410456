#include "solve/code_holds.hpp"

#include <algorithm>
#include <bitset>

#include "flow/compile.hpp"
#include "flow/vary.hpp"
#include "sheet/probe.hpp"
#include "solve/tally.hpp"

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
  auto flow = flow::compile(asked.in.formula, asked.in.larder, asked.in.kit, asked.in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  flow::vary(*flow, asked.in.larder);
  const std::uint64_t draws = std::min(asked.course.draws, coded_draws);
  const auto silent =
      tally(*flow, asked.course, draws, flow::Until::last_moment, base::code_count, [&](unsigned, const flow::Batch<1>& batch, std::span<std::uint64_t> yes) {
        const Raised raised = raised_in(sheet::read_sheet(asked.in, *flow, batch));
        for (std::size_t c = 0; c < raised.size(); ++c) yes[c] += raised.test(c) ? 0U : 1U;
      });
  std::vector<Hold> holds;
  for (std::size_t c = 0; silent && c < base::code_count; ++c) {
    if ((*silent)[c] == draws) continue;
    holds.push_back(hold_of((*silent)[c], draws));
    holds.back().code = base::name(static_cast<base::Code>(c));
  }
  return holds;
}

}  // namespace bloomset::solve
