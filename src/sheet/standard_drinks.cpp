#include "sheet/standard_drinks.hpp"

#include <charconv>
#include <string>
#include <string_view>

#include "matter/density.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

std::optional<double> standard_drink_g(std::string_view region) {
  for (const auto& row : text::table_rows(embedded("sheet/standard_drinks.csv"))) {
    if (row[0] != region) continue;
    double amount = 0.0;
    std::from_chars(row[3].data(), row[3].data() + row[3].size(), amount);
    return row[2] == "volume" ? amount * matter::ethanol_water_density(units::mass_percent(100.0), units::celsius(20.0)).si * 1e-3 : amount;
  }
  return std::nullopt;
}

StandardDrinks standard_drinks(double ethanol_g) {
  static const StandardDrinks each = {standard_drink_g("us").value(), standard_drink_g("uk").value(), standard_drink_g("au").value(),
                                      standard_drink_g("eu").value()};
  return {ethanol_g / each.us, ethanol_g / each.uk, ethanol_g / each.au, ethanol_g / each.eu};
}

}  // namespace bloomset::sheet
