// solve/search.hpp - amounts that satisfy wishes and lie nearest to where one began; or the wishes that cannot be had together.
//
// Knows nothing of drinks: a model is a smooth function of a few unknowns. From each start: Gauss and Newton's method with the smallest step that brings
// the unmet wishes home (bounds held, steps halved until it helps), then sequential quadratic programming for the nearest point that satisfies them
// (Kraft 1988, in NLopt, central differences), then Gauss and Newton again, which ends to the last digits. Where that fails, a search without
// derivatives looks for the least miss. Starts are drawn from a fixed seed: the same question has the same answer.
#pragma once

#include <cstdint>
#include <functional>
#include <limits>
#include <span>
#include <vector>

namespace bloomset::solve {

inline constexpr double unbounded = std::numeric_limits<double>::infinity();

/// Fills one value a wish. NaN counts as a miss of one scale. Smooth in between.
using Model = std::function<void(std::span<const double> x, std::span<double> values)>;

/// `low` = `high`: a point. `scale` (above 0) is what counts as one unit of a miss; `weight` how much it counts where not all can be had.
struct Wish {
  double low = -unbounded, high = unbounded;
  double scale = 1.0, weight = 1.0;
};

/// At most some twenty unknowns and wishes. `start` lies within `low` and `high`; unknowns are of order one (amount over amount as written).
struct Search {
  Model model;
  std::vector<double> start, low, high;
  std::vector<Wish> wishes;
};

struct Found {
  std::vector<double> x, values;
  double miss = unbounded;  // of the wish that is furthest off, in its scale; 0: all are met
  double moved = 0.0;       // sum of squares of (x - start)
  bool met() const { return miss <= tolerance; }
  static constexpr double tolerance = 1e-9;
};

inline constexpr int usual_starts = 32;

/// The nearest to the start that satisfies all wishes, or where they are missed least.
Found search(const Search&, int starts = usual_starts);

/// Wishes, by index, that no start satisfies together while with any one of them left out there is a solution. Empty if all can be had.
std::vector<std::size_t> conflict(const Search&, int starts = usual_starts);

/// How the values answer the unknowns at x: one row a wish, central differences.
std::vector<std::vector<double>> slopes(const Search&, std::span<const double> x);

/// The smallest change of the unknowns that raises one wish's value by one and leaves the other listed ones: one row a listed wish.
std::vector<std::vector<double>> exchange(const Search&, std::span<const double> x, std::span<const std::size_t> wishes);

}  // namespace bloomset::solve
