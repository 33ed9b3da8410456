// Amounts, temperatures, times and shares: exact values against published definitions, and every refusal in full.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "text/number.hpp"
#include "text/reading.hpp"
#include "text/units.hpp"

namespace bloomset::text::test {
namespace {

struct Exact {
  std::string_view text;
  Measures measures;
  double si;  // kg or m3
};

TEST(Amount, converts_mass_and_volume_to_the_defined_values) {
  // NIST Handbook 44 appendix C and SP 811 appendix B: 1 lb = 0.45359237 kg, 1 US gallon = 231 in3 = 3.785411784 L,
  // 1 imperial gallon = 4.54609 L; the others are exact parts. Spoons: UCUM [tsp_m], [tbs_m]; cup: CLDR 48 cup-metric.
  const std::vector<Exact> published = {{"1 lb", Measures::metric, 0.45359237},
                                        {"1 oz", Measures::metric, 0.028349523125},
                                        {"250 g", Measures::metric, 0.25},
                                        {"3 kg", Measures::metric, 3.0},
                                        {"500 mg", Measures::metric, 0.0005},
                                        {"1 mL", Measures::metric, 1e-6},
                                        {"1 cL", Measures::metric, 1e-5},
                                        {"1 dL", Measures::metric, 1e-4},
                                        {"1 L", Measures::metric, 1e-3},
                                        {"1 gallon", Measures::us, 3.785411784e-3},
                                        {"1 quart", Measures::us, 0.946352946e-3},
                                        {"1 pint", Measures::us, 473.176473e-6},
                                        {"1 cup", Measures::us, 236.5882365e-6},
                                        {"1 fl oz", Measures::us, 29.5735295625e-6},
                                        {"1 tbsp", Measures::us, 14.78676478125e-6},
                                        {"1 tsp", Measures::us, 4.92892159375e-6},
                                        {"1 1/2 fl oz", Measures::us, 44.36029434375e-6},
                                        {"¾ fl oz", Measures::us, 22.180147171875e-6},
                                        {"1 gallon", Measures::imperial, 4.54609e-3},
                                        {"1 quart", Measures::imperial, 1.1365225e-3},
                                        {"1 pint", Measures::imperial, 568.26125e-6},
                                        {"1 fl oz", Measures::imperial, 28.4130625e-6},
                                        {"20 fl oz", Measures::imperial, 568.26125e-6},
                                        {"1 cup", Measures::imperial, 284.130625e-6},
                                        {"1 cup", Measures::metric, 250e-6},
                                        {"1 tbsp", Measures::metric, 15e-6},
                                        {"1 tsp", Measures::metric, 5e-6},
                                        {"3 tbsp", Measures::au, 60e-6},
                                        {"1 tsp", Measures::au, 5e-6},
                                        {"20 drops", Measures::metric, 1e-6}};
  for (const Exact& row : published) {
    const auto read = amount(row.text, row.measures);
    ASSERT_TRUE(read) << row.text;
    EXPECT_DOUBLE_EQ(read->value.low, row.si) << row.text;  // 4 units in the last place: one rounding here, one in the literal
  }
}

TEST(Amount, takes_dashes_and_bar_spoons_as_common_practice_has_them) {
  // practice: 0.9 mL a dash, 5 mL a bar spoon.
  EXPECT_DOUBLE_EQ(amount("2 dashes")->value.low, 1.8e-6);
  EXPECT_DOUBLE_EQ(amount("1 bar spoon")->value.low, 5e-6);
  EXPECT_EQ(amount("2 dashes")->unit, "dashes");
  EXPECT_EQ(amount("2 dashes")->kind, AmountKind::volume);
}

TEST(Amount, reads_pieces_percents_and_whole_words) {
  EXPECT_EQ(amount("4 piece cardamom pod")->kind, AmountKind::pieces);
  EXPECT_EQ(amount("4 pieces")->value, (Range{4.0, 4.0}));
  EXPECT_EQ(amount("1/2 piece")->value, (Range{0.5, 0.5}));
  EXPECT_EQ(amount("1.1 % gelatin")->kind, AmountKind::percent);
  EXPECT_EQ(amount("1.1% gelatin")->value.low, 0.011);
  EXPECT_EQ(amount("0.9 % total agar")->kind, AmountKind::percent_total);
  EXPECT_EQ(amount("all 'x'")->kind, AmountKind::all);
  EXPECT_EQ(amount("rest 'x'")->kind, AmountKind::rest);
  EXPECT_EQ(amount("half 'x'")->kind, AmountKind::half);
}

TEST(Amount, leaves_the_cursor_at_the_thing) {
  for (const std::string_view text :
       {"330 g orange juice", "330g orange juice", "1 1/2 tbsp orange juice", "0.9 % total orange juice", "all orange juice", "2 bar spoons orange juice"}) {
    Faults faults;
    Cursor cursor{text, whole(text)};
    ASSERT_TRUE(read_amount(cursor, Measures::metric, faults)) << text;
    EXPECT_EQ(cursor.rest(), "orange juice") << text;
  }
}

TEST(Amount, keeps_us_and_imperial_apart) {
  EXPECT_NE(amount("1 pint", Measures::us)->value.low, amount("1 pint", Measures::imperial)->value.low);
  EXPECT_EQ(amount_fault("1 fl oz lemon juice", Measures::metric),
            "t:1:3: error: there is no `fl oz` in metric measures [unit_not_in_system]\n  1 fl oz lemon juice\n    ^~~~~\n  hint: measures that have it: us, "
            "imperial; or write mL\n");
  EXPECT_EQ(amount_fault("2 tbsp", Measures::imperial),
            "t:1:3: error: there is no `tbsp` in imperial measures [unit_not_in_system]\n  2 tbsp\n    ^~~~\n  hint: measures that have it: us, metric, au; or "
            "write mL\n");
  EXPECT_EQ(
      amount_fault("1 pint", Measures::au),
      "t:1:3: error: there is no `pint` in au measures [unit_not_in_system]\n  1 pint\n    ^~~~\n  hint: measures that have it: us, imperial; or write mL\n");
}

TEST(Amount, has_one_spelling_a_unit_and_names_it) {
  EXPECT_EQ(amount_fault("5 ml"), "t:1:3: error: `ml` is not a unit [unknown_unit]\n  5 ml\n    ^~\n  hint: write `mL`\n");
  EXPECT_EQ(amount_fault("5 grams"), "t:1:3: error: `grams` is not a unit [unknown_unit]\n  5 grams\n    ^~~~~\n  hint: write `g`\n");
  EXPECT_EQ(amount_fault("3 tablespoons"),
            "t:1:3: error: `tablespoons` is not a unit [unknown_unit]\n  3 tablespoons\n    ^~~~~~~~~~~\n  hint: write `tbsp`\n");
  EXPECT_EQ(amount_fault("1 Oz"), "t:1:3: error: `Oz` is not a unit [unknown_unit]\n  1 Oz\n    ^~\n  hint: write `oz`\n");
  EXPECT_EQ(amount_fault("2 peices lime"), "t:1:3: error: `peices` is not a unit [unknown_unit]\n  2 peices lime\n    ^~~~~~\n  hint: did you mean `piece`?\n");
  EXPECT_EQ(amount_fault("5 %vol"),
            "t:1:3: error: `%vol` is not a unit [unknown_unit]\n  5 %vol\n    ^~~~\n  hint: a strength stands in the bracket behind the thing: `45 mL spirit "
            "(40 %vol)`\n");
  EXPECT_EQ(amount_fault("2 limes"),
            "t:1:3: error: `limes` is not a unit [unknown_unit]\n  2 limes\n    ^~~~~\n"
            "  hint: count things as `2 piece …`; other units are mg, g, kg, oz, lb, mL, cL, dL, L, fl oz, cup, pint, tbsp, tsp, drop, dash, bar spoon, %\n");
  EXPECT_EQ(amount_fault("5"),
            "t:1:2: error: a unit is missing behind the number [unit_missing]\n  5\n   ^\n  hint: write for instance `g`, `mL` or `piece`\n");
}

TEST(Amount, refuses_negative_and_absurd_amounts) {
  EXPECT_EQ(amount_fault("-5 g"), "t:1:1: error: an amount may not be negative [negative]\n  -5 g\n  ^~\n");
  EXPECT_EQ(amount_fault("10001 kg"),
            "t:1:1: error: more than 10,000 kg is refused [too_large]\n  10001 kg\n  ^~~~~~~~\n  hint: check the decimal point and the unit\n");
  EXPECT_EQ(amount_fault("99999999 L"),
            "t:1:1: error: more than 10,000,000 L is refused [too_large]\n  99999999 L\n  ^~~~~~~~~~\n  hint: check the decimal point and the unit\n");
  EXPECT_EQ(amount_fault("99999 piece"),
            "t:1:1: error: more than 10,000 pieces is refused [too_large]\n  99999 piece\n  ^~~~~~~~~~~\n  hint: check the decimal point and the unit\n");
  EXPECT_EQ(amount_fault("2000 % water"), "t:1:1: error: more than 1000 % is refused [too_large]\n  2000 % water\n  ^~~~\n  hint: check the decimal point\n");
  EXPECT_EQ(amount_fault("100 % total agar"), "t:1:1: error: a share of the finished part must be below 100 % [too_large]\n  100 % total agar\n  ^~~\n");
  EXPECT_FALSE(amount(std::string(300, '9') + " g"));
  EXPECT_TRUE(amount("10000 kg"));
  EXPECT_TRUE(amount("0 g"));
}

TEST(Temperature, reads_celsius_and_fahrenheit) {
  EXPECT_EQ(value_of(read_temperature_c, "70 C"), (Range{70.0, 70.0}));
  EXPECT_EQ(value_of(read_temperature_c, "20C"), (Range{20.0, 20.0}));
  EXPECT_EQ(value_of(read_temperature_c, "-20 to -18 C"), (Range{-20.0, -18.0}));
  EXPECT_EQ(value_of(read_temperature_c, "−18 °C"), (Range{-18.0, -18.0}));
  // NIST SP 811 appendix B.8: t/C = (t/F - 32)/1.8.
  EXPECT_EQ(value_of(read_temperature_c, "41 F")->low, 5.0);
  EXPECT_DOUBLE_EQ(value_of(read_temperature_c, "135 °F")->low, 515.0 / 9.0);
  EXPECT_EQ(value_of(read_temperature_c, "32 F")->low, 0.0);
  EXPECT_DOUBLE_EQ(value_of(read_temperature_c, "165 F")->low, 665.0 / 9.0);
}

TEST(Temperature, refuses_what_cannot_be) {
  EXPECT_EQ(fault_of(read_temperature_c, "-300 C"), "t:1:1: error: this is below absolute zero (-273.15 C) [too_cold]\n  -300 C\n  ^~~~\n");
  EXPECT_EQ(fault_of(read_temperature_c, "-460 F"), "t:1:1: error: this is below absolute zero (-273.15 C) [too_cold]\n  -460 F\n  ^~~~\n");
  EXPECT_EQ(fault_of(read_temperature_c, "301 C"),
            "t:1:1: error: more than 300 C is refused [too_hot]\n  301 C\n  ^~~\n  hint: check the number and the unit\n");
  EXPECT_EQ(fault_of(read_temperature_c, "70"),
            "t:1:3: error: a unit is missing behind the number: a temperature is written in C or F [unit_missing]\n  70\n    ^\n  hint: for instance `70 C` or "
            "`-20 to -18 C`\n");
  EXPECT_EQ(fault_of(read_temperature_c, "70 K"),
            "t:1:4: error: `K` is not a unit here: a temperature is written in C or F [unknown_unit]\n  70 K\n     ^\n  hint: for instance `70 C` or `-20 to "
            "-18 C`\n");
  EXPECT_EQ(fault_of(read_temperature_c, "-20-18 C"),
            "t:1:1: error: a range below zero is written with `to` [bad_number]\n  -20-18 C\n  ^~~~~~\n  hint: for instance `-20 to -18`\n");
  EXPECT_EQ(fault_of(read_temperature_c, "-18 to -20 C"),
            "t:1:1: error: this range runs backwards [backwards_range]\n  -18 to -20 C\n  ^~~~~~~~~~\n  hint: write the smaller number first\n");
  EXPECT_EQ(fault_of(read_temperature_c, "70 C ok"), "t:1:6: error: `ok` must not stand behind a temperature [unexpected_text]\n  70 C ok\n       ^~\n");
}

TEST(Duration, reads_seconds_to_days) {
  EXPECT_EQ(value_of(read_duration_s, "90 s"), (Range{90.0, 90.0}));
  EXPECT_EQ(value_of(read_duration_s, "10-12 min"), (Range{600.0, 720.0}));
  EXPECT_EQ(value_of(read_duration_s, "3–5 h"), (Range{10800.0, 18000.0}));
  EXPECT_EQ(value_of(read_duration_s, "2 d"), (Range{172800.0, 172800.0}));
  EXPECT_EQ(value_of(read_duration_s, "1 1/2 h"), (Range{5400.0, 5400.0}));
}

TEST(Duration, refuses_words_and_two_units) {
  EXPECT_EQ(fault_of(read_duration_s, "overnight"),
            "t:1:1: error: `overnight` is not a time [bad_duration]\n  overnight\n  ^~~~~~~~~\n  hint: write the hours, for instance `8-12 h`\n");
  EXPECT_EQ(fault_of(read_duration_s, "1 h 30 min"),
            "t:1:5: error: `30 min` must not stand behind a time [unexpected_text]\n  1 h 30 min\n      ^~~~~~\n  hint: a time has one unit: write `90 min`, "
            "not `1 h 30 min`\n");
  EXPECT_EQ(fault_of(read_duration_s, "5 minutes"),
            "t:1:3: error: `minutes` is not a unit here: a time is written in s, min, h or d [unknown_unit]\n  5 minutes\n    ^~~~~~~\n  hint: for instance "
            "`10-12 min`\n");
  EXPECT_EQ(fault_of(read_duration_s, "-3 h"), "t:1:1: error: an amount may not be negative [negative]\n  -3 h\n  ^~\n");
  EXPECT_EQ(fault_of(read_duration_s, "99999 d"), "t:1:1: error: more than ten years is refused [too_large]\n  99999 d\n  ^~~~~\n");
}

TEST(Share, reads_words_and_percents) {
  EXPECT_EQ(value_of(read_share, "half"), (Range{0.5, 0.5}));
  EXPECT_EQ(value_of(read_share, "third"), (Range{1.0 / 3.0, 1.0 / 3.0}));
  EXPECT_EQ(value_of(read_share, "quarter"), (Range{0.25, 0.25}));
  EXPECT_EQ(value_of(read_share, "74-80 %"), (Range{0.74, 0.8}));
  EXPECT_EQ(value_of(read_share, "100 %"), (Range{1.0, 1.0}));
}

TEST(Share, refuses_more_than_all_and_bare_numbers) {
  EXPECT_EQ(fault_of(read_share, "120 %"), "t:1:1: error: a share may not be above 100 % [too_large]\n  120 %\n  ^~~\n");
  EXPECT_EQ(fault_of(read_share, "0.25"),
            "t:1:5: error: a unit is missing behind the number: a share is written in % [unit_missing]\n  0.25\n      ^\n  hint: for instance `25 %`, `74-80 "
            "%`, `half`, `third` or `quarter`\n");
  EXPECT_EQ(fault_of(read_share, "most"), "t:1:1: error: a number must stand here, not `most` [bad_number]\n  most\n  ^~~~\n");
}

TEST(Amount, prints_so_that_it_reads_back_as_the_same) {
  EXPECT_EQ(print(*amount("330 g"), Measures::metric), "330 g");
  EXPECT_EQ(print(*amount("1 1/2 fl oz", Measures::us), Measures::us), "1.5 fl oz");
  EXPECT_EQ(print(*amount("0.9 % total"), Measures::metric), "0.9 % total");
  EXPECT_EQ(print_duration({600.0, 720.0}), "10-12 min");
  EXPECT_EQ(print_duration({172800.0, 172800.0}), "2 d");
  EXPECT_EQ(print_duration({90.0, 90.0}), "1.5 min");
  EXPECT_EQ(print_temperature({-20.0, -18.0}), "-20 to -18 C");
  EXPECT_EQ(print_share({0.74, 0.8}), "74-80 %");
  EXPECT_TRUE(rc::check([] {
    const auto measures = static_cast<Measures>(*rc::gen::inRange(0, 4));
    std::vector<const Unit*> known;
    for (const Unit& unit : units())
      if (!unit.measures || *unit.measures == measures) known.push_back(&unit);
    const Unit& unit = **rc::gen::elementOf(known);
    const int low = *rc::gen::inRange(0, 100000), wider = *rc::gen::inRange(0, 3) * *rc::gen::inRange(0, 1000);
    const std::string written = std::to_string(low) + "/96 " + unit.spelling,
                      band = std::to_string(low) + "/96 to " + std::to_string(low + wider) + "/96 " + unit.spelling;
    for (const std::string& text : {written, band}) {
      if (low > 99999) return;
      const auto read = amount(text, measures);
      RC_ASSERT(read.has_value());
      RC_ASSERT(amount(print(*read, measures), measures) == read);
    }
  }));
}

TEST(Cursor, points_into_the_document_only_where_the_text_stands_byte_for_byte) {
  const base::Span exact{0, 3, 9, 5}, escaped{0, 3, 9, 8};
  EXPECT_EQ((Cursor{"12345", exact}.span(1, 2)), (base::Span{0, 3, 10, 2}));
  EXPECT_EQ((Cursor{"12345", escaped}.span(1, 2)), escaped);
}

}  // namespace
}  // namespace bloomset::text::test
