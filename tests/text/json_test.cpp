// JSON as printed here, read back by an independent reader (JSON for Modern C++).
#include "text/json.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

namespace bloomset::text {
namespace {

TEST(Json, keeps_the_order_in_which_members_were_set) {
  Json json = Json::object();
  json.set("schema", 1).set("b", true).set("a", Json::array().push(1).push("two").push(nullptr));
  EXPECT_EQ(json.print(), R"({"schema":1,"b":true,"a":[1,"two",null]})");
  json.set("b", false);
  EXPECT_EQ(json.print(), R"({"schema":1,"b":false,"a":[1,"two",null]})");
}

TEST(Json, prints_with_indents_for_people) {
  Json json = Json::object();
  json.set("a", Json::array().push(1)).set("b", Json::object());
  EXPECT_EQ(json.print(2), "{\n  \"a\": [\n    1\n  ],\n  \"b\": {}\n}");
}

TEST(Json, gives_null_for_what_is_not_finite_or_not_there) {
  EXPECT_EQ(Json(std::nan("")).print(), "null");
  EXPECT_EQ(Json(std::numeric_limits<double>::infinity()).print(), "null");
  EXPECT_EQ(Json(std::optional<double>{}).print(), "null");
  EXPECT_EQ(Json(std::optional<double>{2.5}).print(), "2.5");
  EXPECT_TRUE(Json().is_null());
}

TEST(Json, prints_the_shortest_number_that_reads_back) {
  EXPECT_EQ(Json(0.1).print(), "0.1");
  EXPECT_EQ(Json(330.0).print(), "330");
  EXPECT_EQ(Json(-0.0).print(), "0");
  EXPECT_EQ(Json(5e-324).print(), "5e-324");
  EXPECT_EQ(Json(std::numeric_limits<std::uint64_t>::max()).print(), "18446744073709551615");
}

TEST(Json, escapes_text_so_that_any_reader_gets_it_back) {
  EXPECT_EQ(Json("a\"b\\c\nd\x01").print(), R"("a\"b\\c\nd\u0001")");
  EXPECT_EQ(Json("crème").print(), "\"crème\"");
  EXPECT_EQ(Json("bad\xFF!").print(), "\"bad\uFFFD!\"");
}

TEST(Json, makes_arrays_of_lists) {
  const std::vector<int> list = {1, 2, 3};
  EXPECT_EQ(Json::array_of(list, [](int n) { return Json(n * n); }).print(), "[1,4,9]");
}

TEST(Json, reads_back_the_same_in_another_reader) {
  EXPECT_TRUE(rc::check([](const std::string& text, double number, std::int64_t integer) {
    Json json = Json::object();
    json.set("number", number).set("integer", integer).set("text", text);
    const auto read = nlohmann::json::parse(json.print(2));
    if (std::isfinite(number)) RC_ASSERT(read["number"].get<double>() == number);
    RC_ASSERT(read["integer"].get<std::int64_t>() == integer);
    RC_ASSERT(read["text"].is_string());
  }));
}

}  // namespace
}  // namespace bloomset::text
