// solve/indices.cpp - what part of the scatter each group of numbers makes.
//
// Two independent draws A and B; f(A), f(B), and f(A with group g from B). With f measured from its mean,
//   first_g = mean f(B) (f(AB_g) - f(A)) / V     (Saltelli et al. 2010, table 2 b)
//   total_g = mean (f(A) - f(AB_g))^2 / 2 V      (Jansen 1999)
// V is the variance of all f(A) and f(B) together.
#include <algorithm>
#include <cmath>

#include "solve/blocks.hpp"

namespace bloomset::solve {
namespace {

constexpr std::uint64_t most_blocks = 64;
constexpr std::uint64_t pilot_draws = 256;  // for a mean to measure from: any number near it will do

class Pairs {
 public:
  Pairs(const Experiment& experiment, const Course& course)
      : experiment_(experiment), course_(course), points_(2 * experiment.numbers, course.seed), middle_(experiment.brief, 0.0) {
    for (unsigned t = 0; t < std::max(1U, course.threads); ++t) {
      Hand hand{experiment.worker(), experiment.worker(), std::vector<double>(2 * experiment.numbers * lanes), {}, {}, {}};
      hand.of_a.resize(experiment.answers * lanes);
      hand.of_b = hand.swapped = hand.of_a;
      hands_.push_back(std::move(hand));
    }
  }

  std::vector<Index> ask() {
    find_middle();
    const Blocks blocks = Blocks::of(0, course_.draws, most_blocks);
    const std::size_t groups = experiment_.groups;
    sums_.assign(blocks.count() * experiment_.brief * (groups + 1), {});
    const auto tell = [&](double share) {
      if (course_.progress) course_.progress(share);
    };
    if (!share_out(
            blocks, static_cast<unsigned>(hands_.size()), course_.stop, [&](unsigned t, std::size_t b) { block(hands_[t], blocks, b); }, tell))
      return {};
    std::vector<Index> out(experiment_.brief * groups);
    for (std::size_t o = 0; o < experiment_.brief; ++o)
      for (std::size_t g = 0; g < groups; ++g) out[o * groups + g] = index_of(blocks, o, g);
    return out;
  }

 private:
  struct Hand {
    std::unique_ptr<Worker> a, b;
    std::vector<double> u, of_a, of_b, swapped;
  };
  // Of a group: the two numerators. Of the answer itself (behind the groups): sum and squares of f(A) and f(B).
  struct Sums {
    double first = 0.0, second = 0.0;
  };
  Sums& sums(std::size_t block, std::size_t o, std::size_t g) { return sums_[(block * experiment_.brief + o) * (experiment_.groups + 1) + g]; }

  std::span<const double> half(const Hand& hand, std::size_t which) const {
    return std::span(hand.u).subspan(which * experiment_.numbers * lanes, experiment_.numbers * lanes);
  }

  void find_middle() {
    Hand& hand = hands_.front();
    const std::uint64_t draws = std::min(course_.draws, pilot_draws) / lanes * lanes;
    for (std::uint64_t at = 0; at < draws; at += lanes) {
      points_.draw(at, hand.u);
      hand.a->answer(at, half(hand, 0), true, hand.of_a);
      for (std::size_t o = 0; o < experiment_.brief; ++o)
        for (std::size_t lane = 0; lane < lanes; ++lane) middle_[o] += hand.of_a[o * lanes + lane] / static_cast<double>(draws);
    }
  }

  void block(Hand& hand, const Blocks& blocks, std::size_t b) {
    const std::size_t groups = experiment_.groups;
    for (std::uint64_t at = blocks.begin_of(b); at < blocks.end_of(b); at += lanes) {
      const auto there = static_cast<std::size_t>(std::min<std::uint64_t>(lanes, blocks.end_of(b) - at));
      points_.draw(at, hand.u);
      hand.a->answer(at, half(hand, 0), true, hand.of_a);
      hand.b->answer(at, half(hand, 1), true, hand.of_b);
      for (std::size_t o = 0; o < experiment_.brief; ++o) {
        Sums& own = sums(b, o, groups);
        for (std::size_t i = o * lanes; i < o * lanes + there; ++i) {
          const double f_a = hand.of_a[i] - middle_[o], f_b = hand.of_b[i] - middle_[o];
          own.first += f_a + f_b;
          own.second += f_a * f_a + f_b * f_b;
        }
      }
      for (std::size_t g = 0; g < groups; ++g) {
        hand.a->swap(g, half(hand, 1), hand.swapped);
        for (std::size_t o = 0; o < experiment_.brief; ++o) {
          Sums& of = sums(b, o, g);
          for (std::size_t i = o * lanes; i < o * lanes + there; ++i) {
            const double moved = hand.swapped[i] - hand.of_a[i];
            of.first += (hand.of_b[i] - middle_[o]) * moved;
            of.second += 0.5 * moved * moved;
          }
        }
      }
    }
  }

  Index index_of(const Blocks& blocks, std::size_t o, std::size_t g) {
    const std::size_t count = blocks.count();
    const auto n = static_cast<double>(course_.draws);
    Sums all, own;
    for (std::size_t b = 0; b < count; ++b) {
      all.first += sums(b, o, g).first;
      all.second += sums(b, o, g).second;
      own.first += sums(b, o, experiment_.groups).first;
      own.second += sums(b, o, experiment_.groups).second;
    }
    const double mean = own.first / (2.0 * n), variance = own.second / (2.0 * n) - mean * mean;
    if (!(variance > nothing * middle_[o] * middle_[o])) return {};
    // Both indices are ratios, so a block errs by its numerator less the ratio times its own variance.
    const double scale = 1.0 / (n * variance), first_order = all.first * scale, total = all.second * scale;
    double first_spread = 0.0, total_spread = 0.0;
    for (std::size_t b = 0; b < count; ++b) {
      const Sums& here = sums(b, o, experiment_.groups);
      const auto draws = static_cast<double>(blocks.end_of(b) - blocks.begin_of(b));
      const double own_variance = 0.5 * here.second - mean * here.first + draws * mean * mean;
      const double first_off = sums(b, o, g).first - first_order * own_variance, total_off = sums(b, o, g).second - total * own_variance;
      first_spread += first_off * first_off;
      total_spread += total_off * total_off;
    }
    const double wide = count > 1 ? standard_errors * std::sqrt(static_cast<double>(count) / static_cast<double>(count - 1)) : 0.0;
    return {first_order, wide * std::sqrt(first_spread) * scale, total, wide * std::sqrt(total_spread) * scale};
  }
  static constexpr double nothing = 1e-24;  // of the square of the mean: what rounding leaves of an answer that does not move

  const Experiment& experiment_;
  const Course& course_;
  SobolPoints points_;
  std::vector<double> middle_;
  std::vector<Sums> sums_;
  std::vector<Hand> hands_;
};

}  // namespace

std::vector<Index> indices(const Experiment& experiment, const Course& course) { return Pairs(experiment, course).ask(); }

}  // namespace bloomset::solve
