// Borrowed parts: what they bring along, and every way in which a borrow can fail.
#include <gtest/gtest.h>

#include <map>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

using Shelf = std::map<std::string, std::string>;

Borrower from(Shelf shelf) {
  return [shelf = std::move(shelf)](const std::string& file) -> std::optional<std::string> {
    const auto found = shelf.find(file);
    if (found == shelf.end()) return std::nullopt;
    return found->second;
  };
}

std::string part(const std::string& name, const std::string& take) {
  return "[[part]]\nname = \"" + name + "\"\nmade = \"ahead\"\nstep = [ { do = \"combine\", take = [\"" + take + "\"] } ]\n";
}

const std::string drink = with_lines("borrow = { \"syrup\" = \"s.toml\" }\n" + small_serve);

TEST(Borrow, appends_the_part_and_what_it_is_made_of_and_nothing_else) {
  base::Sources sources;
  const auto f = read("f.toml", with_lines("borrow = { \"syrup\" = \"s.toml\" }\n" + part("own", "10 g water") + small_serve), sources,
                      from({{"s.toml", with_lines(part("base", "10 g sugar") + part("other", "10 g salt") + part("Syrup", "10 g 'base'"))}}));
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  ASSERT_EQ(f->parts.size(), 3U);
  EXPECT_EQ(f->parts[0].name, "own");
  EXPECT_EQ(f->parts[1].name, "base");
  EXPECT_EQ(f->parts[2].name, "Syrup");
  EXPECT_EQ(sources.name(f->parts[2].source), "s.toml");
  EXPECT_EQ(sources.line(f->parts[2].source, f->parts[2].name_span.line), "name = \"Syrup\"");
}

TEST(Borrow, reads_each_text_in_its_own_measures) {
  base::Sources sources;
  const auto f = read("f.toml", drink, sources, from({{"s.toml", with_lines("measures = \"us\"\n" + part("syrup", "1 cup water"))}}));
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  EXPECT_DOUBLE_EQ(f->parts[0].steps[0].takes[0].amount.value.low, 236.5882365e-6);  // NIST Handbook 44 appendix C
  EXPECT_EQ(f->measures, text::Measures::metric);
}

TEST(Borrow, goes_through_files_that_borrow_in_turn) {
  base::Sources sources;
  const auto f = read("f.toml", drink, sources,
                      from({{"s.toml", with_lines("borrow = { \"base\" = \"b.toml\" }\n" + part("syrup", "10 g 'base'"))},
                            {"b.toml", with_lines(part("base", "10 g sugar"))}}));
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  EXPECT_EQ(f->parts.size(), 2U);
}

TEST(Borrow, brings_a_shared_part_once) {
  base::Sources sources;
  const auto f = read("f.toml", with_lines("borrow = { \"a\" = \"s.toml\", \"b\" = \"s.toml\" }\n" + small_serve), sources,
                      from({{"s.toml", with_lines(part("base", "10 g sugar") + part("a", "10 g 'base'") + part("b", "10 g 'base'"))}}));
  ASSERT_TRUE(f) << base::render(f.error().diagnostics, sources);
  EXPECT_EQ(f->parts.size(), 3U);
  EXPECT_EQ(sources.size(), 2U);  // and its file once
}

TEST(Borrow, says_that_there_is_no_such_file_or_part) {
  EXPECT_EQ(said(drink), R"~(f.toml:3:12: error: there is no file `s.toml` to borrow from [no_such_file]
  borrow = { "syrup" = "s.toml" }
             ^~~~~~~
  hint: only files beside this document, or in folders below it, may be borrowed from
)~");
  EXPECT_EQ(said(drink, from({{"s.toml", with_lines(part("syrop", "10 g sugar"))}})), R"~(f.toml:3:12: error: `s.toml` has no part `syrup` [unknown_part]
  borrow = { "syrup" = "s.toml" }
             ^~~~~~~
  hint: did you mean `syrop`?
)~");
  EXPECT_EQ(said(with_lines("borrow = { x = 5 }\n" + small_serve)),
            R"~(f.toml:3:16: error: `x` must be the name of a file as text, not a whole number [wrong_type]
  borrow = { x = 5 }
                 ^
)~");
}

TEST(Borrow, points_into_the_borrowed_text_where_that_is_faulty) {
  EXPECT_EQ(said(drink, from({{"s.toml", with_lines(part("syrup", "10 grams sugar"))}})), R"~(s.toml:6:40: error: `grams` is not a unit [unknown_unit]
  step = [ { do = "combine", take = ["10 grams sugar"] } ]
                                         ^~~~~
  hint: write `g`
)~");
  EXPECT_EQ(said(drink, from({{"s.toml", "not toml"}})), R"~(s.toml:1:5: error: this is not TOML: expected '=', saw 't' (reading key-value pair) [not_toml]
  not toml
      ^
)~");
}

TEST(Borrow, refuses_a_file_that_borrows_from_itself) {
  const std::string round = with_lines("borrow = { \"syrup\" = \"f.toml\" }\n" + part("own", "10 g water"));
  EXPECT_EQ(said(round, from({{"f.toml", round}})), R"~(f.toml:3:12: error: `f.toml` borrows from itself in the end [borrow_cycle]
  borrow = { "syrup" = "f.toml" }
             ^~~~~~~
)~");
  const std::string there = with_lines("borrow = { \"back\" = \"t.toml\" }\n" + part("syrup", "10 g 'back'")),
                    back = with_lines("borrow = { \"syrup\" = \"s.toml\" }\n" + part("back", "10 g 'syrup'"));
  EXPECT_EQ(said(drink, from({{"s.toml", there}, {"t.toml", back}})), R"~(t.toml:3:12: error: `s.toml` borrows from itself in the end [borrow_cycle]
  borrow = { "syrup" = "s.toml" }
             ^~~~~~~
)~");
}

TEST(Borrow, refuses_a_name_that_the_document_has_itself) {
  EXPECT_EQ(
      said(with_lines("borrow = { \"syrup\" = \"s.toml\" }\n" + part("Syrup", "10 g water")), from({{"s.toml", with_lines(part("syrup", "10 g sugar"))}})),
      R"~(s.toml:4:9: error: two parts bear the name `syrup` [duplicate]
  name = "syrup"
          ^~~~~
f.toml:5:9: the other place
  name = "Syrup"
          ^~~~~
  hint: case and accents do not part names
)~");
}

TEST(Borrow, refuses_a_chain_without_end) {
  // Every file borrows from the next one: stopped by depth, not by memory.
  const Borrower endless = [](const std::string& file) -> std::optional<std::string> {
    return with_lines("borrow = { \"syrup\" = \"x" + file + "\" }\n" + part("own", "10 g water"));
  };
  EXPECT_NE(said(drink, endless).find("[borrow_limit]"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::formula::test
