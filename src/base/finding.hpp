// base/finding.hpp - what a reader of a sheet should know.
//
// Compile, run and the rules after run say a finding as a `Mark`: a code, where it came from, the value and the
// limit. Words, severity, source and remedies live in one table (sheet/findings.cpp) and are joined when printed.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"

namespace bloomset::base {

/// `stop`: this formula must be changed. `mind`: it may go wrong. `note`: good to know, or a caution that always holds.
enum class Weight { stop, mind, note };
std::string_view name(Weight);

/// Every finding code (docs/program.md). The order is the order of the table of words.
enum class Code : std::uint8_t {
  range_left,
  assumption,
  value_missing,
  limit_unknown,
  over_fill_line,
  over_charges,
  over_pressure,
  pressure_if_warm,
  gas_caution,
  not_strained,
  live_enzyme,
  enzyme_contact,
  will_not_set,
  sets_soft,
  strings_on_landing,
  melts_on_hot,
  too_acid,
  too_strong,
  too_hard_water,
  curdles,
  sinks_or_floats,
  dose_below_scale,
  over_legal_limit,
  ice_gone,
  glass_over,
  left_over,
  short_of,
  target_unmet,
  pieces_rounded,
  flame_near_spirit,
  torch_near_bottle,
  unrated_vessel,
  hot_sugar,
  raw_egg,
  choking,
  keeps_passed,
  cooling_too_slow,
  time_temperature_control,
  low_acid_stored,
  allergen,
  allergen_unknown,
  alcohol,
  guest_notice,
  defer
};
inline constexpr std::size_t code_count = static_cast<std::size_t>(Code::defer) + 1;

/// The code's contract name: `range_left` … `short` … `defer`.
std::string_view name(Code);

/// A change of the text that would mend a finding: replace `place` by `text` (length 0: insert).
struct Edit {
  Span place;
  std::string text;
};
/// The text with all changes made; places lie in this text, in no order, and do not overlap. A place outside of it changes nothing.
std::string edited(std::string text, std::vector<Edit>);
struct Remedy {
  std::string says;
  std::optional<Edit> edit;
};

/// Where a finding belongs. Empty names mean "not there"; steps and takes count from 1, 0 is none.
struct Where {
  std::string part;
  std::uint16_t step = 0, take = 0;
  std::string property;
  Span span;
};

struct Finding {
  Code code = Code::assumption;
  Weight weight = Weight::note;
  Where where;
  std::string says, why, source;
  std::vector<Remedy> remedies;
  std::optional<double> from_serves;  // the number of serves from which on it holds
};

}  // namespace bloomset::base
