// flow/flowsheet.hpp - a formula made ready to run: units, ports, knobs, and the way back to the text.
//
// compile.hpp makes it once from text, larder and kit; run.hpp evaluates it as often as one likes. The numeric half
// (units, links, knobs) is all that run sees; the other half (parts, steps, takes) is what sheet needs to name things.
// Bases: an `ahead` part is worked out for one batch, a `to order` part and the serve for one serve.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "flow/acts.hpp"
#include "flow/stream.hpp"
#include "formula/formula.hpp"
#include "kit/kit.hpp"
#include "larder/larder.hpp"
#include "matter/enthalpy.hpp"

namespace bloomset::flow {

using Port = std::uint32_t;
inline constexpr Port no_port = 0xFFFFFFFFU;

/// A slice of `Flowsheet::links` (ports) or of the knobs.
struct Slice {
  std::uint32_t first = 0, count = 0;
};

/// What a port's matter becomes: goes on, stays in the kitchen, is lost, leaves as gas, or lies on the glass.
enum class Fate : std::uint8_t { goes_on, stays, evaporates, sticks, pulp, gas, aside };

/// Optional ports of a unit, in the order in which they follow its liquid.
namespace outs {
inline constexpr std::uint8_t ice = 1, gas = 2, sticks = 4, vapour = 8, pulp = 16;
}

/// A thing's constants as run needs them: composition and enthalpy of one kilogram.
struct Stuff {
  matter::Composition per_kg;
  matter::HeatCurve curve;  // of one kilogram of liquid
  double density_20c_kg_m3 = 1000.0;
  Slice departures = {};  // into Flowsheet::departures
};

/// How a thing bought departs from its row: so much a standard deviation, in a straight line. Its knob counts the deviations and is nominally 0.
struct Departure {
  std::uint32_t knob = 0;
  matter::Composition per_kg;
  matter::HeatCurve curve;
  double density_20c_kg_m3 = 0.0;
};

/// One unit operation. `in` and `out` are ports, `refs` ports whose mass is looked at but not used, `knobs` its own numbers.
struct Unit {
  Op op = Op::mix;
  std::uint16_t stuff = 0;  // take: index into stuffs
  Slice in, out, refs, knobs;
  std::uint16_t liquids_in = 0;  // of `in`: the first ones are liquid, then `ices_in` ice, then solids
  std::uint16_t ices_in = 0;
  std::uint8_t mode = 0;  // the op's own variant (modes.hpp)
  std::uint8_t outs = 0;  // which optional ports follow the liquid in `out`: bits of Outs
};

/// The only way back to the text. Part: index into `parts`, the serve is the last one. Steps and takes count from 1; 0 none.
struct Origin {
  std::uint16_t part = 0, step = 0, take = 0;
  friend bool operator==(const Origin&, const Origin&) = default;
};

enum class KnobKind : std::uint8_t {
  mass_kg,
  volume_m3,
  share,
  celsius,
  seconds,
  ratio,
  joule_per_kelvin,
  watt_per_kelvin,
  watt_per_pascal,
  brix,
  pascal,
  deviations
};
struct Knob {
  KnobKind kind = KnobKind::ratio;
  Origin origin;
  const char* what = "";             // "amount", "temperature", "evaporates" …
  const char* source = "";           // of the nominal value, where it is not the document's
  std::optional<text::Range> range;  // as written, where it was a band
};

struct TakeInfo {
  Origin origin;
  std::string label;                   // thing as printed
  std::optional<std::uint32_t> thing;  // bought: index into things
  std::optional<std::uint16_t> made;   // made: index into parts
  std::uint16_t output = 0;            // made: which of its outputs; 0 is what goes on
  Port liquid = no_port, ice = no_port, solid = no_port;
  bool agent = false, solid_left = false, maybe = false, in_base = true;
  bool used_only = false;  // a bath, or what rinses: no part of base or total
  text::Amount written;
  base::Span span;
};

struct StepInfo {
  Origin origin;
  formula::Act act = formula::Act::combine;
  std::string vessel, place;             // names from the kit, as used
  Port liquid = no_port, ice = no_port;  // state after the step
  Port worked = no_port;                 // what the act itself left: `liquid`, or with `split` the share before it joins the rest
  double seconds = 0.0;                  // nominal
  text::Range seconds_range;
  std::optional<text::Range> keeps_s, size_m;
  base::Span span;
};

struct LossInfo {
  Origin origin;
  Fate fate = Fate::sticks;
  Port port = no_port;
};

/// A draw of one part by another part or by the serve.
struct DrawInfo {
  std::uint16_t from = 0, by = 0, output = 0;
  Port liquid = no_port, ice = no_port;
  std::vector<Port> solids;
  Origin origin;
};

/// A part in a pressure bottle: what went into it, and the bottle's own limits.
struct ChargeInfo {
  Origin origin;
  std::string vessel;
  int charges = 1;
  double charge_kg = 0.0;  // of gas in one charger
  bool purged = false;
  units::Volume gross;
  std::optional<units::Volume> fill_line;
  std::optional<int> most_charges;
  std::optional<units::Pressure> most_pressure;
  bool hot_rated = true;
  base::Span span;
};

/// A part under carbon dioxide: a regulator's pressure, or chargers, and the bottle's own limits.
struct FizzInfo {
  Origin origin;
  std::string vessel;
  std::optional<units::Pressure> pressure;  // of the regulator, absolute; none: chargers
  int charges = 0;
  double charge_kg = 0.0;     // of gas in one charger
  units::Volume gross, fill;  // fill: the line, or where none is stated all but a little of the gross volume
  std::optional<int> most_charges;
  std::optional<units::Pressure> most_pressure;
  bool hot_rated = true;
  Port liquid = no_port, fizzed = no_port;  // before and after
  base::Span span;
};

/// One of the streams a part ends in. The first goes on through later steps; the others stand where they were parted.
struct OutputInfo {
  std::string name;
  Port liquid = no_port;  // of the first: none, it is the part's own
  std::uint16_t step = 0;
};

/// What stands as foam once it is in the glass.
enum class Foams : std::uint8_t { no, siphon, froth };

struct PartInfo {
  std::string name;
  formula::Made made = formula::Made::to_order;
  double batches = 1.0;
  double times = 1.0;                    // how often the basis is made for all serves: batches, or serves
  int rounds = 1;                        // of shaking or stirring for all serves (to order)
  Port liquid = no_port, ice = no_port;  // finished
  std::vector<Port> solids;              // solids that were never strained out
  std::vector<Port> asides;              // on the glass: rim and garnish
  bool fizzy = false;                    // holds dissolved CO2
  Foams foams = Foams::no;
  std::optional<ChargeInfo> charge;
  std::optional<FizzInfo> fizz;
  std::vector<OutputInfo> outputs;  // none: the part is one stream
  std::optional<text::Amount> makes;
  base::Span span;
  std::uint32_t source = 0;
};

/// Foam on the drink: the liquid in its walls, the part it came from, and the knob of its draining in each unit of the serve.
struct FoamInfo {
  std::uint16_t from = 0;
  std::vector<std::uint32_t> half_time_knobs;
};

/// The glass at a time after service. `foams` stand in the order of `Flowsheet::foams`.
struct Moment {
  double minute = 0.0;
  Port liquid = no_port, ice = no_port;
  std::vector<Port> foams;
};

/// A finding said while compiling: code, place, and what it is about.
struct Mark {
  base::Code code = base::Code::assumption;
  Origin origin;
  base::Span span;
  std::string about;  // the words only this place knows; joined with the table's
  double value = 0.0, limit = 0.0;
};

/// How a number scatters about its nominal value. Normal laws are cut at four deviations.
enum class Law : std::uint8_t { normal, lognormal };
/// What a width rests on.
enum class Ground : std::uint8_t { document, published, memory, practice };
inline constexpr std::size_t ground_count = 4;

/// Something that varies, beside the knob it moves: at z deviations it stands at nominal + width z, or (lognormal) at nominal exp(width z),
/// kept between low and high. Rows with one `draw` move together: one bottle, one crate, one fridge.
struct Variation {
  std::uint32_t knob = 0, draw = 0;
  Law law = Law::normal;
  double width = 0.0;  // one standard deviation, in the knob's unit; lognormal: of the logarithm
  double low = 0.0, high = 0.0;
  Ground ground = Ground::practice;
  std::string cause;   // in a cook's words: "acid of the lime juice"; several draws may share it
  std::string source;  // key of data/sources.bib, `practice`, `memory: …`, or `the document` for a band as written
};

struct Flowsheet {
  // What run sees.
  std::vector<Unit> units;  // in topological order
  std::vector<Port> links;
  std::vector<Stuff> stuffs;
  std::vector<Departure> departures;
  std::vector<double> nominal;  // one number a knob
  std::uint32_t port_count = 0;

  // What scatter sees; filled by vary.hpp.
  std::vector<Variation> variation;
  std::uint32_t draws_a_run = 0;  // independent draws: each variation's `draw` is below it

  // What sheet sees.
  std::vector<Knob> knobs;
  std::vector<Origin> unit_origin;
  std::vector<PartInfo> parts;  // in the document's order; the last is the serve, if there is one
  bool has_serve = false;
  std::vector<TakeInfo> takes;
  std::vector<StepInfo> steps;
  std::vector<LossInfo> losses;
  std::vector<DrawInfo> draws;
  std::vector<larder::Thing> things;
  std::vector<Mark> marks;
  std::optional<kit::Vessel> glass;                    // of the serve
  Port served_liquid = no_port, served_ice = no_port;  // at service
  std::vector<FoamInfo> foams;
  std::vector<Moment> moments;         // at service first, then later and later
  std::uint32_t units_to_service = 0;  // the units after these are the drink's time in the glass
  int serves = 1;
};

}  // namespace bloomset::flow
