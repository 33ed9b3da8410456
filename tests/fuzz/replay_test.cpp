// Every file of the corpus, and made-up damage to each, through the promises of entry.hpp. The same damage every time.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <vector>

#include "fuzz/entry.hpp"

namespace bloomset::fuzz {
namespace {

std::vector<std::string> corpus(const char* folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(BLOOMSET_SOURCE_DIR) / "tests/fuzz/corpus" / folder))
    paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> texts;
  for (const auto& path : paths) {
    std::ifstream in(path, std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return texts;
}

// One to four of: a byte changed, a stretch taken out, doubled, or brought from another file.
std::string damaged(std::string text, const std::string& other, std::mt19937& dice) {
  const auto below = [&](std::size_t n) { return n == 0 ? std::size_t{0} : static_cast<std::size_t>(dice() % n); };
  for (std::size_t blows = 1 + below(4); blows > 0; --blows) {
    const std::size_t at = below(text.size() + 1), length = below(std::min<std::size_t>(text.size() - at, 24) + 1);
    switch (below(4)) {
      case 0:
        if (at < text.size()) text[at] = static_cast<char>(below(256));
        break;
      case 1:
        text.erase(at, length);
        break;
      case 2:
        text.insert(at, text.substr(at, length));
        break;
      default:
        text.insert(at, other.substr(below(other.size() + 1), below(24)));
        break;
    }
  }
  return text;
}

void replay(const char* folder, int rounds, void (*promises)(std::string_view)) {
  const auto texts = corpus(folder);
  ASSERT_FALSE(texts.empty());
  std::mt19937 dice(1);
  for (const std::string& text : texts) {
    promises(text);
    for (int i = 0; i < rounds; ++i) promises(damaged(text, texts[dice() % texts.size()], dice));
  }
}

// Else the damage would only ever meet the first check of the reader.
TEST(Fuzz, TheCorpusHoldsDocumentsThatAreRead) {
  std::size_t well = 0;
  for (const std::string& text : corpus("formula")) {
    base::Sources sources;
    const auto read = read_formula(text, sources);
    if (read) {
      ++well;
    } else if (text.find("borrow") == std::string::npos) {
      ADD_FAILURE() << base::render(read.error().diagnostics, sources);
    }
  }
  EXPECT_GE(well, 2U);
}

TEST(Fuzz, AnyDocumentIsReadOrRefusedWithAFault) { replay("formula", 2000, formula_document); }
TEST(Fuzz, AnyWordsAreReadOrRefusedWithAFault) { replay("words", 1000, words); }

}  // namespace
}  // namespace bloomset::fuzz
