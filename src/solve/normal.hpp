// solve/normal.hpp - the normal law: from a share of all cases to how many standard deviations that is.
//
// Wichura, "Algorithm AS 241: The percentage points of the normal distribution", Applied Statistics 37 (1988) 477-484, PPND16: about one part in 10^16.
// Its far tail (a share below 1.4e-11) is left out, since no draw reaches it. Callers: scatter.
#pragma once

#include "matter/lanes.hpp"

namespace bloomset::solve {

/// z with Phi(z) = share; for 1.4e-11 < share < 1 - 1.4e-11.
double normal_quantile(double share);

/// The same by polynomials in cells, a third of the time in eight lanes: within 1e-12; for 2^-15 < share < 1 - 2^-15.
double drawn_normal(double share);
matter::Lanes drawn_normal(const matter::Lanes& share);

}  // namespace bloomset::solve
