// Numbers as cooks write them: fractions, vulgar fractions, bands; and what is refused, with the whole message.
#include "text/number.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <limits>

#include "text/reading.hpp"

namespace bloomset::text::test {
namespace {

std::optional<Range> number(std::string_view text) {
  Faults faults;
  Cursor cursor{text, whole(text)};
  return read_number(cursor, faults);
}

std::string number_fault(std::string_view text) {
  return fault_of(
      [](std::string_view t, base::Span span, Faults& faults) {
        Cursor cursor{t, span};
        return read_number(cursor, faults);
      },
      text);
}

TEST(Number, reads_plain_decimals_and_fractions_exactly) {
  // Decompositions of the vulgar fractions: Unicode Character Database 14.0.0.
  const std::vector<std::pair<std::string, double>> written = {{"12", 12.0},      {"0.75", 0.75}, {".5", 0.5},  {"3/4", 0.75}, {"1 1/2", 1.5},
                                                               {"½", 0.5},        {"1½", 1.5},    {"1 ½", 1.5}, {"1⁄4", 0.25}, {"⅓", 1.0 / 3.0},
                                                               {"2⅔", 8.0 / 3.0}, {"⅞", 0.875},   {"⅒", 0.1},   {"0.1", 0.1},  {"007", 7.0}};
  for (const auto& [text, value] : written) {
    const auto read = number(text);
    ASSERT_TRUE(read) << text;
    EXPECT_EQ(read->low, value) << text;
    EXPECT_FALSE(read->is_band()) << text;
  }
}

TEST(Number, reads_bands_with_a_hyphen_a_dash_or_to) {
  for (const std::string text : {"5-30", "5–30", "5 - 30", "5 – 30", "5 to 30"}) EXPECT_EQ(number(text), (Range{5.0, 30.0})) << text;
  EXPECT_EQ(number("1 1/2-2"), (Range{1.5, 2.0}));
  EXPECT_EQ(number("½ to 1½"), (Range{0.5, 1.5}));
  EXPECT_EQ((Range{5.0, 30.0}).nominal(), 17.5);
}

TEST(Number, keeps_decimals_of_eighteen_digits_as_fractions) {
  Faults faults;
  Cursor cursor{"0.123456789012345678", {}};
  const auto n = read_numbers(cursor, Sign::plain_only, faults);
  ASSERT_TRUE(n);
  // The first 18 digits of a whole part 0 count too, so this one is over and only its double is known.
  EXPECT_EQ(n->low.denominator, 0);
  Cursor shorter{".123456789012345678", {}};
  EXPECT_EQ(read_numbers(shorter, Sign::plain_only, faults)->low.numerator, 123456789012345678);
}

TEST(Number, refuses_what_is_no_number_with_a_caret_under_it) {
  EXPECT_EQ(number_fault("1/0"), "t:1:1: error: a fraction may not have 0 below the line [bad_number]\n  1/0\n  ^~~\n");
  EXPECT_EQ(number_fault("½½"), "t:1:1: error: two numbers stand in a row [bad_number]\n  ½½\n  ^~\n");
  EXPECT_EQ(number_fault("1/2 1/3"), "t:1:1: error: two numbers stand in a row [bad_number]\n  1/2 1/3\n  ^~~~~\n");
  EXPECT_EQ(number_fault(""), "t:1:1: error: a number is missing at the end [bad_number]\n");
  EXPECT_EQ(number_fault("five"), "t:1:1: error: a number must stand here, not `five` [bad_number]\n  five\n  ^~~~\n");
  EXPECT_EQ(number_fault("1,5"),
            "t:1:1: error: a comma may not stand in a number [bad_number]\n  1,5\n  ^~~\n  hint: the decimal mark is a point (1.5), and thousands carry no "
            "mark (1000)\n");
  EXPECT_EQ(number_fault("5."), "t:1:1: error: a digit must follow the decimal point [bad_number]\n  5.\n  ^~\n");
  EXPECT_EQ(number_fault("30-5"), "t:1:1: error: this range runs backwards [backwards_range]\n  30-5\n  ^~~~\n  hint: write the smaller number first\n");
  EXPECT_EQ(number_fault("-5"), "t:1:1: error: an amount may not be negative [negative]\n  -5\n  ^~\n");
  EXPECT_EQ(number_fault("5-"), "t:1:3: error: a number is missing at the end [bad_number]\n  5-\n    ^\n");
  EXPECT_EQ(number_fault("1234567 1/2"), "t:1:1: error: a number before a fraction may have at most 6 digits [bad_number]\n  1234567 1/2\n  ^~~~~~~~~~~\n");
  EXPECT_EQ(number_fault("1/1234567"), "t:1:1: error: a fraction may have at most 6 digits above and below the line [bad_number]\n  1/1234567\n  ^~~~~~~~~\n");
  EXPECT_EQ(number_fault("5 6"), "t:1:1: error: two numbers stand in a row [bad_number]\n  5 6\n  ^~~\n");
}

TEST(Number, refuses_a_number_of_a_million_digits_at_once) {
  const std::string digits(1000000, '9');
  EXPECT_FALSE(number(digits));
  EXPECT_FALSE(number("1." + digits));
  EXPECT_TRUE(std::isinf(number(std::string(400, '9'))->low));  // its owner refuses it by its own limit
}

TEST(Number, prints_the_fewest_digits_that_read_back) {
  EXPECT_EQ(print_exactly(0.1), "0.1");
  EXPECT_EQ(print_exactly(330.0), "330");
  EXPECT_EQ(print_exactly(0.33, 1, 1000), "330");
  EXPECT_EQ(print_exactly(Range{-20.0, -18.0}), "-20 to -18");
  EXPECT_EQ(print_exactly(Range{5.0, 30.0}), "5-30");
  EXPECT_EQ(print_exactly(0.0), "0");
}

TEST(Number, prints_any_double_so_that_it_reads_back_as_the_same) {
  EXPECT_TRUE(rc::check([] {
    const double value = std::ldexp(static_cast<double>(*rc::gen::arbitrary<std::uint32_t>()) + 0.1 * *rc::gen::inRange(0, 10), *rc::gen::inRange(-60, 20));
    // 1/3 US fluid ounce in m3 is the hardest factor in use: its numerator has nine digits.
    for (const auto& [by, over] : {std::pair<std::int64_t, std::int64_t>{1, 1}, {1, 1000}, {60, 1}, {473176473, 16000000000000}}) {
      const std::string text = print_exactly(value, by, over);
      Faults faults;
      Cursor cursor{text, {}};
      const auto read = read_numbers(cursor, Sign::plain_only, faults);
      RC_ASSERT(read.has_value());
      RC_ASSERT(read->low.times(by, over) == value);
    }
  }));
}

TEST(Number, prints_for_people_with_at_most_so_many_digits) {
  EXPECT_EQ(print_number(1234.5678), "1235");
  EXPECT_EQ(print_number(12.345), "12.35");  // the double nearest 12.345 lies above it
  EXPECT_EQ(print_number(0.00012345, 3), "0.000123");
  EXPECT_EQ(print_number(9.9996), "10");
  EXPECT_EQ(print_number(123456.0, 3), "123000");
  EXPECT_EQ(print_number(-0.5), "-0.5");
  EXPECT_EQ(print_number(0.0), "0");
  EXPECT_EQ(print_number(1e22), "10000000000000000000000");
}

}  // namespace
}  // namespace bloomset::text::test
