// sheet/ratio.hpp - a mixed drink as a bartender counts it: `2 : 1 : 0.75`, parts by volume.
//
// Only where all that goes in is liquid and measured by volume; ice, dashes, drops, pieces and what is `if wanted` are left aside. The unit is the thing for
// which most numbers come out whole, and quarters stand where they lie within 3 % (a jigger is no closer: practice). Private to sheet.
#pragma once

#include "sheet/readings.hpp"

namespace bloomset::sheet {

std::optional<Ratio> ratio_of(const Kitchen&, std::size_t part, const std::vector<TakeLine>&);

/// The numbers of volumes (all above 0) in that unit; two decimals where quarters do not do.
std::vector<double> ratio_of_volumes(const std::vector<double>& ml);

}  // namespace bloomset::sheet
