// sheet/gelatin_swap.hpp - one gelatin in place of another: leaves for powder, one grade for another, by every rule in use.
//
// The rules disagree (texture/form.hpp); all are shown, with how firm each comes out against what the recipe had. Chosen is leaf for leaf where
// the recipe counts leaves and both have some, equal firmness (root of the Bloom ratio) else. A leaf whose grade is not known has no one answer:
// then the fault lists what each grade would give. Called by the command `gelatin`.
#pragma once

#include <optional>
#include <vector>

#include "base/finding.hpp"
#include "sheet/agent_form.hpp"

namespace bloomset::sheet {

/// Of the recipe: a mass, or a number of leaves.
struct GelatinAmount {
  std::optional<units::Mass> mass;
  std::optional<double> pieces;
  base::Span span;
};
struct GelatinSheet {
  AgentForm from, to;
  bool counted = false;
  units::Mass mass;              // of `from`
  std::optional<double> pieces;  // of `from`, where it is in leaves
  texture::Conversion conversion;
  std::array<double, 3> firmness{};  // of each rule over the recipe's, by the square law in one base; not a number where it does not apply
  texture::BloomingWater blooming;   // of the chosen mass
  std::vector<base::Finding> findings;
  const texture::Converted& chosen() const { return conversion.of(conversion.chosen); }
};
/// `from_span`, `to_span`: where the two were named. Errors: bad_input: no gelatin, no amount, leaves of a powder, a grade that is not known.
base::Result<GelatinSheet> swap_gelatin(const GelatinAmount&, const AgentForm& from, base::Span from_span, const AgentForm& to, base::Span to_span);

}  // namespace bloomset::sheet
