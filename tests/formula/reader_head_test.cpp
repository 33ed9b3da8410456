// What is said about a faulty head of a document, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Head, must_have_version_and_title) {
  EXPECT_EQ(said(R"~(title = "T"
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~"),
            R"~(f.toml:1:1: error: a document must have `bloomset` [missing_key]
  title = "T"
  ^
  hint: write `bloomset = 1` on the first line
)~");
  EXPECT_EQ(said(R"~(bloomset = 2
title = "T"
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~"),
            R"~(f.toml:1:12: error: version 2 of the document is not known [bad_version]
  bloomset = 2
             ^
  hint: this program reads version 1
)~");
  EXPECT_EQ(said(R"~(bloomset = 1
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~"),
            R"~(f.toml:1:1: error: a document must have `title` [missing_key]
  bloomset = 1
  ^
)~");
  EXPECT_EQ(said(""), R"~(f.toml:1:1: error: a document must have `bloomset` [missing_key]
  hint: write `bloomset = 1` on the first line
f.toml:1:1: error: a document must have `title` [missing_key]
f.toml:1:1: error: the document has neither a part nor a serve [empty]
)~");
  EXPECT_EQ(said(R"~(bloomset = "1"
title = 5
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~"),
            R"~(f.toml:1:12: error: `bloomset` must be a whole number, not a text [wrong_type]
  bloomset = "1"
             ^~~
f.toml:2:9: error: `title` must be a text, not a whole number [wrong_type]
  title = 5
          ^
  hint: write it in quotes, a quantity with its unit
)~");
}

TEST(Head, must_have_something_to_make) {
  EXPECT_EQ(said(with_lines("")), R"~(f.toml:1:1: error: the document has neither a part nor a serve [empty]
  bloomset = 1
  ^
)~");
}

TEST(Head, knows_its_keys) {
  EXPECT_EQ(said(with_lines(R"~(autor = "me"
serve_s = 3
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:1: error: `autor` is not a key of a document [unknown_key]
  autor = "me"
  ^~~~~
  hint: keys of a document: bloomset, title, measures, serves, borrow, targets, part, serve
f.toml:4:1: error: `serve_s` is not a key of a document [unknown_key]
  serve_s = 3
  ^~~~~~~
  hint: did you mean `serves`?
)~");
}

TEST(Head, keeps_measures_and_serves_in_bounds) {
  EXPECT_EQ(said(with_lines(R"~(measures = "metrik"
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:13: error: `metrik` is not a system of measures: metric, us, imperial, au [unknown_word]
  measures = "metrik"
              ^~~~~~
  hint: did you mean `metric`?
)~");
  EXPECT_EQ(said(with_lines(R"~(serves = 0
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:10: error: `serves` must be from 1 to 10000 [out_of_range]
  serves = 0
           ^
)~");
  EXPECT_EQ(said(with_lines(R"~(serves = 10001
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:10: error: `serves` must be from 1 to 10000 [out_of_range]
  serves = 10001
           ^~~~~
)~");
  EXPECT_EQ(said(with_lines(R"~(serves = 6.5
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:10: error: `serves` must be a whole number, not a decimal number [wrong_type]
  serves = 6.5
           ^~~
)~");
  EXPECT_EQ(said(with_lines(R"~(serves = "6"
[serve]
vessel = "cup"
pour = [ { take = ["1 g x"] } ]
)~")),
            R"~(f.toml:3:10: error: `serves` must be a whole number, not a text [wrong_type]
  serves = "6"
           ^~~
)~");
}

TEST(Head, wants_lists_and_tables_where_they_belong) {
  EXPECT_EQ(said(with_lines(R"~(targets = "serve.abv 8 %"
borrow = ["x"]
serve = 6
)~")),
            R"~(f.toml:3:11: error: `targets` must be a list, not a text [wrong_type]
  targets = "serve.abv 8 %"
            ^~~~~~~~~~~~~~~
  hint: write it in square brackets: targets = ["…"]
f.toml:4:10: error: `borrow` must be a table, not a list [wrong_type]
  borrow = ["x"]
           ^~~~~
f.toml:5:9: error: `serve` must be a table, not a whole number [wrong_type]
  serve = 6
          ^
  hint: a document has one serve: [serve]
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
