// sheet/replacing.hpp - another agent for what one does in a formula: how much, how handled, what changes, and which cannot serve.
//
// The formula is run; each part that takes the agent gives its finished liquid without it, and the effect is read off the part's acts: charged is a cold
// foam (a hot one if it is 40 C or warmer from then on), blitzed a fluid gel, and so on; else the gel or body whose usual dose is nearest. That reading is a
// finding. Then texture/substitute.hpp tries every other agent in that liquid. Called by the command `substitute`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/agent_form.hpp"
#include "sheet/sheet.hpp"
#include "texture/substitute.hpp"

namespace bloomset::sheet {

struct ReplaceAsk {
  const Inputs& in;
  texture::Agent agent = texture::Agent::gelatin;
  std::optional<texture::Agent> wanted;  // list or refuse this one only
  bool vegan = false, vegetarian = false;
  std::optional<std::string> part;  // answer for this one only
  bool first_only = false;          // of several parts the first, and a finding names the others: one JSON document has room for one
};

/// The answer for one part: of one batch (made ahead) or of one serve.
struct Replacement {
  std::string part;
  bool ahead = false;
  std::string label;  // of the agent, as the formula has it
  texture::Effect effect = texture::Effect::soft_gel;
  std::string why;  // that effect
  texture::KindRead kind;
  double base_g = 0.0;   // finished liquid without the agent
  double agent_g = 0.0;  // what it shall replace, in the first form it is taken in
  double percent_of_base = 0.0;
  double served_c = 0.0;  // as the part ends
  texture::Substitutes answer;
};
struct ReplaceSheet {
  std::string title;
  std::vector<Replacement> parts;  // at least one, in the document's order
  std::vector<base::Finding> findings;
};
/// Errors: compile's; not_found: no part (or not this one) takes the agent, and the message names the agents that are there.
base::Result<ReplaceSheet> replace_agent(const ReplaceAsk&);

}  // namespace bloomset::sheet
