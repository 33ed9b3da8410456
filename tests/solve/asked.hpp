// tests/solve/asked.hpp - questions to balance, from texts.
#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "sheet/made.hpp"
#include "solve/balance.hpp"

namespace bloomset::solve_test {

/// A document read, and the question asked of it; the question refers to what stands before it.
struct Asked {
  base::Sources sources;
  formula::Formula formula;
  std::string text;
  solve::BalanceAsked ask;
  Asked(base::Sources from, formula::Formula read, std::string written, bool exact, const larder::Larder* larder)
      : sources(std::move(from)),
        formula(std::move(read)),
        text(std::move(written)),
        ask{{formula, larder != nullptr ? *larder : sheet_test::house().larder, sheet_test::house().kit, {}, text}, text, {}, {}, false, {}, false, exact} {}
};

inline std::unique_ptr<Asked> asked(const std::string& text, const std::vector<std::string>& targets, const std::vector<std::string>& vary = {},
                                    bool exact = true, const larder::Larder* larder = nullptr) {
  base::Sources sources;
  auto read = formula::read("test.toml", text, sources,
                            [](const std::string& file) { return std::optional(sheet_test::text_of(BLOOMSET_SOURCE_DIR "/demo/" + file)); });
  EXPECT_TRUE(read.has_value()) << text;
  auto out = std::make_unique<Asked>(std::move(sources), std::move(*read), text, exact, larder);
  text::Faults faults;
  for (const std::string& target : targets) {
    auto one = formula::read_target_text({target, {0, 1, 1, 1}}, text::Measures::metric, faults);
    EXPECT_TRUE(one.has_value()) << target;
    if (one) out->ask.targets.push_back(*one);
  }
  for (const std::string& thing : vary) {
    const bool bounded = thing.find_first_of("0123456789") == 0;
    auto one = bounded ? formula::read_take(thing, {0, 1, 1, 1}, text::Measures::metric, faults) : formula::read_thing(thing, {0, 1, 1, 1}, faults);
    EXPECT_TRUE(one.has_value()) << thing;
    if (one) out->ask.vary.push_back({*one, thing, {0, 1, 1, 1}, bounded ? std::optional(one->amount) : std::nullopt});
  }
  return out;
}

inline solve::BalanceSheet balanced(const std::string& text, const std::vector<std::string>& targets, const std::vector<std::string>& vary = {},
                                    bool exact = true, const larder::Larder* larder = nullptr) {
  const auto question = asked(text, targets, vary, exact, larder);
  auto made = solve::balance(question->ask);
  EXPECT_TRUE(made.has_value()) << (made ? "" : sheet_test::shown(made.error(), question->sources));
  return made ? std::move(*made) : solve::BalanceSheet{};
}

inline std::string formula_of(const std::string& takes) {
  return "bloomset = 1\ntitle = \"Test\"\n[[part]]\nname = \"mix\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [" + takes + "] } ]\n";
}

}  // namespace bloomset::solve_test
