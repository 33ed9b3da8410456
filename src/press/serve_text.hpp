// press/serve_text.hpp - the serve on the page: the glass, the pours, what is in it half a minute after the last one.
#pragma once

#include "formula/formula.hpp"
#include "press/finding_text.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::press {

void print_serve(Page&, FindingDesk&, const sheet::ServeSheet&, const formula::Serve&, text::Measures);
void print_target(Page&, const sheet::TargetLine&);
/// The targets, met or missed, with the value that was found.
void print_targets(Page&, const std::vector<sheet::TargetLine>&);
/// Order list, standard drinks, allergens, findings without a place of their own, and the balance that closes the sheet.
void print_foot(Page&, FindingDesk&, const sheet::Sheet&);

}  // namespace bloomset::press
