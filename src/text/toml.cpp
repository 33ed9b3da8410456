// text/toml.cpp - the one file that knows the TOML library.
//
// Before the library sees a text: its size, its encoding, and how deep brackets and dotted keys nest (the library
// recurses on them). The library counts columns in characters; our spans count bytes, so every position is walked once
// in its line. Its exceptions end here.
#include <toml++/toml.h>

#include <algorithm>
#include <optional>

#include "text/document.hpp"
#include "text/fold.hpp"
#include "text/number.hpp"

namespace bloomset::text {
namespace {

// Where each line begins, and the way from the library's positions to ours. Each answer takes constant time (a line may
// have four million columns), so lines with letters of several bytes keep the byte of every column.
class Places {
 public:
  Places(std::uint32_t source, std::string_view text) : source_(source), text_(text) {
    begins_.push_back(text.starts_with("\xEF\xBB\xBF") ? 3U : 0U);
    for (std::size_t i = 0; i < text.size(); ++i)
      if (text[i] == '\n') begins_.push_back(i + 1);
    begins_.push_back(text.size() + 1);  // the end of the last line, as if a new one began behind it
    columns_.resize(begins_.size());
    for (std::size_t line = 0; line + 1 < begins_.size(); ++line) {
      const std::size_t end = begins_[line + 1] - 1;
      if (std::all_of(text.begin() + static_cast<std::ptrdiff_t>(std::min(begins_[line], end)), text.begin() + static_cast<std::ptrdiff_t>(end),
                      [](char c) { return static_cast<unsigned char>(c) < 0x80U; }))
        continue;
      for (std::size_t at = begins_[line]; at < end; next_code_point(text, at)) columns_[line].push_back(static_cast<std::uint32_t>(at));
    }
  }

  std::size_t offset(const toml::source_position& position) const {
    if (position.line == 0 || position.line >= begins_.size()) return text_.size();
    const std::size_t line = position.line - 1, column = position.column - 1, end = std::min(begins_[line + 1] - 1, text_.size());
    if (!columns_[line].empty()) return column < columns_[line].size() ? columns_[line][column] : end;
    return std::min(begins_[line] + column, end);
  }

  /// From byte `from` up to `to`, cut at the end of the first line.
  base::Span span(std::size_t from, std::size_t to) const {
    from = std::min(from, text_.size());
    const auto line = std::max<std::size_t>(static_cast<std::size_t>(std::upper_bound(begins_.begin(), begins_.end(), from) - begins_.begin()), 1);
    const std::size_t line_begin = line <= 1 ? 0 : begins_[line - 1];  // a byte order mark counts in the first line
    std::size_t line_end = std::max(std::min(begins_[line] - 1, text_.size()), from);
    if (line_end > from && text_[line_end - 1] == '\r') --line_end;
    base::Span s;
    s.source = source_;
    s.line = static_cast<std::uint32_t>(line);
    s.column = static_cast<std::uint32_t>(from - line_begin + 1);
    s.length = static_cast<std::uint32_t>(std::max<std::size_t>(std::min(std::max(to, from), line_end) - from, 1));
    return s;
  }

  base::Span span(const toml::source_region& region) const { return span(offset(region.begin), offset(region.end)); }
  std::string_view text() const { return text_; }

 private:
  std::uint32_t source_;
  std::string_view text_;
  std::vector<std::size_t> begins_;
  std::vector<std::vector<std::uint32_t>> columns_;  // empty for a line of ASCII
};

NodeKind kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return NodeKind::table;
    case toml::node_type::array:
      return NodeKind::array;
    case toml::node_type::string:
      return NodeKind::string;
    case toml::node_type::integer:
      return NodeKind::integer;
    case toml::node_type::floating_point:
      return NodeKind::number;
    case toml::node_type::boolean:
      return NodeKind::boolean;
    default:
      return NodeKind::moment;
  }
}

// The text between plain quotes, if it stands in the document byte for byte.
base::Span inside_of(const std::string& value, const base::Span& whole, std::size_t from, const Places& places) {
  const std::string_view text = places.text();
  if (from >= text.size() || (text[from] != '"' && text[from] != '\'')) return whole;
  const char quote = text[from];
  if (text.substr(from + 1, value.size()) != value) return whole;
  if (from + 1 + value.size() >= text.size() || text[from + 1 + value.size()] != quote) return whole;
  if (value.empty() || value.find('\n') != std::string::npos) return whole;
  return places.span(from + 1, from + 1 + value.size());
}

Node convert(const toml::node& node, const Places& places);

void convert_members(const toml::table& table, Node& out, const Places& places) {
  std::vector<std::pair<std::size_t, Node>> members;
  members.reserve(table.size());
  for (const auto& [key, value] : table) {
    Node member = convert(value, places);
    member.key = std::string(key.str());
    member.key_span = places.span(key.source());
    members.emplace_back(places.offset(key.source().begin), std::move(member));
  }
  std::stable_sort(members.begin(), members.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  out.items.reserve(members.size());
  for (auto& member : members) out.items.push_back(std::move(member.second));
}

Node convert(const toml::node& node, const Places& places) {
  Node out;
  out.kind = kind_of(node);
  const std::size_t from = places.offset(node.source().begin);
  out.span = places.span(from, places.offset(node.source().end));
  out.inside = out.span;
  if (const auto* table = node.as_table()) {
    convert_members(*table, out, places);
  } else if (const auto* array = node.as_array()) {
    out.items.reserve(array->size());
    for (const toml::node& element : *array) out.items.push_back(convert(element, places));
  } else if (const auto* string = node.as_string()) {
    out.string = string->get();
    out.inside = inside_of(out.string, out.span, from, places);
  } else if (const auto* integer = node.as_integer()) {
    out.integer = integer->get();
    out.number = static_cast<double>(out.integer);
  } else if (const auto* number = node.as_floating_point()) {
    out.number = number->get();
  } else if (const auto* boolean = node.as_boolean()) {
    out.boolean = boolean->get();
  }
  return out;
}

// Place of the first bracket or dotted key that nests too deep. Strings and comments are stepped over.
std::optional<std::size_t> too_deep_at(std::string_view text) {
  std::size_t depth = 0, dots = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '#') {
      i = std::min(text.find('\n', i), text.size());
      dots = 0;
    } else if (c == '"' || c == '\'') {
      const std::string_view triple = c == '"' ? "\"\"\"" : "'''";
      const bool block = text.substr(i, 3) == triple;
      i += block ? 3U : 1U;
      while (i < text.size() && !(block ? text.substr(i, 3) == triple : (text[i] == c || text[i] == '\n'))) i += c == '"' && text[i] == '\\' ? 2U : 1U;
      if (block) i += 2;
    } else if (c == '[' || c == '{') {
      dots = 0;
      if (++depth > deepest_nesting) return i;
    } else if (c == ']' || c == '}') {
      if (depth > 0) --depth;
    } else if (c == '.') {
      if (++dots > deepest_nesting) return i;
    } else if (c == '\n' || c == '=' || c == ',') {
      dots = 0;
    }
  }
  return std::nullopt;
}

tl::unexpected<base::Error> refuse(std::string_view file, base::Span span, std::string code, const std::string& message, std::string hint = {}) {
  Faults faults;
  fault(faults, span, std::move(code), message, std::move(hint));
  return base::fail(base::ErrorKind::bad_input, say({file, ": ", message}), std::move(faults));
}

// "Error while parsing value: no such thing" → "no such thing (reading value)".
std::string reworded(std::string_view description) {
  constexpr std::string_view opening = "Error while parsing ";
  const auto colon = description.find(": ");
  if (!description.starts_with(opening) || colon == std::string_view::npos) return std::string(description);
  return say({description.substr(colon + 2), " (reading ", description.substr(opening.size(), colon - opening.size()), ")"});
}

}  // namespace

base::Result<Node> read_toml(std::uint32_t source, const base::Sources& sources) {
  const std::string_view text = sources.text(source), file = sources.name(source);
  base::Span start;
  start.source = source;
  start.line = start.column = start.length = 1;
  if (text.size() > most_bytes)
    return refuse(file, start, "too_large",
                  say({"this text has ", std::to_string(text.size()), " bytes; a document has at most ", std::to_string(most_bytes)}));
  const Places places(source, text);
  if (const std::size_t bad = first_not_utf8(text); bad != std::string_view::npos)
    return refuse(file, places.span(bad, bad + 1), "not_utf8", "this byte is not UTF-8", "save the file as UTF-8");
  if (const auto deep = too_deep_at(text))
    return refuse(file, places.span(*deep, *deep + 1), "too_deep",
                  say({"brackets and dotted keys may nest at most ", std::to_string(deepest_nesting), " deep"}));
  try {
    const toml::table table = toml::parse(text);
    Node root = convert(table, places);
    root.span = start;
    return root;
  } catch (const toml::parse_error& error) {
    const std::size_t at = places.offset(error.source().begin);
    return refuse(file, places.span(at, at + 1), "not_toml", say({"this is not TOML: ", reworded(error.description())}));
  }
}

}  // namespace bloomset::text
