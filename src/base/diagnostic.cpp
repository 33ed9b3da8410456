#include "base/diagnostic.hpp"

#include <algorithm>

namespace bloomset::base {
namespace {

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

// Length of the UTF-8 character at the front (Unicode 15.0, table 3-7), or 0 if the bytes there are none.
std::size_t character_length(std::string_view text) {
  const auto byte = [&](std::size_t i) -> unsigned { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const unsigned lead = byte(0), second = byte(1);
  if (lead < 0x80U) return 1;
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U) return 0;
  if ((lead == 0xE0U && second < 0xA0U) || (lead == 0xEDU && second > 0x9FU) || (lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second > 0x8FU))
    return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  return length;
}

// What a text may show on a terminal: what would steer it, or is no UTF-8, stands as one replacement character (U+FFFD).
// A tab stays, since the line under it keeps it too.
std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    const auto lead = static_cast<unsigned char>(text[0]);
    const bool is_c1 = length == 2 && lead == 0xC2U && static_cast<unsigned char>(text[1]) < 0xA0U;
    if (length == 0 || is_c1 || (length == 1 && ((lead < 0x20U && lead != '\t') || lead == 0x7FU))) {
      out += "\xEF\xBF\xBD";
    } else {
      out += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return out;
}

// Columns count bytes, but a caret must stand under what one sees: bytes that continue a UTF-8 character
// take no place, and a tab is kept so that the caret line runs parallel to the text line.
std::string blank_for(std::string_view text) {
  std::string blank;
  for (const char c : printable(text)) {
    if (continues_character(c)) continue;
    blank += c == '\t' ? '\t' : ' ';
  }
  return blank;
}

void show_place(std::string& out, const Span& span, const Sources& sources) {
  const std::string_view line = sources.line(span.source, span.line);
  if (line.empty()) return;
  const std::size_t before = std::min<std::size_t>(span.column > 0 ? span.column - 1 : 0, line.size());
  const std::size_t under = std::min<std::size_t>(std::max<std::uint32_t>(span.length, 1), line.size() - before);
  constexpr std::size_t widest = 160;  // a line of 10 MB must not be printed back
  if (line.size() > widest) {
    std::size_t from = before > 40 ? before - 40 : 0, end = std::min(from + widest, line.size());
    // The window's ends fall between characters; bytes that are no UTF-8 at all move them by at most three.
    for (int i = 0; i < 3 && from > 0 && continues_character(line[from]); ++i) --from;
    for (int i = 0; i < 3 && end < line.size() && continues_character(line[end]); ++i) --end;
    const std::string_view window = line.substr(from, end - from);
    out.append("  ").append(printable(window)).append("\n  ").append(blank_for(window.substr(0, before - from))).append("^\n");
    return;
  }
  out.append("  ").append(printable(line)).append("\n  ").append(blank_for(line.substr(0, before))).append("^");
  const std::size_t seen = blank_for(line.substr(before, under)).size();
  if (seen > 1) out.append(seen - 1, '~');
  out.append("\n");
}

}  // namespace

std::uint32_t Sources::add(std::string name, std::string text) {
  texts_.push_back({std::move(name), std::move(text)});
  return static_cast<std::uint32_t>(texts_.size() - 1);
}

std::string_view Sources::name(std::uint32_t source) const {
  return source < texts_.size() ? std::string_view(texts_[source].name) : std::string_view("(no file)");
}

std::string_view Sources::text(std::uint32_t source) const { return source < texts_.size() ? std::string_view(texts_[source].text) : std::string_view(); }

std::string_view Sources::line(std::uint32_t source, std::uint32_t line) const {
  std::string_view rest = text(source);
  for (std::uint32_t n = 1; n < line; ++n) {
    const auto end = rest.find('\n');
    if (end == std::string_view::npos) return {};
    rest.remove_prefix(end + 1);
  }
  if (line == 0) return {};
  rest = rest.substr(0, rest.find('\n'));
  if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
  return rest;
}

std::string render(const Diagnostic& fault, const Sources& sources) {
  std::string out;
  const auto place = [&](const Span& span) {
    out.append(printable(sources.name(span.source))).append(":").append(std::to_string(span.line)).append(":").append(std::to_string(span.column)).append(": ");
  };
  if (fault.span.known()) place(fault.span);
  out.append(fault.severity == Severity::error ? "error: " : "warning: ").append(printable(fault.message)).append(" [").append(fault.code).append("]\n");
  if (fault.span.known()) show_place(out, fault.span, sources);
  if (fault.second) {
    place(*fault.second);
    out.append("the other place\n");
    show_place(out, *fault.second, sources);
  }
  if (!fault.hint.empty()) out.append("  hint: ").append(printable(fault.hint)).append("\n");
  return out;
}

std::string render(const std::vector<Diagnostic>& faults, const Sources& sources) {
  constexpr std::size_t most_shown = 50;  // two screens; who mends these sees the rest next time
  std::string out;
  for (std::size_t i = 0; i < faults.size() && i < most_shown; ++i) out += render(faults[i], sources);
  if (faults.size() > most_shown) out += "and " + std::to_string(faults.size() - most_shown) + " more\n";
  return out;
}

std::string nearest(std::string_view read, const std::vector<std::string>& known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, read.size() / 3) + 1;
  std::vector<std::size_t> two_back, back, row;
  for (const std::string& name : known) {
    const std::size_t longer = std::max(name.size(), read.size()), shorter = std::min(name.size(), read.size());
    if (longer - shorter >= best_distance) continue;
    back.assign(name.size() + 1, 0);
    for (std::size_t j = 0; j <= name.size(); ++j) back[j] = j;
    two_back = back;
    for (std::size_t i = 1; i <= read.size(); ++i) {
      row.assign(name.size() + 1, i);
      for (std::size_t j = 1; j <= name.size(); ++j) {
        const bool same = read[i - 1] == name[j - 1];
        row[j] = std::min({back[j] + 1, row[j - 1] + 1, back[j - 1] + (same ? 0U : 1U)});
        if (i > 1 && j > 1 && read[i - 1] == name[j - 2] && read[i - 2] == name[j - 1]) row[j] = std::min(row[j], two_back[j - 2] + 1);
      }
      two_back.swap(back);
      back.swap(row);
    }
    if (back[name.size()] < best_distance) {
      best_distance = back[name.size()];
      best = name;
    }
  }
  return best;
}

}  // namespace bloomset::base
