// press/step_words.hpp - a step as one cook says it to another.
//
// `shake`, ice, 10-14 s, leave ice → "Shake lemon juice and syrup hard with 180 g ice cubes for 10–14 s. Strain off the
// ice." Conditions stand as written; what the text left open and the sheet settled (vessel, place, time) is said too.
#pragma once

#include <string>

#include "formula/formula.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::press {

/// What the words need beside the step: what settled its open conditions, and whether amounts belong into the sentence.
struct StepSetting {
  const sheet::StepLine* line = nullptr;  // vessel, place and seconds as used; none: only what is written
  bool something_there = false;           // the vessel holds something before this step
  bool amounts = false;                   // say amounts (pours); else a table beside it does
  text::Measures measures = text::Measures::metric;
};
std::string step_words(const formula::Step&, const StepSetting&);

/// `a, b and c`.
std::string listed(const std::vector<std::string>&);

}  // namespace bloomset::press
