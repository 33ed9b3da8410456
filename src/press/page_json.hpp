// press/page_json.hpp - what the page shows beside a document and its sheet, as JSON in the page's own keys.
//
// The counter, a pasted list, larder and kit row by row, the closed lists of words for completion, names, revisions side by side. What a document says has
// press/outline_json.hpp. All are whole documents, with their `schema`. Caller: the page's server, which prints them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "formula/formula.hpp"
#include "kit/kit.hpp"
#include "larder/draft.hpp"
#include "larder/larder.hpp"
#include "sheet/course.hpp"
#include "sheet/lines.hpp"
#include "text/json.hpp"

namespace bloomset::press {

/// A make, part by part. `formula` is the document it was made from. Amounts are what the cook has before him at once, and each course says `for` what they
/// are: "one batch", "one round of 2", "one serve".
text::Json counter_json(const sheet::Counter&, const formula::Formula& formula, const base::Sources&);
/// `lines` are what was read.
text::Json lines_json(const sheet::LinesRead&, const std::string& lines);
/// Line by line, before and after.
text::Json compare_json(std::string_view before, std::string_view after);

text::Json larder_json(const larder::Larder&);
text::Json kit_json(const kit::Kit&);
/// Acts with their keys, targets with their units, units, codes of findings; each with what it means in a line.
text::Json words_json();
/// Names of the larder nearest to the words, the best first.
text::Json names_json(const larder::Larder&, std::string_view words, std::size_t most);
/// The text of a larder document with one new thing, and what is wrong with it beside the larder in force.
text::Json draft_json(const larder::Draft&, const larder::Larder& in_force);

enum class ReadKind { formula, larder, kit };
/// What is wrong with a document of that kind, beside larder and kit in force. Of a formula also what compile says: unknown things, vessels, parts.
text::Json read_json(ReadKind, const std::string& name, const std::string& text, const larder::Larder&, const kit::Kit&, const formula::Borrower&);

}  // namespace bloomset::press
