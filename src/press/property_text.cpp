#include "press/property_text.hpp"

#include <array>
#include <cmath>
#include <span>

#include "press/figure.hpp"

namespace bloomset::press {
namespace {

using matter::Property;

constexpr std::array<Property, matter::property_count> everything = {Property::mass_g,
                                                                     Property::volume_ml,
                                                                     Property::volume_20c_ml,
                                                                     Property::ice_g,
                                                                     Property::foam_volume_ml,
                                                                     Property::temperature_c,
                                                                     Property::abv_percent,
                                                                     Property::abv_percent_all_melted,
                                                                     Property::ethanol_g,
                                                                     Property::sugar_percent,
                                                                     Property::sugars_g,
                                                                     Property::sweetness_percent_sucrose,
                                                                     Property::brix_percent,
                                                                     Property::brix_read_percent,
                                                                     Property::titratable_acidity_g_100g_citric,
                                                                     Property::titratable_acidity_g_l_citric,
                                                                     Property::ph_25c,
                                                                     Property::freezing_point_c,
                                                                     Property::water_activity,
                                                                     Property::co2_volumes,
                                                                     Property::density_kg_m3,
                                                                     Property::viscosity_mpa_s,
                                                                     Property::refractive_index_20c,
                                                                     Property::heat_capacity_kj_kg_k,
                                                                     Property::energy_kcal};
constexpr std::array<Property, 13> of_a_part = {Property::mass_g,        Property::volume_ml,         Property::ice_g,
                                                Property::temperature_c, Property::abv_percent,       Property::density_kg_m3,
                                                Property::sugar_percent, Property::brix_read_percent, Property::titratable_acidity_g_100g_citric,
                                                Property::ph_25c,        Property::freezing_point_c,  Property::water_activity,
                                                Property::co2_volumes};

// Nothing of it is there, and a line would only say so. What prints as nothing at its last digit is nothing.
bool absent(const matter::Values& values, Property property) {
  const auto none = [&](Property p) { return std::fabs(values[p]) < 5e-4; };
  switch (property) {
    case Property::ice_g:
    case Property::foam_volume_ml:
    case Property::co2_volumes:
    case Property::ethanol_g:
    case Property::abv_percent:
    case Property::sugar_percent:
    case Property::sugars_g:
    case Property::sweetness_percent_sucrose:
    case Property::brix_percent:
    case Property::titratable_acidity_g_100g_citric:
    case Property::titratable_acidity_g_l_citric:
    case Property::energy_kcal:
      return none(property);
    case Property::abv_percent_all_melted:
      return none(property) || none(Property::ice_g);
    default:
      return false;
  }
}

std::string number_and_unit(double value, const PropertyLine& line, std::size_t number_wide) {
  const Scaled shown = scaled(value, line.digits, line.unit);
  const std::string number = right(figure(shown.value, shown.digits), number_wide);
  return std::isnan(value) ? number : number + " " + std::string(shown.unit);
}

void print_table(Page& page, std::size_t indent, const matter::Values& values, std::span<const Property> wanted) {
  std::vector<std::string> cells;
  for (const Property property : wanted) {
    if (absent(values, property)) continue;
    const PropertyLine& line = line_of(property);
    cells.push_back(left(line.label, 19) + number_and_unit(values[property], line, 8));
  }
  const std::size_t rows = (cells.size() + 1) / 2;
  for (std::size_t row = 0; row < rows; ++row)
    page.line(std::string(indent, ' ') + left(cells[row], 39) + (row + rows < cells.size() ? cells[row + rows] : std::string()));
}

}  // namespace

void print_properties(Page& page, std::size_t indent, const matter::Values& values) { print_table(page, indent, values, everything); }

void print_before_after(Page& page, std::size_t indent, const matter::Values& before, const matter::Values& after) {
  // Numbers stand below the end of the column's name, units behind them.
  constexpr std::size_t label_wide = 24, number_wide = 10, cell_wide = 22;
  page.line(std::string(indent, ' ') + left("", label_wide) + left(right("before", number_wide), cell_wide) + right("after", number_wide));
  for (const Property property : everything) {
    if (absent(before, property) && absent(after, property)) continue;
    const PropertyLine& line = line_of(property);
    page.line(std::string(indent, ' ') + left(line.label, label_wide) + left(number_and_unit(before[property], line, number_wide), cell_wide) +
              number_and_unit(after[property], line, number_wide));
  }
}

void print_part_properties(Page& page, std::size_t indent, const matter::Values& values) { print_table(page, indent, values, of_a_part); }

}  // namespace bloomset::press
