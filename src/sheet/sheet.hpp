// sheet/sheet.hpp - everything computed for a formula, for a number of serves, a kit and a larder: one struct.
//
// `make_sheet` runs the flowsheet once and reads what a cook wants to know; `findings.cpp` joins codes with words.
// Numbers are in the wire's units (docs/program.md) since this is what press prints and the API sends.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "base/result.hpp"
#include "flow/flowsheet.hpp"
#include "matter/properties.hpp"

namespace bloomset::sheet {

struct TakeLine {
  std::string thing;
  std::uint16_t step = 0;
  double mass_g = 0.0;
  double volume_ml = 0.0;  // at 20 C, bought things; NaN where it says nothing (solids, ice)
  std::optional<double> pieces;
  double percent_of_base = 0.0, percent_of_total = 0.0;  // NaN where there is no base
  std::string measure;                                   // kitchen measure beside the grams; may be empty
  std::string written;                                   // the amount as written
  bool agent = false, ice = false, maybe = false, made = false;
  base::Span span;
};

struct StepLine {
  std::uint16_t number = 0;
  std::string act, vessel, place;
  matter::Values after;  // NaN everywhere if there is nothing in the vessel yet
  double seconds = 0.0;
  base::Span span;
};

/// Liquids by volume, as one counts them in parts: 2, 1, 0.75.
struct Ratio {
  std::vector<double> parts;
  std::vector<std::string> things;
};

struct LossLine {
  std::string kind;  // evaporates, sticks, pulp, stays, gas
  std::uint16_t step = 0;
  double mass_g = 0.0;
};

/// A texture agent taken into a part: its dose against the bands of its use, and what the rule of setting predicts of it in this liquid.
struct AgentLine {
  std::string thing;
  double mass_g = 0.0;
  double percent_of_base = 0.0, percent_of_total = 0.0;  // NaN where there is no base
  std::string effect;                                    // whose band the dose is held against: "soft gel"; empty: the agent has no band for it
  std::string dose_is;                                   // below, within, above; empty with `effect`
  std::optional<double> sets_at_c, melts_at_c;
  std::string gel_class, verdict;  // texture's words: none to firm; sets, sets soft, thickens, will not set. Empty where nothing can be asked
};

/// A charged part in its bottle. Overruns are of the foam that stands [percent].
struct SiphonLine {
  std::string vessel;
  double fill_fraction = 0.0;  // of the fill line
  int charges = 0;
  double peak_bar_gauge = 0.0, at_service_bar_gauge = 0.0, if_warm_bar_gauge = 0.0;
  double overrun_first = 0.0, overrun_mean = 0.0, overrun_last = 0.0;
  std::optional<double> portions;  // of one serve's weight, in a batch
};

struct PartSheet {
  std::string name;
  bool ahead = false;
  matter::Values values;  // of the finished batch, or of one serve
  double batch_mass_g = 0.0, used_per_serve_g = 0.0, batches = 1.0, left_over_g = 0.0, short_g = 0.0;
  int rounds = 1;
  std::vector<LossLine> losses;
  std::vector<TakeLine> takes;
  std::vector<StepLine> steps;
  std::vector<AgentLine> agents;
  std::optional<Ratio> ratio;
  double ready_after_h = 0.0;  // nominal times of its steps, behind the slowest part it draws from
  std::optional<double> keeps_h;
  std::optional<SiphonLine> siphon;
};

/// A ribbon of the flow picture; masses for all serves.
struct Ribbon {
  std::string id, from, to;  // take:P.S.T, step:P.S, serve, stays, lost; take 0: what is taken of a part beyond its batches
  double mass_g = 0.0, temperature_c = 0.0;
  std::string look;  // family of the matter: spirit, juice, ice …
};

struct StandardDrinks {
  double us = 0.0, uk = 0.0, au = 0.0, eu = 0.0;
};

struct OrderLine {  // what to have at hand, for all serves
  std::string thing;
  double mass_g = 0.0;
  double volume_ml = 0.0;        // NaN where it says nothing
  std::optional<double> pieces;  // as bought: fruits, leaves
  std::string note;              // "about 6 lemons at 48 g juice each"
  std::optional<double> cost;
  std::string currency;
};

/// The glass some minutes after service.
struct GlassAt {
  double minute = 0.0;
  matter::Values values;
};

struct ServeSheet {
  matter::Values at_service, merged;  // merged: all foam collapsed into the drink at service
  std::vector<GlassAt> over_time;     // later moments, in order
  std::vector<TakeLine> takes;        // of the pours, for one serve
  std::vector<StepLine> steps;        // one a pour
  std::optional<Ratio> ratio;
  std::vector<LossLine> losses;
  double headroom_ml = 0.0;    // at the fullest moment: after any pour, or at service; negative: over the brim
  double ready_after_h = 0.0;  // nominal times of the pours, behind the slowest part
  double beside_g = 0.0;       // on the glass, rim and garnish, and `solids_g`: eaten or not, not in the drink
  double solids_g = 0.0;       // of it: fruit, leaves and the like that lie in the drink and take room
  std::optional<double> cost;  // per serve, losses in, left-overs out; nothing if a price is missing
  std::string currency;        // of `cost`
  std::string vessel;
  double brim_ml = 0.0;
  std::vector<std::pair<double, double>> inside_mm;  // height, radius
  StandardDrinks standard_drinks;
  std::vector<std::string> allergens;  // codes, sorted; "?code": ask
};

struct TargetLine {
  std::string target;
  double value = 0.0;  // NaN: cannot be given
  bool met = false;
  bool missed() const { return !met; }
  std::optional<double> until_minute;  // of a serve's property that is met at service: the last moment at which it still is
  double value_as_written = 0.0;       // the value in `unit`, the target's own
  std::string unit;
  base::Span span;
};

/// What a whole service asks of hands and freezer, for all serves.
struct Service {
  int rounds = 0;        // of tins and mixing glasses
  double seconds = 0.0;  // of shaking, stirring and blending
  double ice_in_tins_g = 0.0, ice_in_glasses_g = 0.0;
  struct Bottles {
    std::string part, vessel;
    int bottles = 1, charges = 1;  // charges: of all of them
  };
  std::vector<Bottles> bottles;  // of foam
};

/// in = served + stays + lost + gas. `in_g` holds what is taken of parts beyond their batches (each part's `short_g`), so nothing is below zero.
struct Balance {
  double in_g = 0.0, served_g = 0.0, stays_g = 0.0, lost_g = 0.0, gas_g = 0.0;
};

struct Sheet {
  std::string title;
  int serves = 1;
  std::vector<PartSheet> parts;
  std::optional<ServeSheet> serve;
  std::vector<Ribbon> streams;
  std::vector<OrderLine> order;
  std::optional<Service> service;  // nothing without a serve
  std::vector<base::Finding> findings;
  std::vector<TargetLine> targets;
  Balance balance;
  std::string digest;  // of formula + larder + kit + calibration
  bool stop() const;   // a `stop` finding, or a target not met
};

struct Inputs {
  const formula::Formula& formula;
  const larder::Larder& larder;
  const kit::Kit& kit;
  std::optional<int> serves;
  std::string formula_text;  // for the digest
};

/// Compiles, runs and reads. Errors are compile's.
base::Result<Sheet> make_sheet(const Inputs&);

/// Words of a finding code: severity, what it says, why, source, how it may be mended. One row a code that is raised.
struct FindingWords {
  base::Code code;
  base::Weight weight;
  const char* says;  // with {value}, {limit}, {about}
  const char* why;
  const char* source;
  const char* remedy;
};
const FindingWords* words_of(base::Code);
/// Every row, in the order of the codes.
std::span<const FindingWords> finding_words();
/// Joins a mark with its words.
base::Finding finding(const flow::Mark&, const flow::Flowsheet&);

}  // namespace bloomset::sheet
