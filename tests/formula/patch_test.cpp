// Changes of a document's text, in every spelling of steps and takes: what was asked and nothing else. Random changes of documents: patch_random_test.cpp.
#include "formula/patch.hpp"

#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula {
namespace {

const std::string head = "bloomset = 1\ntitle = \"T\"\n";
const std::string sections =
    head +
    "borrow = { \"gomme\" = \"syrups.toml\" }\n"
    "targets = [\"'sour mix'.brix >= 10 brix\", \"serve.abv >= 8 %\"]\n\n"
    "# what is pressed\n[[part]]\nname = \"sour mix\"\nmade = \"ahead\"\n"
    "  [[part.step]]\n  do   = \"combine\"\n  take = [\n    \"200 g lime juice\",  # pressed today\n    { take = \"50 g honey\", at = \"20 C\" }  # warm\n  ]\n"
    "  # what stays is not pressed\n  [[part.step]]\n  do   = \"strain\"\n  time = \"2 min\"  # no more\n\n"
    "[[part]]\nname = \"shaken\"\nmade = \"to order\"\n"
    "step = [\n  { do = \"shake\", take = [\"45 mL spirit (40 %vol)\", \"20 g 'sour mix'\", \"5 mL 'gomme'\"], ice = \"200 g ice cubes\", leave = [\"ice\"] }, "
    " # hard\n]\n\n"
    "[serve]\nvessel = 'low glass, 300 mL'\npour = [\n  { take = [\"all 'shaken'\"] },\n  { do = \"top\", take = [\"60 mL soda\"] },\n]\n";

const Borrower syrups = [](const std::string&) {
  return std::optional<std::string>(head + "[[part]]\nname = \"gomme\"\nmade = \"ahead\"\nstep = [{ do = \"combine\", take = [\"1 g water\"] }]\n");
};

// The text after the change; the reason where it cannot be done.
std::string after(const Change& change, const std::string& text = sections) {
  const auto out = changed(text, change, syrups);
  return out ? *out : out.error().message;
}

// Both must be there, and the first once.
std::string replaced(const std::string& what, const std::string& by, std::string text = sections) {
  const auto at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  EXPECT_EQ(text.find(what, at + 1), std::string::npos) << what;
  return text.replace(at, what.size(), by);
}

Change change(Do what, std::optional<std::string> value = std::nullopt) {
  Change out;
  out.what = what;
  out.value = std::move(value);
  return out;
}
Change of_step(Do what, std::uint32_t part, std::uint32_t step, std::optional<std::string> value = std::nullopt) {
  Change out = change(what, std::move(value));
  out.part = part;
  out.step = step;
  return out;
}
Change of_take(Do what, std::uint32_t part, std::uint32_t step, std::uint32_t take, int by = 1) {
  Change out = of_step(what, part, step);
  out.take = take;
  out.by = by;
  return out;
}
Change condition(std::uint32_t part, std::uint32_t step, const std::string& key, std::optional<std::string> value) {
  Change out = of_step(Do::set_condition, part, step, std::move(value));
  out.key = key;
  return out;
}
Change write(std::uint32_t line, std::uint32_t column, std::uint32_t length, const std::string& value) {
  Change out = change(Do::write, value);
  out.at = {0, line, column, length};
  return out;
}

TEST(Patch, writes_where_a_pen_stands) {
  // 200 g of the first take, on line 13 behind four blanks and a quote.
  EXPECT_EQ(after(write(13, 6, 5, "210 g")), replaced("200 g lime", "210 g lime"));
  EXPECT_EQ(after(write(13, 6, 16, "a \"b\"")), replaced("200 g lime juice", "a \\\"b\\\""));
  EXPECT_EQ(after(write(13, 5, 18, "1 g x")), replaced("200 g lime juice", "1 g x"));
  EXPECT_EQ(after(write(13, 6, 5, "200 g")), sections);
  EXPECT_EQ(after(write(1, 1, 5, "x")), "nothing that can be written into stands at this place: ask for the outline of this text again");
  EXPECT_EQ(after(write(1, 12, 1, "x")), "a number stands here, for instance 6");
  EXPECT_EQ(after(write(1, 12, 1, "2")), replaced("bloomset = 1", "bloomset = 2"));
  EXPECT_EQ(after(write(13, 6, 5, "2\n")), "the value holds a control character, such as a tab or the end of a line: a value stands on one line");
  EXPECT_EQ(after(write(2, 10, 1, "\xFF")), "the value is not UTF-8");
}

TEST(Patch, sets_the_head) {
  EXPECT_EQ(after(change(Do::set_serves, "12")), replaced("title = \"T\"\n", "title = \"T\"\nserves = 12\n"));
  EXPECT_EQ(after(change(Do::set_serves, "many")), "`serves` is a whole number, for instance 6");
  EXPECT_EQ(after(change(Do::set_title, "Two")), replaced("\"T\"", "\"Two\""));
  EXPECT_EQ(after(change(Do::set_title)), "`set_title` wants a value");
  EXPECT_EQ(after(change(Do::set_vessel, "cup, 240 mL")), replaced("'low glass, 300 mL'", "'cup, 240 mL'"));
  EXPECT_EQ(after(change(Do::add_target, "serve.ph <= 4")), replaced("\"serve.abv >= 8 %\"", "\"serve.abv >= 8 %\", \"serve.ph <= 4\""));
  Change target = change(Do::set_target, "serve.ph <= 4");
  target.target = 2;
  EXPECT_EQ(after(target), replaced("serve.abv >= 8 %", "serve.ph <= 4"));
  target.target = 3;
  EXPECT_EQ(after(target), "there is no target 3; the document has 2");
  target.what = Do::remove_target;
  target.target = 1;
  EXPECT_EQ(after(target), replaced("\"'sour mix'.brix >= 10 brix\", ", ""));
  EXPECT_EQ(after(target, replaced("\"'sour mix'.brix >= 10 brix\", ", "")),
            replaced("targets = [\"'sour mix'.brix >= 10 brix\", \"serve.abv >= 8 %\"]\n", ""));
}

TEST(Patch, adds_takes_out_and_moves_takes) {
  EXPECT_EQ(after(of_step(Do::add_take, 1, 1, "1 g salt")), replaced("at = \"20 C\" }  # warm\n", "at = \"20 C\" },  # warm\n    \"1 g salt\"\n"));
  EXPECT_EQ(after(of_step(Do::add_take, 1, 2, "1 g salt")), replaced("\"strain\"\n", "\"strain\"\n  take = [\"1 g salt\"]\n"));
  EXPECT_EQ(after(of_step(Do::add_take, 4, 2, "1 g salt")), replaced("\"60 mL soda\"", "\"60 mL soda\", \"1 g salt\""));
  EXPECT_EQ(after(of_take(Do::remove_take, 1, 1, 1)), replaced("    \"200 g lime juice\",  # pressed today\n", ""));
  EXPECT_EQ(after(of_take(Do::remove_take, 2, 1, 4)), replaced(" ice = \"200 g ice cubes\",", ""));
  EXPECT_EQ(after(of_take(Do::remove_take, 2, 1, 5)), "there is no take 5; the step has 3");
  EXPECT_EQ(after(of_take(Do::remove_take, 4, 2, 1)), replaced(", take = [\"60 mL soda\"]", ""));
  EXPECT_EQ(after(of_take(Do::move_take, 1, 1, 1)),
            replaced("    \"200 g lime juice\",  # pressed today\n    { take = \"50 g honey\", at = \"20 C\" }  # warm\n",
                     "    { take = \"50 g honey\", at = \"20 C\" },  # warm\n    \"200 g lime juice\"  # pressed today\n"));
  EXPECT_EQ(after(of_take(Do::move_take, 2, 1, 2, -1)),
            replaced("\"45 mL spirit (40 %vol)\", \"20 g 'sour mix'\"", "\"20 g 'sour mix'\", \"45 mL spirit (40 %vol)\""));
  EXPECT_EQ(after(of_take(Do::move_take, 2, 1, 1, -1)), "there is no take above the first");
  EXPECT_EQ(after(of_take(Do::move_take, 2, 1, 3)), "there is no take below the last");
  EXPECT_EQ(after(of_take(Do::move_take, 2, 1, 4)), "there is no take 4 to move; the step has 3");
}

TEST(Patch, adds_takes_out_and_moves_steps_in_both_spellings) {
  EXPECT_EQ(after(of_step(Do::add_step, 1, 2, "chill")), replaced("\"2 min\"  # no more\n", "\"2 min\"  # no more\n  [[part.step]]\n  do = \"chill\"\n"));
  EXPECT_EQ(after(of_step(Do::add_step, 1, 0, "chill")), replaced("made = \"ahead\"\n", "made = \"ahead\"\n  [[part.step]]\n  do = \"chill\"\n"));
  EXPECT_EQ(after(of_step(Do::add_step, 2, 1, "chill")), replaced("# hard\n", "# hard\n  { do = \"chill\" },\n"));
  EXPECT_EQ(after(of_step(Do::add_step, 4, 0, "rinse")), replaced("pour = [\n", "pour = [\n  { do = \"rinse\" },\n"));
  EXPECT_EQ(after(of_step(Do::add_step, 1, 3, "chill")), "there is no step 3 to stand behind; there are 2");
  EXPECT_EQ(after(of_step(Do::remove_step, 1, 2)),
            replaced("  # what stays is not pressed\n  [[part.step]]\n  do   = \"strain\"\n  time = \"2 min\"  # no more\n", ""));
  EXPECT_EQ(after(of_step(Do::remove_step, 4, 1)), replaced("  { take = [\"all 'shaken'\"] },\n", ""));
  EXPECT_EQ(after(of_step(Do::remove_step, 2, 1)), "a part has at least one step, the serve one pour: take out the whole of it instead");
  EXPECT_EQ(after(of_step(Do::move_step, 4, 1)), replaced("  { take = [\"all 'shaken'\"] },\n  { do = \"top\", take = [\"60 mL soda\"] },\n",
                                                          "  { do = \"top\", take = [\"60 mL soda\"] },\n  { take = [\"all 'shaken'\"] },\n"));
  const std::string first =
      "  [[part.step]]\n  do   = \"combine\"\n  take = [\n    \"200 g lime juice\",  # pressed today\n"
      "    { take = \"50 g honey\", at = \"20 C\" }  # warm\n  ]\n";
  const std::string second = "  # what stays is not pressed\n  [[part.step]]\n  do   = \"strain\"\n  time = \"2 min\"  # no more\n";
  EXPECT_EQ(after(of_step(Do::move_step, 1, 1)), replaced(first + second, second + first));
}

TEST(Patch, sets_conditions) {
  EXPECT_EQ(after(condition(1, 2, "time", "3 min")), replaced("\"2 min\"  # no more", "\"3 min\"  # no more"));
  EXPECT_EQ(after(condition(1, 2, "time", std::nullopt)), replaced("  time = \"2 min\"  # no more\n", ""));
  EXPECT_EQ(after(condition(1, 2, "charges", "1")), replaced("# no more\n", "# no more\n  charges = 1\n"));
  EXPECT_EQ(after(condition(4, 2, "maybe", "true")), replaced("[\"60 mL soda\"]", "[\"60 mL soda\"], maybe = true"));
  EXPECT_EQ(after(condition(2, 1, "leave", "ice; lime peel")), replaced("[\"ice\"]", "[\"ice\", \"lime peel\"]"));
  EXPECT_EQ(after(condition(2, 1, "ice", "150 g ice cubes")), replaced("200 g ice", "150 g ice"));
  EXPECT_EQ(after(condition(2, 1, "out.clear", "80 %")), replaced("leave = [\"ice\"]", "leave = [\"ice\"], out = { clear = \"80 %\" }"));
  const std::string bath = replaced("leave = [\"ice\"]", "bath = { in = \"1 kg 'sour mix'\", takes_up = \"3 %\" }");
  EXPECT_EQ(after(condition(2, 1, "bath.takes_up", "4 %"), bath), replaced("3 %", "4 %", bath));
  EXPECT_EQ(after(condition(2, 1, "bath.takes_up", std::nullopt), bath), replaced(", takes_up = \"3 %\"", "", bath));
  EXPECT_EQ(after(condition(2, 1, "bath", std::nullopt), bath), replaced(", bath = { in = \"1 kg 'sour mix'\", takes_up = \"3 %\" }", "", bath));
  EXPECT_EQ(after(condition(2, 1, "maybe", "yes")), "`maybe` is true or false");
  EXPECT_EQ(after(condition(2, 1, "tim", "1 min")), "`tim` is not a key of a step; did you mean time");
  EXPECT_EQ(after(condition(2, 1, "keeps", std::nullopt)), "the step has no `keeps`");
  EXPECT_EQ(after(condition(2, 1, "bath", "x")), "`bath` is set key by key, for instance bath.in");
}

TEST(Patch, renames_a_part_and_every_use_of_it) {
  Change name = change(Do::set_name, "sharp \"mix\"");
  name.part = 1;
  std::string wanted = replaced("name = \"sour mix\"", "name = \"sharp \\\"mix\\\"\"");
  wanted = replaced("'sour mix'.brix", "'sharp \\\"mix\\\"'.brix", wanted);
  EXPECT_EQ(after(name), replaced("20 g 'sour mix'", "20 g 'sharp \\\"mix\\\"'", wanted));
  name.part = 3;
  EXPECT_EQ(after(name), "part 3 is borrowed: change it in its own document");
  name.part = 4;
  EXPECT_EQ(after(name), "the serve has no name");
  name.part = 5;
  EXPECT_EQ(after(name), "there is no part 5; the document has 3 and a serve");
  name.part = 1;
  name.value = "a'b";
  EXPECT_EQ(after(name), "a part's name may not be empty, nor hold ' or /");
}

TEST(Patch, renames_outputs_marked_takes_and_pieces_left_behind_but_no_bought_thing) {
  const std::string text = test::with_lines(
      "[[part]]\nname = \"Gel\"\nmade = \"ahead\"\nstep = [ { do = \"cut\", take = [\"1 g baker's gel\"] } ]\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = "
      "[\n"
      "  { do = \"combine\", take = [{ take = \"5 g 'gel/clear'\", mark = \"m\" }, \"2 % 'm' 'gel'\", \"1 g gelatin\"] },\n  { do = \"strain\", leave = "
      "[\"gel\"] } ]\n"
      "[[part]]\nname = \"q\"\nmade = \"ahead\"\nstep = [ { do = \"strain\", take = [\"1 g gel\"], leave = [\"gel\"] } ]\n");
  Change name = change(Do::set_name, "ice");
  name.part = 1;
  std::string wanted = replaced("name = \"Gel\"", "name = \"ice\"", text);
  wanted = replaced("'gel/clear'", "'ice/clear'", wanted);
  wanted = replaced("2 % 'm' 'gel'", "2 % 'm' 'ice'", wanted);
  EXPECT_EQ(after(name, text), replaced("{ do = \"strain\", leave = [\"gel\"] }", "{ do = \"strain\", leave = [\"ice\"] }", wanted));
}

TEST(Patch, adds_and_takes_out_parts) {
  Change part = change(Do::add_part, "froth");
  part.made = "ahead";
  EXPECT_EQ(after(part), replaced("# hard\n]\n\n", "# hard\n]\n\n[[part]]\nname = \"froth\"\nmade = \"ahead\"\n  [[part.step]]\n  do = \"combine\"\n\n"));
  part.what = Do::remove_part;
  part.part = 1;
  const auto from = sections.find("# what is pressed"), to = sections.find("[[part]]\nname = \"shaken\"");
  EXPECT_EQ(after(part), sections.substr(0, from) + sections.substr(to));
  part.part = 4;
  EXPECT_EQ(after(part), sections.substr(0, sections.find("[serve]")));
  const std::string brackets = head + "part = [ { name = \"a\", made = \"ahead\", step = [{ do = \"combine\" }] } ]\n";
  part = change(Do::add_part, "b");
  EXPECT_EQ(after(part, brackets), replaced("}] } ]", "}] }, { name = \"b\", made = \"to order\", step = [{ do = \"combine\" }] } ]", brackets));
}

TEST(Patch, adds_a_line_to_the_last_part_and_to_nothing) {
  EXPECT_EQ(after(change(Do::add_line, "1 g salt")), replaced("\"5 mL 'gomme'\"", "\"5 mL 'gomme'\", \"1 g salt\""));
  EXPECT_EQ(after(change(Do::add_line, "1 g salt"), head + "[serve]\nvessel = \"cup\"\npour = [ { take = [\"1 g x\"] } ]\n"),
            head + "[serve]\nvessel = \"cup\"\npour = [ { take = [\"1 g x\", \"1 g salt\"] } ]\n");
  const std::string fresh = after(change(Do::add_line, "200 g lime juice"), "");
  EXPECT_EQ(fresh,
            "bloomset = 1\ntitle = \"Untitled\"\n\n[[part]]\nname = \"mix\"\nmade = \"to order\"\n  [[part.step]]\n  do   = \"combine\"\n  take = [\"200 g "
            "lime juice\"]\n\n"
            "[serve]\nvessel = \"low glass, 300 mL\"\npour = [\n  { take = [\"all 'mix'\"] },\n]\n");
  EXPECT_EQ(test::said(fresh), "");
  EXPECT_EQ(after(change(Do::add_line, "1 g salt"), fresh), replaced("\"200 g lime juice\"", "\"200 g lime juice\", \"1 g salt\"", fresh));
  const std::string headed = after(change(Do::add_line, "1 g salt"), "bloomset = 1 # mine\r\ntitle = \"Dusk\"");
  EXPECT_EQ(headed.substr(0, 49), "bloomset = 1 # mine\r\ntitle = \"Dusk\"\r\n\r\n[[part]]\r\n");
  EXPECT_EQ(test::said(headed), "");
}

TEST(Patch, refuses_a_text_that_is_no_document) {
  EXPECT_EQ(after(change(Do::set_title, "x"), "title = "), "this text: this is not TOML: encountered end-of-file (reading key-value pair)");
  EXPECT_EQ(after(of_step(Do::add_take, 1, 1, "1 g x"), head + "part = 3\n"), "there is no part 1; the document has 0 and no serve");
  EXPECT_EQ(after(of_step(Do::add_take, 1, 1, "1 g x"), head + "[[part]]\nstep = [ { take = 3 } ]\n"), "`take` is not a list: write it in square brackets");
  EXPECT_EQ(after(condition(1, 1, "bath.takes_up", "3 %"), head + "[[part]]\n[[part.step]]\nbath.in = \"1 g x\"\n"),
            "`bath` is written with dotted keys or in sections that stand apart: change it in the text");
}

}  // namespace
}  // namespace bloomset::formula
