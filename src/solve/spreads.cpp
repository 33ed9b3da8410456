// solve/spreads.cpp - percentiles of many draws in a fixed store: the first are kept as they are, all others counted in bins.
//
// The bins reach half a range beyond what was kept on either side, 4,096 of them; what falls outside counts in the outermost. A percentile read from bins
// is off by at most one bin, a two-thousandth of the kept range, which is part of the stated error. Counts do not mind their order.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "solve/blocks.hpp"

namespace bloomset::solve {
namespace {

constexpr std::uint64_t most_blocks = 1024;
constexpr std::size_t bins = 4096;
constexpr double beyond = 0.5;  // of the range, on either side

struct Sums {
  double sum = 0.0, squares = 0.0;  // about the first draw's answer
};

struct Scale {
  double low = 0.0, step = 0.0;
  std::size_t bin_of(double x) const {
    const double at = step > 0.0 ? (x - low) / step : 0.0;
    return at >= static_cast<double>(bins) ? bins - 1 : at > 0.0 ? static_cast<std::size_t>(at) : 0;
  }
};

// Where a share of values lies, had they been sorted: halfway between the ranks beside it (Hyndman and Fan 1996, definition 5).
struct Ranks {
  std::size_t below, above;
  double between;
};
Ranks ranks_of(std::size_t count, double share) {
  const double at = std::clamp(share * static_cast<double>(count) - 0.5, 0.0, static_cast<double>(count - 1));
  const auto below = static_cast<std::size_t>(at);
  return {below, std::min(below + 1, count - 1), at - static_cast<double>(below)};
}

// Puts into its place what stands at some ranks, rising, and sorts no further: the middle rank parts the values for those on either side.
void put_in_place(std::span<double> values, std::size_t first, std::span<const std::size_t> ranks) {
  if (ranks.empty()) return;
  const std::size_t middle = ranks.size() / 2, at = ranks[middle] - first;
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
  put_in_place(values.first(at), first, ranks.first(middle));
  if (middle + 1 < ranks.size()) put_in_place(values.subspan(at + 1), first + at + 1, ranks.subspan(middle + 1));
}

double of_bins(std::span<const std::uint64_t> counts, const Scale& scale, double share, std::uint64_t draws) {
  const double wanted = share * static_cast<double>(draws);
  double before = 0.0;
  for (std::size_t b = 0; b < bins; ++b) {
    const auto here = static_cast<double>(counts[b]);
    if (here > 0.0 && before + here >= wanted) return scale.low + scale.step * (static_cast<double>(b) + (wanted - before) / here);
    before += here;
  }
  return scale.low + scale.step * static_cast<double>(bins);
}

// The shares that are told, each between those its error is read from.
using Shares = std::array<double, 9>;
Shares shares_of(std::uint64_t draws) {
  Shares shares{};
  for (std::size_t n = 0; const double share : {0.05, 0.50, 0.95}) {
    const double off = standard_errors * std::sqrt(share * (1.0 - share) / static_cast<double>(draws));
    for (const double at : {std::max(share - off, 0.0), share, std::min(share + off, 1.0)}) shares[n++] = at;
  }
  return shares;
}

// Fills percentiles from the values at the shares.
void percentiles(Spread& s, const Shares& at, double bin) {
  s.p05 = at[1];
  s.p50 = at[4];
  s.p95 = at[7];
  s.error = bin + 0.5 * std::max({at[2] - at[0], at[5] - at[3], at[8] - at[6]});
}

Shares of_kept_values(std::span<double> values) {
  Shares at = shares_of(values.size());
  std::vector<std::size_t> ranks;
  for (const double share : at) ranks.insert(ranks.end(), {ranks_of(values.size(), share).below, ranks_of(values.size(), share).above});
  std::sort(ranks.begin(), ranks.end());
  ranks.erase(std::unique(ranks.begin(), ranks.end()), ranks.end());
  put_in_place(values, 0, ranks);
  for (double& share : at) {
    const Ranks r = ranks_of(values.size(), share);
    share = values[r.below] + r.between * (values[r.above] - values[r.below]);
  }
  return at;
}

class Store {
 public:
  Store(const Experiment& experiment, const Course& course)
      : experiment_(experiment), course_(course), points_(experiment.numbers, course.seed), whole_(std::min(course.draws, kept_draws)) {
    kept_.resize(experiment.answers * whole_);
    for (unsigned t = 0; t < std::max(1U, course.threads); ++t)
      hands_.push_back({experiment.worker(), std::vector<double>(experiment.numbers * lanes), std::vector<double>(experiment.answers * lanes), {}});
  }

  std::vector<Spread> ask() {
    const Blocks first = Blocks::of(0, whole_, most_blocks), rest = Blocks::of(whole_, course_.draws, most_blocks);
    const double share_first = static_cast<double>(whole_) / static_cast<double>(course_.draws);
    const auto tell = [&](double share) {
      if (course_.progress) course_.progress(share);
    };
    if (!share_out(
            first, hands(), course_.stop, [&](unsigned t, std::size_t b) { keep(hands_[t], first, b); }, [&](double s) { tell(s * share_first); }))
      return {};
    std::vector<Spread> out(experiment_.answers);
    const Blocks by_answer{0, out.size(), 1};
    if (!share_out(
            by_answer, hands(), course_.stop, [&](unsigned, std::size_t o) { out[o] = of_kept(o); }, [](double) {}))
      return {};
    if (course_.draws == whole_) return out;

    for (std::size_t o = 0; o < experiment_.brief; ++o) scales_.push_back(scale_of(o));
    for (Hand& hand : hands_) hand.counts.assign(experiment_.brief * bins, 0);
    sums_.assign(rest.count() * experiment_.brief, {});
    if (!share_out(
            rest, hands(), course_.stop, [&](unsigned t, std::size_t b) { count(hands_[t], rest, b); },
            [&](double s) { tell(share_first + s * (1.0 - share_first)); }))
      return {};
    for (std::size_t o = 0; o < experiment_.brief; ++o)
      if (!std::isnan(out[o].mean)) out[o] = of_all(o, rest.count());
    return out;
  }

 private:
  struct Hand {
    std::unique_ptr<Worker> worker;
    std::vector<double> u, out;
    std::vector<std::uint64_t> counts;
  };
  unsigned hands() const { return static_cast<unsigned>(hands_.size()); }

  template <class Take>
  void block(Hand& hand, const Blocks& blocks, std::size_t b, bool brief, Take&& take) const {
    for (std::uint64_t at = blocks.begin_of(b); at < blocks.end_of(b); at += lanes) {
      points_.draw(at, hand.u);
      hand.worker->answer(at, hand.u, brief, hand.out);
      const std::size_t there = static_cast<std::size_t>(std::min<std::uint64_t>(lanes, blocks.end_of(b) - at));
      for (std::size_t o = 0; o < (brief ? experiment_.brief : experiment_.answers); ++o)
        for (std::size_t lane = 0; lane < there; ++lane) take(o, at + lane, hand.out[o * lanes + lane]);
    }
  }
  void keep(Hand& hand, const Blocks& blocks, std::size_t b) {
    block(hand, blocks, b, false, [&](std::size_t o, std::uint64_t draw, double x) { kept_[o * whole_ + draw] = x; });
  }
  void count(Hand& hand, const Blocks& blocks, std::size_t b) {
    Sums* sums = &sums_[b * experiment_.brief];
    block(hand, blocks, b, true, [&](std::size_t o, std::uint64_t, double x) {
      const double from_first = x - kept_[o * whole_];
      sums[o].sum += from_first;
      sums[o].squares += from_first * from_first;
      ++hand.counts[o * bins + scales_[o].bin_of(x)];
    });
  }

  std::span<double> kept(std::size_t o) { return {&kept_[o * whole_], whole_}; }
  Scale scale_of(std::size_t o) {
    const auto [low, high] = std::minmax_element(kept(o).begin(), kept(o).end());
    const double range = *high - *low;
    return {*low - beyond * range, (1.0 + 2.0 * beyond) * range / static_cast<double>(bins)};
  }
  static void moments(Spread& s, double origin, const Sums& sums) {
    const auto n = static_cast<double>(s.draws);
    s.mean = origin + sums.sum / n;
    s.deviation = s.draws > 1 ? std::sqrt(std::max(0.0, (sums.squares - sums.sum * sums.sum / n) / (n - 1.0))) : 0.0;
  }
  Sums kept_sums(std::size_t o) {
    Sums sums;
    for (const double x : kept(o)) {
      const double from_first = x - kept_[o * whole_];
      sums.sum += from_first;
      sums.squares += from_first * from_first;
    }
    return sums;
  }
  Spread of_kept(std::size_t o) {
    Spread s;
    s.draws = whole_;
    if (std::any_of(kept(o).begin(), kept(o).end(), [](double x) { return std::isnan(x); })) {
      s.p05 = s.p50 = s.p95 = s.error = s.mean = s.deviation = std::numeric_limits<double>::quiet_NaN();
      return s;
    }
    moments(s, kept_[o * whole_], kept_sums(o));
    std::vector<double> values(kept(o).begin(), kept(o).end());
    percentiles(s, of_kept_values(values), 0.0);
    return s;
  }
  Spread of_all(std::size_t o, std::size_t blocks) {
    Spread s;
    s.draws = course_.draws;
    Sums sums = kept_sums(o);
    for (std::size_t b = 0; b < blocks; ++b) {
      sums.sum += sums_[b * experiment_.brief + o].sum;
      sums.squares += sums_[b * experiment_.brief + o].squares;
    }
    moments(s, kept_[o * whole_], sums);
    std::vector<std::uint64_t> counts(bins, 0);
    for (const double x : kept(o)) ++counts[scales_[o].bin_of(x)];
    for (const Hand& hand : hands_)
      for (std::size_t b = 0; b < bins; ++b) counts[b] += hand.counts[o * bins + b];
    Shares at = shares_of(s.draws);
    for (double& share : at) share = of_bins(counts, scales_[o], share, s.draws);
    percentiles(s, at, scales_[o].step);
    return s;
  }

  const Experiment& experiment_;
  const Course& course_;
  SobolPoints points_;
  std::uint64_t whole_;
  std::vector<double> kept_;  // draw n of answer o at [o * whole_ + n]
  std::vector<Scale> scales_;
  std::vector<Sums> sums_;  // a block and brief answer
  std::vector<Hand> hands_;
};

}  // namespace

std::vector<Spread> spreads(const Experiment& experiment, const Course& course) { return Store(experiment, course).ask(); }

}  // namespace bloomset::solve
