// http/changes.hpp - what the page asks to be done to a document, read into the changes that formula knows.
//
// The words of an act are the wire's (Act in api/openapi.json); each says which fields it has, and one that it has not is a fault. Caller: bench_calls.
#pragma once

#include <vector>

#include "base/finding.hpp"
#include "formula/patch.hpp"
#include "text/document.hpp"

namespace bloomset::http {

/// `edits`: texts in places of the document as it came.
std::vector<base::Edit> edits_of(const text::Fields&, text::Faults&);
/// `acts`, in their order.
std::vector<formula::Change> acts_of(const text::Fields&, text::Faults&);

}  // namespace bloomset::http
