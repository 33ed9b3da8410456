// What is said about a faulty take, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Take, says_what_is_missing) {
  EXPECT_EQ(said(with_take("60 g")), R"~(f.toml:6:41: error: the thing is missing behind the amount [thing_missing]
  step = [ { do = "combine", take = ["60 g"] } ]
                                          ^
  hint: write for instance `330 g orange juice`
)~");
  EXPECT_EQ(said(with_take("60 g 'a")), R"~(f.toml:6:42: error: this single quote is not closed [open_quote]
  step = [ { do = "combine", take = ["60 g 'a"] } ]
                                           ^~
  hint: a made part stands between two single quotes
)~");
  EXPECT_EQ(said(with_take("60 g ''")), R"~(f.toml:6:43: error: a part may not be empty [bad_name]
  step = [ { do = "combine", take = ["60 g ''"] } ]
                                            ^
)~");
}

TEST(Take, says_what_must_not_stand_behind_a_made_part) {
  EXPECT_EQ(said(with_take("60 g 'a' b")), R"~(f.toml:6:46: error: `b` must not stand behind a made part [unexpected_text]
  step = [ { do = "combine", take = ["60 g 'a' b"] } ]
                                               ^
  hint: behind a made part only `as foam` or `as base` may stand; a mark needs a percent before it
)~");
  EXPECT_EQ(said(with_take("60 g 'a' (raw)")), R"~(f.toml:6:46: error: `(raw)` must not stand behind a made part [unexpected_text]
  step = [ { do = "combine", take = ["60 g 'a' (raw)"] } ]
                                               ^~~~~
  hint: a bracket belongs to bought things; a made part has no qualifiers
)~");
  EXPECT_EQ(said(with_take("60 mL 'a' as froth")), R"~(f.toml:6:50: error: `as` must be followed by `foam` or `base` [unexpected_text]
  step = [ { do = "combine", take = ["60 mL 'a' as froth"] } ]
                                                   ^~~~~
)~");
  EXPECT_EQ(said(with_take("60 g 'a' as foam")), R"~(f.toml:6:37: error: `as foam` and `as base` go with a volume [volume_only]
  step = [ { do = "combine", take = ["60 g 'a' as foam"] } ]
                                      ^~~~
  hint: grams are always the base
)~");
  EXPECT_EQ(said(with_take("5 % total 'm' water")), R"~(f.toml:6:51: error: `water` must not stand behind a made part [unexpected_text]
  step = [ { do = "combine", take = ["5 % total 'm' water"] } ]
                                                    ^~~~~
  hint: behind a made part only `as foam` or `as base` may stand; a mark needs a percent before it
)~");
}

TEST(Take, keeps_whole_words_for_made_parts_and_percents_in_bounds) {
  EXPECT_EQ(said(with_take("all water")), R"~(f.toml:6:37: error: `all`, `rest` and `half` are for made parts, which stand in single quotes [made_only]
  step = [ { do = "combine", take = ["all water"] } ]
                                      ^~~
)~");
  EXPECT_EQ(said(with_take("150 % water")), R"~(f.toml:6:37: error: more than 100 % is refused where no line is marked [too_large]
  step = [ { do = "combine", take = ["150 % water"] } ]
                                      ^~~~~
  hint: mark the line that it is a percent of: `120 % 'juice' water`
)~");
}

TEST(Take, refuses_a_name_that_begins_with_a_unit_word) {
  EXPECT_EQ(said(with_take("60 g oz water")), R"~(f.toml:6:42: error: a name may not begin with the unit word `oz` [name_begins_with_unit]
  step = [ { do = "combine", take = ["60 g oz water"] } ]
                                           ^~
  hint: one amount and one unit, then the thing: `330 g orange juice`
)~");
  EXPECT_EQ(said(with_take("60 g 'cup a'")), R"~(f.toml:6:43: error: a name may not begin with the unit word `cup` [name_begins_with_unit]
  step = [ { do = "combine", take = ["60 g 'cup a'"] } ]
                                            ^~~~~
)~");
  EXPECT_EQ(said(with_take("60 g piece")), R"~(f.toml:6:42: error: a name may not begin with the unit word `piece` [name_begins_with_unit]
  step = [ { do = "combine", take = ["60 g piece"] } ]
                                           ^~~~~
  hint: one amount and one unit, then the thing: `330 g orange juice`
)~");
}

TEST(Take, points_at_the_unit_that_is_none) {
  EXPECT_EQ(said(with_take("60 grams water")), R"~(f.toml:6:40: error: `grams` is not a unit [unknown_unit]
  step = [ { do = "combine", take = ["60 grams water"] } ]
                                         ^~~~~
  hint: write `g`
)~");
}

TEST(Take, points_at_the_whole_text_where_it_has_escapes) {
  EXPECT_EQ(said(with_take(R"~(60 g a\tb)~")), R"~(f.toml:6:36: error: a thing may not hold control characters [bad_name]
  step = [ { do = "combine", take = ["60 g a\tb"] } ]
                                     ^~~~~~~~~~~
)~");
}

TEST(Take, refuses_a_mark_that_no_line_bears) {
  EXPECT_EQ(said(with_take("2 % 'juice' citric acid")), R"~(f.toml:6:37: error: no line here bears the mark `juice` [unknown_mark]
  step = [ { do = "combine", take = ["2 % 'juice' citric acid"] } ]
                                      ^~~~~~~~~~~~~~~~~~~~~~~
  hint: mark a line with { take = "…", mark = "…" }
)~");
}

TEST(Take, refuses_other_kinds_of_value) {
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = "60 g water")~")), R"~(f.toml:6:35: error: `take` must be a list, not a text [wrong_type]
  step = [ { do = "combine", take = "60 g water" } ]
                                    ^~~~~~~~~~~~
  hint: write it in square brackets: take = ["…"]
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = [60])~")),
            R"~(f.toml:6:36: error: this must be a text or a table with `take`, not a whole number [wrong_type]
  step = [ { do = "combine", take = [60] } ]
                                     ^~
  hint: write for instance "330 g orange juice"
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = [ { tak = "60 g water", at = 20 } ])~")), R"~(f.toml:6:37: error: a take must have `take` [missing_key]
  step = [ { do = "combine", take = [ { tak = "60 g water", at = 20 } ] } ]
                                      ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
f.toml:6:39: error: `tak` is not a key of a take [unknown_key]
  step = [ { do = "combine", take = [ { tak = "60 g water", at = 20 } ] } ]
                                        ^~~
  hint: did you mean `take`?
f.toml:6:64: error: `at` must be a text, not a whole number [wrong_type]
  step = [ { do = "combine", take = [ { tak = "60 g water", at = 20 } ] } ]
                                                                 ^~
  hint: write it in quotes, a quantity with its unit
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
