// sheet/agent_form.hpp - a texture agent as a cook names it: `agar`, `gelatin, gold leaf (1.8 g a piece)`, `gelatin, powder (225 bloom)`.
//
// The larder knows its Bloom and the mass of a leaf, and the bracket may say better. Grade names are the trade's and no standard, so what was
// not said is an assumption with its span. `gelatin leaf` says no grade at all: it is read if the bracket gives Bloom and mass of a leaf.
// Called by the commands `dose`, `gelatin` and `substitute`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "larder/larder.hpp"
#include "texture/form.hpp"

namespace bloomset::sheet {

struct AgentForm {
  larder::Thing thing;
  std::string label;  // as printed
  texture::Form form;
  bool grade_known = true;  // false: only `gelatin` or `gelatin leaf` was said, and `form` stands for no grade
  std::vector<std::string> assumptions;
};

/// The agent that a thing of the larder is, by its name or by what most of it is; nothing if it is none.
std::optional<texture::Agent> agent_of(const larder::Thing&);
/// With Bloom (gelatins; 200 for others) and leaf (gelatins sold in leaves).
texture::Form form_of(const larder::Thing&, texture::Agent);
/// Names of agents and of gelatins as sold, for hints.
std::vector<std::string> agent_names();

/// Reads an agent; `source` is the index of its text. Errors: bad_input with the fault at its place.
base::Result<AgentForm> read_agent(std::uint32_t source, const base::Sources&, const larder::Larder&);

}  // namespace bloomset::sheet
