// sheet/ledger.hpp - who brings what, and who gets it: the masses of one run, gathered once.
//
// Bases differ: an `ahead` part is worked out for one batch, everything else for one serve; `times` brings both to all
// serves. A part is a spring that its users draw from: what they draw less than it gives is left over and stays; what they
// draw beyond it is short, and counts as brought in from outside the document (somebody has to make it, and it is served).
// So in = served + stays + lost + gas holds by construction with nothing below zero, and a test says so.
// Private to sheet.
#pragma once

#include <vector>

#include "flow/flowsheet.hpp"
#include "flow/run.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::sheet {

struct PartLedger {
  double times = 1.0;                       // basis to all serves
  double base_kg = 0.0;                     // per basis: what percentages are of
  double finished_kg = 0.0;                 // per basis: liquid, ice, solids, asides
  double drawn_kg = 0.0;                    // by all users, all serves
  double drawn_by_batches_kg = 0.0;         // of it, by parts made ahead: does not grow with serves
  double solids_kg = 0.0, asides_kg = 0.0;  // of `finished_kg`
  double short_of_outputs_kg = 0.0;         // taken of its other outputs beyond what was kept back there, all serves
  bool drawn = false;                       // somebody takes of it
  bool in_use = false;                      // it comes into the serve (or there is no serve)
  double left_kg() const { return times * finished_kg - drawn_kg; }
};

/// One take as it came out: its own mass and temperature, per basis of its part.
struct TakeLedger {
  double kg = 0.0;
  double liquid_kg = 0.0;  // of it
  double celsius = 25.0;
  bool there = false;  // `maybe` takes are not
};

/// What stands in the vessel when a step is over, per basis.
struct StepLedger {
  double kg = 0.0;
  double came_kg = 0.0, left_kg = 0.0;  // by takes of this step, by its losses
};

struct Ledger {
  std::vector<TakeLedger> takes;  // beside Flowsheet::takes
  std::vector<StepLedger> steps;  // beside Flowsheet::steps
  std::vector<double> losses_kg;  // beside Flowsheet::losses, per basis
  std::vector<PartLedger> parts;  // beside Flowsheet::parts
  Balance balance;
};

Ledger ledger_of(const flow::Flowsheet&, const flow::Batch<1>&);

/// Temperature of a stream [C]; a stream of ice answers its own.
double stream_celsius(const flow::Stream&);

}  // namespace bloomset::sheet
