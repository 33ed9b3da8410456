// sheet/dosing.hpp - how much of an agent for an effect in a base: grams, leaves, method, and for a siphon foam the bottle and its chargers.
//
// The dose is texture's (texture/dose.hpp): a band of the trade for the agent, the effect and the kind of base. Here the mixture's own facts join:
// raw fruit that eats protein, a kit's siphon that takes the batch in fewest bottles by its fill line, the cautions of gas. Nothing of it is a
// measurement: use levels hold to +-30 %. Called by the command `dose`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "base/result.hpp"
#include "kit/kit.hpp"
#include "sheet/agent_form.hpp"
#include "sheet/mixture.hpp"
#include "texture/dose.hpp"

namespace bloomset::sheet {

struct DoseAsk {
  const Mixture& base;
  const AgentForm& agent;
  std::optional<texture::Effect> effect;  // none: the first that the agent is taken for
  units::Mass scale_step = units::grams(0.1);
  const kit::Kit& kit;
};

/// The kit's siphons for a batch, all filled alike.
struct SiphonChoice {
  std::string vessel;
  int bottles = 1;
  double liquid_ml = 0.0;      // in each
  double fill_fraction = 0.0;  // of the fill line
  int charges = 1;             // in each
  std::optional<int> most_charges;
};

struct DoseSheet {
  Mixture base;
  AgentForm agent;
  texture::Dose dose;
  units::Mass scale_step;
  std::optional<SiphonChoice> siphon;  // cold and hot foams, where the kit has one
  std::vector<base::Finding> findings;
};
/// Errors: not_found: the agent does not give the effect (the message names what does); bad_input: its grade is not known.
base::Result<DoseSheet> dose(const DoseAsk&);

/// Fewest bottles by fill line, then the fullest; nothing where the kit has no siphon rated for pressure (and heat, if `hot`).
std::optional<SiphonChoice> choose_siphon(const kit::Kit&, units::Volume liquid, bool hot);

}  // namespace bloomset::sheet
