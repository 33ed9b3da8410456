// solve/solve.hpp - the model asked backwards, and how sure it is.
//
// Where to look: balance.hpp (amounts that meet targets, and which wishes contradict), scatter.hpp (how a drink varies when fruit, ice, tools and
// hands vary, and what drives it). Both run a flowsheet many times; a formula is compiled once. The only place that knows NLopt.
#pragma once

#include "sheet/sheet.hpp"

namespace bloomset::solve {

/// As a sheet is asked for: formula, larder, kit, serves.
using sheet::Inputs;

}  // namespace bloomset::solve
