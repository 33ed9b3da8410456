// text/number.hpp - the numbers of a recipe, exact where they can be.
//
// `12`, `0.75`, `.5`, `3/4`, `1 1/2`, `½`, `1½`, `1⁄4`, and bands of them: `5-30`, `5–30`, `-20 to -18`.
// A decimal of up to 18 digits and any fraction are kept as numerator over denominator, so that a unit's exact
// factor (data/text/units.csv) is applied before the one rounding to double. Internal to text and formula.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>

#include "text/amount.hpp"

namespace bloomset::text {

/// One number as read. `denominator` is 0 where there is no exact fraction (more than 18 digits); then `wide` has the next
/// best, so that a factor is still followed by one rounding.
struct Number {
  double value = 0.0;
  long double wide = 0.0L;
  std::int64_t numerator = 0, denominator = 0;
  /// This number times the exact factor numerator/denominator, rounded once.
  double times(std::int64_t by, std::int64_t over) const;
  bool negative() const { return value < 0.0; }
};

struct NumberRange {
  Number low, high;
  base::Span span;
  bool band = false;
  Range times(std::int64_t by, std::int64_t over) const { return {low.times(by, over), high.times(by, over)}; }
};

enum class Sign { plain_only, may_be_negative };

/// Moves past blanks.
void skip_blanks(Cursor&);
/// The word at the cursor: up to the next blank or end.
std::string_view word_at(const Cursor&);
/// Moves past `word` if the cursor stands on it and no letter or digit follows.
bool accept_word(Cursor&, std::string_view word);

/// Reads a number or band and the blanks behind it. A band that runs backwards, a zero denominator, a decimal comma,
/// two fractions in a row and (for `plain_only`) a minus sign are faults.
std::optional<NumberRange> read_numbers(Cursor&, Sign, Faults&);

/// The shortest decimal text that reads back, times numerator/denominator, as `value`. No exponent.
std::string print_exactly(double value, std::int64_t numerator = 1, std::int64_t denominator = 1);
/// A band of such: `5-30`, `-20 to -18`, or one number.
std::string print_exactly(const Range&, std::int64_t numerator = 1, std::int64_t denominator = 1);

/// Puts a message together.
std::string say(std::initializer_list<std::string_view> pieces);
/// A piece of the text for a message: cut after 60 bytes.
std::string shown(std::string_view word);
/// The same between backticks.
std::string ticked(std::string_view word);
/// Beyond so many, further faults are dropped: the document is refused anyway, and its reader is shown far fewer.
inline constexpr std::size_t most_kept_faults = 1000;
/// Appends an error, unless there are too many already. The one place that fills a Diagnostic in text.
void fault(Faults&, base::Span, std::string code, std::string message, std::string hint = {});

}  // namespace bloomset::text
