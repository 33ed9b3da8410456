// flow/variation.hpp - the table of widths: how far each kind of number of a flowsheet scatters, and who says so.
//
// Rows stand in data/flow/variation.csv, one a name of a knob; amounts and temperatures by how they are measured. Called by vary.cpp
// and by a test that asks for a row for every knob of every formula. Private to flow.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "flow/flowsheet.hpp"

namespace bloomset::flow {

struct VariationRow {
  std::string what;
  bool fixed = false;
  Law law = Law::normal;
  double width = 0.0;     // one standard deviation
  bool relative = false;  // `width` is a share of the nominal value; else in the knob's unit
  bool once = false;      // one draw for all knobs with the same cause
  std::string cause;      // with {thing}, {act}, {place}, {vessel}
  Ground ground = Ground::practice;
  std::string source;
};

std::span<const VariationRow> variation_rows();
/// nullptr: the table has no such row.
const VariationRow* variation_row(std::string_view what);
/// What a source rests on: `practice`, `memory: …`, or a key of data/sources.bib.
Ground ground_of(std::string_view source);

}  // namespace bloomset::flow
