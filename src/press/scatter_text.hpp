// press/scatter_text.hpp - how far properties swing, as a table; beside a sheet and in `scatter`.
#pragma once

#include <vector>

#include "press/page.hpp"
#include "solve/scatter.hpp"

namespace bloomset::press {

/// A heading a place, a line a property: what one in twenty stays below, half, and one in twenty is above.
void print_spreads(Page&, const std::vector<solve::PropertySpread>&);

}  // namespace bloomset::press
