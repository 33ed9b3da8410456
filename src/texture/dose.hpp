// texture/dose.hpp - how much of an agent for an effect in this base, in which pieces, and how to put it in.
//
// The band of data/texture/doses.csv for the agent, the effect and the kind of base (read off the composition: fat makes cream, then pH below 3.2 acid, then
// more than 10 %vol spirit, else juice), times the mass of the base. Gelatin: the band is of 200 Bloom, another Bloom follows by C sqrt(B) = const.
// Percent of the base (base = all but agents, ice, blooming water and what is strained out) and of the total are both given. Use levels hold to +-30 %.
// The base need not hold yet what the agent is added to: spirit that joins later belongs into it. Callers: the command `dose`, substitute, solve.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "texture/form.hpp"
#include "texture/set.hpp"

namespace bloomset::texture {

struct DoseAsked {
  matter::Composition base;
  std::optional<BaseKind> kind;  // none: read off the base
  Form form;                     // its agent, and for gelatin Bloom and leaf
  Effect effect = Effect::soft_gel;
  std::optional<units::Mass> scale_step;  // to tell doses too small to weigh
};
struct Triple {
  double low = 0.0, nominal = 0.0, high = 0.0;
};
struct Dose {
  Agent agent = Agent::gelatin;
  Effect effect = Effect::soft_gel;
  KindRead kind;
  Triple mass_g, percent_of_base, percent_of_total;
  std::optional<Triple> pieces;  // leaves, not rounded
  std::optional<Leaves> leaves;  // of the nominal dose
  std::optional<BloomingWater> blooming;
  std::optional<Weighing> weighing;
  std::vector<std::string> method;  // in order, for a cook
  std::vector<Cause> causes;        // what this base does to the agent, and limits of law
  std::vector<Note> notes;
  Cited cited;
};
/// not_found: the agent does not give that effect (the message names those that do). bad_input: a base without mass, or a Bloom that is none.
base::Result<Dose> dose(const DoseAsked&);

/// What an agent is taken for, in the order of data/texture/doses.csv.
std::vector<Effect> effects_of(Agent);

/// A dose that lies far outside its band: below half of the least, or above one and a half times the most. Ten times the usual dose is named as a
/// slip of ten (2 % of agar for clarifying, 4 % of lecithin for an air). Nothing where the agent does not give the effect.
std::optional<Cause> odd_dose(Agent, Effect, BaseKind, units::MassFraction of_base, double bloom = 200.0);

/// How that agent is put into a base, in order; `nominal_g` is named in the first line.
std::vector<std::string> method(Agent, Effect, const Liquor&, double nominal_g, bool leaf);

}  // namespace bloomset::texture
