#include "text/amount.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "text/number.hpp"
#include "text/units.hpp"

namespace bloomset::text {
namespace {

constexpr double most_si = 1e4;              // kg, m3 or pieces: a typing slip, not a kitchen
constexpr double most_percent = 1000.0;      // ten times the marked line
constexpr double absolute_zero_c = -273.15;  // SI Brochure 9th ed., 2.3.1
constexpr double hottest_c = 300.0;          // above any pan of this trade: a typing slip
constexpr double longest_s = 10.0 * 365.0 * 86400.0;

// A word of the text that stands for an amount by itself.
std::optional<AmountKind> accept_whole(Cursor& cursor) {
  if (accept_word(cursor, "all")) return AmountKind::all;
  if (accept_word(cursor, "rest")) return AmountKind::rest;
  if (accept_word(cursor, "half")) return AmountKind::half;
  return std::nullopt;
}

bool accept_percent(Cursor& cursor) {
  const std::string_view rest = cursor.rest();
  if (rest.empty() || rest[0] != '%') return false;
  const char next = rest.size() > 1 ? rest[1] : ' ';
  if ((next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z')) return false;  // `%vol` is a strength, not an amount
  ++cursor.at;
  return true;
}

std::optional<Amount> finish_percent(Cursor& cursor, std::size_t from, const NumberRange& number, Faults& faults) {
  Amount amount;
  amount.kind = AmountKind::percent;
  amount.unit = "%";
  amount.value = number.times(1, 100);
  Cursor ahead = cursor;
  skip_blanks(ahead);
  if (accept_word(ahead, "total")) {
    cursor = ahead;
    amount.kind = AmountKind::percent_total;
    amount.unit = "% total";
  }
  amount.span = cursor.span(from, cursor.at - from);
  if (amount.kind == AmountKind::percent_total && amount.value.high >= 1.0) {
    fault(faults, number.span, "too_large", "a share of the finished part must be below 100 %");
    return std::nullopt;
  }
  if (number.high.value > most_percent) {
    fault(faults, number.span, "too_large", "more than 1000 % is refused", "check the decimal point");
    return std::nullopt;
  }
  skip_blanks(cursor);
  return amount;
}

bool at_end(const Cursor& cursor, Faults& faults, std::string_view what, std::string hint = {}) {
  if (cursor.at >= cursor.text.size()) return true;
  fault(faults, cursor.span(cursor.at, cursor.text.size() - cursor.at), "unexpected_text", say({ticked(cursor.rest()), " must not stand behind ", what}),
        std::move(hint));
  return false;
}

// The word where a unit should be, for a message.
void fault_unit(const Cursor& cursor, Faults& faults, const std::string& code, const std::string& expected, const std::string& hint) {
  const std::string_view word = word_at(cursor);
  if (word.empty()) {
    fault(faults, cursor.span(cursor.at, 1), "unit_missing", say({"a unit is missing behind the number: ", expected}), hint);
  } else {
    fault(faults, cursor.span(cursor.at, word.size()), code, say({ticked(word), " is not a unit here: ", expected}), hint);
  }
}

struct TimeUnit {
  std::string_view word;
  std::int64_t seconds;
};
constexpr std::array<TimeUnit, 4> time_units = {{{"d", 86400}, {"h", 3600}, {"min", 60}, {"s", 1}}};

}  // namespace

std::optional<Amount> read_amount(Cursor& cursor, Measures measures, Faults& faults) {
  skip_blanks(cursor);
  const std::size_t from = cursor.at;
  if (const auto whole = accept_whole(cursor)) {
    Amount amount;
    amount.kind = *whole;
    amount.span = cursor.span(from, cursor.at - from);
    skip_blanks(cursor);
    return amount;
  }
  const auto number = read_numbers(cursor, Sign::plain_only, faults);
  if (!number) return std::nullopt;
  if (accept_percent(cursor)) return finish_percent(cursor, from, *number, faults);
  const std::size_t unit_from = cursor.at;
  const Unit* unit = read_unit(cursor, measures, faults);
  if (!unit) return std::nullopt;
  Amount amount;
  amount.kind = unit->kind == UnitKind::mass ? AmountKind::mass : unit->kind == UnitKind::volume ? AmountKind::volume : AmountKind::pieces;
  amount.unit = std::string(cursor.text.substr(unit_from, cursor.at - unit_from));
  amount.value = number->times(unit->numerator, unit->denominator);
  amount.span = cursor.span(from, cursor.at - from);
  if (!(amount.value.high <= most_si)) {
    const std::string_view most = unit->kind == UnitKind::mass ? "10,000 kg" : unit->kind == UnitKind::volume ? "10,000,000 L" : "10,000 pieces";
    fault(faults, amount.span, "too_large", say({"more than ", most, " is refused"}), "check the decimal point and the unit");
    return std::nullopt;
  }
  skip_blanks(cursor);
  return amount;
}

std::optional<Range> read_number(Cursor& cursor, Faults& faults) {
  const auto number = read_numbers(cursor, Sign::plain_only, faults);
  if (!number) return std::nullopt;
  return number->times(1, 1);
}

std::optional<Range> read_temperature_c(std::string_view text, base::Span origin, Faults& faults) {
  Cursor cursor{text, origin};
  const auto number = read_numbers(cursor, Sign::may_be_negative, faults);
  if (!number) return std::nullopt;
  constexpr std::string_view degree = "°";
  if (cursor.rest().starts_with(degree)) cursor.at += degree.size();
  Range celsius;
  if (accept_word(cursor, "C")) {
    celsius = number->times(1, 1);
  } else if (accept_word(cursor, "F")) {
    // t/C = (t/F - 32) 5/9 (NIST SP 811, appendix B.8), rounded once.
    const auto from_f = [](const Number& n) {
      if (n.denominator == 0) return (n.value - 32.0) * 5.0 / 9.0;
      const long double over = static_cast<long double>(n.denominator);
      return static_cast<double>((static_cast<long double>(n.numerator) - 32.0L * over) * 5.0L / (9.0L * over));
    };
    celsius = {from_f(number->low), from_f(number->high)};
  } else {
    fault_unit(cursor, faults, "unknown_unit", "a temperature is written in C or F", "for instance `70 C` or `-20 to -18 C`");
    return std::nullopt;
  }
  skip_blanks(cursor);
  if (!at_end(cursor, faults, "a temperature")) return std::nullopt;
  if (celsius.low < absolute_zero_c) {
    fault(faults, number->span, "too_cold", "this is below absolute zero (-273.15 C)");
    return std::nullopt;
  }
  if (!(celsius.high <= hottest_c)) {
    fault(faults, number->span, "too_hot", "more than 300 C is refused", "check the number and the unit");
    return std::nullopt;
  }
  return celsius;
}

std::optional<Range> read_duration_s(std::string_view text, base::Span origin, Faults& faults) {
  Cursor cursor{text, origin};
  skip_blanks(cursor);
  if (Cursor ahead = cursor; accept_word(ahead, "overnight")) {
    fault(faults, cursor.span(cursor.at, 9), "bad_duration", "`overnight` is not a time", "write the hours, for instance `8-12 h`");
    return std::nullopt;
  }
  const auto number = read_numbers(cursor, Sign::plain_only, faults);
  if (!number) return std::nullopt;
  const auto unit = std::find_if(time_units.begin(), time_units.end(), [&](const TimeUnit& u) { return accept_word(cursor, u.word); });
  if (unit == time_units.end()) {
    fault_unit(cursor, faults, "unknown_unit", "a time is written in s, min, h or d", "for instance `10-12 min`");
    return std::nullopt;
  }
  skip_blanks(cursor);
  if (!at_end(cursor, faults, "a time", "a time has one unit: write `90 min`, not `1 h 30 min`")) return std::nullopt;
  const Range seconds = number->times(unit->seconds, 1);
  if (!(seconds.high <= longest_s)) {
    fault(faults, number->span, "too_large", "more than ten years is refused");
    return std::nullopt;
  }
  return seconds;
}

std::optional<Range> read_share(std::string_view text, base::Span origin, Faults& faults) {
  Cursor cursor{text, origin};
  skip_blanks(cursor);
  std::optional<Range> share;
  if (accept_word(cursor, "half")) {
    share = Range{0.5, 0.5};
  } else if (accept_word(cursor, "third")) {
    share = Range{1.0 / 3.0, 1.0 / 3.0};
  } else if (accept_word(cursor, "quarter")) {
    share = Range{0.25, 0.25};
  } else {
    const auto number = read_numbers(cursor, Sign::plain_only, faults);
    if (!number) return std::nullopt;
    if (!accept_percent(cursor)) {
      fault_unit(cursor, faults, "unknown_unit", "a share is written in %", "for instance `25 %`, `74-80 %`, `half`, `third` or `quarter`");
      return std::nullopt;
    }
    share = number->times(1, 100);
    if (!(share->high <= 1.0)) {
      fault(faults, number->span, "too_large", "a share may not be above 100 %");
      return std::nullopt;
    }
  }
  skip_blanks(cursor);
  if (!at_end(cursor, faults, "a share")) return std::nullopt;
  return share;
}

std::string print(const Amount& amount, Measures measures) {
  switch (amount.kind) {
    case AmountKind::all:
      return "all";
    case AmountKind::rest:
      return "rest";
    case AmountKind::half:
      return "half";
    case AmountKind::percent:
      return print_exactly(amount.value, 1, 100) + " %";
    case AmountKind::percent_total:
      return print_exactly(amount.value, 1, 100) + " % total";
    case AmountKind::mass:
    case AmountKind::volume:
    case AmountKind::pieces:
      break;
  }
  const Unit* unit = unit_named(amount.unit, measures);
  const std::string_view fallback = amount.kind == AmountKind::mass ? "g" : amount.kind == AmountKind::volume ? "mL" : "piece";
  if (!unit)
    return print_exactly(amount.value, unit_named(fallback, measures)->numerator, unit_named(fallback, measures)->denominator) + " " + std::string(fallback);
  return print_exactly(amount.value, unit->numerator, unit->denominator) + " " + amount.unit;
}

std::string print_duration(const Range& seconds) {
  // The largest unit in which both ends are short: `10-12 min`, not `600-720 s`.
  for (const TimeUnit& unit : time_units) {
    const auto is_short = [&](double s) { return std::fmod(s, static_cast<double>(unit.seconds) / 2.0) == 0.0 && s >= static_cast<double>(unit.seconds); };
    if (is_short(seconds.low) && is_short(seconds.high)) return print_exactly(seconds, unit.seconds, 1) + " " + std::string(unit.word);
  }
  return print_exactly(seconds) + " s";
}

std::string print_temperature(const Range& celsius) { return print_exactly(celsius) + " C"; }

std::string print_share(const Range& fraction) {
  if (fraction == Range{1.0 / 3.0, 1.0 / 3.0}) return "third";
  return print_exactly(fraction, 1, 100) + " %";
}

std::string print_number(double value, int digits) {
  if (!std::isfinite(value)) return value > 0.0 ? "inf" : value < 0.0 ? "-inf" : "nan";
  digits = std::clamp(digits, 1, 17);
  if (value == 0.0) return "0";
  // Rounding may carry into a new digit (9.996 → 10.00), so the exponent is read off the rounded form.
  std::array<char, 400> buffer;
  auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::scientific, digits - 1);
  const std::string_view scientific(buffer.data(), static_cast<std::size_t>(end.ptr - buffer.data()));
  int exponent = 0;
  std::string_view tail = scientific.substr(scientific.find('e') + 1);
  if (tail.starts_with('+')) tail.remove_prefix(1);
  std::from_chars(tail.data(), tail.data() + tail.size(), exponent);
  double rounded = 0.0;
  std::from_chars(scientific.data(), scientific.data() + scientific.size(), rounded);
  end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), rounded, std::chars_format::fixed, std::max(0, digits - 1 - exponent));
  std::string text(buffer.data(), end.ptr);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

}  // namespace bloomset::text
