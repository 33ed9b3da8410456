// sheet/out_of_cold.hpp - how long food may stand on a table: the published clocks, by jurisdiction (data/sheet/out_of_cold.csv).
//
// For food that calls for control of time and temperature (tcs.hpp). A row is a maximum for one stretch out of the cold; where a room is warm, a shorter
// row of the same jurisdiction takes the place of its other. Said, not judged, where no step of the document stands out of the cold. Private to sheet.
#pragma once

#include <string>
#include <vector>

#include "sheet/readings.hpp"

namespace bloomset::sheet {

struct ColdClock {
  std::string jurisdiction;
  double above_c = 0.0;  // the food counts as out of the cold above it
  double hours = 0.0;
  std::string source;
};
/// The row that holds in a room, one a jurisdiction; the shortest first.
std::vector<ColdClock> cold_clocks(double room_c);

/// `2 h (US) or 4 h (England, Wales and Northern Ireland)`.
std::string clock_words(double room_c);

}  // namespace bloomset::sheet
