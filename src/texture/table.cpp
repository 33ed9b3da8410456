#include "texture/table.hpp"

#include <charconv>

namespace bloomset::texture {
namespace {

// Nothing for a quoted field that does not end.
std::optional<std::vector<std::string_view>> split(std::string_view line) {
  std::vector<std::string_view> out;
  while (true) {
    std::string_view field;
    if (line.starts_with('"')) {
      const std::size_t close = line.find('"', 1);
      if (close == std::string_view::npos) return std::nullopt;
      field = line.substr(1, close - 1);
      line.remove_prefix(close + 1);
    } else {
      field = line.substr(0, line.find(','));
      line.remove_prefix(field.size());
    }
    out.push_back(field);
    if (line.empty()) return out;
    if (line.front() != ',') return std::nullopt;
    line.remove_prefix(1);
    if (line.empty()) {
      out.emplace_back();
      return out;
    }
  }
}

std::string place(std::string_view path, std::size_t line) { return "data/" + std::string(path) + ":" + std::to_string(line) + ": "; }

}  // namespace

Table read_table(std::string_view path) {
  Table out;
  out.path = path;
  std::string_view rest = embedded(path);
  std::size_t number = 0;
  while (!rest.empty()) {
    const std::size_t end = rest.find('\n');
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    ++number;
    if (line.empty() || line.front() == '#') continue;
    auto fields = split(line);
    if (!fields) {
      out.faults.push_back(place(path, number) + "a field does not end");
    } else if (out.header.empty()) {
      out.header = std::move(*fields);
    } else if (fields->size() != out.header.size()) {
      out.faults.push_back(place(path, number) + std::to_string(fields->size()) + " fields, " + std::to_string(out.header.size()) + " wanted");
    } else {
      out.rows.push_back({std::move(*fields), number});
    }
  }
  if (out.rows.empty()) out.faults.push_back(place(path, number) + "no rows");
  return out;
}

void Fields::fault(const std::string& what) const { faults_.push_back(place(table_.path, row_.line) + what); }

std::string_view Fields::text(std::string_view column) const {
  for (std::size_t i = 0; i < table_.header.size(); ++i)
    if (table_.header[i] == column) return row_.fields[i];
  fault("no column `" + std::string(column) + "`");
  return {};
}

std::optional<double> Fields::maybe(std::string_view column) const {
  const std::string_view word = text(column);
  if (word.empty()) return std::nullopt;
  double value = 0.0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (error == std::errc{} && end == word.data() + word.size()) return value;
  fault("`" + std::string(word) + "` is not a number");
  return std::nullopt;
}

double Fields::number(std::string_view column) const {
  const auto value = maybe(column);
  if (!value) fault("no number in `" + std::string(column) + "`");
  return value.value_or(0.0);
}

Confidence Fields::confidence() const {
  const std::string_view word = text("confidence");
  for (const Confidence c : {Confidence::low, Confidence::medium, Confidence::high})
    if (word == name(c)) return c;
  fault("confidence `" + std::string(word) + "` is none of low, medium, high");
  return Confidence::low;
}

}  // namespace bloomset::texture
