// tests/press/demos.hpp - the demo documents as texts, with what they borrow.
#pragma once

#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>

#include "formula/formula.hpp"

namespace bloomset::press::test {

inline const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}
inline const formula::Borrower beside = [](const std::string& file) { return std::optional(text_of(demo / file)); };

}  // namespace bloomset::press::test
