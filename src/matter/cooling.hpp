// matter/cooling.hpp - how long a vessel of liquid takes to cool or to warm.
//
//   C dT/dt = -h A (T - T_around),   t = C / (h A) ln[(T_0 - T_around) / (T_1 - T_around)]
// One temperature for liquid and vessel ("lumped"): true for thin liquids or while they are shaken or stirred. A gelling base that stands still
// is slower: use the coefficient for that. Ice, evaporation and a warming refrigerator are left out. The coefficient is the weakest input
// (+-25 to 40 %): from 55 to 10 C half a litre in a steel bottle stands 113 to 227 minutes in still air of 4 C, 9 in turned ice water.
#pragma once

#include <cstdint>

#include "units/quantity.hpp"

namespace bloomset::matter {

/// What cools and how fast heat leaves it.
struct Cooling {
  units::HeatCapacity capacity;     // liquid and vessel together, above 0
  double area_m2 = 0.0;             // wetted on the inside, above 0
  double coefficient_w_m2_k = 0.0;  // overall, above 0
  units::Temperature around;
};

/// Time from `start` to `end`. Infinite if `end` is not between `start` and the surroundings, zero if it is `start`.
units::Duration cool_time(const Cooling&, units::Temperature start, units::Temperature end);
/// Temperature after a time.
units::Temperature cooled(const Cooling&, units::Temperature start, units::Duration);
/// The overall coefficient [W/(m2 K)] that warmed or cooled a vessel from `start` to `end` over a mean difference to its surroundings.
double heat_transfer_coefficient_w_m2_k(units::HeatCapacity, double area_m2, units::Temperature start, units::Temperature end, units::Duration,
                                        units::TemperatureDifference mean_difference);

enum class Surrounding : std::uint8_t { still_air, moving_air, ice_water_turned, ice_water_standing };
/// Overall coefficients [W/(m2 K)]: the usual one and its span.
struct Film {
  double least, usual, most;
};
Film film(Surrounding);

}  // namespace bloomset::matter
