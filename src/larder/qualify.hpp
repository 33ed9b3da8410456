// larder/qualify.hpp - what the bracket of a take changes in a row.
//
// Each row lists the words it allows; each word here knows the numbers that make sense and what it does. A word that is not
// on the list, stands twice, contradicts another (`raw, canned`) or lies outside its band is a fault at its place.
#pragma once

#include <vector>

#include "larder/row.hpp"
#include "text/amount.hpp"

namespace bloomset::larder {

/// A row with its bracket applied.
struct Qualified {
  Row row;
  std::string label;                // `orange juice (12 brix, canned)`
  std::optional<double> brix_read;  // the Brix a refractometer is to show
  bool heated = false;              // pasteurised or canned was said
  bool as_raw = false;              // raw was said
  bool matter_changed = false;      // the measured density no longer holds
};
Qualified qualify(const Row&, const std::vector<Qualifier>&, text::Faults&);

}  // namespace bloomset::larder
