// Embedded tables: comments, quotes (RFC 4180), short rows.
#include "text/table.hpp"

#include <gtest/gtest.h>

namespace bloomset::text {
namespace {

TEST(Table, splits_rows_below_the_header) {
  const std::string csv = "# a comment, with a comma\na,b,c\n1,\"two, \"\"too\"\"\",3\r\n\n4\n";
  EXPECT_EQ(table_header(csv), (std::vector<std::string>{"a", "b", "c"}));
  const auto rows = table_rows(csv);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0], (std::vector<std::string>{"1", "two, \"too\"", "3"}));
  EXPECT_EQ(rows[1], (std::vector<std::string>{"4", "", ""}));
}

TEST(Table, is_empty_without_a_header) { EXPECT_TRUE(table_rows("# only a comment\n").empty()); }

}  // namespace
}  // namespace bloomset::text
