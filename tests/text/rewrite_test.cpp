// Texts changed in place: what is not asked for keeps every byte, in every spelling that TOML has for a list.
#include "text/rewrite.hpp"

#include <gtest/gtest.h>

#include <functional>

namespace bloomset::text {
namespace {

// The text with a change made; "cannot" where it is out of reach, and a failed test where the answer is no TOML.
std::string with(const std::string& text, const std::function<bool(Rewrite&, const Node&)>& change) {
  base::Sources sources;
  const auto tree = read_toml(sources.add("t", text), sources);
  if (!tree) return "not TOML: " + base::render(tree.error().diagnostics, sources);
  Rewrite rewrite(text, *tree);
  if (!change(rewrite, *tree)) return "cannot";
  const std::string out = rewrite.done();
  const auto again = read_toml(sources.add("after", out), sources);
  EXPECT_TRUE(again) << out;
  return out;
}

std::string added(const std::string& text, std::size_t before, const std::string& item) {
  return with(text, [&](Rewrite& r, const Node& root) { return r.add_item(*root.find("a"), before, item); });
}
std::string removed(const std::string& text, std::size_t index) {
  return with(text, [&](Rewrite& r, const Node& root) { return r.remove_item(*root.find("a"), index); });
}
std::string swapped(const std::string& text, std::size_t index) {
  return with(text, [&](Rewrite& r, const Node& root) { return r.swap_items(*root.find("a"), index); });
}

TEST(Rewrite, adds_to_a_list_on_one_line) {
  EXPECT_EQ(added("a = []\n", 0, "9"), "a = [9]\n");
  EXPECT_EQ(added("a = [1, 2]  # c\n", 2, "9"), "a = [1, 2, 9]  # c\n");
  EXPECT_EQ(added("a = [1, 2, ]", 2, "9"), "a = [1, 2, 9, ]");
  EXPECT_EQ(added("a = [1, 2]\n", 0, "9"), "a = [9, 1, 2]\n");
  EXPECT_EQ(added("a = [1, 2]\n", 1, "9"), "a = [1, 9, 2]\n");
}

TEST(Rewrite, adds_to_a_list_over_several_lines_and_keeps_comments_where_they_are) {
  EXPECT_EQ(added("a = [\n  1, # one\n  2  # two\n]\n", 2, "9"), "a = [\n  1, # one\n  2,  # two\n  9\n]\n");
  EXPECT_EQ(added("a = [\n  1, # one\n  2,  # two\n  # end\n]\n", 2, "9"), "a = [\n  1, # one\n  2,  # two\n  9,\n  # end\n]\n");
  EXPECT_EQ(added("a = [\n  1,\n  2]\n", 2, "9"), "a = [\n  1,\n  2,\n  9]\n");
  EXPECT_EQ(added("a = [\n  # of one\n  1,\n]\n", 0, "9"), "a = [\n  9,\n  # of one\n  1,\n]\n");
  EXPECT_EQ(added("a = [ # list\n  1,\n]\n", 0, "9"), "a = [ # list\n  9,\n  1,\n]\n");
  EXPECT_EQ(added("a = [\n  1, # one\n  2,\n]\n", 1, "9"), "a = [\n  1, # one\n  9,\n  2,\n]\n");
  EXPECT_EQ(added("a = [ 1,\n      2 ]\n", 1, "9"), "a = [ 1, 9,\n      2 ]\n");
  EXPECT_EQ(added("a = [\r\n  1,\r\n]\r\n", 1, "9"), "a = [\r\n  1,\r\n  9,\r\n]\r\n");
}

TEST(Rewrite, takes_out_an_item_with_its_comma_and_the_comment_on_its_lines) {
  EXPECT_EQ(removed("a = [1, 2, 3]\n", 0), "a = [2, 3]\n");
  EXPECT_EQ(removed("a = [1, 2, 3]\n", 1), "a = [1, 3]\n");
  EXPECT_EQ(removed("a = [1, 2, 3]\n", 2), "a = [1, 2]\n");
  EXPECT_EQ(removed("a = [1]\n", 0), "a = []\n");
  EXPECT_EQ(removed("a = [\n  1, # one\n  # before two\n  2, # two\n]\n", 1), "a = [\n  1, # one\n  # before two\n]\n");
  EXPECT_EQ(removed("a = [\n  1, # one\n  2 # two\n]\n", 1), "a = [\n  1, # one\n]\n");
  EXPECT_EQ(removed("a = [\n  1, # one\n  2 # two\n]\n", 0), "a = [\n  2 # two\n]\n");
  EXPECT_EQ(removed("a = [ '#', \"]\", ',' ]\n", 1), "a = [ '#', ',' ]\n");
  EXPECT_EQ(removed("a = [ 1 # c\n , 2 ]\n", 0), "a = [  # c\n 2 ]\n");
}

TEST(Rewrite, lets_items_change_places_with_the_comments_on_their_lines) {
  EXPECT_EQ(swapped("a = [1, 2, 3]\n", 1), "a = [1, 3, 2]\n");
  EXPECT_EQ(swapped("a = [\n  1, # one\n  2\n]\n", 0), "a = [\n  2,\n  1 # one\n]\n");
  EXPECT_EQ(swapped("a = [\n  1, # one\n  2, 3 # others\n]\n", 0), "a = [\n  2, # one\n  1, 3 # others\n]\n");
}

TEST(Rewrite, writes_a_text_in_the_spelling_of_the_old_one_where_it_can) {
  const auto set = [](const std::string& text, const std::string& value) {
    return with(text, [&](Rewrite& r, const Node& root) {
      r.set_string(*root.find("a"), value);
      return true;
    });
  };
  EXPECT_EQ(set("a = 'x'  # c\n", "y\\z"), "a = \"y\\\\z\"  # c\n");
  EXPECT_EQ(set("a = 'x'\n", "crème"), "a = 'crème'\n");
  EXPECT_EQ(set("a = 'x'\n", "it's"), "a = \"it's\"\n");
  EXPECT_EQ(set("a = \"x\"\n", "say \"so\""), "a = \"say \\\"so\\\"\"\n");
  EXPECT_EQ(set("a = \"\"\"\nx\ny\"\"\"\nb = 1\n", "z"), "a = \"z\"\nb = 1\n");
  EXPECT_EQ(set("a = ''''x''''\nb = 1\n", "z"), "a = \"z\"\nb = 1\n");
}

TEST(Rewrite, adds_and_takes_out_keys_below_a_header_and_in_braces) {
  const auto add = [](const std::string& text, const std::string& behind) {
    return with(text, [&](Rewrite& r, const Node& root) { return r.add_member(*root.find("t"), "time", "1", behind); });
  };
  EXPECT_EQ(add("[t] # c\n", ""), "[t] # c\ntime = 1\n");
  EXPECT_EQ(add("[t]\n  do     = 2 # c\n  vessel = 3\n[u]\n", ""), "[t]\n  do     = 2 # c\n  vessel = 3\n  time   = 1\n[u]\n");
  EXPECT_EQ(add("[t]\n  do     = 2 # c\n  vessel = 3", "do"), "[t]\n  do     = 2 # c\n  time   = 1\n  vessel = 3");
  EXPECT_EQ(add("[t]\nlong = [\n 1 ]\n", ""), "[t]\nlong = [\n 1 ]\ntime = 1\n");
  EXPECT_EQ(add("t = {}\n", ""), "t = { time = 1 }\n");
  EXPECT_EQ(add("t = { a = 2, b = 3 }\n", "a"), "t = { a = 2, time = 1, b = 3 }\n");
  EXPECT_EQ(add("t.a = 2\n", ""), "cannot");
  EXPECT_EQ(add("[t.u]\nk = 1\n", ""), "cannot");
  const auto remove = [](const std::string& text) {
    return with(text, [&](Rewrite& r, const Node& root) { return r.remove_member(*root.find("t"), *root.find("t")->find("a")); });
  };
  EXPECT_EQ(remove("[t]\n  a = [ # one\n 1 ] # two\n  b = 3\n"), "[t]\n  b = 3\n");
  EXPECT_EQ(remove("t = { a = 2, b = 3 }\n"), "t = { b = 3 }\n");
  EXPECT_EQ(remove("t = { b = 3, a = 2 }\n"), "t = { b = 3 }\n");
  EXPECT_EQ(remove("t = { a = 2 } # c\n"), "t = { } # c\n");
  EXPECT_EQ(remove("[t]\na.b = 2\n"), "cannot");
}

TEST(Rewrite, moves_sections_with_the_comments_above_them_and_what_they_hold) {
  const std::string text = "x = 1\n\n# of one\n[[a]]\nn = 1\n [a.in]\n k = 1\n\n# of two\n[[a]] # two\nn = 2";
  EXPECT_EQ(swapped(text, 0), "x = 1\n\n# of two\n[[a]] # two\nn = 2\n\n# of one\n[[a]]\nn = 1\n [a.in]\n k = 1");
  EXPECT_EQ(removed(text, 0), "x = 1\n\n# of two\n[[a]] # two\nn = 2");
  const auto add = [&](std::size_t before) {
    return with(text, [&](Rewrite& r, const Node& root) { return r.add_table(*root.find("a"), before, {{"n", "3"}, {"why", "4"}}); });
  };
  EXPECT_EQ(add(0), "x = 1\n\n[[a]]\nn   = 3\nwhy = 4\n\n# of one\n[[a]]\nn = 1\n [a.in]\n k = 1\n\n# of two\n[[a]] # two\nn = 2");
  EXPECT_EQ(add(1), "x = 1\n\n# of one\n[[a]]\nn = 1\n [a.in]\n k = 1\n\n[[a]]\nn   = 3\nwhy = 4\n\n# of two\n[[a]] # two\nn = 2");
  EXPECT_EQ(add(2), text + "\n\n[[a]]\nn   = 3\nwhy = 4\n");
}

TEST(Rewrite, leaves_a_byte_order_mark_first) {
  const std::string text = "\xEF\xBB\xBF[t]\nk = 1\n";
  EXPECT_EQ(with(text, [](Rewrite& r, const Node& root) { return r.add_member(root, "new", "1"); }), "\xEF\xBB\xBFnew = 1\n[t]\nk = 1\n");
}

}  // namespace
}  // namespace bloomset::text
