// solve/whiskers.hpp - how far the serve's readings swing, beside a sheet: scatter.hpp without its causes. Callers: the command `sheet`.
#pragma once

#include "solve/scatter.hpp"

namespace bloomset::solve {

/// A row for every property of the serve at service that varies or is there (of the last part, where there is no serve). Errors: scatter's. Empty if stopped.
base::Result<std::vector<PropertySpread>> whiskers(const Inputs&, const Course&);

}  // namespace bloomset::solve
