// solve/code_holds.hpp - how often a warning does not come up when fruit, ice, tools and hands vary.
//
// Each of the first draws of a scatter is read as a whole sheet; a code counts as raised where one of its findings says stop or mind. Missed targets are left
// to their own rows. Codes that no draw raises are not listed. Callers: the command `scatter`, tests.
#pragma once

#include "solve/scatter.hpp"

namespace bloomset::solve {

inline constexpr std::uint64_t coded_draws = 256;  // a sheet costs some milliseconds

/// By name of code. Empty if it was stopped. Errors: compile's.
base::Result<std::vector<Hold>> code_holds(const ScatterAsked&);

}  // namespace bloomset::solve
