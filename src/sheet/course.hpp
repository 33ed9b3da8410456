// sheet/course.hpp - a formula as it is cooked: part by part, step by step, with what to weigh, for how long, and how near is good enough.
//
// Amounts are what the cook has before him at once: of a part made ahead one batch, of a part to order that is shaken or stirred one round of the tin, else one
// serve. Which end of a time window is hard is a fact of the act (data/sheet/windows.csv); the document's `hard` goes first. How near is good enough is two
// standard deviations of the scale, jigger or spoon by which the amount is measured (data/flow/variation.csv), or the band that the document gives.
// A part stands behind those it is made of, else in the document's order. Caller: the counter of the page.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sheet/sheet.hpp"

namespace bloomset::sheet {

/// A thing to weigh or measure into a step.
struct CourseTake {
  std::uint16_t number = 0;                       // as in the flow picture: the ice behind the others, the bath behind the ice
  std::string thing, label;                       // larder name or part; as printed, with its bracket
  std::string look;                               // larder family of the thing; of a made one its part's larger share
  double mass_g = 0.0;                            // NaN: a take that is only `maybe`, which is in no balance
  double volume_ml = 0.0;                         // NaN where it says nothing
  std::optional<double> pieces;                   // where it is counted
  std::string written, measure;                   // as written, for the part's own basis; kitchen measure of this amount, may be empty
  std::optional<double> good_low_g, good_high_g;  // nothing where it is counted, or all that there is goes in
  std::string good_source;                        // of the width: `practice`, `memory: …`, a key of data/sources.bib, or `the document`
  int first_of = 1;                               // the how manieth time the thing goes into this part
  bool made = false, maybe = false;
};

struct CourseWindow {
  double low_s = 0.0, high_s = 0.0;  // equal where the document says one time
  bool low_hard = false, high_hard = false;
  std::string why;  // what happens beyond the hard end; empty: none is hard, or the document said so
};

struct CourseStep {
  std::uint16_t number = 0;
  std::vector<CourseTake> takes;
  std::optional<CourseWindow> window;    // nothing where the document gives no time
  const StepLine* line = nullptr;        // what the sheet says of it; nullptr: a step that is only `maybe`
  double mass_g = 0.0, volume_ml = 0.0;  // in the vessel after it, of the amount at hand
  // Indices into the sheet's findings: of this step, and at a part's last step those of the whole part. Cautions: what of them a cook must know, the heavy
  // first; not how the model reads a thing, nor what will be left over.
  std::vector<std::size_t> findings, cautions;
};

struct Course {
  std::size_t index = 0;  // into the flowsheet's parts: the serve is the last
  bool serve = false;
  double per = 1.0;  // how many of the part's own basis (a batch, a serve) are at hand at once
  int rounds = 1;
  std::string stands_for;  // "one batch", "one round of 2", "one serve"
  std::vector<CourseStep> steps;
};

/// The sheet, and its courses in the order of cooking. `line` points into the sheet.
struct Counter {
  std::unique_ptr<Sheet> sheet;
  std::vector<Course> courses;
};

/// Errors are make_sheet's.
base::Result<Counter> make_counter(const Inputs&);

/// The end that is hard by the act alone: "both", "shorter", "longer", "neither".
std::string_view hard_end(formula::Act);

}  // namespace bloomset::sheet
