// flow/acts.hpp - the acts that flow computes: one row an act.
//
// A row says which unit operation an act is, what it loses by default, how long it takes when the text is silent, and
// where its numbers come from. Every default is a knob of the flowsheet, so a document, a calibration or scatter may
// change it. Tests walk this table.
#pragma once

#include <cstdint>
#include <span>

#include "formula/formula.hpp"

namespace bloomset::flow {

/// Unit operations. Each has one function in act_*.cpp.
enum class Op : std::uint8_t { take, take_ice, draw, mix, heat, cool, contact, infuse, strain, leave, rinse, split, soak, clarify, fizz, stand };
inline constexpr std::size_t op_count = static_cast<std::size_t>(Op::stand) + 1;

struct ActRow {
  formula::Act act;
  Op op;
  double co2_kept;         // share of dissolved CO2 that survives the act
  double sticks;           // share of the mass that stays on pan, jug or blade
  double steams_per_min;   // share of the mass that an open vessel loses per minute at 100 C; less below, as water's vapour pressure
  double default_seconds;  // where the text gives no time
  double default_to_c;     // where it gives no temperature; NaN: keeps its own, or the place's
  double contact_time_s;   // contact: time constant of the approach to equilibrium
  bool leftover_follows;   // contact: unmelted ice ends at the drink's temperature
  const char* source;      // of the defaults of this row
};

/// "Until it boils": an end temperature above any boiling point.
inline constexpr double until_it_boils_c = 1000.0;

/// The row of an act, or nullptr where flow does not compute that act yet.
const ActRow* row_of(formula::Act);
std::span<const ActRow> act_rows();

}  // namespace bloomset::flow
