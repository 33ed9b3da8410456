// Each demo with its amounts moved, asked for the properties it had; beside a search that only guesses.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>

#include "solve/asked.hpp"
#include "solve/problem.hpp"

namespace bloomset::solve {
namespace {

using solve_test::asked;

// Two million runs of a drink: all of them as the program is shipped, a tenth under checks.
#ifdef __SANITIZE_ADDRESS__
constexpr int compared = 20;
#else
constexpr int compared = 200;
#endif

// The least miss of 10,000 points drawn within the bounds around the start.
template <class Uniform>
double best_at_random(const Search& ask, Uniform uniform) {
  double best = unbounded;
  std::vector<double> x(ask.start.size()), values(ask.wishes.size());
  for (int n = 0; n < 10000; ++n) {
    for (std::size_t i = 0; i < x.size(); ++i) x[i] = std::min(ask.start[i] * uniform(0.3, 3.0), ask.high[i]);
    ask.model(x, values);
    double miss = 0.0;
    for (std::size_t w = 0; w < values.size(); ++w) miss = std::max(miss, std::abs(values[w] - ask.wishes[w].low) / ask.wishes[w].scale);
    if (miss < best) best = miss;  // a value that cannot be read is no miss of a wish that was
  }
  return best;
}

// Each demo's amounts moved by up to 40 %, and asked for the properties it had: they come back to a millionth, in 200 cases drawn from a fixed seed. A
// case whose slopes are linearly dependent at the answer has no one answer: it is printed, and there are fewer than twenty.
TEST(Recovery, FindsTheAuthorsPropertiesAgain) {
  std::mt19937_64 random(20261125), guesses(20261126);
  const auto drawn_from = [](std::mt19937_64& source) {
    return [&source](double low, double high) { return low + (high - low) * static_cast<double>(source() >> 11U) * 0x1p-53; };
  };
  const auto uniform = drawn_from(random), guess = drawn_from(guesses);
  const std::vector<std::string> names = {"abv", "sugar", "acidity", "mass", "volume", "sugars"};
  std::vector<std::filesystem::path> demos;
  for (const auto& path : sheet_test::demos()) {
    const std::string text = sheet_test::text_of(path);
    if (text.find("[serve]") != std::string::npos && text.find("15-") == std::string::npos) demos.push_back(path);
  }
  int cases = 0, singular = 0;
  for (int n = 0; cases < 200 && n < 1000; ++n) {
    const auto& path = demos[static_cast<std::size_t>(n) % demos.size()];
    const auto original = asked(sheet_test::text_of(path), {});
    std::vector<formula::Target> all;
    for (const std::string& name : names) {
      formula::Target target;
      target.property = name;
      target.wish = formula::Wish::equal;
      target.text = "serve." + name;
      all.push_back(target);
    }
    auto problem = Problem::of(original->ask, all);
    if (!problem) continue;
    Problem& p = **problem;
    std::vector<double> values(all.size());
    const std::vector<double> ones(p.free().size(), 1.0);
    p.values(ones, values);
    // As many wishes as they have slopes of their own.
    Search whole = p.search();
    const std::size_t wanted = std::min<std::size_t>(1 + static_cast<std::size_t>(n) % 3, p.free().size());
    std::vector<formula::Target> wishes;
    for (std::size_t t = 0; t < all.size() && wishes.size() < wanted; ++t) {
      if (std::isnan(values[t]) || !(values[t] > 1e-3) || uniform(0.0, 1.0) < 0.4) continue;
      all[t].low = all[t].high = values[t];
      wishes.push_back(all[t]);
    }
    if (wishes.empty()) continue;
    ++cases;
    auto again = Problem::of(original->ask, wishes);
    ASSERT_TRUE(again.has_value());
    Search ask = (*again)->search();
    for (double& x : ask.start) x = uniform(0.6, 1.4);
    const Found found = search(ask);
    if (cases <= compared) {
      EXPECT_LE(found.miss, best_at_random(ask, guess) + 1e-9) << path;
    }
    if (found.miss > 1e-6) {
      ++singular;
      std::printf("  %s: %zu wishes, miss %.2g\n", path.filename().c_str(), wishes.size(), found.miss);
    }
  }
  EXPECT_EQ(cases, 200);
  EXPECT_LT(singular, 1);
}

}  // namespace
}  // namespace bloomset::solve
