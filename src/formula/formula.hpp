// formula/formula.hpp - the document: one drink or dish as written (docs/formula.md).
//
// A `Formula` is the text taken apart and nothing more: names are not resolved (flow does that), nothing is computed.
// Every value keeps its span. `read` reports every fault of the document at once; `write` prints a document that
// reads back as the same Formula.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "text/amount.hpp"

namespace bloomset::formula {

/// Every act a step may name, in the order of docs/formula.md. Which of them flow computes is flow's table of acts.
enum class Act : std::uint8_t {
  combine,
  dissolve,
  dilute,
  pour,
  float_on,
  layer,
  top,
  garnish,
  rim,
  roll,
  rinse,
  warm,
  boil,
  reduce,
  chill,
  freeze,
  rest,
  degas,
  infuse,
  strain,
  torch,
  shake,
  dry_shake,
  stir,
  blend,
  bloom,
  disperse,
  hydrate,
  set,
  unmould,
  cut,
  blitz,
  froth,
  sphere,
  clarify,
  charge,
  dispense,
  carbonate
};
inline constexpr std::size_t act_count = static_cast<std::size_t>(Act::carbonate) + 1;
/// As written: `dry shake`, `float`.
std::string_view name(Act);
std::optional<Act> act_named(std::string_view);

/// One word of the bracket behind a thing: `40 %vol`, `50 brix`, `raw`. `value` where the word takes a number.
struct Qualifier {
  std::string name;
  std::optional<double> value;
  base::Span span;
  friend bool operator==(const Qualifier& a, const Qualifier& b) { return a.name == b.name && a.value == b.value; }
};

enum class ThingKind { bought, made };
enum class ChargedAs { unsaid, foam, base };

/// One amount of one thing entering at a step.
struct Take {
  text::Amount amount;
  ThingKind kind = ThingKind::bought;
  std::string thing;                  // bought: larder name; made: part name
  std::string output;                 // made: the output of 'part/output', else empty
  std::vector<Qualifier> qualifiers;  // bought only
  std::string of_mark;                // percent of a marked line: its mark, else empty
  std::string mark;                   // this line's own mark, else empty
  ChargedAs charged_as = ChargedAs::unsaid;
  std::optional<text::Range> at_c;
  base::Span span;  // the whole take as written
  base::Span thing_span;
  friend bool operator==(const Take& a, const Take& b) {
    return a.amount == b.amount && a.kind == b.kind && a.thing == b.thing && a.output == b.output && a.qualifiers == b.qualifiers && a.of_mark == b.of_mark &&
           a.mark == b.mark && a.charged_as == b.charged_as && a.at_c == b.at_c;
  }
};

/// Where heating or reducing ends.
struct Until {
  enum class What { brix, ph, mass, share_of_start } what = What::brix;
  double value = 0.0;  // brix in percent, pH, kg, fraction
  base::Span span;
  friend bool operator==(const Until& a, const Until& b) { return a.what == b.what && a.value == b.value; }
};

struct NamedShare {
  std::string name;
  std::optional<text::Range> share;  // nothing: `rest`
  base::Span span;
  friend bool operator==(const NamedShare& a, const NamedShare& b) { return a.name == b.name && a.share == b.share; }
};

struct Bath {
  Take in;
  std::optional<text::Range> takes_up;
  friend bool operator==(const Bath&, const Bath&) = default;
};

struct Word {
  std::string text;
  base::Span span;
  friend bool operator==(const Word& a, const Word& b) { return a.text == b.text; }
};

/// One act on a part (or one pour of the serve), with its conditions. Absent keys are empty.
struct Step {
  Act act = Act::combine;
  std::vector<Take> takes;
  std::optional<text::Range> to_c, at_c;
  std::optional<text::Range> time_s, keeps_s;
  base::Span to_span, at_span, time_span;  // between the quotes
  std::optional<Until> until;
  std::optional<Word> in, vessel, hard, with, by, gas;
  std::vector<Word> leave;  // names of takes that do not go on; "ice" is the ice
  std::vector<NamedShare> out;
  std::optional<text::Range> split;   // fraction
  std::optional<text::Range> loss;    // fraction of what is in the vessel that is lost here (sticks, pulp): overrides the act's default
  std::optional<text::Range> yield_;  // infuse: share of liquid that comes through
  std::optional<Take> ice;            // per serve, apart from the takes
  std::optional<text::Range> ice_at_c;
  std::optional<Bath> bath;
  std::optional<text::Range> size_m;
  std::optional<int> charges;
  base::Span charges_span;
  std::optional<double> pressure_pa;  // absolute
  bool purged = false;
  bool maybe = false;  // counts for allergens, not for the balance
  base::Span span;     // of the step's table
  base::Span act_span;
  friend bool operator==(const Step& a, const Step& b);
};

enum class Made { ahead, to_order };

struct Part {
  std::string name;
  Made made = Made::to_order;
  std::vector<Step> steps;
  std::optional<text::Amount> makes;  // checked against what the steps give
  double batches = 1.0;
  base::Span span, name_span;
  std::uint32_t source = 0;  // which text it was read from (borrowed parts come from another)
  friend bool operator==(const Part& a, const Part& b) {
    return a.name == b.name && a.made == b.made && a.steps == b.steps && a.makes == b.makes && a.batches == b.batches;
  }
};

/// One serving: vessel and what goes into it, in order. A pour is a step whose act defaults to `pour`.
struct Serve {
  Word vessel;
  std::vector<Step> pours;
  base::Span span;
  friend bool operator==(const Serve& a, const Serve& b) { return a.vessel == b.vessel && a.pours == b.pours; }
};

enum class Wish { at_least, at_most, within, equal };

/// A wish on a property. The value is in the property's own wire unit (percent, mL, C, …).
struct Target {
  bool of_serve = true;
  std::string part;      // where not of the serve
  std::string property;  // a name of docs/formula.md: abv, sugar, acidity, …
  std::optional<double> at_minute;
  Wish wish = Wish::within;
  double low = 0.0, high = 0.0;  // at_least uses low, at_most high, equal both
  std::string text;              // as written; empty it after changing a value, and `write` prints the values
  std::string unit;              // as written, and how large it is in the wire's unit: for answers in the asker's own
  double one_unit = 1.0;
  bool fahrenheit = false;
  base::Span span;
  friend bool operator==(const Target& a, const Target& b) {
    return a.of_serve == b.of_serve && a.part == b.part && a.property == b.property && a.at_minute == b.at_minute && a.wish == b.wish && a.low == b.low &&
           a.high == b.high;
  }
};

struct Borrow {
  std::string part, file;
  base::Span span;
  friend bool operator==(const Borrow& a, const Borrow& b) { return a.part == b.part && a.file == b.file; }
};

struct Formula {
  std::string title;
  text::Measures measures = text::Measures::metric;
  int serves = 1;
  std::vector<Borrow> borrow;
  std::vector<Target> targets;
  std::vector<Part> parts;  // borrowed ones stand behind the document's own
  std::optional<Serve> serve;
  std::uint32_t source = 0;
  base::Span title_span, serves_span;
  friend bool operator==(const Formula& a, const Formula& b) {
    return a.title == b.title && a.measures == b.measures && a.serves == b.serves && a.borrow == b.borrow && a.targets == b.targets && a.parts == b.parts &&
           a.serve == b.serve;
  }
};

/// Gives the text of a borrowed file, by the name written in the document; empty if there is none.
using Borrower = std::function<std::optional<std::string>(const std::string& file)>;

/// Every name a target may speak of, the wire key it is judged by ("abv" → "abv_percent"; empty if there is no such name), and
/// the unit in which `write` prints it. Values of `fill` are fractions, of `pressure` bar gauge at service, of `ready_after` hours.
const std::vector<std::string>& target_names();
std::string_view target_key(std::string_view target_name);
std::string_view target_unit(std::string_view target_name);
/// One target from a text that stands alone (the command line's `--target`).
std::optional<Target> read_target_text(text::Cursor, text::Measures, text::Faults&);

/// Limits that keep time and memory bounded: a document of at most 4 MB, 512 parts, 4,096 steps, 16,384 takes.
/// Reads a document; borrowed parts are read through `borrower` and appended (a borrow that borrows itself is a fault).
/// `sources` receives every text read, so that diagnostics can show lines.
base::Result<Formula> read(std::string name, std::string text, base::Sources& sources, const Borrower& borrower);

/// Reads one take as a text, outside a document: `60 mL spirit (40 %vol)`. `origin` is where the text stands.
std::optional<Take> read_take(std::string_view text, base::Span origin, text::Measures, text::Faults&);
/// The same without an amount, a bought thing with its bracket: `gelatin, gold leaf (1.8 g a piece)`. The take's amount means nothing.
std::optional<Take> read_thing(std::string_view text, base::Span origin, text::Faults&);
/// The same, or a part in single quotes: `'house syrup'`.
std::optional<Take> read_named(std::string_view text, base::Span origin, text::Faults&);

/// A take as it stands in a document: `60 mL spirit (40 %vol)`. Its `at` and its mark stand beside it in a table and are not printed.
std::string print(const Take&, text::Measures);
/// What is taken, without its amount: `spirit (40 %vol)`, `house syrup`, `milk/clear`.
std::string label(const Take&);
/// Prints the document in our order and spacing. read(write(f)) == f; borrowed parts are not printed.
std::string write(const Formula&);

}  // namespace bloomset::formula
