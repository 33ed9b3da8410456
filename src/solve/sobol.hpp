// solve/sobol.hpp - points that fill a cube evenly, scrambled: the draws of scatter.
//
// Sobol's sequence with the direction numbers of Joe and Kuo (SIAM J. Sci. Comput. 30 (2008) 2635-2654), taken from Boost.Random. Scrambled by a random
// lower triangular matrix a dimension and a random shift (Matousek, J. Complexity 14 (1998) 527-556), which keeps the evenness, makes every mean
// unbiased, and costs nothing when points are drawn. The scrambling comes from a generator of our own, so one seed is one answer everywhere.
// Any stretch of the sequence can be asked for, so that threads share it. The only place that knows Boost.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace bloomset::solve {

/// Points drawn side by side, as many as flow::run has lanes.
inline constexpr std::size_t lanes = 8;

class SobolPoints {
 public:
  /// The most dimensions there are direction numbers for.
  static std::size_t most_dimensions();
  /// After these many points the sequence ends.
  static constexpr std::uint64_t length = std::uint64_t{1} << 32U;

  SobolPoints(std::size_t dimensions, std::uint64_t seed);
  std::size_t dimensions() const { return shift_.size(); }

  /// Points first … first + 7, `first` a multiple of 8, each coordinate inside (0, 1): coordinate d of lane l is `out[d * 8 + l]`.
  void draw(std::uint64_t first, std::span<double> out) const;

 private:
  static constexpr std::size_t bits = 32;
  std::vector<std::uint32_t> directions_;  // bit k of dimension d at [d * 32 + k]
  std::vector<std::uint32_t> shift_;       // one a dimension
};

/// Sebastiano Vigna's splitmix64: a seed to any number of well-mixed 64-bit words.
class Mixer {
 public:
  explicit Mixer(std::uint64_t seed) : state_(seed) {}
  std::uint64_t operator()();

 private:
  std::uint64_t state_;
};

}  // namespace bloomset::solve
