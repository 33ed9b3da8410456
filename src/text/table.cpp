#include "text/table.hpp"

namespace bloomset::text {
namespace {

std::vector<std::string> split(std::string_view line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted && c == '"' && i + 1 < line.size() && line[i + 1] == '"') {
      fields.back() += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      fields.emplace_back();
    } else {
      fields.back() += c;
    }
  }
  return fields;
}

std::vector<std::vector<std::string>> lines_of(std::string_view csv) {
  std::vector<std::vector<std::string>> rows;
  while (!csv.empty()) {
    const auto end = csv.find('\n');
    std::string_view line = csv.substr(0, end);
    csv.remove_prefix(end == std::string_view::npos ? csv.size() : end + 1);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (!line.empty() && line.front() != '#') rows.push_back(split(line));
  }
  return rows;
}

}  // namespace

std::vector<std::vector<std::string>> table_rows(std::string_view csv) {
  auto rows = lines_of(csv);
  if (rows.empty()) return rows;
  const std::size_t width = rows.front().size();
  rows.erase(rows.begin());
  for (auto& row : rows) row.resize(width);
  return rows;
}

std::vector<std::string> table_header(std::string_view csv) {
  auto rows = lines_of(csv);
  return rows.empty() ? std::vector<std::string>{} : rows.front();
}

}  // namespace bloomset::text
