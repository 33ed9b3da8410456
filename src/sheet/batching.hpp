// sheet/batching.hpp - a part made to order as a bottled batch: with the water that the ice would have given, ready to pour.
//
// What goes through the tin comes out as its takes and melt, less what sticks, of the same make-up. So the batch takes everything N times, and water until
// non-water over water is what it is in the strained part: poured cold it has the same strength, sugar and acidity, and without the dilution that ice in the
// glass adds in both cases. The document is the author's with that part made ahead and poured by weight. Called by the command `batch`.
#pragma once

#include "sheet/sheet.hpp"

namespace bloomset::sheet {

struct BatchAsked {
  const Inputs& in;  // its serves: how many
  std::string part;
  base::Span part_span;
  units::Volume bottle = units::millilitres(700.0);
  std::optional<std::string> place;  // of the kit; none: its first still fridge
  base::Span place_span;
};

struct BatchSheet {
  std::string title, part;
  int serves = 1;
  struct Line {
    std::string thing;
    double mass_g = 0.0, volume_ml = 0.0;  // of the batch; NaN where a volume says nothing
  };
  std::vector<Line> amounts;  // the water last
  double water_per_serve_g = 0.0;
  double pour_g = 0.0, pour_ml = 0.0;  // a serve: what the tin would have given; its volume as it is held, at 20 C where ice stands in it
  double spare_g = 0.0;                // of the batch: what would have stuck in the tins
  int bottles = 1;
  double bottle_ml = 0.0, volume_20c_ml = 0.0;  // of one; of all liquid
  double first_ice_c = 0.0;
  std::string place;
  double place_c = 0.0, ice_share = 0.0;  // of the batch's mass, in equilibrium there
  matter::Values to_order, bottled;       // the strained part as it comes from the ice; the batch at 20 C
  std::string formula;
  std::vector<base::Finding> findings;  // of the new document, and what was taken for granted
  bool stop = false;
};
/// A bottle that is to freeze is filled to nine tenths: ice takes 9 % more room than its water.
inline constexpr double fill_of_a_freezing_bottle = 0.9;

/// bad_input: no such part or place, a part that is not made to order, or one whose acts a bottle cannot stand for.
base::Result<BatchSheet> batch(const BatchAsked&);

}  // namespace bloomset::sheet
