#include "sheet/cited.hpp"

#include <optional>

#include "sheet/readings.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

using base::Code;
using base::Weight;

// `field = {text}` inside an entry: the text up to the brace that closes it.
std::optional<std::string_view> field(std::string_view entry, std::string_view name) {
  const std::size_t at = entry.find(name);
  if (at == std::string_view::npos) return std::nullopt;
  const std::size_t open = entry.find('{', at);
  if (open == std::string_view::npos) return std::nullopt;
  int depth = 0;
  for (std::size_t i = open; i < entry.size(); ++i) {
    if (entry[i] == '{') ++depth;
    if (entry[i] == '}' && --depth == 0) return entry.substr(open + 1, i - open - 1);
  }
  return std::nullopt;
}

// The entry of a key: from its name to the next entry.
std::optional<std::string_view> entry_of(std::string_view key) {
  const std::string_view all = embedded("sources.bib");
  const std::string head = "{" + std::string(key) + ",";
  const std::size_t at = all.find(head);
  if (at == std::string_view::npos) return std::nullopt;
  return all.substr(at + head.size(), all.find("\n@", at) - at - head.size());
}

std::string title_of(std::string_view key) {
  const auto entry = entry_of(key);
  const auto title = entry ? field(*entry, "\n  title") : std::nullopt;
  if (!title) return std::string(key);
  std::string out;
  for (const char c : *title)
    if (c != '\\' && c != '{' && c != '}') out += c;
  if (const auto year = field(*entry, "\n  year")) out.append(", ").append(*year);
  return out;
}

}  // namespace

std::string source_words(std::string_view source) {
  if (source == "practice") return "common practice, no source";
  if (source.starts_with("memory: ")) return std::string(source);
  std::string out;
  while (!source.empty()) {
    const std::size_t end = std::min(source.find(' '), source.size());
    if (end > 0) out.append(out.empty() ? "" : "; ").append(title_of(source.substr(0, end)));
    source.remove_prefix(std::min(end + 1, source.size()));
  }
  return out;
}

base::Finding finding(const texture::Cause& cause, base::Where at) {
  base::Finding out = say(cause.code, std::move(at), cause.says, cause.value, cause.limit);
  out.source = source_words(cause.cited.source);
  const bool keeps_weight = cause.code == Code::dose_below_scale || cause.code == Code::over_legal_limit || cause.code == Code::choking;
  switch (cause.bearing) {
    case texture::Bearing::stops:
      out.weight = Weight::stop;
      break;
    case texture::Bearing::weakens:
      out.weight = Weight::mind;
      break;
    case texture::Bearing::tells:
      if (!keeps_weight) out.weight = Weight::note;
      break;
  }
  return out;
}

}  // namespace bloomset::sheet
