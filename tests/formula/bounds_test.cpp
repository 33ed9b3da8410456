// Documents made to hurt: each is refused with a clear fault, in bounded time.
#include <gtest/gtest.h>

#include <algorithm>
#include <ctime>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

// Seconds of the processor, not of the clock: other work on the machine must not fail a test. Far above what is needed
// (0.3 s a megabyte; ten times that under the address checker), far below a loop within a loop over a megabyte.
constexpr double patience_s = 8.0;

std::string said_in_time(const std::string& text) {
  const std::clock_t start = std::clock();
  std::string out = said(text);
  EXPECT_LT(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC, patience_s) << text.substr(0, 80);
  return out;
}

std::string repeated(const std::string& text, std::size_t times) {
  std::string out;
  out.reserve(text.size() * times);
  for (std::size_t i = 0; i < times; ++i) out += text;
  return out;
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(Bounds, refuse_ten_thousand_parts) {
  std::string lines;
  for (int i = 0; i < 10000; ++i) lines += "[[part]]\nname = \"p" + std::to_string(i) + "\"\nmade = \"ahead\"\nstep = [ { do = \"rest\" } ]\n";
  EXPECT_EQ(said_in_time(with_lines(lines)), "f.toml:2051:1: error: 10000 parts; a document has at most 512 [too_many]\n  [[part]]\n  ^~~~~~~~\n");
}

TEST(Bounds, refuse_too_many_steps_and_takes) {
  EXPECT_EQ(first_line(said_in_time(with_part("name = \"p\"\nmade = \"ahead\"\nstep = [" + repeated("{ do = \"rest\" },", 5000) + "]\n"))),
            "f.toml:1:1: error: 5000 steps; a document has at most 4096 [too_many]");
  EXPECT_EQ(first_line(said_in_time(with_step("do = \"combine\", take = [" + repeated("\"1 g x\",", 17000) + "]"))),
            "f.toml:1:1: error: 17000 takes; a document has at most 16384 [too_many]");
  EXPECT_EQ(first_line(said_in_time(with_lines("targets = [" + repeated("\"serve.abv 8 %\",", 300) + "]\n" + small_serve))),
            "f.toml:3:11: error: 300 targets; a document has at most 256 [too_many]");
}

TEST(Bounds, show_fifty_faults_and_count_the_rest) {
  const std::string out = said_in_time(with_step("do = \"combine\", take = [" + repeated("\"1 gram x\",", 300) + "]"));
  std::size_t faults = 0;
  for (std::size_t at = out.find("[unknown_unit]"); at != std::string::npos; at = out.find("[unknown_unit]", at + 1)) ++faults;
  EXPECT_EQ(faults, 50U);
  EXPECT_TRUE(out.ends_with("\nand 250 more\n")) << out.substr(out.size() - 200);
}

TEST(Bounds, refuse_ten_megabytes_of_garbage) {
  std::string garbage(10U << 20U, '\0');
  std::uint32_t state = 1;
  for (char& c : garbage) c = static_cast<char>((state = state * 1664525U + 1013904223U) >> 24U);  // a linear congruential generator; any noise will do
  EXPECT_EQ(first_line(said_in_time(garbage)), "f.toml:1:1: error: this text has 10485760 bytes; a document has at most 4194304 [too_large]");
  EXPECT_NE(said_in_time(garbage.substr(0, 4U << 20U)).find("[not_utf8]"), std::string::npos);
}

TEST(Bounds, take_a_megabyte_of_any_one_thing_in_bounded_time) {
  const std::size_t room = 1U << 20U;
  const auto filled = [&](const std::string& open, const std::string& unit, const std::string& close) {
    return open + repeated(unit, (room - open.size() - close.size()) / unit.size()) + close;
  };
  std::string keys, dotted;
  for (std::size_t i = 0; keys.size() < room - 30; ++i) keys += "k" + std::to_string(i) + "=1\n";
  for (std::size_t i = 0; dotted.size() < room - 30; ++i) dotted += "a.b.c.k" + std::to_string(i) + "=1\n";
  for (const std::string& text :
       {filled("a = [", "1,", "]\n"), filled("a = \"é\" ; b = [", "1,", "]\n"), filled("b = [\"é\",", "\"é\",", "]\n"), filled("", "[[part]]\n", ""),
        filled("", "# comment\n", ""), filled("a = \"", "x", "\"\n"), filled("title = \"", "é", "\"\n"), filled("", "\n", ""),
        filled("a = '''", "'' ", "'''\n"), keys, dotted, filled(with_step("do = \"combine\", take = [\"1 g ").substr(0, 85), "x", "\"] } ]\n"),
        filled("bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [", "{x=1,y=2,z=3},", "]\n"),
        filled("bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [{do=\"combine\",take=[", "\"2 % 'mark' x\",", "]}]\n"),
        filled("bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [{do=\"combine\",take=[", "{take=\"2 peices x\",mark=\"m\"},",
               "]}]\n"),
        filled("bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [{do=\"combine\",take=[\"1 g x (", "raw,", ")\"]}]\n")})
    EXPECT_NE(said_in_time(text), "") << text.substr(0, 80);
}

TEST(Bounds, refuse_broken_toml_of_every_kind) {
  for (const std::string text : {"[", "[[", "a", "a =", "a = [", "a = {", "a = \"", "a = '''", "a = 1 b = 2", "a = 1979-13-45", "= 1", "a.b = 1\na = 2",
                                 "[a]\n[a]\n", "a = 0x", "a = \"\\q\"", "\x01", "a = 1_", "[[a]]\n[a]\n"}) {
    const std::string out = said_in_time(text);
    EXPECT_NE(out.find("[not_toml]"), std::string::npos) << text << out;
    EXPECT_EQ(std::count(out.begin(), out.end(), '\n'), 3) << out;
  }
}

TEST(Bounds, refuse_numbers_that_cannot_be_meant) {
  EXPECT_NE(said_in_time(with_take(std::string(300, '9') + " g water")).find("[too_large]"), std::string::npos);
  EXPECT_NE(said_in_time(with_take(std::string(100000, '9') + " g water")).find("too many digits"), std::string::npos);
  EXPECT_NE(said_in_time(with_lines("serves = 99999999999999999999\n" + small_serve)).find("[not_toml]"), std::string::npos);
  EXPECT_NE(said_in_time(with_part("name = \"p\"\nmade = \"ahead\"\nbatches = nan\nstep = [ { do = \"rest\" } ]\n")).find("must be a finite number"),
            std::string::npos);
  EXPECT_NE(said_in_time(with_target("serve.abv " + std::string(350, '9') + " %")).find("[out_of_range]"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::formula::test
