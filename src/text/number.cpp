#include "text/number.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace bloomset::text {
namespace {

constexpr std::size_t most_exact_digits = 18;    // below 2^63
constexpr std::size_t most_digits = 400;         // more is no number of a recipe; keeps one token bounded
constexpr std::size_t most_fraction_digits = 6;  // whole * denominator + numerator stays exact

// Unicode Character Database 14.0.0, decompositions of the vulgar fractions. U+215F (a numerator alone) and U+2189 (0/3) are left out.
struct Vulgar {
  std::string_view text;
  std::int64_t numerator, denominator;
};
constexpr std::array<Vulgar, 18> vulgar_fractions = {{{"¼", 1, 4},
                                                      {"½", 1, 2},
                                                      {"¾", 3, 4},
                                                      {"⅐", 1, 7},
                                                      {"⅑", 1, 9},
                                                      {"⅒", 1, 10},
                                                      {"⅓", 1, 3},
                                                      {"⅔", 2, 3},
                                                      {"⅕", 1, 5},
                                                      {"⅖", 2, 5},
                                                      {"⅗", 3, 5},
                                                      {"⅘", 4, 5},
                                                      {"⅙", 1, 6},
                                                      {"⅚", 5, 6},
                                                      {"⅛", 1, 8},
                                                      {"⅜", 3, 8},
                                                      {"⅝", 5, 8},
                                                      {"⅞", 7, 8}}};
constexpr std::string_view minus_sign = "−", en_dash = "–", fraction_slash = "⁄", no_break_space = "\xC2\xA0";

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_word_byte(char c) { return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || static_cast<unsigned char>(c) >= 0x80U; }

bool accept(Cursor& cursor, std::string_view text) {
  if (!cursor.rest().starts_with(text)) return false;
  cursor.at += text.size();
  return true;
}

std::string_view digits_at(const Cursor& cursor) {
  std::size_t n = 0;
  const std::string_view rest = cursor.rest();
  while (n < rest.size() && is_digit(rest[n])) ++n;
  return rest.substr(0, n);
}

std::optional<Vulgar> accept_vulgar(Cursor& cursor) {
  for (const Vulgar& v : vulgar_fractions)
    if (accept(cursor, v.text)) return v;
  return std::nullopt;
}

std::int64_t to_integer(std::string_view digits) {
  std::int64_t n = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), n);
  return n;
}

Number ratio(std::int64_t numerator, std::int64_t denominator) {
  return {static_cast<double>(numerator) / static_cast<double>(denominator), 0.0L, numerator, denominator};
}

// `0.750`: 750/1000, and the double nearest to the decimal.
Number decimal(std::string_view whole, std::string_view part) {
  std::string text(whole.empty() ? std::string_view("0") : whole);
  if (!part.empty()) text.append(".").append(part);
  Number n;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), n.value);
  if (read.ec == std::errc::result_out_of_range) n.value = whole.size() > 300 ? HUGE_VAL : 0.0;
  n.wide = static_cast<long double>(n.value);
  if (read.ec == std::errc{}) std::from_chars(text.data(), text.data() + text.size(), n.wide);
  if (whole.size() + part.size() > most_exact_digits) return n;
  n.denominator = 1;
  for (const char c : whole) n.numerator = n.numerator * 10 + (c - '0');
  for (const char c : part) {
    n.numerator = n.numerator * 10 + (c - '0');
    n.denominator *= 10;
  }
  return n;
}

// `/2` behind the numerator digits already read. Nothing: no slash here, or (with a fault) a bad one.
enum class Slash { none, bad, good };
Slash read_denominator(Cursor& cursor, std::size_t from, std::string_view numerator, Number& out, Faults& faults) {
  const std::size_t start = cursor.at;
  if (!accept(cursor, "/") && !accept(cursor, fraction_slash)) return Slash::none;
  const std::string_view below = digits_at(cursor);
  if (below.empty()) {
    cursor.at = start;
    return Slash::none;
  }
  cursor.at += below.size();
  const base::Span span = cursor.span(from, cursor.at - from);
  if (numerator.size() > most_fraction_digits || below.size() > most_fraction_digits) {
    fault(faults, span, "bad_number", "a fraction may have at most 6 digits above and below the line");
    return Slash::bad;
  }
  if (to_integer(below) == 0) {
    fault(faults, span, "bad_number", "a fraction may not have 0 below the line");
    return Slash::bad;
  }
  out = ratio(to_integer(numerator), to_integer(below));
  return Slash::good;
}

// What may stand behind a whole number: `½`, ` ½`, ` 1/2`, `/2`, `.75`, or nothing. False: a fault was said.
bool read_behind_whole(Cursor& cursor, std::size_t from, std::string_view whole, Number& out, Faults& faults) {
  const auto mixed = [&](std::int64_t numerator, std::int64_t denominator) {
    if (whole.size() > most_fraction_digits) {
      fault(faults, cursor.span(from, cursor.at - from), "bad_number", "a number before a fraction may have at most 6 digits");
      return false;
    }
    out = ratio(to_integer(whole) * denominator + numerator, denominator);
    return true;
  };
  const Slash slash = read_denominator(cursor, from, whole, out, faults);
  if (slash != Slash::none) return slash == Slash::good;
  if (cursor.rest().starts_with(".")) {
    ++cursor.at;
    const std::string_view part = digits_at(cursor);
    cursor.at += part.size();
    if (part.empty()) {
      fault(faults, cursor.span(from, cursor.at - from), "bad_number", "a digit must follow the decimal point");
      return false;
    }
    if (whole.size() + part.size() > most_digits) {
      fault(faults, cursor.span(from, cursor.at - from), "bad_number", "this number has too many digits");
      return false;
    }
    out = decimal(whole, part);
    return true;
  }
  if (const auto v = accept_vulgar(cursor)) return mixed(v->numerator, v->denominator);
  const std::size_t behind = cursor.at;
  skip_blanks(cursor);
  if (cursor.at != behind) {
    if (const auto v = accept_vulgar(cursor)) return mixed(v->numerator, v->denominator);
    const std::string_view above = digits_at(cursor);
    if (!above.empty()) {
      const std::size_t above_from = cursor.at;
      cursor.at += above.size();
      Number part;
      const Slash next = read_denominator(cursor, above_from, above, part, faults);
      if (next == Slash::bad) return false;
      if (next == Slash::good) return mixed(part.numerator, part.denominator);
    }
    cursor.at = behind;
  }
  out = decimal(whole, {});
  return true;
}

std::optional<Number> read_one(Cursor& cursor, bool sign_allowed, Faults& faults) {
  const std::size_t from = cursor.at;
  const bool minus = accept(cursor, "-") || accept(cursor, minus_sign);
  const std::string_view whole = digits_at(cursor);
  cursor.at += whole.size();
  Number n;
  if (whole.size() > most_digits) {
    fault(faults, cursor.span(from, cursor.at - from), "bad_number", "this number has too many digits");
    return std::nullopt;
  }
  if (!whole.empty()) {
    if (!read_behind_whole(cursor, from, whole, n, faults)) return std::nullopt;
  } else if (const auto v = accept_vulgar(cursor)) {
    n = ratio(v->numerator, v->denominator);
  } else if (cursor.rest().size() > 1 && cursor.rest()[0] == '.' && is_digit(cursor.rest()[1])) {
    ++cursor.at;
    const std::string_view part = digits_at(cursor);
    cursor.at += part.size();
    if (part.size() > most_digits) {
      fault(faults, cursor.span(from, cursor.at - from), "bad_number", "this number has too many digits");
      return std::nullopt;
    }
    n = decimal({}, part);
  } else {
    cursor.at = from;
    const std::string_view word = word_at(cursor);
    if (word.empty()) {
      fault(faults, cursor.span(cursor.at, 1), "bad_number", "a number is missing at the end");
    } else {
      fault(faults, cursor.span(cursor.at, word.size()), "bad_number", say({"a number must stand here, not ", ticked(word)}));
    }
    return std::nullopt;
  }
  const std::string_view rest = cursor.rest();
  if (rest.size() > 1 && rest[0] == ',' && is_digit(rest[1])) {
    fault(faults, cursor.span(from, cursor.at + 2 - from), "bad_number", "a comma may not stand in a number",
          "the decimal mark is a point (1.5), and thousands carry no mark (1000)");
    return std::nullopt;
  }
  Cursor ahead = cursor;
  skip_blanks(ahead);
  const std::size_t next = ahead.at;
  if (accept_vulgar(ahead) || is_digit(next < ahead.text.size() ? ahead.text[next] : ' ')) {
    fault(faults, cursor.span(from, std::max(ahead.at, next + 1) - from), "bad_number", "two numbers stand in a row");
    return std::nullopt;
  }
  if (minus) {
    if (!sign_allowed) {
      fault(faults, cursor.span(from, cursor.at - from), "negative", "an amount may not be negative");
      return std::nullopt;
    }
    n.value = -n.value;
    n.wide = -n.wide;
    n.numerator = -n.numerator;
  }
  return n;
}

// What parts the two ends of a band. Below zero it must be `to`: `-20-18` could mean 18 or -18.
enum class Between { nothing, dash, to };
Between accept_between(Cursor& cursor) {
  const std::size_t start = cursor.at;
  skip_blanks(cursor);
  if (accept(cursor, "-") || accept(cursor, en_dash)) {
    skip_blanks(cursor);
    return Between::dash;
  }
  if (accept_word(cursor, "to")) {
    skip_blanks(cursor);
    return Between::to;
  }
  cursor.at = start;
  return Between::nothing;
}

bool reads_back(const std::string& text, double value, std::int64_t numerator, std::int64_t denominator) {
  const bool minus = text.starts_with("-");
  const std::string_view bare = std::string_view(text).substr(minus ? 1 : 0);
  const auto point = bare.find('.');
  const Number n = point == std::string_view::npos ? decimal(bare, {}) : decimal(bare.substr(0, point), bare.substr(point + 1));
  return n.times(numerator, denominator) == std::abs(value);
}

}  // namespace

void fault(Faults& faults, base::Span span, std::string code, std::string message, std::string hint) {
  if (faults.size() >= most_kept_faults) return;
  base::Diagnostic d;
  d.code = std::move(code);
  d.message = std::move(message);
  d.span = span;
  d.hint = std::move(hint);
  faults.push_back(std::move(d));
}

std::string shown(std::string_view word) {
  constexpr std::size_t widest = 60;
  if (word.size() <= widest) return std::string(word);
  std::size_t cut = widest;
  while (cut > 0 && (static_cast<unsigned char>(word[cut]) & 0xC0U) == 0x80U) --cut;
  return std::string(word.substr(0, cut)) + "…";
}

std::string say(std::initializer_list<std::string_view> pieces) {
  std::string text;
  for (const std::string_view piece : pieces) text += piece;
  return text;
}

std::string ticked(std::string_view word) { return say({"`", shown(word), "`"}); }

base::Span Cursor::span(std::size_t from, std::size_t length) const {
  // Only a text without escapes stands byte for byte in its document; else the whole value is the place.
  if (!origin.known() || origin.length != text.size()) return origin;
  base::Span span = origin;
  from = std::min(from, text.size());
  span.column += static_cast<std::uint32_t>(from);
  span.length = static_cast<std::uint32_t>(std::max<std::size_t>(std::min(length, text.size() - from), 1));
  return span;
}

double Number::times(std::int64_t by, std::int64_t over) const {
  if (by == over) return value;
  if (denominator == 0) return static_cast<double>(wide * static_cast<long double>(by) / static_cast<long double>(over));
  const long double up = static_cast<long double>(numerator) * static_cast<long double>(by);
  return static_cast<double>(up / (static_cast<long double>(denominator) * static_cast<long double>(over)));
}

void skip_blanks(Cursor& cursor) {
  while (cursor.at < cursor.text.size()) {
    const char c = cursor.text[cursor.at];
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      ++cursor.at;
    } else if (!accept(cursor, no_break_space)) {
      return;
    }
  }
}

std::string_view word_at(const Cursor& cursor) {
  const std::string_view rest = cursor.rest();
  const std::size_t blank = rest.find_first_of(" \t\n\r");
  return rest.substr(0, blank);
}

bool accept_word(Cursor& cursor, std::string_view word) {
  const std::string_view rest = cursor.rest();
  if (!rest.starts_with(word)) return false;
  if (rest.size() > word.size() && is_word_byte(word.back()) && is_word_byte(rest[word.size()]) && !rest.substr(word.size()).starts_with(no_break_space))
    return false;
  cursor.at += word.size();
  return true;
}

std::optional<NumberRange> read_numbers(Cursor& cursor, Sign sign, Faults& faults) {
  skip_blanks(cursor);
  const std::size_t from = cursor.at;
  const bool sign_allowed = sign == Sign::may_be_negative;
  const auto low = read_one(cursor, sign_allowed, faults);
  if (!low) return std::nullopt;
  NumberRange range{*low, *low, {}, false};
  const Between between = accept_between(cursor);
  if (between != Between::nothing) {
    const auto high = read_one(cursor, sign_allowed, faults);
    if (!high) return std::nullopt;
    range.high = *high;
    range.band = true;
  }
  range.span = cursor.span(from, cursor.at - from);
  if (range.band && range.low.negative() && between != Between::to) {
    fault(faults, range.span, "bad_number", "a range below zero is written with `to`", "for instance `-20 to -18`");
    return std::nullopt;
  }
  if (range.low.value > range.high.value) {
    fault(faults, range.span, "backwards_range", "this range runs backwards", "write the smaller number first");
    return std::nullopt;
  }
  skip_blanks(cursor);
  return range;
}

std::string print_exactly(double value, std::int64_t numerator, std::int64_t denominator) {
  // Fewest digits first: seventeen are nearly always enough, but a factor can fold neighbours together.
  const long double count = static_cast<long double>(std::abs(value)) * static_cast<long double>(denominator) / static_cast<long double>(numerator);
  const double as_double = static_cast<double>(count);
  std::array<char, 512> buffer;
  std::string text;
  for (int digits = 1; digits <= 21; ++digits) {
    const int before_point = as_double > 0.0 ? static_cast<int>(std::floor(std::log10(as_double))) + 1 : 1;
    const int decimals = std::clamp(digits - before_point, 0, 340);
    const auto end = digits <= 17 ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), as_double, std::chars_format::fixed, decimals)
                                  : std::to_chars(buffer.data(), buffer.data() + buffer.size(), count, std::chars_format::fixed, decimals);
    text.assign(buffer.data(), end.ptr);
    if (text.find('.') != std::string::npos) {
      while (text.back() == '0') text.pop_back();
      if (text.back() == '.') text.pop_back();
    }
    if (reads_back(text, value, numerator, denominator)) break;
  }
  return value < 0.0 ? "-" + text : text;
}

std::string print_exactly(const Range& range, std::int64_t numerator, std::int64_t denominator) {
  std::string text = print_exactly(range.low, numerator, denominator);
  if (!range.is_band()) return text;
  return text + (range.low < 0.0 ? " to " : "-") + print_exactly(range.high, numerator, denominator);
}

}  // namespace bloomset::text
