// A larder, a kit and formulas for the tests of scatter.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "flow/compile.hpp"
#include "flow/vary.hpp"

namespace bloomset::solve_test {

inline const larder::Larder& shelf() {
  static const larder::Larder one = larder::Larder::built_in().value();
  return one;
}
inline const kit::Kit& tools() {
  static const kit::Kit one = kit::Kit::built_in().value();
  return one;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

inline formula::Formula read(const std::string& text) {
  base::Sources sources;
  const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";
  auto formula = formula::read("test.toml", text, sources, [&](const std::string& file) { return std::optional(text_of(demo / file)); });
  EXPECT_TRUE(formula.has_value()) << base::render(formula.error().diagnostics, sources);
  return formula.has_value() ? *formula : formula::Formula{};
}
inline formula::Formula demo(const std::string& name) { return read(text_of(std::filesystem::path(BLOOMSET_SOURCE_DIR "/demo") / name)); }

inline flow::Flowsheet varied(const formula::Formula& formula) {
  auto flow = flow::compile(formula, shelf(), tools());
  EXPECT_TRUE(flow.has_value());
  flow::vary(*flow, shelf());
  return std::move(*flow);
}

/// A document with one part, to order, of one step.
inline std::string one_step(const std::string& step, const std::string& head = "") {
  return "bloomset = 1\ntitle = \"test\"\nserves = 1\n" + head + "[[part]]\nname = \"drink\"\nmade = \"to order\"\n[[part.step]]\n" + step + "\n";
}

}  // namespace bloomset::solve_test
