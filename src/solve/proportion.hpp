// solve/proportion.hpp - a drink told in parts: `2 : 1 : 0.75` of three things, as a document and as matter.
//
// The volumes of the things, as poured, sum to the total. With a wish water comes on top, as much as meets it: `abv 20 %` is the melt that a shaker would
// have to give. Callers: the command `ratio`.
#pragma once

#include "solve/balance.hpp"

namespace bloomset::solve {

struct ProportionAsked {
  const larder::Larder& larder;
  const kit::Kit& kit;
  std::vector<double> parts;          // above 0, as many as things
  std::vector<formula::Take> things;  // bought; their amounts mean nothing
  units::Volume total = units::millilitres(90.0);
  std::optional<std::string> wish;  // on the drink, without its place: `abv 20 %`
  bool exact = false;               // not rounded to what a jigger can do
};

struct ProportionSheet {
  bool met = true;
  std::vector<WishLine> targets;
  sheet::PartSheet drink;
  std::string formula;
  std::vector<base::Finding> findings;
};

inline constexpr const char* proportion_part = "drink";

/// bad_input: a thing that is not in the larder, a wish that cannot be read or asked.
base::Result<ProportionSheet> proportion(const ProportionAsked&);

}  // namespace bloomset::solve
