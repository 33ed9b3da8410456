#include "press/page.hpp"

#include <algorithm>
#include <array>

#include "text/fold.hpp"

namespace bloomset::press {
namespace {

struct Span32 {
  char32_t first, last;
};
template <std::size_t N>
constexpr bool within(char32_t c, const std::array<Span32, N>& spans) {
  for (const Span32& s : spans)
    if (c >= s.first && c <= s.last) return true;
  return false;
}

// Unicode general categories Mn, Me, Cf in the blocks that recipes meet, and the variation selectors.
constexpr std::array<Span32, 7> no_column = {
    {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}}};
// UAX 11, wide and full-width ranges.
constexpr std::array<Span32, 10> two_columns = {{{0x1100, 0x115F},
                                                 {0x2E80, 0x303E},
                                                 {0x3041, 0xA4CF},
                                                 {0xAC00, 0xD7A3},
                                                 {0xF900, 0xFAFF},
                                                 {0xFE30, 0xFE6F},
                                                 {0xFF00, 0xFF60},
                                                 {0xFFE0, 0xFFE6},
                                                 {0x1F300, 0x1FAFF},
                                                 {0x20000, 0x3FFFD}}};
// What steers a terminal or turns the writing direction: C0, C1, bidirectional controls.
constexpr std::array<Span32, 6> steering = {{{0x0000, 0x001F}, {0x007F, 0x009F}, {0x200E, 0x200F}, {0x202A, 0x202E}, {0x2028, 0x2029}, {0x2066, 0x2069}}};
constexpr char32_t no_break_blank = 0x00A0;

std::size_t columns_of(char32_t c) { return within(c, no_column) ? 0U : within(c, two_columns) ? 2U : 1U; }

}  // namespace

std::size_t width(std::string_view utf8) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < utf8.size();) columns += columns_of(text::next_code_point(utf8, at));
  return columns;
}

std::string clean(std::string_view utf8) {
  std::string out;
  for (std::size_t at = 0; at < utf8.size();) {
    const char32_t c = text::next_code_point(utf8, at);
    text::append_utf8(out, within(c, steering) ? U' ' : c);
  }
  return out;
}

std::string cut(std::string_view utf8, std::size_t columns) {
  if (width(utf8) <= columns) return std::string(utf8);
  std::size_t used = 0, at = 0, end = 0;
  while (at < utf8.size()) {
    used += columns_of(text::next_code_point(utf8, at));
    if (used + 1 > columns) break;
    end = at;
  }
  return std::string(utf8.substr(0, end)) + "…";
}

std::string left(std::string_view utf8, std::size_t columns) {
  const std::size_t taken = width(utf8);
  return std::string(utf8) + std::string(taken < columns ? columns - taken : 0, ' ');
}

std::string right(std::string_view utf8, std::size_t columns) {
  const std::size_t taken = width(utf8);
  return std::string(taken < columns ? columns - taken : 0, ' ') + std::string(utf8);
}

std::vector<std::string> wrap(std::string_view utf8, std::size_t columns) {
  std::vector<std::string> lines(1);
  std::size_t used = 0;
  const auto start_line = [&] {
    lines.emplace_back();
    used = 0;
  };
  for (std::size_t at = 0; at < utf8.size();) {
    if (utf8[at] == ' ') {
      ++at;
      continue;
    }
    const std::size_t end = std::min(utf8.find(' ', at), utf8.size());
    std::string_view word = utf8.substr(at, end - at);
    at = end;
    if (used > 0 && used + 1 + width(word) > columns) start_line();
    if (used > 0) {
      lines.back() += ' ';
      ++used;
    }
    for (std::size_t i = 0; i < word.size();) {
      const std::size_t from = i;
      const std::size_t wide = columns_of(text::next_code_point(word, i));
      if (used > 0 && used + wide > columns) start_line();
      lines.back().append(word.substr(from, i - from));
      used += wide;
    }
  }
  return lines;
}

void Page::line(std::string_view text) {
  std::string plain;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = text::next_code_point(text, at);
    text::append_utf8(plain, c == no_break_blank ? U' ' : c);
  }
  plain.erase(plain.find_last_not_of(' ') + 1);
  out_.append(plain).append("\n");
}

void Page::gap() {
  if (!out_.empty() && !out_.ends_with("\n\n")) out_ += '\n';
}

void Page::heading(std::string_view name, std::string_view aside) {
  // The name comes first: what stands beside it is shortened before a name of up to half a line is.
  constexpr std::size_t rule = 3;
  const std::string whole = clean(name);
  const std::size_t kept = std::min(width(whole), page_width / 2) + rule;
  const std::string tail = aside.empty() ? std::string() : " " + cut(clean(aside), page_width - kept - 1);
  const std::size_t room = page_width - width(tail);
  std::string out = cut(whole, room - rule) + " ";
  while (width(out) < room) out += "─";
  line(out + tail);
}

void Page::paragraph(std::string_view lead, std::string_view text) {
  const std::size_t hang = width(lead);
  bool first = true;
  for (const std::string& one : wrap(text, page_width - hang)) {
    line((first ? std::string(lead) : std::string(hang, ' ')) + one);
    first = false;
  }
}

}  // namespace bloomset::press
