// What is said about a faulty bracket, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Qualifier, stands_in_one_closed_bracket_at_the_end) {
  EXPECT_EQ(said(with_take("60 g spirit (40 %vol")), R"~(f.toml:6:49: error: this bracket is not closed [bad_bracket]
  step = [ { do = "combine", take = ["60 g spirit (40 %vol"] } ]
                                                  ^~~~~~~~
  hint: a thing has one bracket, at its end, its words parted by commas
)~");
  EXPECT_EQ(said(with_take("60 g spirit (40 %vol) x")), R"~(f.toml:6:49: error: nothing may stand behind the bracket [bad_bracket]
  step = [ { do = "combine", take = ["60 g spirit (40 %vol) x"] } ]
                                                  ^~~~~~~~~~~
  hint: a thing has one bracket, at its end, its words parted by commas
)~");
  EXPECT_EQ(said(with_take("60 g spirit (40 %vol) (raw)")), R"~(f.toml:6:49: error: nothing may stand behind the bracket [bad_bracket]
  step = [ { do = "combine", take = ["60 g spirit (40 %vol) (raw)"] } ]
                                                  ^~~~~~~~~~~~~~~
  hint: a thing has one bracket, at its end, its words parted by commas
)~");
  EXPECT_EQ(said(with_take("60 g spirit ()")), R"~(f.toml:6:50: error: a word is missing in the bracket [unknown_qualifier]
  step = [ { do = "combine", take = ["60 g spirit ()"] } ]
                                                   ^
)~");
}

TEST(Qualifier, comes_from_a_closed_list_with_the_nearest_named) {
  EXPECT_EQ(said(with_take("60 g spirit (old)")), R"~(f.toml:6:50: error: `old` is not a word for a bracket [unknown_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (old)"] } ]
                                                   ^~~
  hint: a bracket holds: 40 %vol, 50 brix, 50 brix read, 150 g/L sugar, 6 % acid, pH 3.4, 280 ppm hardness, 225 bloom, 2 g a piece, 6 % wet, raw, pasteurised, canned
)~");
  EXPECT_EQ(said(with_take("60 g spirit (40 %vlo)")), R"~(f.toml:6:50: error: `%vlo` is not a word for a bracket [unknown_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (40 %vlo)"] } ]
                                                   ^~~~~~~
  hint: did you mean `%vol`?
)~");
  EXPECT_EQ(said(with_take("60 g spirit (40 Brix)")), R"~(f.toml:6:50: error: `Brix` is not a word for a bracket [unknown_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (40 Brix)"] } ]
                                                   ^~~~~~~
  hint: did you mean `brix`?
)~");
  EXPECT_EQ(said(with_take("60 g juice (pasteurized)")), R"~(f.toml:6:49: error: `pasteurized` is not a word for a bracket [unknown_qualifier]
  step = [ { do = "combine", take = ["60 g juice (pasteurized)"] } ]
                                                  ^~~~~~~~~~~
  hint: did you mean `pasteurised`?
)~");
}

TEST(Qualifier, takes_one_number_in_bounds_or_none) {
  EXPECT_EQ(said(with_take("60 g spirit (%vol)")), R"~(f.toml:6:50: error: `%vol` needs a number [bad_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (%vol)"] } ]
                                                   ^~~~
)~");
  EXPECT_EQ(said(with_take("60 g juice (5 raw)")), R"~(f.toml:6:49: error: `raw` takes no number [bad_qualifier]
  step = [ { do = "combine", take = ["60 g juice (5 raw)"] } ]
                                                  ^~~~~
)~");
  EXPECT_EQ(said(with_take("60 g spirit (120 %vol)")), R"~(f.toml:6:50: error: more than 100 %vol is refused [too_large]
  step = [ { do = "combine", take = ["60 g spirit (120 %vol)"] } ]
                                                   ^~~
)~");
  EXPECT_EQ(said(with_take("60 g spirit (38-42 %vol)")), R"~(f.toml:6:50: error: a bracket takes one number, not a range [bad_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (38-42 %vol)"] } ]
                                                   ^~~~~
)~");
  EXPECT_EQ(said(with_take("60 g spirit (12,5 %vol)")), R"~(f.toml:6:50: error: a word is missing behind the number [bad_qualifier]
  step = [ { do = "combine", take = ["60 g spirit (12,5 %vol)"] } ]
                                                   ^~
  hint: for instance `40 %vol`; the decimal mark is a point
)~");
  EXPECT_EQ(said(with_take("60 g juice (pH 15)")), R"~(f.toml:6:52: error: more than pH 14 is refused [too_large]
  step = [ { do = "combine", take = ["60 g juice (pH 15)"] } ]
                                                     ^~
)~");
  EXPECT_EQ(said(with_take("60 g juice (raw, raw)")), R"~(f.toml:6:54: error: `raw` stands twice in the bracket [duplicate]
  step = [ { do = "combine", take = ["60 g juice (raw, raw)"] } ]
                                                       ^~~
f.toml:6:49: the other place
  step = [ { do = "combine", take = ["60 g juice (raw, raw)"] } ]
                                                  ^~~
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
