#include "text/layout.hpp"

#include <algorithm>

namespace bloomset::text {
namespace {

constexpr bool is_blank(char c) { return c == ' ' || c == '\t'; }
constexpr bool is_space(char c) { return is_blank(c) || c == '\n' || c == '\r'; }
constexpr bool is_0_to_9(char c) { return c >= '0' && c <= '9'; }

std::size_t string_end(std::string_view text, std::size_t begin) {
  const char quote = text[begin];
  const std::string_view triple = quote == '"' ? "\"\"\"" : "'''";
  const bool block = text.substr(begin, 3) == triple;
  std::size_t at = begin + (block ? 3U : 1U);
  while (at < text.size()) {
    if (quote == '"' && text[at] == '\\') {
      at += 2;
    } else if (block ? text.substr(at, 3) == triple : text[at] == quote) {
      at += block ? 3U : 1U;
      for (int more = 0; block && more < 2 && at < text.size() && text[at] == quote; ++more) ++at;  // `""""a""""`: quotes may touch the marks
      return at;
    } else {
      ++at;
    }
  }
  return text.size();
}

// Over blanks, ends of line and comments.
std::size_t skip_space(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    if (text[at] == '#')
      at = line_end(text, at);
    else if (is_space(text[at]))
      ++at;
    else
      break;
  }
  return at;
}

// The `=` of a statement or member whose key begins at `at`.
std::size_t equals_sign(std::string_view text, std::size_t at) {
  while (at < text.size() && text[at] != '=') at = text[at] == '"' || text[at] == '\'' ? string_end(text, at) : at + 1;
  return at;
}

std::size_t behind_member(std::string_view text, std::size_t key) {
  std::size_t at = std::min(equals_sign(text, key) + 1, text.size());
  while (at < text.size() && is_blank(text[at])) ++at;
  return value_end(text, at);
}

// Comment lines right above a line, without an empty line between.
std::size_t lead_of(std::string_view text, std::size_t line) {
  while (line > 0) {
    const std::size_t above = line_begin(text, line - 1);
    std::size_t at = above;
    while (at < line && is_blank(text[at])) ++at;
    if (text[at] != '#') break;
    line = above;
  }
  return line;
}

}  // namespace

std::size_t offset_of(std::string_view text, base::Span span) {
  std::size_t line = 0;
  for (std::uint32_t n = 1; n < span.line; ++n) {
    line = text.find('\n', line);
    if (line == std::string_view::npos) return text.size();
    ++line;
  }
  return std::min(line + std::max(span.column, 1U) - 1, text.size());
}

std::size_t line_begin(std::string_view text, std::size_t at) {
  if (at == 0) return 0;
  const std::size_t before = text.rfind('\n', at - 1);
  return before == std::string_view::npos ? 0 : before + 1;
}

std::size_t line_end(std::string_view text, std::size_t at) {
  const std::size_t end = std::min(text.find('\n', at), text.size());
  return end > at && text[end - 1] == '\r' ? end - 1 : end;
}

std::size_t next_line(std::string_view text, std::size_t at) {
  const std::size_t end = text.find('\n', at);
  return end == std::string_view::npos ? text.size() : end + 1;
}

bool blank_between(std::string_view text, std::size_t from, std::size_t to) {
  const std::string_view between = text.substr(from, to - from);
  return std::all_of(between.begin(), between.end(), is_blank);
}

std::size_t value_end(std::string_view text, std::size_t begin) {
  if (begin >= text.size()) return text.size();
  const char first = text[begin];
  if (first == '"' || first == '\'') return string_end(text, begin);
  if (first == '[' || first == '{') return std::min(items_at(text, begin).close + 1, text.size());
  std::size_t at = begin;
  while (at < text.size() && !is_space(text[at]) && std::string_view(",]}#\"'").find(text[at]) == std::string_view::npos) {
    ++at;
    if (at + 1 < text.size() && text[at] == ' ' && is_0_to_9(text[begin]) && is_0_to_9(text[at + 1])) ++at;  // a date and its time
  }
  return at;
}

Items items_at(std::string_view text, std::size_t open) {
  Items out;
  out.open = open;
  const bool table = text[open] == '{';
  std::size_t at = skip_space(text, open + 1);
  while (at < text.size() && text[at] != (table ? '}' : ']')) {
    const std::size_t end = std::max(table ? behind_member(text, at) : value_end(text, at), at + 1);
    out.items.push_back({at, end});
    at = skip_space(text, end);
    const bool comma = at < text.size() && text[at] == ',';
    out.commas.push_back(comma ? at : std::string_view::npos);
    if (comma) at = skip_space(text, at + 1);
  }
  out.close = at;
  return out;
}

std::vector<Section> sections_of(std::string_view text) {
  std::vector<Section> out(1);
  std::size_t at = skip_space(text, text.starts_with("\xEF\xBB\xBF") ? 3 : 0);
  while (at < text.size()) {
    if (text[at] == '[') {
      Section section;
      const std::size_t line = line_begin(text, at);
      section.lead = lead_of(text, line);
      section.header = {at, value_end(text, at)};
      section.end = next_line(text, section.header.end);
      at = section.header.end;
      out.push_back(std::move(section));
    } else {
      const std::size_t end = std::max(behind_member(text, at), at + 1);
      out.back().statements.push_back({at, end});
      out.back().end = next_line(text, end);
      at = end;
    }
    at = skip_space(text, at);
  }
  return out;
}

}  // namespace bloomset::text
