// What is said about a faulty part, mark or serve, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Part, must_have_name_made_and_steps) {
  EXPECT_EQ(said(with_part(R"~(made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:3:1: error: a part must have `name` [missing_key]
  [[part]]
  ^~~~~~~~
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:3:1: error: a part must have `made` [missing_key]
  [[part]]
  ^~~~~~~~
  hint: "ahead" (one batch) or "to order" (for each serve)
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "on order"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:5:9: error: `on order` is not a value of `made` [unknown_word]
  made = "on order"
          ^~~~~~~~
  hint: "ahead" (one batch) or "to order" (for each serve)
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "ahead"
)~")),
            R"~(f.toml:4:9: error: a part must have at least one step [no_steps]
  name = "p"
          ^
  hint: write it as [[part.step]] below the part
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "ahead"
step = []
)~")),
            R"~(f.toml:6:8: error: a part must have at least one step [no_steps]
  step = []
         ^~
  hint: write it as [[part.step]] below the part
)~");
}

TEST(Part, stands_in_two_square_brackets) {
  EXPECT_EQ(said(with_lines(R"~([part]
name = "p"
made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:3:1: error: `part` must be a list of tables, not a table [wrong_type]
  [part]
  ^~~~~~
  hint: write [[part]] with two brackets
)~");
  EXPECT_EQ(said(with_lines(R"~(part = 5
)~")),
            R"~(f.toml:3:8: error: `part` must be a list, not a whole number [wrong_type]
  part = 5
         ^
)~");
}

TEST(Part, bears_a_name_of_its_own) {
  EXPECT_EQ(said(with_part(R"~(name = "Crème"
made = "ahead"
step = [ { do = "rest" } ]
[[part]]
name = "creme"
made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:8:9: error: two parts bear the name `creme` [duplicate]
  name = "creme"
          ^~~~~
f.toml:4:9: the other place
  name = "Crème"
          ^~~~~
  hint: case and accents do not part names
)~");
  EXPECT_EQ(said(with_part(R"~(name = "Cup sauce"
made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:4:9: error: a name may not begin with the unit word `Cup` [name_begins_with_unit]
  name = "Cup sauce"
          ^~~~~~~~~
)~");
  EXPECT_EQ(said(with_part(R"~(name = "a/b"
made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:4:9: error: a part may not hold ' or / [bad_name]
  name = "a/b"
          ^~~
  hint: these part the names inside a take
)~");
  EXPECT_EQ(said(with_part(R"~(name = ""
made = "ahead"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:4:8: error: a part may not be empty [bad_name]
  name = ""
         ^~
)~");
}

TEST(Part, keeps_makes_and_batches_in_bounds) {
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "ahead"
batches = 0
makes = "30 %"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:6:11: error: `batches` must be above 0 and at most 1000 [out_of_range]
  batches = 0
            ^
f.toml:7:10: error: `makes` is a mass, a volume or pieces [bad_amount]
  makes = "30 %"
           ^~~~
  hint: for instance "440 g" or "60 piece"
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "ahead"
makes = "440 g of it"
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:6:16: error: `of it` must not stand behind the amount [unexpected_text]
  makes = "440 g of it"
                 ^~~~~
)~");
  EXPECT_EQ(said(with_part(R"~(name = "p"
made = "to order"
batches = 2
step = [ { do = "rest" } ]
)~")),
            R"~(f.toml:6:11: error: `batches` goes with made = "ahead" [ahead_only]
  batches = 2
            ^
  hint: a part to order is made for each serve
)~");
}

TEST(Mark, bears_no_parts_name_and_stands_once) {
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = [{ take = "60 g juice", mark = "P" }])~")),
            R"~(f.toml:6:46: error: a mark may not bear a part's name: `P` [mark_is_part]
  step = [ { do = "combine", take = [{ take = "60 g juice", mark = "P" }] } ]
                                               ^~~~~~~~~~
f.toml:4:9: the other place
  name = "p"
          ^
  hint: call the mark something else
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = [{ take = "60 g juice", mark = "j" }, { take = "60 g juice", mark = "j" }])~")),
            R"~(f.toml:6:83: error: two lines bear the mark `j` [duplicate]
  step = [ { do = "combine", take = [{ take = "60 g juice", mark = "j" }, { take = "60 g juice", mark = "j" }] } ]
                                                                                    ^~~~~~~~~~
f.toml:6:46: the other place
  step = [ { do = "combine", take = [{ take = "60 g juice", mark = "j" }, { take = "60 g juice", mark = "j" }] } ]
                                               ^~~~~~~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = [{ take = "60 g juice", mark = "juice" }, "2 % 'juic' salt"])~")),
            R"~(f.toml:6:78: error: no line here bears the mark `juic` [unknown_mark]
  step = [ { do = "combine", take = [{ take = "60 g juice", mark = "juice" }, "2 % 'juic' salt"] } ]
                                                                               ^~~~~~~~~~~~~~~
  hint: did you mean `juice`?
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", take = ["2 % 'p' salt"])~")),
            R"~(f.toml:6:37: error: `p` is a part; a quoted name that a thing follows is a mark [mark_is_part]
  step = [ { do = "combine", take = ["2 % 'p' salt"] } ]
                                      ^~~~~~~~~~~~
  hint: mark a line with { take = "…", mark = "…" } and name that
)~");
}

TEST(Serve, must_have_a_vessel_and_a_pour) {
  EXPECT_EQ(said(with_serve(R"~(pour = [ { take = ["60 mL soda"] } ]
)~")),
            R"~(f.toml:3:1: error: the serve must have `vessel` [missing_key]
  [serve]
  ^~~~~~~
  hint: for instance vessel = "tall glass, 400 mL"
)~");
  EXPECT_EQ(said(with_serve(R"~(vessel = "cup"
)~")),
            R"~(f.toml:3:1: error: the serve must have at least one pour [no_steps]
  [serve]
  ^~~~~~~
  hint: for instance pour = [ { take = ["60 mL soda"] } ]
)~");
  EXPECT_EQ(said(with_serve(R"~(vessel = "cup"
pour = [ { takes = ["60 mL soda"] } ]
)~")),
            R"~(f.toml:5:12: error: `takes` is not a key of a pour [unknown_key]
  pour = [ { takes = ["60 mL soda"] } ]
             ^~~~~
  hint: did you mean `take`?
)~");
  EXPECT_EQ(said(with_lines(R"~([[serve]]
vessel = "cup"
pour = [ { take = ["60 mL soda"] } ]
)~")),
            R"~(f.toml:3:1: error: `serve` must be a table, not a list [wrong_type]
  [[serve]]
  ^~~~~~~~~
  hint: a document has one serve: [serve]
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
