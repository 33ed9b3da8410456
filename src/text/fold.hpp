// text/fold.hpp - names compared as people mean them: case, accents and doubled blanks do not count.
//
// `Crème  Brûlée` and `creme brulee` are one name. Latin letters lose their marks by the Unicode Character Database's
// canonical and compatibility decompositions (data/text/latin_fold.csv); letters without one that cooks spell out in two
// (ß, æ, œ, ø, ł, þ) are listed there too. Other scripts stay as they are.
#pragma once

#include <string>
#include <string_view>

namespace bloomset::text {

/// The form of a name for comparing: never for printing.
std::string fold(std::string_view name);
/// The character at `at` of valid UTF-8 (a stray byte answers itself) and moves `at` behind it.
char32_t next_code_point(std::string_view text, std::size_t& at);
void append_utf8(std::string& out, char32_t code_point);
/// Place of the first byte that is not UTF-8 (overlong forms, surrogates and values above U+10FFFF are not); npos if all is well.
std::size_t first_not_utf8(std::string_view text);

}  // namespace bloomset::text
