// text/amount.hpp - amounts, temperatures, times and percents as a cook writes them.
//
// `2 fl oz`, `330 g`, `1 1/2 tsp`, `½ cup`, `6-8 min`, `-20 to -18 C`, `4 piece`, `1.1 %`, `all`. Units have one
// spelling and listed plurals. `oz` is mass; volume is `fl oz`. A bare cup, pint, tbsp, tsp, fl oz follows the
// document's `measures`; what that system lacks is refused. Conversions are exact (NIST HB 44, data/text/units.csv).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "units/quantity.hpp"

namespace bloomset::text {

/// What a bare cup, pint, tbsp, tsp, fl oz means.
enum class Measures { metric, us, imperial, au };

/// A number or a band; the nominal value is the middle. In SI or as a count or a fraction, as the owner says.
struct Range {
  double low = 0.0, high = 0.0;
  double nominal() const { return 0.5 * (low + high); }
  bool is_band() const { return low != high; }
  friend bool operator==(const Range&, const Range&) = default;
};

enum class AmountKind {
  mass,           // kg
  volume,         // m3
  pieces,         // count
  percent,        // fraction: of the base (agents), of what is in the vessel (anything else), or of a marked line
  percent_total,  // fraction of the finished part: `% total`
  all,
  rest,
  half
};

/// An amount as read. Drops and dashes are volumes (unit keeps the word).
struct Amount {
  AmountKind kind = AmountKind::mass;
  Range value;
  std::string unit;  // as written: "fl oz", "piece", "%"; empty for all, rest, half
  base::Span span;
  friend bool operator==(const Amount& a, const Amount& b) { return a.kind == b.kind && a.value == b.value && a.unit == b.unit; }
};

/// A text being read from left to right, with the place it came from. Readers move `at` past what they took.
struct Cursor {
  std::string_view text;
  base::Span origin;  // where text[0] stands in its document
  std::size_t at = 0;
  std::string_view rest() const { return text.substr(at); }
  base::Span span(std::size_t from, std::size_t length) const;
};

using Faults = std::vector<base::Diagnostic>;

/// Reads one amount at the cursor and the blank behind it. On a fault appends diagnostics and answers nothing.
/// Negative, zero-denominator, absurd (over 10,000 kg, m3 or pieces) amounts are faults.
std::optional<Amount> read_amount(Cursor&, Measures, Faults&);
/// `70 C`, `158 F`, `-20 to -18 C` → Celsius. Below absolute zero or above 300 C is a fault.
std::optional<Range> read_temperature_c(std::string_view, base::Span origin, Faults&);
/// `10-12 min`, `3-5 h`, `90 s`, `2 d`, `overnight` is refused → seconds.
std::optional<Range> read_duration_s(std::string_view, base::Span origin, Faults&);
/// A share: `third`, `half`, `25 %`, `74-80 %` → fraction 0..1; `rest` is the caller's.
std::optional<Range> read_share(std::string_view, base::Span origin, Faults&);
/// A number with fractions and Unicode fractions: `1 1/2`, `1½`, `0.75`, `6-8`.
std::optional<Range> read_number(Cursor&, Faults&);

/// Prints an amount so that reading it back gives the same one.
std::string print(const Amount&, Measures);

/// Durations, temperatures and shares in the shortest form that reads back as the same: `10-12 min`, `-20 to -18 C`, `74-80 %`.
std::string print_duration(const Range& seconds);
std::string print_temperature(const Range& celsius);
std::string print_share(const Range& fraction);

/// `12.3`: at most `digits` significant digits, no exponent, no trailing zeros; "–" is never printed for a NaN (caller checks).
std::string print_number(double, int digits = 4);

/// Kitchen measure beside grams: `4 tbsp`, `1/2 tsp`; empty where one rounding step would be over 20 % off. Rules: FDA serving steps (rules/kitchen_measures).
std::string kitchen_measure(units::Volume, Measures);

}  // namespace bloomset::text
