// press/property_text.hpp - properties as a table of two columns, grouped as one asks: how much, how strong, how sweet
// and sour, how cold and thick, what it feeds.
#pragma once

#include "matter/properties.hpp"
#include "press/page.hpp"

namespace bloomset::press {

/// All properties; what is there in no amount at all (no foam, no alcohol, no CO2) is left out.
void print_properties(Page&, std::size_t indent, const matter::Values&);
/// The same before and after something was done, a line each.
void print_before_after(Page&, std::size_t indent, const matter::Values& before, const matter::Values& after);
/// Those a cook asks of a part before it is served.
void print_part_properties(Page&, std::size_t indent, const matter::Values&);

}  // namespace bloomset::press
