// A fit may not be an interpolation of its own checks: fitted constants are at most a quarter of the judged rows they serve.
// Constants of published equations are free; the freezing curve of ethanol is excepted, since no equation for it is known.
#include <gtest/gtest.h>

#include "judge.hpp"

namespace bloomset::reference {
namespace {

const std::filesystem::path data = BLOOMSET_SOURCE_DIR "/data";
const std::filesystem::path physical_folder = BLOOMSET_SOURCE_DIR "/tests/reference/physical";

struct Served {
  std::string table, conditions;
};
struct Fit {
  std::string name;
  std::vector<std::string> quantities;  // `file:quantity`
  std::vector<Served> serves;
};

const std::vector<Fit> fits = {
    {"heat of mixing", {"matter/enthalpy.csv:excess_enthalpy"}, {{"ethanol_water_heat_capacity", ""}, {"ethanol_water_excess_enthalpy", ""}}},
    {"apparent volumes", {"matter/density.csv:apparent_volume"}, {{"solution_density_20C", "solute!=ethanol|sucrose"}}},
    {"specific refractions", {"matter/refraction.csv:specific_refraction"}, {{"refractive_index_20C", ""}}},
    {"viscosity of ethanol and water", {"matter/viscosity.csv:ethanol_water"}, {{"ethanol_water_viscosity", ""}, {"viscosity", "solute=ethanol"}}},
    {"viscosity of solutes", {"matter/viscosity.csv:solute_viscosity", "matter/viscosity.csv:solute_cold"}, {{"viscosity", "solute!=ethanol"}}},
    {"water activity of solutes",
     {"matter/freezing.csv:linear", "matter/freezing.csv:square", "matter/freezing.csv:square_slope", "matter/freezing.csv:cube",
      "matter/freezing.csv:cube_slope"},
     {{"freezing_point", "solute!=ethanol"}, {"freezing_point_melinder", "solute!=ethanol"}, {"water_activity_25C", ""}}},
    {"virial coefficients", {"gas/real_gas.csv:second_virial", "gas/real_gas.csv:third_virial"}, {{"gas_second_virial", ""}, {"gas_pvt", ""}}},
};
const std::set<std::string> excepted = {"matter/freezing.csv:ethanol_slope_start"};

// `file:quantity` -> how many rows of origin `fit`, over all of data/.
std::map<std::string, int> fitted_constants() {
  std::map<std::string, int> found;
  for (const auto& file : std::filesystem::recursive_directory_iterator(data)) {
    if (file.path().extension() != ".csv") continue;
    const std::string name = std::filesystem::relative(file.path(), data).generic_string();
    std::istringstream lines(text_of(file.path()));
    for (std::string line; std::getline(lines, line);) {
      std::vector<std::string> cells;
      std::istringstream row(line);
      for (std::string cell; cells.size() < 6 && std::getline(row, cell, ',');) cells.push_back(cell);
      if (cells.size() == 6 && cells[5] == "fit") ++found[name + ":" + cells[0]];
    }
  }
  return found;
}

int judged_rows(const Served& served) {
  const auto conditions = conditions_of(served.conditions);
  int count = 0;
  for (const auto& row : whole_table(physical_folder / (served.table + ".csv")))
    if (row.inputs.text("judged") == "yes" && std::all_of(conditions.begin(), conditions.end(), [&row](const Condition& c) { return c.holds(row.inputs); }))
      ++count;
  return count;
}

TEST(Fits, HaveAtMostAQuarterAsManyConstantsAsJudgedRows) {
  const auto found = fitted_constants();
  for (const Fit& fit : fits) {
    int constants = 0, rows = 0;
    for (const auto& quantity : fit.quantities)
      if (const auto at = found.find(quantity); at != found.end()) constants += at->second;
    for (const auto& served : fit.serves) rows += judged_rows(served);
    EXPECT_LE(4 * constants, rows) << fit.name << ": " << constants << " constants for " << rows << " judged rows";
  }
}

TEST(Fits, AreAllCounted) {
  std::set<std::string> known = excepted;
  for (const Fit& fit : fits) known.insert(fit.quantities.begin(), fit.quantities.end());
  const auto found = fitted_constants();
  EXPECT_FALSE(found.empty());
  for (const auto& [quantity, count] : found) EXPECT_TRUE(known.contains(quantity)) << quantity << " is fitted, but no fit of this test counts it";
}

}  // namespace
}  // namespace bloomset::reference
