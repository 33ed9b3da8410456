#include "solve/search.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <nlopt.hpp>

namespace bloomset::solve {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double difference = 1e-6;  // of an unknown of order one: central differences are then good to some 1e-11
constexpr int most_steps = 40, most_halvings = 12, most_quadratic = 60, most_without_slopes = 2000;

// How far a value lies outside its wish, with its sign, in scales.
double miss_of(const Wish& wish, double value) {
  if (std::isnan(value)) return 1.0;
  return value < wish.low ? (value - wish.low) / wish.scale : value > wish.high ? (value - wish.high) / wish.scale : 0.0;
}

// A fixed sequence of numbers in [0, 1): golden-ratio steps (Weyl), one irrational a dimension.
double spread(std::size_t start, std::size_t dimension) {
  const double step = std::sqrt(static_cast<double>(2 + 3 * dimension) + 0.37);
  const double at = static_cast<double>(start) * step;
  return at - std::floor(at);
}

class Seeker {
 public:
  explicit Seeker(const Search& ask) : ask_(ask), n_(ask.start.size()), m_(ask.wishes.size()), values_(m_), up_(m_), down_(m_) {}

  Found from(std::vector<double> x) {
    restore(x);
    if (worst(x) <= near_enough) {
      std::vector<double> nearer = x;
      if (nearest(nearer)) {
        restore(nearer);
        if (worst(nearer) <= Found::tolerance && moved(nearer) <= moved(x)) x = nearer;
      }
    }
    return judged(std::move(x));
  }

  // From the best place so far, without slopes.
  Found least_miss(std::vector<double> x) {
    try {
      nlopt::opt opt(nlopt::LN_SBPLX, static_cast<unsigned>(n_));
      opt.set_lower_bounds(ask_.low);
      opt.set_upper_bounds(ask_.high);
      opt.set_maxeval(most_without_slopes);
      opt.set_xtol_rel(1e-10);
      opt.set_min_objective(&Seeker::missed_squares, this);
      double least = 0.0;
      opt.optimize(x, least);
    } catch (const std::exception&) {
      // Roundoff: where it stood is as good as it gets.
    }
    clamp(x);
    return judged(std::move(x));
  }

  MatrixXd slopes_at(std::vector<double> x) {
    MatrixXd slopes(static_cast<Eigen::Index>(m_), static_cast<Eigen::Index>(n_));
    for (std::size_t i = 0; i < n_; ++i) {
      const double here = x[i], above = std::min(here + difference, ask_.high[i]), below = std::max(here - difference, ask_.low[i]);
      x[i] = above;
      ask_.model(x, up_);
      x[i] = below;
      ask_.model(x, down_);
      x[i] = here;
      for (std::size_t w = 0; w < m_; ++w) {
        const double slope = above > below ? (up_[w] - down_[w]) / (above - below) : 0.0;
        slopes(static_cast<Eigen::Index>(w), static_cast<Eigen::Index>(i)) = std::isfinite(slope) ? slope / ask_.wishes[w].scale : 0.0;
      }
    }
    return slopes;
  }

  Found judged(std::vector<double> x) {
    Found found;
    found.miss = worst(x);
    found.values = values_;
    found.moved = moved(x);
    found.x = std::move(x);
    return found;
  }

 private:
  static constexpr double near_enough = 1e-4;

  void clamp(std::vector<double>& x) const {
    for (std::size_t i = 0; i < n_; ++i) x[i] = std::clamp(x[i], ask_.low[i], ask_.high[i]);
  }
  double moved(const std::vector<double>& x) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < n_; ++i) sum += (x[i] - ask_.start[i]) * (x[i] - ask_.start[i]);
    return sum;
  }
  double worst(const std::vector<double>& x) {
    ask_.model(x, values_);
    double most = 0.0;
    for (std::size_t w = 0; w < m_; ++w) most = std::max(most, std::abs(miss_of(ask_.wishes[w], values_[w])));
    return most;
  }
  double squares(const std::vector<double>& x) {
    ask_.model(x, values_);
    double sum = 0.0;
    for (std::size_t w = 0; w < m_; ++w) {
      const double miss = ask_.wishes[w].weight * miss_of(ask_.wishes[w], values_[w]);
      sum += miss * miss;
    }
    return sum;
  }
  static double missed_squares(const std::vector<double>& x, std::vector<double>&, void* self) { return static_cast<Seeker*>(self)->squares(x); }

  // Gauss and Newton: the smallest step that brings every unmet wish to its edge. An unknown that runs into its bound is left out.
  void restore(std::vector<double>& x) {
    clamp(x);
    double now = squares(x);
    for (int step = 0; step < most_steps && now > 0.0; ++step) {
      ask_.model(x, values_);
      std::vector<std::size_t> unmet;
      for (std::size_t w = 0; w < m_; ++w)
        if (miss_of(ask_.wishes[w], values_[w]) != 0.0 || ask_.wishes[w].low == ask_.wishes[w].high) unmet.push_back(w);
      const std::vector<double> values = values_;
      const MatrixXd all = slopes_at(x);
      std::vector<bool> held(n_, false);
      VectorXd change;
      for (bool again = true; again;) {
        again = false;
        MatrixXd rows(static_cast<Eigen::Index>(unmet.size()), static_cast<Eigen::Index>(n_));
        VectorXd misses(static_cast<Eigen::Index>(unmet.size()));
        for (std::size_t r = 0; r < unmet.size(); ++r) {
          const auto row = static_cast<Eigen::Index>(r);
          const Wish& wish = ask_.wishes[unmet[r]];
          rows.row(row) = wish.weight * all.row(static_cast<Eigen::Index>(unmet[r]));
          for (std::size_t i = 0; i < n_; ++i)
            if (held[i]) rows(row, static_cast<Eigen::Index>(i)) = 0.0;
          misses(row) = wish.weight * miss_of(wish, values[unmet[r]]);
        }
        change = -rows.completeOrthogonalDecomposition().solve(misses);
        for (std::size_t i = 0; i < n_; ++i) {
          const double to = x[i] + change(static_cast<Eigen::Index>(i));
          const bool leaves = (x[i] <= ask_.low[i] && to < ask_.low[i]) || (x[i] >= ask_.high[i] && to > ask_.high[i]);
          if (leaves && !held[i]) held[i] = again = true;
        }
      }
      double share = 1.0, then = now;
      std::vector<double> tried = x;
      for (int halving = 0; halving < most_halvings; ++halving, share *= 0.5) {
        for (std::size_t i = 0; i < n_; ++i) tried[i] = x[i] + share * change(static_cast<Eigen::Index>(i));
        clamp(tried);
        then = squares(tried);
        if (then < now) break;
      }
      if (!(then < now)) return;
      x = tried;
      now = then;
    }
  }

  // The nearest point to the start that satisfies the wishes: SLSQP with the wishes as constraints.
  bool nearest(std::vector<double>& x) {
    points_.clear();
    bands_.clear();
    for (std::size_t w = 0; w < m_; ++w) {
      const Wish& wish = ask_.wishes[w];
      if (wish.low == wish.high) {
        points_.push_back({w, wish.low, 1.0});
      } else {
        if (wish.low > -unbounded) bands_.push_back({w, wish.low, -1.0});
        if (wish.high < unbounded) bands_.push_back({w, wish.high, 1.0});
      }
    }
    if (points_.size() >= n_) return false;  // nothing is free any more
    try {
      nlopt::opt opt(nlopt::LD_SLSQP, static_cast<unsigned>(n_));
      opt.set_lower_bounds(ask_.low);
      opt.set_upper_bounds(ask_.high);
      opt.set_maxeval(most_quadratic);
      opt.set_xtol_rel(1e-11);
      opt.set_min_objective(&Seeker::distance, this);
      if (!points_.empty()) opt.add_equality_mconstraint(&Seeker::on_points, this, std::vector<double>(points_.size(), 1e-10));
      if (!bands_.empty()) opt.add_inequality_mconstraint(&Seeker::in_bands, this, std::vector<double>(bands_.size(), 1e-10));
      double least = 0.0;
      opt.optimize(x, least);
      clamp(x);
      return true;
    } catch (const std::exception&) {
      return false;
    }
  }

  struct Edge {
    std::size_t wish;
    double at, sign;
  };
  static double distance(const std::vector<double>& x, std::vector<double>& slope, void* self) {
    const Seeker& seeker = *static_cast<Seeker*>(self);
    for (std::size_t i = 0; i < slope.size(); ++i) slope[i] = 2.0 * (x[i] - seeker.ask_.start[i]);
    return seeker.moved(x);
  }
  void edges(const std::vector<Edge>& list, unsigned n, const double* x, double* result, double* slopes) {
    std::vector<double> at(x, x + n);
    if (slopes != nullptr) {
      const MatrixXd all = slopes_at(at);
      for (std::size_t e = 0; e < list.size(); ++e)
        for (unsigned i = 0; i < n; ++i) slopes[e * n + i] = list[e].sign * all(static_cast<Eigen::Index>(list[e].wish), static_cast<Eigen::Index>(i));
    }
    ask_.model(at, values_);
    for (std::size_t e = 0; e < list.size(); ++e) {
      const double off = list[e].sign * (values_[list[e].wish] - list[e].at) / ask_.wishes[list[e].wish].scale;
      result[e] = std::isnan(off) ? 1.0 : off;
    }
  }
  static void on_points(unsigned, double* result, unsigned n, const double* x, double* slopes, void* self) {
    auto& seeker = *static_cast<Seeker*>(self);
    seeker.edges(seeker.points_, n, x, result, slopes);
  }
  static void in_bands(unsigned, double* result, unsigned n, const double* x, double* slopes, void* self) {
    auto& seeker = *static_cast<Seeker*>(self);
    seeker.edges(seeker.bands_, n, x, result, slopes);
  }

  const Search& ask_;
  std::size_t n_, m_;
  std::vector<double> values_, up_, down_;
  std::vector<Edge> points_, bands_;
};

// The first start is the author's; the others lie around it, up to three times and down to a third, within the bounds.
std::vector<double> start_of(const Search& ask, int number) {
  std::vector<double> x = ask.start;
  if (number == 0) return x;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double factor = std::pow(3.0, 2.0 * spread(static_cast<std::size_t>(number), i) - 1.0);
    x[i] = std::clamp(x[i] > 0.0 ? x[i] * factor : factor - 1.0, ask.low[i], ask.high[i]);
  }
  return x;
}

Search only(const Search& ask, const std::vector<std::size_t>& wishes) {
  Search less = ask;
  less.wishes.clear();
  for (const std::size_t w : wishes) less.wishes.push_back(ask.wishes[w]);
  less.model = [&ask, wishes](std::span<const double> x, std::span<double> values) {
    std::vector<double> all(ask.wishes.size());
    ask.model(x, all);
    for (std::size_t w = 0; w < wishes.size(); ++w) values[w] = all[wishes[w]];
  };
  return less;
}

}  // namespace

Found search(const Search& ask, int starts) {
  Seeker seeker(ask);
  if (ask.start.empty()) return seeker.judged({});
  constexpr int enough_met = 3;  // others that satisfy are seldom nearer
  Found best;
  int met = 0;
  for (int start = 0; start < starts && met < enough_met; ++start) {
    Found found = seeker.from(start_of(ask, start));
    met += found.met();
    const bool better = found.met() ? !best.met() || found.moved < best.moved : !best.met() && found.miss < best.miss;
    if (better) best = std::move(found);
  }
  if (best.met() || best.x.empty()) return best;
  Found least = seeker.least_miss(best.x);
  return least.miss < best.miss ? least : best;
}

std::vector<std::size_t> conflict(const Search& ask, int starts) {
  std::vector<std::size_t> left(ask.wishes.size());
  for (std::size_t w = 0; w < left.size(); ++w) left[w] = w;
  const auto solvable = [&](const std::vector<std::size_t>& wishes) { return wishes.empty() || search(only(ask, wishes), starts).met(); };
  if (solvable(left)) return {};
  for (std::size_t w = 0; w < ask.wishes.size(); ++w) {
    std::vector<std::size_t> without = left;
    std::erase(without, w);
    if (!solvable(without)) left = without;
  }
  return left;
}

std::vector<std::vector<double>> slopes(const Search& ask, std::span<const double> x) {
  Seeker seeker(ask);
  const MatrixXd all = seeker.slopes_at({x.begin(), x.end()});
  std::vector<std::vector<double>> rows(ask.wishes.size(), std::vector<double>(x.size()));
  for (std::size_t w = 0; w < rows.size(); ++w)
    for (std::size_t i = 0; i < x.size(); ++i) rows[w][i] = ask.wishes[w].scale * all(static_cast<Eigen::Index>(w), static_cast<Eigen::Index>(i));
  return rows;
}

std::vector<std::vector<double>> exchange(const Search& ask, std::span<const double> x, std::span<const std::size_t> wishes) {
  const auto all = slopes(ask, x);
  MatrixXd rows(static_cast<Eigen::Index>(wishes.size()), static_cast<Eigen::Index>(x.size()));
  for (std::size_t w = 0; w < wishes.size(); ++w)
    for (std::size_t i = 0; i < x.size(); ++i) {
      const bool held = ask.low[i] >= ask.high[i];
      rows(static_cast<Eigen::Index>(w), static_cast<Eigen::Index>(i)) = held ? 0.0 : all[wishes[w]][i];
    }
  const MatrixXd inverse = rows.completeOrthogonalDecomposition().pseudoInverse();
  std::vector<std::vector<double>> changes(wishes.size(), std::vector<double>(x.size()));
  for (std::size_t w = 0; w < wishes.size(); ++w)
    for (std::size_t i = 0; i < x.size(); ++i) changes[w][i] = inverse(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(w));
  return changes;
}

}  // namespace bloomset::solve
