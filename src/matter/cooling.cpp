// matter/cooling.cpp - the logarithm, and the coefficients of data/matter/cooling.csv.
#include "matter/cooling.hpp"

#include <array>
#include <cmath>
#include <limits>

#include "matter/cooling_table.hpp"

namespace bloomset::matter {
namespace {

double rate_1_s(const Cooling& c) { return c.coefficient_w_m2_k * c.area_m2 / c.capacity.si; }

}  // namespace

units::Duration cool_time(const Cooling& c, units::Temperature start, units::Temperature end) {
  const double ratio = (start - c.around) / (end - c.around);
  if (!(ratio >= 1.0) || !std::isfinite(ratio)) return {std::numeric_limits<double>::infinity()};
  return {std::log(ratio) / rate_1_s(c)};
}

units::Temperature cooled(const Cooling& c, units::Temperature start, units::Duration time) {
  return c.around + (start - c.around) * std::exp(-rate_1_s(c) * time.si);
}

double heat_transfer_coefficient_w_m2_k(units::HeatCapacity capacity, double area_m2, units::Temperature start, units::Temperature end, units::Duration time,
                                        units::TemperatureDifference mean_difference) {
  return capacity.si * std::abs((end - start).si) / (area_m2 * time.si * mean_difference.si);
}

Film film(Surrounding surrounding) {
  constexpr std::array films = {&table::film_still_air, &table::film_moving_air, &table::film_ice_water_turned, &table::film_ice_water_standing};
  const auto& row = *films[static_cast<std::size_t>(surrounding)];
  return {row[0], row[1], row[2]};
}

}  // namespace bloomset::matter
