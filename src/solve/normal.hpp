// solve/normal.hpp - the normal law: from a share of all cases to how many standard deviations that is.
//
// Wichura, "Algorithm AS 241: The percentage points of the normal distribution", Applied Statistics 37 (1988) 477-484, PPND16: about one part in 10^16.
// Its far tail (a share below 1.4e-11) is left out, since no draw reaches it. Callers: scatter.
#pragma once

namespace bloomset::solve {

/// z with Phi(z) = share; for 1.4e-11 < share < 1 - 1.4e-11.
double normal_quantile(double share);

}  // namespace bloomset::solve
