// JSON texts: the tree, and what is refused and where.
#include "text/json_reader.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "text/json.hpp"

namespace bloomset::text {
namespace {

struct ReadJson {
  base::Sources sources;
  base::Result<Node> tree;
  explicit ReadJson(std::string text) : tree(base::fail(base::ErrorKind::internal, "not read")) {
    tree = read_json(sources.add("d.json", std::move(text)), sources);
  }
  std::string said() const { return tree ? "" : base::render(tree.error().diagnostics, sources); }
};

TEST(JsonReader, GivesEveryKindWithItsValue) {
  const ReadJson read(R"([{"s": "x\u00e9", "i": -7, "n": 1.5, "b": true, "none": null, "l": [1, 2e3], "t": {"k": 18446744073709551615}}])");
  ASSERT_TRUE(read.tree) << read.said();
  ASSERT_TRUE(read.tree->is(NodeKind::array));
  const Node& object = read.tree->items[0];
  EXPECT_EQ(object.find("s")->string, "x\u00e9");
  EXPECT_EQ(object.find("i")->integer, -7);
  EXPECT_EQ(object.find("i")->number, -7.0);
  EXPECT_EQ(object.find("n")->number, 1.5);
  EXPECT_TRUE(object.find("b")->boolean);
  EXPECT_EQ(object.find("none"), nullptr);
  EXPECT_EQ(object.find("l")->items[1].number, 2000.0);
  EXPECT_EQ(object.find("t")->find("k")->number, 18446744073709551615.0);
  EXPECT_EQ(object.items[0].key, "s");
}

TEST(JsonReader, SaysWhereATextIsNoJson) {
  EXPECT_EQ(ReadJson("{\n  \"a\": 1,\n  oops\n}").said(),
            "d.json:3:3: error: this is not JSON [not_json]\n"
            "    oops\n"
            "    ^\n");
}

TEST(JsonReader, RefusesWhatCannotBeADocument) {
  EXPECT_EQ(ReadJson("7").tree.error().message, "d.json: a document is an object or an array");
  EXPECT_EQ(ReadJson("null").tree.error().message, "d.json: a document is an object or an array");
  EXPECT_EQ(ReadJson("").tree.error().message, "d.json: this is not JSON");
  EXPECT_EQ(ReadJson("[1] 2").tree.error().message, "d.json: this is not JSON");
  EXPECT_EQ(ReadJson(R"({"a": 1, "a": 2})").tree.error().message, "d.json: the key `a` stands twice");
  EXPECT_EQ(ReadJson("[1e999]").tree.error().message, "d.json: this is not JSON");
  EXPECT_EQ(ReadJson("[\"\xFF\"]").tree.error().message, "d.json: this byte is not UTF-8");
  EXPECT_EQ(ReadJson(std::string(33, '[') + std::string(33, ']')).tree.error().message, "d.json: brackets may nest at most 32 deep");
  EXPECT_TRUE(ReadJson(std::string(32, '[') + std::string(32, ']')).tree);
  EXPECT_EQ(ReadJson("[" + std::string(most_bytes, ' ') + "]").tree.error().diagnostics[0].code, "too_large");
}

TEST(JsonReader, ReadsBackWhatWasPrinted) {
  EXPECT_TRUE(rc::check("numbers and texts survive print and read", [] {
    const double number = *rc::gen::arbitrary<int>() / 7.0;
    const std::string text = *rc::gen::container<std::string>(rc::gen::inRange(' ', '~'));
    Json printed = Json::object();
    printed.set("n", number).set("s", text);
    const ReadJson read(printed.print());
    RC_ASSERT(read.tree.has_value());
    RC_ASSERT(read.tree->find("n")->number == number);
    RC_ASSERT(read.tree->find("s")->string == text);
  }));
}

}  // namespace
}  // namespace bloomset::text
