// solve/measures.hpp - amounts a kitchen can measure: steps of scale, jigger and spoon, and how a new amount is written.
//
// Callers: solve, the page's server.
#pragma once

#include "text/amount.hpp"

namespace bloomset::solve {

/// Coarse as a cook would first try, then finer.
inline constexpr int fineness_levels = 3;

/// The amount, scaled and rounded to a step of that fineness (0 coarse), in its own unit and written so that reading it back gives the same.
/// Pieces, drops and dashes are whole. A written range becomes one number. Never rounded to nothing.
text::Amount practical(const text::Amount&, double times, int fineness, text::Measures);
/// The amount scaled, to fifteen digits.
text::Amount scaled(const text::Amount&, double times, text::Measures);

}  // namespace bloomset::solve
