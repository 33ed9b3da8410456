// http/changes.hpp - what the page asks to be done to a document, read into the changes that formula knows.
//
// The words of an act are the wire's (Act in api/openapi.json); each says which fields it has, and one that it has not is a fault. Caller: bench_calls.
#pragma once

#include <vector>

#include "base/finding.hpp"
#include "formula/patch.hpp"
#include "sheet/scaling.hpp"
#include "text/document.hpp"

namespace bloomset::http {

/// `edits`: texts in places of the document as it came.
std::vector<base::Edit> edits_of(const text::Fields&, text::Faults&);
/// `acts`, in their order.
std::vector<formula::Change> acts_of(const text::Fields&, text::Faults&);

/// The document's text at another size: amounts of its own parts rounded to what a kitchen can measure, bottle, chargers and serves as scaled. Borrowed
/// parts are scaled in their own document, so that here they stay. `written` was read from `text`. Errors: formula::changed's.
base::Result<std::string> resized(std::string text, const formula::Formula& written, const sheet::Scaled& to, const formula::Borrower&);

}  // namespace bloomset::http
