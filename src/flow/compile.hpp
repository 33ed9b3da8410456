// flow/compile.hpp - from a document to a flowsheet: names resolved, parts put in order, steps turned into units.
//
// Everything a reader could get wrong is said here, all at once, with its place: unknown things, vessels and parts,
// parts that use themselves, more than `all`, acts without what they need. What is taken for granted becomes a mark.
#pragma once

#include <optional>
#include <vector>

#include "base/result.hpp"
#include "flow/flowsheet.hpp"
#include "formula/formula.hpp"
#include "kit/kit.hpp"
#include "larder/larder.hpp"

namespace bloomset::flow {

/// Makes the flowsheet of a formula for a number of serves (nothing: the document's). Errors: bad_input with every fault.
base::Result<Flowsheet> compile(const formula::Formula&, const larder::Larder&, const kit::Kit&, std::optional<int> serves = std::nullopt);

/// The bracket of a bought thing, as the larder reads it.
std::vector<larder::Qualifier> bracket_of(const formula::Take&);

}  // namespace bloomset::flow
