// gas/foam.cpp - the cap on overrun and the guess of retention.
#include "gas/foam.hpp"

#include <algorithm>

#include "gas/bottle_table.hpp"

namespace bloomset::gas {

Retention retention() { return {table::retention_prior, table::retention_least, table::retention_most}; }

Standing standing(double upper_bound_overrun, double retention) {
  const double kept = upper_bound_overrun * retention, stands = std::min(kept, table::foam_overrun_most);
  return {stands, kept - stands};
}

double room_rise_ppm(Gas gas, units::Mass m, units::Volume room, units::Volume one_mole) { return 1e6 * amount(gas, m).si * one_mole.si / room.si; }

}  // namespace bloomset::gas
