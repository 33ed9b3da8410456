// texture/substitute.hpp - another agent for the same effect: how much, how handled, what changes; and which cannot serve, and why.
//
// Every agent with a dose band for the effect is tried in this base. Its dose is to its usual dose as the old one was to its own, within its band (gelatin
// 1.5 % is an ordinary jelly, agar 0.5 %: one to three). No ratio gives the same texture: differs, gained and lost say how. Refused are those that the base
// spoils (acid, spirit, enzyme, sugar missing), that the serving temperature melts, or that a diet rules out. Doses are practice (+-30 %). Callers: the command
// `substitute`, the remedies of sheet.
#pragma once

#include <string>
#include <vector>

#include "texture/dose.hpp"

namespace bloomset::texture {

struct SubstituteAsked {
  matter::Composition base;  // without the agent
  std::optional<BaseKind> kind;
  Agent agent = Agent::gelatin;  // what it shall replace
  units::Mass mass{0.0};         // of that; 0: the usual dose
  double bloom = 200.0;
  Effect effect = Effect::soft_gel;
  bool live_enzyme = false;
  bool vegan = false, vegetarian = false;  // ask for a candidate that fits
  std::optional<units::Temperature> served_at;
};
struct Candidate {
  Agent agent = Agent::agar;
  Triple mass_g;  // low and high: the band; nominal: the place of the old dose
  std::vector<std::string> method, differs, gained, lost;
  std::vector<Cause> causes;  // what this base does to it, short of stopping it
  Cited cited;
};
struct Refused {
  Agent agent = Agent::agar;
  std::string why;
};
struct Substitutes {
  std::vector<Candidate> candidates;  // fewest causes first
  std::vector<Refused> refused;
};
/// bad_input: a base without mass. Agents that never give the effect are refused with that reason.
base::Result<Substitutes> substitutes(const SubstituteAsked&);

/// The dose in `to` that stands to its usual one as `percent` to that of `from`, within the band.
double carried_over(double percent, const DoseBand& from, const DoseBand& to);

}  // namespace bloomset::texture
