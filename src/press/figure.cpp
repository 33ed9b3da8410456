#include "press/figure.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace bloomset::press {
namespace {

using matter::Property;
constexpr std::string_view no_break = "\u00A0";

std::string fixed(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value), std::chars_format::fixed, decimals).ptr;
  std::string digits(buffer.data(), end);
  const bool nothing = digits.find_first_not_of("0.") == std::string::npos;
  return value < 0.0 && !nothing ? "−" + digits : digits;
}

// The limit is where the rounded number starts, so that 99.96 reads 100 and not 100.0.
int decimals_of(double value, Digits digits) {
  const double size = std::fabs(value);
  switch (digits) {
    case Digits::whole:
      return 0;
    case Digits::one:
      return 1;
    case Digits::two:
      return 2;
    case Digits::three:
      return 3;
    case Digits::four:
      return 4;
    case Digits::agent:
      return 2;
    case Digits::amount:
      return size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2;
    case Digits::percent:
      return size >= 0.995 ? 1 : 2;
  }
  return 2;
}

constexpr std::array<PropertyLine, matter::property_count> lines = {{
    {Property::mass_g, "mass", "g", Digits::amount},
    {Property::volume_ml, "volume", "mL", Digits::amount},
    {Property::volume_20c_ml, "volume at 20 °C", "mL", Digits::amount},
    {Property::ice_g, "ice", "g", Digits::amount},
    {Property::foam_volume_ml, "foam", "mL", Digits::amount},
    {Property::density_kg_m3, "density", "kg/m³", Digits::whole},
    {Property::temperature_c, "temperature", "°C", Digits::one},
    {Property::abv_percent, "strength", "%vol", Digits::one},
    {Property::abv_percent_all_melted, "strength, melted", "%vol", Digits::one},
    {Property::ethanol_g, "ethanol", "g", Digits::amount},
    {Property::brix_percent, "Brix, true", "%", Digits::one},
    {Property::brix_read_percent, "Brix, refractometer", "%", Digits::one},
    {Property::sugars_g, "sugars", "g", Digits::amount},
    {Property::sugar_percent, "sugar", "% of mass", Digits::percent},
    {Property::sweetness_percent_sucrose, "sweet as sucrose", "%", Digits::percent},
    {Property::ph_25c, "pH at 25 °C", "", Digits::two},
    {Property::titratable_acidity_g_100g_citric, "acid as citric", "g/100 g", Digits::two},
    {Property::titratable_acidity_g_l_citric, "acid as citric", "g/L", Digits::one},
    {Property::freezing_point_c, "begins to freeze", "°C", Digits::one},
    {Property::water_activity, "water activity", "", Digits::three},
    {Property::heat_capacity_kj_kg_k, "heat capacity", "kJ/(kg K)", Digits::two},
    {Property::viscosity_mpa_s, "viscosity", "mPa s", Digits::one},
    {Property::refractive_index_20c, "refractive index", "at 20 °C", Digits::four},
    {Property::co2_volumes, "CO2", "volumes", Digits::one},
    {Property::energy_kcal, "energy", "kcal", Digits::whole},
}};
constexpr bool in_order() {
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (static_cast<std::size_t>(lines[i].property) != i) return false;
  return true;
}
static_assert(in_order());

// The document's own band (`-20 to -18 C`, `10-12 min`) with the signs of print.
std::string in_print(std::string written) {
  std::string out;
  for (std::size_t i = 0; i < written.size(); ++i) {
    const char c = written[i];
    if (c == '-')
      out += i > 0 && written[i - 1] != ' ' ? "–" : "−";
    else if (c == ' ')
      out += no_break;
    else
      out += c;
  }
  return out;
}

}  // namespace

std::string figure(double value, Digits digits) {
  if (!std::isfinite(value)) return std::string(not_given);
  const int decimals = decimals_of(value, digits);
  std::string out = fixed(value, decimals);
  const bool may_be_small = digits == Digits::amount || digits == Digits::agent || digits == Digits::percent;
  if (may_be_small && value != 0.0 && out.find_first_not_of("0.") == std::string::npos) return std::fabs(value) < 1e-9 ? out : "<0.01";
  return out;
}

Scaled scaled(double value, Digits digits, std::string_view unit) {
  const bool weighed = digits == Digits::amount || digits == Digits::agent, grams = unit == "g";
  constexpr double prints_as_ten_thousand = 9999.5;
  if (!weighed || !(grams || unit == "mL") || !(std::fabs(value) >= prints_as_ten_thousand)) return {value, digits, unit};
  const double large = value * 1e-3, size = std::fabs(large);
  return {large, size < 99.995 ? Digits::two : size < 999.95 ? Digits::one : Digits::whole, grams ? "kg" : "L"};
}

std::string figure(double number, Digits wanted, std::string_view in) {
  const auto [value, digits, unit] = scaled(number, wanted, in);
  std::string out = figure(value, digits);
  if (std::isfinite(value) && !unit.empty()) out.append(no_break).append(unit);
  return out;
}

std::string figure(const matter::Values& values, Property property) {
  const PropertyLine& line = line_of(property);
  return figure(values[property], line.digits, line.unit);
}

std::string duration(double seconds) {
  if (!std::isfinite(seconds)) return std::string(not_given);
  struct Step {
    double seconds;
    std::string_view unit;
  };
  static constexpr std::array<Step, 4> steps = {{{86400.0, "d"}, {3600.0, "h"}, {60.0, "min"}, {1.0, "s"}}};
  const double whole = std::round(seconds);
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    // Days only where a cook would say so: from two on. The rest in the next smaller unit; what is smaller still is noise.
    const double from = i == 0 ? 2.0 * steps[i].seconds : steps[i].seconds;
    if (whole < from) continue;
    const double small = steps[i + 1].seconds;
    const double in_small = std::round(whole / small);
    const double per = steps[i].seconds / small;
    const double big = std::floor(in_small / per), left = in_small - big * per;
    std::string out = figure(big, Digits::whole, steps[i].unit);
    if (left > 0.0) out.append(no_break).append(figure(left, Digits::whole, steps[i + 1].unit));
    return out;
  }
  return figure(whole, Digits::whole, "s");
}

std::string duration(const text::Range& seconds) { return in_print(text::print_duration(seconds)); }

std::string temperature(const text::Range& celsius) {
  std::string out = in_print(text::print_temperature(celsius));
  if (!out.empty() && out.back() == 'C') out.insert(out.size() - 1, "°");
  return out;
}

std::string temperature(double celsius) { return figure(celsius, Digits::one, "°C"); }

const PropertyLine& line_of(Property property) { return lines[static_cast<std::size_t>(property)]; }

}  // namespace bloomset::press
