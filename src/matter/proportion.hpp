// matter/proportion.hpp - shares and their bases: what a percentage is a percentage of.
//
// Bar books give dilution as water over the drink before, or over the drink after; weight per volume is written as a percentage, although it is
// none; a strength law y = k x^n is known by two points. Each is one line, kept here once so that no page does it its own way.
#pragma once

#include <cmath>

#include "units/quantity.hpp"

namespace bloomset::matter {

/// Added over final, from added over initial (0 or more), in whatever the share is of: 0.45 of the initial is 0.31 of the final.
constexpr double share_of_final(double share_of_initial) { return share_of_initial / (1.0 + share_of_initial); }
/// Added over initial, from added over final (below 1).
constexpr double share_of_initial(double share_of_final) { return share_of_final / (1.0 - share_of_final); }

/// Mass of one thing per volume of the whole; 10 g/L is what a recipe calls 1 % w/v.
constexpr units::MassPerVolume mass_per_volume(units::Mass m, units::Volume v) { return {m.si / v.si}; }
constexpr double in_percent_w_v(units::MassPerVolume c) { return 0.1 * units::in_grams_per_litre(c); }

/// n of y = k x^n through two points of positive coordinates with different x.
inline double power_exponent(double x1, double y1, double x2, double y2) { return std::log(y2 / y1) / std::log(x2 / x1); }

}  // namespace bloomset::matter
