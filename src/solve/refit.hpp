// solve/refit.hpp - the same drink with other things: a spirit of another strength, another juice, syrup, gelatin, bottle.
//
// A swap is written into the document where the thing stands, so that comments and order survive. Its first amount brings as much of what the thing is
// there for (of ethanol, sugars and acids the one that most depends on it) as before, with water for what is then missing; the search of balance.hpp brings
// strength, sugar, acidity and size of the part (of the serve, if the part is made to order) back to the original's. Where these cannot all be had the first
// amounts stand, and what is missed is told. Gelatin is exchanged by the house's rules, and a part that moves into another bottle fills it to its line, with
// chargers for the same gas a litre.
// Callers: the command `refit`.
#pragma once

#include "solve/balance.hpp"

namespace bloomset::solve {

/// `spirit (40 %vol)=spirit (50 %vol)`: each side is a text of its own among the sources given to `refit`.
struct Swap {
  std::uint32_t from = 0, to = 0;
};

struct RefitAsked {
  Inputs in;
  std::string name, document;    // of the formula's own file
  formula::Borrower borrower;    // for the document as changed
  const base::Sources& sources;  // of the swaps
  std::vector<Swap> swaps;
  bool exact = false;  // not rounded
};

/// What is met is judged within two hundredths of the original: closer than a jigger pours (practice).
inline constexpr double same_within = 0.02;

/// As balance answers: lines of all amounts that changed, the original's values as `before`. bad_input: a thing, part or bottle that is not there or does not
/// fit in the other's place; a document that cannot be written so.
base::Result<BalanceSheet> refit(const RefitAsked&);

}  // namespace bloomset::solve
