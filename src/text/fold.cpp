#include "text/fold.hpp"

#include <charconv>
#include <unordered_map>

#include "text/table.hpp"

namespace bloomset::text {

std::string_view embedded(std::string_view path);

namespace {

std::unordered_map<char32_t, std::string> load() {
  std::unordered_map<char32_t, std::string> letters;
  for (const auto& fields : table_rows(embedded("text/latin_fold.csv"))) {
    std::uint32_t code_point = 0;
    std::from_chars(fields[0].data(), fields[0].data() + fields[0].size(), code_point, 16);
    letters.emplace(code_point, fields[1]);
  }
  return letters;
}

const std::unordered_map<char32_t, std::string>& letters() {
  static const std::unordered_map<char32_t, std::string> table = load();
  return table;
}

// Length of the well-formed sequence at `at` (Unicode 14.0, table 3-7), 0 if there is none.
std::size_t well_formed_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U; };
  const auto follows = [&](std::size_t i, unsigned low = 0x80U, unsigned high = 0xBFU) { return byte(i) >= low && byte(i) <= high; };
  const unsigned first = byte(0);
  if (first < 0x80U) return 1;
  if (first >= 0xC2U && first <= 0xDFU) return follows(1) ? 2 : 0;
  if (first >= 0xE0U && first <= 0xEFU) return follows(1, first == 0xE0U ? 0xA0U : 0x80U, first == 0xEDU ? 0x9FU : 0xBFU) && follows(2) ? 3 : 0;
  if (first >= 0xF0U && first <= 0xF4U) return follows(1, first == 0xF0U ? 0x90U : 0x80U, first == 0xF4U ? 0x8FU : 0xBFU) && follows(2) && follows(3) ? 4 : 0;
  return 0;
}

}  // namespace

std::size_t first_not_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t length = well_formed_at(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

char32_t next_code_point(std::string_view text, std::size_t& at) {
  const std::size_t length = well_formed_at(text, at);
  const auto byte = [&](std::size_t i) { return static_cast<char32_t>(static_cast<unsigned char>(text[at + i])); };
  char32_t c = byte(0);
  if (length == 2) c = ((c & 0x1FU) << 6U) | (byte(1) & 0x3FU);
  if (length == 3) c = ((c & 0x0FU) << 12U) | ((byte(1) & 0x3FU) << 6U) | (byte(2) & 0x3FU);
  if (length == 4) c = ((c & 0x07U) << 18U) | ((byte(1) & 0x3FU) << 12U) | ((byte(2) & 0x3FU) << 6U) | (byte(3) & 0x3FU);
  at += length == 0 ? 1 : length;
  return c;
}

void append_utf8(std::string& out, char32_t c) {
  const auto put = [&](char32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c < 0x80U) return put(c);
  if (c < 0x800U) {
    put(0xC0U | (c >> 6U));
  } else if (c < 0x10000U) {
    put(0xE0U | (c >> 12U));
    put(0x80U | ((c >> 6U) & 0x3FU));
  } else {
    put(0xF0U | (c >> 18U));
    put(0x80U | ((c >> 12U) & 0x3FU));
    put(0x80U | ((c >> 6U) & 0x3FU));
  }
  put(0x80U | (c & 0x3FU));
}

std::string fold(std::string_view name) {
  std::string out;
  out.reserve(name.size());
  bool blank = false;
  std::size_t at = 0;
  while (at < name.size()) {
    const char32_t c = next_code_point(name, at);
    if (c == U' ' || c == U'\t' || c == U'\n' || c == U'\r' || c == U'\u00A0') {
      blank = !out.empty();
      continue;
    }
    if (c >= 0x300U && c <= 0x36FU) continue;
    if (blank) out += ' ';
    blank = false;
    if (c < 0x80U) {
      out += static_cast<char>(c >= U'A' && c <= U'Z' ? c + 32U : c);
    } else if (const auto letter = letters().find(c); letter != letters().end()) {
      out += letter->second;
    } else {
      append_utf8(out, c);
    }
  }
  return out;
}

}  // namespace bloomset::text
