// solve/blocks.hpp - a stretch of draws shared among threads, in blocks whose bounds depend on nothing but their number. Private to solve.
//
// Threads take the next block as they come free; what a block adds up is put in its own place and summed in order afterwards, so the sum does not know
// how many threads there were. A stop is looked for between blocks.
#pragma once

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

#include "solve/experiment.hpp"

namespace bloomset::solve {

/// An error is stated as so many standard errors.
inline constexpr double standard_errors = 2.0;

struct Blocks {
  std::uint64_t first = 0, end = 0;  // draws
  std::uint64_t size = lanes;        // draws a block, a multiple of `lanes`
  /// At most so many blocks, so that what is kept of each is little.
  static Blocks of(std::uint64_t first, std::uint64_t end, std::uint64_t most) {
    const std::uint64_t batches = (end - first + lanes - 1) / lanes;
    return {first, end, lanes * std::max<std::uint64_t>(1, (batches + most - 1) / most)};
  }
  std::size_t count() const { return static_cast<std::size_t>((end - first + size - 1) / size); }
  std::uint64_t begin_of(std::size_t block) const { return first + block * size; }
  std::uint64_t end_of(std::size_t block) const { return std::min(end, begin_of(block) + size); }
};

/// Calls work(thread, block) for every block, on `threads` threads; done(share) from this one. False: it was stopped.
template <class Work, class Done>
bool share_out(const Blocks& blocks, unsigned threads, const std::stop_token& stop, Work&& work, Done&& done) {
  const std::size_t count = blocks.count();
  std::atomic<std::size_t> next{0}, finished{0};
  const auto toil = [&](unsigned thread, auto&& after_each) {
    while (!stop.stop_requested()) {
      const std::size_t block = next.fetch_add(1);
      if (block >= count) return;
      work(thread, block);
      after_each(finished.fetch_add(1) + 1);
    }
  };
  {
    std::vector<std::jthread> others;
    for (unsigned t = 1; t < threads; ++t) others.emplace_back([&, t] { toil(t, [](std::size_t) {}); });
    toil(0, [&](std::size_t so_far) { done(static_cast<double>(so_far) / static_cast<double>(count)); });
  }
  return finished == count;
}

}  // namespace bloomset::solve
