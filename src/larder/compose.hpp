// larder/compose.hpp - from a row to a kilogram of matter.
//
// Fruit: sugars are scaled until all dissolved matter is the row's Brix, acids until the model's titratable acidity is the row's,
// and potassium (the cations that were not analysed) is booked until the charge balance gives the row's pH; the three are
// repeated together until nothing moves. Litre: water is added until the model's volume at 20 C is one litre.
// Limits: a fruit's acids keep the listed proportions; buffering by protein is not counted.
#pragma once

#include <string>

#include "larder/row.hpp"

namespace bloomset::larder {

/// One kilogram of the thing (sums to 1), or in `problem` why the row's numbers contradict each other.
struct Composed {
  matter::Composition per_kg;
  std::string problem;
};
Composed compose(const Row&);

/// All dissolved matter that does not boil away, as a share of the mass: what `brix` means (true Brix / 100).
double dissolved_share(const matter::Composition&);

}  // namespace bloomset::larder
