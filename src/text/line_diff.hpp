// text/line_diff.hpp - two texts side by side, line by line: what stayed, what went, what came.
//
// By the longest common subsequence of lines, found in time and memory of the lines that differ, before times after. Beyond `most_cells` of them the rest is
// told as changed, line by line. Where lines went and others came in one place, they stand beside each other as changed. Caller: revisions of a document.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace bloomset::text {

inline constexpr std::size_t most_cells = 4'000'000;

enum class LineChange : std::uint8_t { same, changed, added, removed };
std::string_view name(LineChange);
struct LineRow {
  LineChange kind = LineChange::same;
  std::optional<std::string_view> before, after;  // without their ends of line; of the texts that were given
};
/// In the order of the texts. The rows' lines are the texts' own: joined by their ends of line they give both again.
std::vector<LineRow> line_diff(std::string_view before, std::string_view after);

}  // namespace bloomset::text
