// How a fault is shown: the whole text, caret included, and the nearest known name.
#include "base/diagnostic.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <vector>

namespace rc {
template <>
struct Arbitrary<bloomset::base::Span> {
  static Gen<bloomset::base::Span> arbitrary() {
    const auto small = gen::inRange<std::uint32_t>(0, 12);
    return gen::build<bloomset::base::Span>(gen::set(&bloomset::base::Span::source, gen::inRange<std::uint32_t>(0, 2)),
                                            gen::set(&bloomset::base::Span::line, small),
                                            gen::set(&bloomset::base::Span::column, gen::oneOf(small, gen::just<std::uint32_t>(4'000'000'000U))),
                                            gen::set(&bloomset::base::Span::length, gen::oneOf(small, gen::just<std::uint32_t>(4'000'000'000U))));
  }
};
}  // namespace rc

namespace bloomset::base {
namespace {

Diagnostic fault_at(Span span) {
  Diagnostic fault;
  fault.code = "unknown_thing";
  fault.message = "no such thing";
  fault.span = span;
  return fault;
}

// True if every byte sequence is whole UTF-8 as far as lead and continuation bytes go.
bool whole_characters(std::string_view text) {
  std::size_t wanted = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0U) == 0x80U) {
      if (wanted == 0) return false;
      --wanted;
      continue;
    }
    if (wanted != 0) return false;
    wanted = byte >= 0xF0U ? 3 : byte >= 0xE0U ? 2 : byte >= 0xC0U ? 1 : 0;
  }
  return wanted == 0;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char c : text) {
    if (c == '\n')
      lines.emplace_back();
    else
      lines.back() += c;
  }
  return lines;
}

TEST(Diagnostic, ShowsPlaceLineCaretAndHint) {
  Sources sources;
  const auto source = sources.add("sour.toml", "bloomset = 1\ntake = [\"20 mL lemom juice\"]\n");
  Diagnostic fault = fault_at({source, 2, 16, 11});
  fault.hint = "did you mean `lemon juice`?";
  EXPECT_EQ(render(fault, sources),
            "sour.toml:2:16: error: no such thing [unknown_thing]\n"
            "  take = [\"20 mL lemom juice\"]\n"
            "                 ^~~~~~~~~~~\n"
            "  hint: did you mean `lemon juice`?\n");
}

TEST(Diagnostic, AWarningSaysSo) {
  Sources sources;
  const auto source = sources.add("a.toml", "x = 1\n");
  Diagnostic fault = fault_at({source, 1, 1, 1});
  fault.severity = Severity::warning;
  EXPECT_EQ(render(fault, sources), "a.toml:1:1: warning: no such thing [unknown_thing]\n  x = 1\n  ^\n");
}

TEST(Diagnostic, TheCaretStandsUnderTheCharacterBehindAccents) {
  Sources sources;
  // `è` and `ü` take two bytes each, `½` two: the columns of the span count them, the eye does not.
  const std::string line = "take = \"½ cup crème brûlée\"";
  const auto source = sources.add("a.toml", line);
  const auto column = static_cast<std::uint32_t>(line.find("brûlée") + 1);
  const Diagnostic fault = fault_at({source, 1, column, static_cast<std::uint32_t>(std::string("brûlée").size())});
  EXPECT_EQ(render(fault, sources), "a.toml:1:" + std::to_string(column) +
                                        ": error: no such thing [unknown_thing]\n"
                                        "  take = \"½ cup crème brûlée\"\n"
                                        "                      ^~~~~~\n");
}

TEST(Diagnostic, TabsBeforeTheCaretStayTabs) {
  Sources sources;
  const auto source = sources.add("a.toml", "\t\tdo = \"shak\"");
  EXPECT_EQ(render(fault_at({source, 1, 9, 4}), sources),
            "a.toml:1:9: error: no such thing [unknown_thing]\n"
            "  \t\tdo = \"shak\"\n"
            "  \t\t      ^~~~\n");
}

TEST(Diagnostic, ACarriageReturnIsNotPrinted) {
  Sources sources;
  const auto source = sources.add("a.toml", "one\r\ntwo\r\n");
  EXPECT_EQ(render(fault_at({source, 2, 1, 3}), sources), "a.toml:2:1: error: no such thing [unknown_thing]\n  two\n  ^~~\n");
}

TEST(Diagnostic, AVeryLongLineIsShownInAWindowWithTheCaretUnderItsPlace) {
  Sources sources;
  const auto source = sources.add("a.toml", std::string(5000, 'a') + "X" + std::string(5000, 'b'));
  const auto lines = lines_of(render(fault_at({source, 1, 5001, 1}), sources));
  ASSERT_EQ(lines.size(), 4U);
  EXPECT_LE(lines[1].size(), 162U);
  const auto caret = lines[2].find('^');
  ASSERT_NE(caret, std::string::npos);
  EXPECT_EQ(lines[1][caret], 'X');
}

TEST(Diagnostic, TheWindowOfALongLineDoesNotCutCharacters) {
  Sources sources;
  std::string text;
  std::vector<std::uint32_t> columns;  // where each character begins
  for (int i = 0; i < 400; ++i) {
    columns.push_back(static_cast<std::uint32_t>(text.size() + 1));
    text += i % 3 == 0 ? "€" : i % 3 == 1 ? "é" : "x";
  }
  const auto source = sources.add("a.toml", text);
  for (std::size_t i = 100; i < 110; ++i) EXPECT_TRUE(whole_characters(render(fault_at({source, 1, columns[i], 1}), sources))) << "character " << i;
}

TEST(Diagnostic, WhatWouldSteerATerminalOrIsNoUtf8IsNotPrinted) {
  Sources sources;
  const auto source = sources.add("a\033[2J.toml", "x = \"\033[31mred\x9B\xC2\x9B\xFF\" bad");
  Diagnostic fault = fault_at({source, 1, 20, 3});
  fault.message = "`\a` is not\r known";
  fault.hint = "try \xC3";
  EXPECT_EQ(render(fault, sources),
            "a\uFFFD[2J.toml:1:20: error: `\uFFFD` is not\uFFFD known [unknown_thing]\n"
            "  x = \"\uFFFD[31mred\uFFFD\uFFFD\uFFFD\" bad\n"
            "                    ^~~\n"
            "  hint: try \uFFFD\n");
}

TEST(Diagnostic, ASecondPlaceIsShownBelowTheFirst) {
  Sources sources;
  const auto source = sources.add("a.toml", "name = \"cloud\"\nname = \"cloud\"\n");
  Diagnostic fault = fault_at({source, 2, 9, 5});
  fault.message = "two parts bear one name";
  fault.code = "name_twice";
  fault.second = Span{source, 1, 9, 5};
  EXPECT_EQ(render(fault, sources),
            "a.toml:2:9: error: two parts bear one name [name_twice]\n"
            "  name = \"cloud\"\n"
            "          ^~~~~\n"
            "a.toml:1:9: the other place\n"
            "  name = \"cloud\"\n"
            "          ^~~~~\n");
}

TEST(Diagnostic, WithoutAPlaceOnlyTheSentenceIsPrinted) {
  const Sources sources;
  EXPECT_EQ(render(fault_at({}), sources), "error: no such thing [unknown_thing]\n");
}

TEST(Diagnostic, SeveralAreShownOneAfterTheOther) {
  const Sources sources;
  EXPECT_EQ(render(std::vector<Diagnostic>{fault_at({}), fault_at({})}, sources),
            "error: no such thing [unknown_thing]\nerror: no such thing [unknown_thing]\n");
}

TEST(Diagnostic, OfManyFiftyAreShownAndTheRestIsCounted) {
  const Sources sources;
  const std::string fifty = render(std::vector<Diagnostic>(50, fault_at({})), sources), many = render(std::vector<Diagnostic>(73, fault_at({})), sources);
  EXPECT_EQ(std::count(fifty.begin(), fifty.end(), '\n'), 50);
  EXPECT_EQ(many, fifty + "and 23 more\n");
}

TEST(Diagnostic, AnySpanCanBeShownAgainstAnyText) {
  EXPECT_TRUE(rc::check("rendering never reads outside the text", [](const std::string& text, Span span) {
    Sources sources;
    sources.add("a", text);
    const std::string shown = render(fault_at(span), sources);
    RC_ASSERT(!shown.empty() && shown.back() == '\n');
    RC_ASSERT(whole_characters(shown));
  }));
}

TEST(Sources, LinesAreFoundByNumberAndMissingOnesAreEmpty) {
  Sources sources;
  const auto first = sources.add("one", "a\nb"), second = sources.add("two", "");
  EXPECT_EQ(sources.size(), 2U);
  EXPECT_EQ(sources.line(first, 1), "a");
  EXPECT_EQ(sources.line(first, 2), "b");
  EXPECT_EQ(sources.line(first, 3), "");
  EXPECT_EQ(sources.line(first, 0), "");
  EXPECT_EQ(sources.line(second, 1), "");
  EXPECT_EQ(sources.name(first), "one");
  EXPECT_EQ(sources.text(first), "a\nb");
  EXPECT_EQ(sources.name(99), "(no file)");
  EXPECT_EQ(sources.text(99), "");
}

TEST(Nearest, OneWrongLetterASwapALostAndAnAddedOneAreForgiven) {
  const std::vector<std::string> known = {"lemon juice", "lime juice", "orange juice", "honey"};
  EXPECT_EQ(nearest("lemom juice", known), "lemon juice");
  EXPECT_EQ(nearest("lmie juice", known), "lime juice");
  EXPECT_EQ(nearest("oragne juice", known), "orange juice");
  EXPECT_EQ(nearest("hony", known), "honey");
  EXPECT_EQ(nearest("honney", known), "honey");
}

TEST(Nearest, AForeignWordGetsNoGuess) {
  const std::vector<std::string> known = {"lemon juice", "lime juice", "honey"};
  EXPECT_EQ(nearest("unobtainium", known), "");
  EXPECT_EQ(nearest("oat drink", known), "");
  EXPECT_EQ(nearest("honey", {}), "");
}

TEST(Nearest, AnswersOnlyNamesWithinAThirdOfTheWord) {
  EXPECT_TRUE(rc::check("a guess is one of the known names, and a known name is its own nearest", [](const std::vector<std::string>& known) {
    for (const std::string& name : known) {
      const std::string found = nearest(name, known);
      RC_ASSERT(found == name);
    }
    const std::string other = nearest("syrup", known);
    RC_ASSERT(other.empty() || std::find(known.begin(), known.end(), other) != known.end());
  }));
}

}  // namespace
}  // namespace bloomset::base
