// Names compared without case, accents and doubled blanks; UTF-8 checked byte by byte.
#include "text/fold.hpp"

#include <gtest/gtest.h>

namespace bloomset::text {
namespace {

TEST(Fold, drops_case_accents_and_doubled_blanks) {
  EXPECT_EQ(fold("  Crème   BRÛLÉE "), "creme brulee");
  EXPECT_EQ(fold("Cre\u0300me"), fold("Crème"));  // composed and decomposed are one name
  EXPECT_EQ(fold("Açaí"), "acai");
  EXPECT_EQ(fold("Žubrówka"), "zubrowka");
  EXPECT_EQ(fold("Weißbier"), "weissbier");
  EXPECT_EQ(fold("Cœur de Bœuf"), "coeur de boeuf");
  EXPECT_EQ(fold("smørrebrød"), "smorrebrod");
  EXPECT_EQ(fold("Phở"), "pho");
  EXPECT_EQ(fold("baker\u2019s yeast"), "baker's yeast");
  EXPECT_EQ(fold("a\u00A0b"), "a b");
}

TEST(Fold, leaves_other_scripts_as_they_are) { EXPECT_EQ(fold("抹茶 Matcha"), "抹茶 matcha"); }

TEST(Utf8, finds_the_first_bad_byte) {
  // Unicode 14.0, table 3-7: well-formed byte sequences.
  EXPECT_EQ(first_not_utf8("aé抹😀"), std::string_view::npos);
  EXPECT_EQ(first_not_utf8("ab\xFF"), 2U);
  EXPECT_EQ(first_not_utf8("\xC0\xAF"), 0U);          // overlong
  EXPECT_EQ(first_not_utf8("\xE0\x80\xAF"), 0U);      // overlong
  EXPECT_EQ(first_not_utf8("\xED\xA0\x80"), 0U);      // surrogate
  EXPECT_EQ(first_not_utf8("\xF4\x90\x80\x80"), 0U);  // above U+10FFFF
  EXPECT_EQ(first_not_utf8("x\xE2\x82"), 1U);         // cut short
}

TEST(Utf8, decodes_and_encodes_the_same) {
  for (const char32_t c : {U'a', U'é', U'抹', U'😀', char32_t{0x10FFFF}}) {
    std::string text;
    append_utf8(text, c);
    std::size_t at = 0;
    EXPECT_EQ(next_code_point(text, at), c);
    EXPECT_EQ(at, text.size());
  }
}

}  // namespace
}  // namespace bloomset::text
