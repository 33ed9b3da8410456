// press/json.hpp - the contract's documents as JSON values, in its keys and its order.
//
// Numbers are unrounded; what cannot be given is null. Files print them (json.cpp, check.cpp); of the shelf, which is no sheet, cli/shelf.cpp. Nobody else
// builds JSON.
#pragma once

#include "base/finding.hpp"
#include "matter/properties.hpp"
#include "sheet/sheet.hpp"
#include "solve/scatter.hpp"
#include "text/json.hpp"

namespace bloomset::press {

/// `{"schema": 1}`: every document begins so.
text::Json document();
/// All property keys, set into an object.
void set_properties(text::Json& object, const matter::Values&);
text::Json finding_json(const base::Finding&, const base::Sources&);
/// A command without a document has no sources: its findings point at no file.
text::Json findings_json(const std::vector<base::Finding>&, const base::Sources&);
/// A row of a property's spread.
text::Json spread_json(const solve::PropertySpread&);
text::Json target_json(const sheet::TargetLine&);
/// One fault of a text; its place is null where none is known.
text::Json fault_json(const base::Diagnostic&, const base::Sources&);
/// A document as it goes out: indented, with a newline at its end.
std::string printed(const text::Json&);

}  // namespace bloomset::press
