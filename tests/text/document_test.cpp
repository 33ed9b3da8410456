// The document tree: order, places in bytes, wrong types, and what is refused before it can cost anything.
#include "text/document.hpp"

#include <gtest/gtest.h>

#include <ctime>

namespace bloomset::text {
namespace {

struct Read {
  base::Sources sources;
  base::Result<Node> tree;
  explicit Read(std::string text) : tree(base::fail(base::ErrorKind::internal, "not read")) {
    tree = read_toml(sources.add("d.toml", std::move(text)), sources);
  }
  std::string said() const { return tree ? "" : base::render(tree.error().diagnostics, sources); }
  std::string_view at(base::Span span) const { return sources.line(span.source, span.line).substr(span.column - 1, span.length); }
};

TEST(Document, keeps_the_written_order_of_keys) {
  const Read read("z = 1\na = 2\n[m]\ny = 3\nb = 4\n");
  ASSERT_TRUE(read.tree) << read.said();
  ASSERT_EQ(read.tree->items.size(), 3U);
  EXPECT_EQ(read.tree->items[0].key, "z");
  EXPECT_EQ(read.tree->items[1].key, "a");
  EXPECT_EQ(read.tree->items[2].items[0].key, "y");
}

TEST(Document, gives_every_kind_with_its_value) {
  const Read read("s = 'x'\ni = 7\nn = 1.5\nb = true\nd = 1979-05-27\nl = [1, 2]\nt = { k = 1 }\n");
  ASSERT_TRUE(read.tree) << read.said();
  EXPECT_EQ(read.tree->find("s")->string, "x");
  EXPECT_EQ(read.tree->find("i")->integer, 7);
  EXPECT_EQ(read.tree->find("i")->number, 7.0);
  EXPECT_EQ(read.tree->find("n")->number, 1.5);
  EXPECT_TRUE(read.tree->find("b")->boolean);
  EXPECT_EQ(read.tree->find("d")->kind, NodeKind::moment);
  EXPECT_EQ(read.tree->find("l")->items.size(), 2U);
  EXPECT_EQ(read.tree->find("t")->find("k")->integer, 1);
  EXPECT_EQ(read.tree->find("none"), nullptr);
}

TEST(Document, counts_places_in_bytes_behind_letters_of_several_bytes) {
  const Read read("\"crème\" = { \"é\" = \"brûlée\", n = 12 }\r\nlast = 'x'\r\n");
  ASSERT_TRUE(read.tree) << read.said();
  const Node& creme = read.tree->items[0];
  EXPECT_EQ(read.at(creme.key_span), "\"crème\"");
  EXPECT_EQ(read.at(creme.items[0].key_span), "\"é\"");
  EXPECT_EQ(read.at(creme.items[0].span), "\"brûlée\"");
  EXPECT_EQ(read.at(creme.items[0].inside), "brûlée");
  EXPECT_EQ(read.at(creme.items[1].span), "12");
  EXPECT_EQ(read.at(read.tree->items[1].inside), "x");
}

TEST(Document, counts_places_behind_a_byte_order_mark) {
  const Read read("\xEF\xBB\xBFkey = \"value\"\n");
  ASSERT_TRUE(read.tree) << read.said();
  EXPECT_EQ(read.at(read.tree->items[0].inside), "value");
}

TEST(Document, points_at_the_whole_value_where_a_text_has_escapes) {
  const Read read("a = \"x\\ty\"\nb = \"\"\"\nlong\"\"\"\nc = \"\"\n");
  ASSERT_TRUE(read.tree) << read.said();
  EXPECT_EQ(read.at(read.tree->find("a")->inside), "\"x\\ty\"");
  EXPECT_EQ(read.at(read.tree->find("b")->inside), "\"\"\"");
  EXPECT_EQ(read.at(read.tree->find("c")->inside), "\"\"");
}

TEST(Document, says_where_the_text_is_no_toml) {
  EXPECT_EQ(Read("title = \"x\"\nserves = = 6\n").said(),
            "d.toml:2:10: error: this is not TOML: could not determine value type (reading value) [not_toml]\n  serves = = 6\n           ^\n");
  EXPECT_NE(Read("a = 1\na = 2\n").said().find("d.toml:2:"), std::string::npos);
}

TEST(Document, refuses_what_is_not_utf8) {
  EXPECT_EQ(Read("title = \"caf\xE9\"\n").said(),
            "d.toml:1:13: error: this byte is not UTF-8 [not_utf8]\n  title = \"caf\uFFFD\"\n              ^\n  hint: save the file as UTF-8\n");
  EXPECT_NE(Read(std::string("\xFF\xFE\x00t", 4)).said().find("d.toml:1:1: error: this byte is not UTF-8"), std::string::npos);
}

TEST(Document, refuses_ten_megabytes_of_anything_at_once) {
  const std::clock_t start = std::clock();
  EXPECT_EQ(Read(std::string(10U << 20U, '[')).said(),
            "d.toml:1:1: error: this text has 10485760 bytes; a document has at most 4194304 [too_large]\n  " + std::string(160, '[') + "\n  ^\n");
  EXPECT_LT(std::clock() - start, CLOCKS_PER_SEC);
}

TEST(Document, refuses_deep_nesting_before_it_can_overflow) {
  EXPECT_EQ(Read("a = " + std::string(40, '[') + std::string(40, ']')).said(),
            "d.toml:1:37: error: brackets and dotted keys may nest at most 32 deep [too_deep]\n  a = " + std::string(40, '[') + std::string(40, ']') + "\n" +
                std::string(38, ' ') + "^\n");
  std::string dotted = "a";
  for (int i = 0; i < 100000; ++i) dotted += ".a";
  EXPECT_NE(Read(dotted + " = 1\n").said().find("[too_deep]"), std::string::npos);
  EXPECT_NE(Read("[" + dotted + "]\n").said().find("[too_deep]"), std::string::npos);
  EXPECT_TRUE(Read("a = \"" + std::string(100, '[') + "\" # " + std::string(100, '{') + "\n").tree);
  EXPECT_TRUE(Read("a = \"\"\"" + std::string(100, '[') + "\n''' \\\"\"\" [[\"\"\"\nb = '''" + std::string(100, '[') + "'''\n").tree);
}

TEST(Fields, say_wrong_types_and_unknown_keys_with_the_nearest) {
  Read read("name = 5\ntiem = \"5 min\"\nlist = \"one\"\nzzzzzzzz = 1\n");
  ASSERT_TRUE(read.tree) << read.said();
  Faults faults;
  const Fields fields(*read.tree, "a thing", {"name", "time", "list", "made"}, faults);
  EXPECT_EQ(fields.string("name"), nullptr);
  EXPECT_EQ(fields.array("list"), nullptr);
  EXPECT_EQ(fields.string("time"), nullptr);
  fields.require("made", "say how");
  EXPECT_EQ(base::render(faults, read.sources),
            "d.toml:2:1: error: `tiem` is not a key of a thing [unknown_key]\n  tiem = \"5 min\"\n  ^~~~\n  hint: did you mean `time`?\n"
            "d.toml:4:1: error: `zzzzzzzz` is not a key of a thing [unknown_key]\n  zzzzzzzz = 1\n  ^~~~~~~~\n  hint: keys of a thing: name, time, list, made\n"
            "d.toml:1:8: error: `name` must be a text, not a whole number [wrong_type]\n  name = 5\n         ^\n  hint: write it in quotes, a quantity with "
            "its unit\n"
            "d.toml:3:8: error: `list` must be a list, not a text [wrong_type]\n  list = \"one\"\n         ^~~~~\n  hint: write it in square brackets: list = "
            "[\"…\"]\n"
            "d.toml:1:1: error: a thing must have `made` [missing_key]\n  name = 5\n  ^\n  hint: say how\n");
}

TEST(Fields, take_whole_numbers_as_numbers_but_not_infinities) {
  Read read("a = 2\nb = 2.5\nc = inf\n");
  ASSERT_TRUE(read.tree);
  Faults faults;
  const Fields fields(*read.tree, "a thing", {"a", "b", "c"}, faults);
  EXPECT_EQ(fields.number("a")->number, 2.0);
  EXPECT_EQ(fields.number("b")->number, 2.5);
  EXPECT_EQ(fields.number("c"), nullptr);
  EXPECT_EQ(base::render(faults, read.sources), "d.toml:3:5: error: `c` must be a finite number [bad_number]\n  c = inf\n      ^~~\n");
}

}  // namespace
}  // namespace bloomset::text
