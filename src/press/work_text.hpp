// press/work_text.hpp - work on the page: what goes in, what to do, what is lost. The same tables for a part and for the serve.
//
// Takes: step, thing, grams, volume or pieces, kitchen measure, both percentages. Steps: the words, and what is in the
// vessel after. Findings of a take or step stand directly below it.
#pragma once

#include <string>
#include <vector>

#include "formula/formula.hpp"
#include "press/finding_text.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::press {

/// `place`: the part's name as findings call it.
void print_takes(Page&, FindingDesk&, const std::string& place, const std::vector<sheet::TakeLine>&);

/// How steps are said: with amounts (pours) or beside a table of them.
struct WorkWords {
  bool amounts = false;
  text::Measures measures = text::Measures::metric;
};
/// `written`: the document's own steps, which `StepLine::number` counts.
void print_steps(Page&, FindingDesk&, const std::string& place, const std::vector<sheet::StepLine>&, const std::vector<formula::Step>& written, WorkWords);
/// `2 : 1 : 0.75 (spirit : syrup : lime juice)`.
void print_ratio(Page&, const std::optional<sheet::Ratio>&);
void print_losses(Page&, const std::vector<sheet::LossLine>&);

}  // namespace bloomset::press
