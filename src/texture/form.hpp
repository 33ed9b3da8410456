// texture/form.hpp - the same gelatin in another form: leaves and powder, whole leaves, blooming water, and stock for doses too small to weigh.
//
// Three rules are in use and they disagree; all are shown:
//   piece for piece  leaf for leaf whatever the grade (makers size leaves so that mass x Bloom stays near 400 to 490)
//   linear Bloom     m2 = m1 B1/B2
//   root Bloom       m2 = m1 sqrt(B1/B2), equal firmness (Ward & Courts 1977; a supplier's formula)
// Chosen: piece for piece where the recipe counts leaves, root Bloom where it weighs. Firmness goes with the square of the mass: bronze for gold, leaf for
// leaf, is up to 1.9 times as firm. Leaves of titanium fit neither of the first two. Callers: the command `gelatin`, dose, sheet.
#pragma once

#include <vector>

#include "texture/gelatin.hpp"

namespace bloomset::texture {

/// A gelatin one has: its Bloom and, for leaves, the mass of one.
struct Form {
  Agent agent = Agent::gelatin;
  double bloom = 200.0;
  std::optional<units::Mass> leaf;
};

enum class Rule : std::uint8_t { piece_for_piece, linear_bloom, root_bloom };
std::string_view name(Rule);

struct Converted {
  Rule rule = Rule::root_bloom;
  std::optional<units::Mass> mass;  // none: the rule does not apply
  std::optional<double> pieces;     // leaves of the new form
};
struct Conversion {
  std::array<Converted, 3> rules;  // in the order of Rule
  Rule chosen = Rule::root_bloom;
  double firmness_spread = 1.0;  // firmest over softest of the rules that apply
  bool mind = false;             // the rules differ by more than a quarter in firmness
  std::vector<Note> notes;
  const Converted& of(Rule r) const { return rules[static_cast<std::size_t>(r)]; }
};
/// `counted`: the recipe gives leaves. Between gelatins of mammal and fish the masses stand, with a note that they set and melt elsewhere.
Conversion convert(units::Mass, const Form& from, const Form& to, bool counted = false);
/// The same for a recipe that counts leaves: `pieces` of `from`, whose leaf must be known.
Conversion convert_pieces(double pieces, const Form& from, const Form& to);

/// One way of taking whole or half leaves for a mass.
struct LeafCount {
  double pieces = 0.0;
  units::Mass mass;
  units::MassFraction dose;
  Firmness firmness;           // against the dose wanted
  units::Mass base_that_fits;  // the base for which this count is exact
};
struct Leaves {
  double exact = 0.0;
  LeafCount whole, half;  // nearest; at least one, at least a half
  LeafCount fewer, more;  // whole leaves on either side: the batch that makes them exact
};
/// `base` and `gelatin`: masses of the recipe; `form.leaf` must be known and all masses above 0.
Leaves leaves(units::Mass base, units::Mass gelatin, const Form&);

/// Cold water that the gelatin takes up, to be taken out of the recipe (it stays in).
struct BloomingWater {
  units::Mass least, usual, most;
  Cited cited;
};
BloomingWater blooming_water(units::Mass gelatin, bool leaf);

/// A stock for a dose that the scale cannot weigh well. Masses of the stock made, and how much of it carries the dose.
struct Stock {
  units::MassFraction strength;
  units::Mass agent, water;  // to make it
  units::Mass used;          // of the stock: holds the dose
  units::Mass water_saved;   // to take out of the recipe
};
struct Weighing {
  double error_share = 0.0;     // a step of the scale over the dose
  bool too_small = false;       // more than 5 %
  std::optional<Stock> stock;   // where it is too small
  units::Mass least_weighable;  // 20 steps
};
Weighing weighing(Agent, units::Mass dose, units::Mass scale_step);

}  // namespace bloomset::texture
