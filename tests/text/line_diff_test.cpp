// Texts side by side: both can be read out of the rows again, and nothing is called changed that need not be.
#include "text/line_diff.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace bloomset::text {
namespace {

std::string shown(std::string_view before, std::string_view after) {
  std::string out;
  for (const LineRow& row : line_diff(before, after))
    out.append(name(row.kind)).append(":").append(row.before.value_or("-")).append(":").append(row.after.value_or("-")).append("\n");
  return out;
}

TEST(LineDiff, tells_what_stayed_went_and_came) {
  EXPECT_EQ(shown("a\nb\nc\n", "a\nx\nc\n"), "same:a:a\nchanged:b:x\nsame:c:c\n");
  EXPECT_EQ(shown("a\nc\n", "a\nb\nc"), "same:a:a\nadded:-:b\nsame:c:c\n");
  EXPECT_EQ(shown("a\nb\nc\n", "a\n"), "same:a:a\nremoved:b:-\nremoved:c:-\n");
  EXPECT_EQ(shown("a\nb\nc\nd\n", "b\nx\nd\na\n"), "removed:a:-\nsame:b:b\nchanged:c:x\nsame:d:d\nadded:-:a\n");
  EXPECT_EQ(shown("", "a\n"), "added:-:a\n");
  EXPECT_EQ(shown("", ""), "");
  EXPECT_EQ(shown("a\r\nb\r\n", "a\nb\n"), "same:a:a\nsame:b:b\n");
}

// The longest common subsequence by trying every choice: a second route, for short texts only.
std::size_t longest(const std::vector<std::string>& a, const std::vector<std::string>& b, std::size_t i, std::size_t j) {
  if (i == a.size() || j == b.size()) return 0;
  if (a[i] == b[j]) return 1 + longest(a, b, i + 1, j + 1);
  return std::max(longest(a, b, i + 1, j), longest(a, b, i, j + 1));
}

TEST(LineDiff, keeps_as_many_lines_as_can_be_kept_and_gives_both_texts_back) {
  EXPECT_TRUE(rc::check([] {
    const auto lines = rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>("a", "b", "c", ""));
    std::vector<std::string> before = *lines, after = *lines;
    before.resize(std::min<std::size_t>(before.size(), 8));
    after.resize(std::min<std::size_t>(after.size(), 8));
    const auto joined = [](const std::vector<std::string>& all) {
      std::string text;
      for (const std::string& line : all) text += line + "\n";
      return text;
    };
    const std::string first = joined(before), second = joined(after);
    std::vector<std::string> back_before, back_after;
    std::size_t same = 0;
    for (const LineRow& row : line_diff(first, second)) {
      if (row.before) back_before.emplace_back(*row.before);
      if (row.after) back_after.emplace_back(*row.after);
      if (row.kind == LineChange::same) RC_ASSERT(row.before == row.after);
      same += row.kind == LineChange::same ? 1U : 0U;
      RC_ASSERT((row.kind == LineChange::added) == !row.before.has_value());
      RC_ASSERT((row.kind == LineChange::removed) == !row.after.has_value());
    }
    RC_ASSERT(back_before == before);
    RC_ASSERT(back_after == after);
    RC_ASSERT(same == longest(before, after, 0, 0));
  }));
}

TEST(LineDiff, answers_texts_of_very_many_other_lines_without_much_memory) {
  std::string before, after;
  for (int i = 0; i < 20000; ++i) {
    before += "a" + std::to_string(i) + "\n";
    after += "b" + std::to_string(i) + "\n";
  }
  const auto rows = line_diff(before, after);
  EXPECT_EQ(rows.size(), 20000U);
  EXPECT_EQ(rows.back().kind, LineChange::changed);
}

}  // namespace
}  // namespace bloomset::text
