// Every folder of cases/ holds a formula and the sheet as it was printed and read by a person. The whole text must come
// out again, but for the digest, which changes with every word of the larder.
// `BLOOMSET_REWRITE_GOLDEN=1 build/tests/golden/golden_test` writes the texts anew: read the difference before you keep it.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "press/press.hpp"

namespace bloomset {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::stringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

std::string without_digest(std::string text) {
  const auto at = text.find("    digest ");
  return at == std::string::npos ? text : text.erase(at, text.find('\n', at) + 1 - at);
}

std::string printed(const fs::path& folder, const larder::Larder& larder, const kit::Kit& kit) {
  base::Sources sources;
  const auto borrower = [&](const std::string& file) -> std::optional<std::string> { return text_of(folder / file); };
  const auto formula = formula::read("formula.toml", text_of(folder / "formula.toml"), sources, borrower);
  if (!formula) return base::render(formula.error().diagnostics, sources);
  const auto sheet = sheet::make_sheet({*formula, larder, kit, std::nullopt, ""});
  return sheet ? without_digest(press::sheet_text(*sheet, *formula)) : base::render(sheet.error().diagnostics, sources);
}

TEST(Golden, EverySheetReadsAsItDid) {
  const auto larder = larder::Larder::built_in();
  const auto kit = kit::Kit::built_in();
  ASSERT_TRUE(larder && kit);
  int cases = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(BLOOMSET_SOURCE_DIR) / "tests/golden/cases")) {
    ++cases;
    const std::string now = printed(entry.path(), *larder, *kit);
    if (std::getenv("BLOOMSET_REWRITE_GOLDEN") != nullptr) std::ofstream(entry.path() / "sheet.txt", std::ios::binary) << now;
    EXPECT_EQ(text_of(entry.path() / "sheet.txt"), now) << entry.path();
  }
  EXPECT_GE(cases, 4);
}

}  // namespace
}  // namespace bloomset
