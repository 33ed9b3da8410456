// tests/larder/shelf.hpp - the built-in larder, read once, and short ways to ask it.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "larder/larder.hpp"

namespace bloomset::larder {

inline const Larder& shelf() {
  static const Larder larder = [] {
    auto read = Larder::built_in();
    EXPECT_TRUE(read.has_value()) << (read ? "" : read.error().message);
    return read ? std::move(*read) : Larder{};
  }();
  return larder;
}

inline Qualifier word(std::string name, std::optional<double> value = std::nullopt, base::Span span = {}) { return {std::move(name), value, span}; }

/// The thing; a fault fails the test and answers an empty thing.
inline Thing get(const std::string& name, const std::vector<Qualifier>& bracket = {}) {
  auto thing = shelf().resolve(name, bracket, {});
  EXPECT_TRUE(thing.has_value()) << name << ": " << (thing || thing.error().diagnostics.empty() ? "" : thing.error().diagnostics[0].message);
  return thing ? std::move(*thing) : Thing{};
}
inline std::string code_of(const std::string& name, const std::vector<Qualifier>& bracket) {
  const auto thing = shelf().resolve(name, bracket, {});
  return thing ? "" : thing.error().diagnostics.at(0).code;
}

inline std::string file_text(const std::string& path) {
  std::ifstream file(std::string(BLOOMSET_SOURCE_DIR) + "/" + path);
  EXPECT_TRUE(file.good()) << path;
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace bloomset::larder
