// sheet/scaling.hpp - a formula for another bottle, or for what one has: `--fit` and `--have`.
//
// Amounts of a part grow together; percentages follow by themselves. What does not grow with them is worked out anew by the sheet (rounds, ice, what sticks,
// time to cool), and chargers here: as many as give the same gas a litre in the new bottle, whole, within its maker's count. Callers: the command `sheet`.
#pragma once

#include <vector>

#include "base/finding.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::sheet {

/// `'orange cloud'=siphon, one litre`: the part fills the vessel to its line (three quarters of a siphon without one; a glass to the brim).
struct Fit {
  std::string part, vessel;
  base::Span span;  // where it was asked
};
/// `730 g orange juice`: all of it is used. Its amount is a mass, a volume or pieces.
struct Have {
  formula::Take thing;
  base::Span span;
};

struct Scaled {
  formula::Formula formula;
  int serves = 1;
  std::vector<base::Finding> findings;  // what was done, and what had to be rounded
};

/// bad_input: a part, vessel or thing that is not there, or none of it in an amount that can grow.
base::Result<Scaled> fit(const Inputs&, const Fit&);
/// Where the thing goes into batches they grow; where it goes into what is made to order, the number of serves does, rounded down.
base::Result<Scaled> have(const Inputs&, const Have&);

}  // namespace bloomset::sheet
