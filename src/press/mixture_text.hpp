// press/mixture_text.hpp - what every command of the bench prints alike: the mixture that was named, and the findings at the end.
//
// A line a thing with its grams and its share of the whole. Called by the texts of mix, chill, dose and charge.
#pragma once

#include "press/page.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::press {

void print_mixture(Page&, const sheet::Mixture&);

/// All findings below a gap, `stop` first; nothing where there is none.
void print_findings(Page&, const std::vector<base::Finding>&);

}  // namespace bloomset::press
