// texture/words.hpp - numbers and lists in sentences. Used by this module only, which may not see the text module: a number is given three
// significant digits, as a cook reads it; what is computed with is never rounded.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace bloomset::texture {

/// Three significant digits, no exponent, no trailing zeros: 5.66, 0.9, 120. Not a number: "?".
std::string shown(double value);
/// "5.66 g".
std::string grams_shown(double grams);
/// "a, b and c".
std::string joined(std::span<const std::string> words);
/// First letter in upper case (ASCII).
std::string sentence(std::string_view words);

}  // namespace bloomset::texture
