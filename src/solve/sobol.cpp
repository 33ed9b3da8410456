#include "solve/sobol.hpp"

#include <array>
#include <bit>
#include <boost/random/sobol.hpp>

namespace bloomset::solve {
namespace {

using Engine = boost::random::sobol_engine<std::uint32_t, 32, boost::random::default_sobol_table>;

constexpr std::uint32_t top_bit = 0x80000000U;
constexpr double one_step = 0x1p-32;

// A lower triangular matrix over {0, 1} with ones on its diagonal, as rows: the first bit of the fraction stays the first.
std::array<std::uint32_t, 32> random_matrix(Mixer& mix) {
  std::array<std::uint32_t, 32> rows{};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::uint32_t diagonal = top_bit >> i;
    rows[i] = diagonal | (static_cast<std::uint32_t>(mix() >> 32U) & ~(diagonal | (diagonal - 1U)));  // what stands before the diagonal
  }
  return rows;
}

std::uint32_t times(const std::array<std::uint32_t, 32>& rows, std::uint32_t column) {
  std::uint32_t out = 0;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if ((std::popcount(rows[i] & column) & 1) != 0) out |= top_bit >> i;
  return out;
}

}  // namespace

std::uint64_t Mixer::operator()() {
  state_ += 0x9E3779B97F4A7C15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

std::size_t SobolPoints::most_dimensions() { return boost::random::default_sobol_table::max_dimension; }

SobolPoints::SobolPoints(std::size_t dimensions, std::uint64_t seed) : directions_(dimensions * bits), shift_(dimensions) {
  // Boost steps by Gray code: point i differs from the one before it by direction number k, where 2^k is the largest power of two that divides i. It
  // leaves out the point at the origin, so the one it calls 0 is direction number 0 itself.
  Engine engine(dimensions);
  std::vector<std::uint32_t> before(dimensions, 0);
  for (std::size_t k = 0; k < bits; ++k) {
    const std::uint32_t at = std::uint32_t{1} << k;  // the first point that direction number k enters
    if (at > 1) {
      engine.seed(at - 2U);
      for (std::uint32_t& x : before) x = engine();
    }
    for (std::size_t d = 0; d < dimensions; ++d) directions_[d * bits + k] = engine() ^ before[d];
  }
  Mixer mix(seed);
  for (std::size_t d = 0; d < dimensions; ++d) {
    const auto matrix = random_matrix(mix);
    for (std::size_t k = 0; k < bits; ++k) directions_[d * bits + k] = times(matrix, directions_[d * bits + k]);
    shift_[d] = static_cast<std::uint32_t>(mix() >> 32U);
  }
}

void SobolPoints::draw(std::uint64_t first, std::span<double> out) const {
  const auto index = static_cast<std::uint32_t>(first);
  const std::uint32_t gray = index ^ (index >> 1U);
  for (std::size_t d = 0; d < shift_.size(); ++d) {
    const std::uint32_t* direction = &directions_[d * bits];
    std::uint32_t x = shift_[d];
    for (std::uint32_t left = gray; left != 0; left &= left - 1U) x ^= direction[std::countr_zero(left)];
    // Eight points on from a multiple of eight: Gray code turns bits 0, 1, 0, 2, 0, 1, 0.
    double* of = &out[d * lanes];
    constexpr std::array<std::size_t, lanes> turns = {0, 1, 0, 2, 0, 1, 0, 0};
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      of[lane] = (static_cast<double>(x) + 0.5) * one_step;
      x ^= direction[turns[lane]];
    }
  }
}

}  // namespace bloomset::solve
