// flow/vary.hpp - which numbers of a flowsheet scatter, how far, and what a cook calls that.
//
// A pass behind `compile`, made for those who ask for scatter only: a sheet does not pay for making up each juice a little stronger and a
// little weaker. It gives each thing bought one more knob a property (deviations, nominally 0, so that a run is what it was), and fills
// `Flowsheet::variation` from the document's bands, the larder's variability and the table of variation.hpp. Called by solve.
#pragma once

#include <string>
#include <vector>

#include "flow/flowsheet.hpp"

namespace bloomset::flow {

/// Fills `variation`, `departures` and `draws_a_run` of a flowsheet fresh from compile. One thing with one bracket is one bottle or crate:
/// all its takes depart together. The larder is the one that it was compiled with.
void vary(Flowsheet&, const larder::Larder&);

/// The row of the table by which a knob of a unit varies where the document gives no band: "amount by jigger", "time as written".
std::string measured_how(const Flowsheet&, const Unit&, Origin of_unit, std::uint32_t knob);

}  // namespace bloomset::flow
