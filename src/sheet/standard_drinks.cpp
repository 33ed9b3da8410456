#include "sheet/standard_drinks.hpp"

#include <charconv>
#include <string>
#include <string_view>

#include "matter/density.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

StandardDrinks standard_drinks(double ethanol_g) {
  static const StandardDrinks grams_each = [] {
    const double ethanol_g_ml = matter::ethanol_water_density(units::mass_percent(100.0), units::celsius(20.0)).si * 1e-3;
    StandardDrinks one;
    for (const auto& row : text::table_rows(embedded("sheet/standard_drinks.csv"))) {
      double amount = 0.0;
      std::from_chars(row[3].data(), row[3].data() + row[3].size(), amount);
      const double grams = row[2] == "volume" ? amount * ethanol_g_ml : amount;
      double& of = row[0] == "us" ? one.us : row[0] == "uk" ? one.uk : row[0] == "au" ? one.au : one.eu;
      of = grams;
    }
    return one;
  }();
  return {ethanol_g / grams_each.us, ethanol_g / grams_each.uk, ethanol_g / grams_each.au, ethanol_g / grams_each.eu};
}

}  // namespace bloomset::sheet
