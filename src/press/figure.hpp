// press/figure.hpp - numbers as they stand on paper: sensible digits, a true minus sign, no rounding before here.
//
// Masses and volumes: from 100 none, from 10 one, below two decimals (a scale of 0.01 g shows no more). Percents: from
// 1 one decimal, below two. From 10,000 g or mL on they read in kg or L. What is there but would print as nothing reads `<0.01`; what cannot be given reads
// `—`.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "matter/properties.hpp"
#include "text/amount.hpp"

namespace bloomset::press {

inline constexpr std::string_view not_given = "—";

/// How many decimals a kind of number gets.
enum class Digits : std::uint8_t { whole, one, two, three, four, amount, agent, percent };

/// The number alone. NaN and infinities read `—`.
std::string figure(double, Digits);
/// A number in the unit it is printed in: grams and millilitres of a size that no scale shows become kg and L.
struct Scaled {
  double value;
  Digits digits;
  std::string_view unit;
};
Scaled scaled(double, Digits, std::string_view unit);

/// Number, no-break blank, unit, scaled; without the unit where the number cannot be given.
std::string figure(double, Digits, std::string_view unit);
/// Grams of an agent or of a charger, as fine as its scale.
inline std::string fine_grams(double g) { return figure(g, Digits::agent, "g"); }

/// `12 s`, `1 min 30 s`, `3 h`, `2 d`; a no-break blank inside.
std::string duration(double seconds);
/// Bands as written in the document, with dashes and minus signs of print: `10–12 min`, `−20 to −18 °C`.
std::string duration(const text::Range& seconds);
std::string temperature(const text::Range& celsius);
std::string temperature(double celsius);

/// How one property is named and measured on paper.
struct PropertyLine {
  matter::Property property;
  std::string_view label, unit;
  Digits digits;
};
const PropertyLine& line_of(matter::Property);
/// `13.8 %vol`.
std::string figure(const matter::Values&, matter::Property);

}  // namespace bloomset::press
