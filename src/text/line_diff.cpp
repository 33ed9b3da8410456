#include "text/line_diff.hpp"

#include <algorithm>
#include <array>

namespace bloomset::text {
namespace {

using Lines = std::vector<std::string_view>;

Lines split_lines(std::string_view text) {
  Lines lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    lines.push_back(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

// What went and what came between two lines that stayed.
void put_changes(std::vector<LineRow>& rows, Lines& gone, Lines& come) {
  const std::size_t both = std::min(gone.size(), come.size());
  for (std::size_t i = 0; i < both; ++i) rows.push_back({LineChange::changed, gone[i], come[i]});
  for (std::size_t i = both; i < gone.size(); ++i) rows.push_back({LineChange::removed, gone[i], std::nullopt});
  for (std::size_t i = both; i < come.size(); ++i) rows.push_back({LineChange::added, std::nullopt, come[i]});
  gone.clear();
  come.clear();
}

}  // namespace

std::string_view name(LineChange kind) {
  static constexpr std::array<std::string_view, 4> names = {"same", "changed", "added", "removed"};
  return names[static_cast<std::size_t>(kind)];
}

std::vector<LineRow> line_diff(std::string_view before, std::string_view after) {
  const Lines a = split_lines(before), b = split_lines(after);
  std::size_t head = 0, tail = 0;
  while (head < a.size() && head < b.size() && a[head] == b[head]) ++head;
  while (tail < a.size() - head && tail < b.size() - head && a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) ++tail;
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  // common[i][j]: the most lines that a from i and b from j on have in common, in order.
  const bool searched = n * m <= most_cells;
  std::vector<std::uint32_t> common(searched ? (n + 1) * (m + 1) : 0, 0);
  const auto cell = [&](std::size_t i, std::size_t j) -> std::uint32_t& { return common[i * (m + 1) + j]; };
  if (searched)
    for (std::size_t i = n; i-- > 0;)
      for (std::size_t j = m; j-- > 0;) cell(i, j) = a[head + i] == b[head + j] ? cell(i + 1, j + 1) + 1 : std::max(cell(i + 1, j), cell(i, j + 1));

  std::vector<LineRow> rows;
  const auto same = [&](std::size_t i, std::size_t j) { rows.push_back({LineChange::same, a[i], b[j]}); };
  for (std::size_t i = 0; i < head; ++i) same(i, i);
  Lines gone, come;
  std::size_t i = 0, j = 0;
  while (i < n || j < m) {
    if (searched && i < n && j < m && a[head + i] == b[head + j]) {
      put_changes(rows, gone, come);
      same(head + i++, head + j++);
    } else if (j == m || (i < n && (!searched || cell(i + 1, j) >= cell(i, j + 1)))) {
      gone.push_back(a[head + i++]);
    } else {
      come.push_back(b[head + j++]);
    }
  }
  put_changes(rows, gone, come);
  for (std::size_t k = 0; k < tail; ++k) same(head + n + k, head + m + k);
  return rows;
}

}  // namespace bloomset::text
