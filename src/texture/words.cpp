#include "texture/words.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace bloomset::texture {

std::string shown(double value) {
  if (!std::isfinite(value)) return "?";
  if (value == 0.0) return "0";
  const int digits = 2 - static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double step = std::pow(10.0, -digits);
  const double rounded = std::round(value / step) * step;
  std::array<char, 64> buffer{};
  const auto [end, fault] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), rounded, std::chars_format::fixed, digits > 0 ? digits : 0);
  if (fault != std::errc{}) return "?";
  std::string text(buffer.data(), end);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

std::string grams_shown(double grams) { return shown(grams) + " g"; }

std::string joined(std::span<const std::string> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

std::string sentence(std::string_view words) {
  std::string out(words);
  if (!out.empty() && out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

}  // namespace bloomset::texture
