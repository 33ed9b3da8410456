// checks/physical_tables.hpp - what the check runner for physical properties shares: rows in, answers out.
//
// A table of outside values comes as a CSV with an id column `row`. Of its other columns the runner keeps the ones that a subject
// declares as inputs and forgets the rest before anything is computed, so that no answer can look at an expected value.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "matter/composition.hpp"

namespace bloomset::checks {

/// The inputs of one row. A missing or unreadable number is NaN, a missing text is empty.
struct Inputs {
  std::map<std::string, std::string, std::less<>> cells;
  double number(std::string_view column) const;
  std::string_view text(std::string_view column) const;
};

/// One computed value; NaN means that the question is not answered.
struct Answer {
  std::string_view column;
  double value;
};
using Answers = std::vector<Answer>;

/// A table that can be answered: its file name without `.csv`, the columns it may read, and how.
struct Subject {
  std::string_view table;
  std::vector<std::string_view> inputs;
  Answers (*answer)(const Inputs&);
};

struct Row {
  std::string id;
  Inputs inputs;
};
/// The rows of a CSV text, only the named columns kept. Empty if there is no column `row`.
std::vector<Row> rows(std::string_view csv, std::span<const std::string_view> columns);

/// All subjects: densities, heats, refraction, viscosity; then acids, freezing, water activity, ice; then gases.
std::span<const Subject> liquid_subjects();
std::span<const Subject> balance_subjects();
std::span<const Subject> gas_subjects();

/// `kg` of a substance by its trade name ("sodium citrate", "sodium chloride", "citric acid"), booked in components.
std::optional<matter::Composition> substance(std::string_view name, double kg);
/// That many percent by mass of the substance in water, 1 kg in all.
std::optional<matter::Composition> solution(std::string_view solute, double mass_percent);

}  // namespace bloomset::checks
