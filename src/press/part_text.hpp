// press/part_text.hpp - one part on the page: what goes in, what to do, what is lost, what it is in the end.
#pragma once

#include "formula/formula.hpp"
#include "press/finding_text.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::press {

/// `part` is the document's own text of the same part; `serves` that of the sheet.
void print_part(Page&, FindingDesk&, const sheet::PartSheet&, const formula::Part& part, text::Measures, int serves);

}  // namespace bloomset::press
