// text/units.hpp - the table of units (data/text/units.csv), and the wording when a word is no unit. Internal to text and formula.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "text/amount.hpp"

namespace bloomset::text {

enum class UnitKind { mass, volume, pieces };

struct Unit {
  std::string spelling, plural;  // plural is empty where there is none
  UnitKind kind = UnitKind::mass;
  std::optional<Measures> measures;             // nothing: the same in every system
  std::int64_t numerator = 1, denominator = 1;  // to kg, m3 or pieces
  std::string source;
};

/// All rows, in the table's order.
const std::vector<Unit>& units();
/// The unit of that spelling or plural in that system, or nullptr.
const Unit* unit_named(std::string_view spelling, Measures);
/// The longest spelling of any system that stands at the cursor as a whole word; empty if none. Does not move the cursor.
std::string_view unit_word_at(const Cursor&);
/// Reads a unit of the system; on a word that is none, or that the system lacks, says so.
const Unit* read_unit(Cursor&, Measures, Faults&);
std::string_view name(Measures);

}  // namespace bloomset::text
