// tests/sheet/made.hpp - a sheet from a text, with the built-in larder and kit.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "sheet/sheet.hpp"

namespace bloomset::sheet_test {

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};
inline const House& house() {
  static const House one;
  return one;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

inline std::string shown(const base::Error& error, const base::Sources& sources) { return error.message + "\n" + base::render(error.diagnostics, sources); }

inline base::Result<sheet::Sheet> try_make(const std::string& text, std::optional<int> serves = std::nullopt, const larder::Larder* larder = nullptr,
                                           std::string* faults = nullptr, const std::filesystem::path& folder = {}) {
  base::Sources sources;
  auto formula = formula::read("test.toml", text, sources, [&](const std::string& file) { return std::optional(text_of(folder / file)); });
  if (!formula) {
    if (faults != nullptr) *faults = shown(formula.error(), sources);
    return tl::unexpected<base::Error>(formula.error());
  }
  auto made = sheet::make_sheet({*formula, larder != nullptr ? *larder : house().larder, house().kit, serves, text});
  if (!made && faults != nullptr) *faults = shown(made.error(), sources);
  return made;
}

/// The sheet; a fault fails the test and answers an empty sheet.
inline sheet::Sheet made(const std::string& text, std::optional<int> serves = std::nullopt, const larder::Larder* larder = nullptr) {
  std::string faults;
  auto sheet = try_make(text, serves, larder, &faults);
  EXPECT_TRUE(sheet.has_value()) << faults << text;
  return sheet ? std::move(*sheet) : sheet::Sheet{};
}

inline sheet::Sheet demo(const std::filesystem::path& path) {
  std::string faults;
  auto sheet = try_make(text_of(path), std::nullopt, nullptr, &faults, path.parent_path());
  EXPECT_TRUE(sheet.has_value()) << path << "\n" << faults;
  return sheet ? std::move(*sheet) : sheet::Sheet{};
}

inline std::vector<std::filesystem::path> demos() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::directory_iterator(BLOOMSET_SOURCE_DIR "/demo"))
    if (entry.path().extension() == ".toml") all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

inline const base::Finding* found(const sheet::Sheet& sheet, base::Code code) {
  for (const base::Finding& finding : sheet.findings)
    if (finding.code == code) return &finding;
  return nullptr;
}

inline std::string all_findings(const sheet::Sheet& sheet) {
  std::string out;
  for (const base::Finding& finding : sheet.findings)
    out.append(base::name(finding.weight)).append(" ").append(base::name(finding.code)).append(": ").append(finding.says).append("\n");
  return out;
}

/// A document of one serve with these pours, and parts before it.
inline std::string document(const std::string& parts, const std::string& pours, int serves = 1, const std::string& vessel = "tall glass, 400 mL",
                            const std::string& head = "") {
  return "bloomset = 1\ntitle = \"Test\"\nserves = " + std::to_string(serves) + "\n" + head + "\n" + parts + "\n[serve]\nvessel = \"" + vessel +
         "\"\npour = [ " + pours + " ]\n";
}
inline std::string ahead(const std::string& name, const std::string& steps, const std::string& more = "") {
  return "[[part]]\nname = \"" + name + "\"\nmade = \"ahead\"\n" + more + "step = [ " + steps + " ]\n";
}

}  // namespace bloomset::sheet_test
