// A failed operation carries its kind, its sentence and every fault of the text.
#include "base/result.hpp"

#include <gtest/gtest.h>

namespace bloomset::base {
namespace {

Result<int> half(int n) {
  if (n % 2 != 0) return fail(ErrorKind::bad_input, "odd", {Diagnostic{Severity::error, "odd_number", "three is odd", {}, {}, {}}});
  return n / 2;
}

TEST(Result, HoldsTheValueOrTheWholeError) {
  EXPECT_EQ(half(4).value(), 2);
  const auto failed = half(3);
  ASSERT_FALSE(failed.has_value());
  EXPECT_EQ(failed.error().kind, ErrorKind::bad_input);
  EXPECT_EQ(failed.error().message, "odd");
  ASSERT_EQ(failed.error().diagnostics.size(), 1U);
  EXPECT_EQ(failed.error().diagnostics[0].code, "odd_number");
}

}  // namespace
}  // namespace bloomset::base
