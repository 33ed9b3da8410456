// checks/physical_gas.cpp - answers for the tables of gas solubility, real gases and carbonation.
#include <limits>

#include "gas/carbonation.hpp"
#include "physical_tables.hpp"

namespace bloomset::checks {
namespace {

using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::optional<gas::Gas> gas_of(const Inputs& in) {
  if (in.text("gas") == "N2O") return gas::Gas::nitrous_oxide;
  if (in.text("gas") == "CO2") return gas::Gas::carbon_dioxide;
  return std::nullopt;
}

Temperature temperature(const Inputs& in) { return celsius(in.number("temperature_C")); }

Answers solubility_in_water(const Inputs& in) {
  const auto gas = gas_of(in);
  const double mol_l_atm = gas ? 1e-3 * gas::henry_mol_m3_pa(*gas, temperature(in)) * standard_atmosphere_pa : unknown;
  return {{"henry_solubility_mol_per_L_atm_fugacity", mol_l_atm}};
}

Answers vapour_pressure(const Inputs& in) {
  const auto gas = gas_of(in);
  return {{"vapour_pressure_bar", gas ? in_bar_absolute(gas::vapour_pressure(*gas, temperature(in))) : unknown}};
}

Answers second_virial(const Inputs& in) {
  const auto gas = gas_of(in);
  return {{"second_virial_cm3_per_mol", gas ? 1e6 * gas::second_virial_m3_mol(*gas, temperature(in)) : unknown}};
}

// The virial equation describes the gas only: rows of the liquid stay unanswered.
Answers pressure_volume(const Inputs& in) {
  const auto gas = gas_of(in);
  if (!gas || in.text("phase") != "gas") return {{"compressibility_Z", unknown}, {"fugacity_coefficient", unknown}};
  const Pressure p = bar_absolute(in.number("pressure_bar_abs"));
  return {{"compressibility_Z", gas::compressibility(*gas, p, temperature(in))}, {"fugacity_coefficient", gas::fugacity_coefficient(*gas, p, temperature(in))}};
}

Answers carbonation(const Inputs& in) {
  return {{"co2_volumes_in_water_0C_1atm", gas::regulated(gas::Gas::carbon_dioxide, bar_gauge(in.number("gauge_pressure_bar")), temperature(in)).volumes}};
}

Answers nitrous_oxide_in_water(const Inputs& in) {
  const Pressure p = bar_absolute(in.number("n2o_partial_pressure_bar_abs"));
  return {{"dissolved_mol_per_L_water", 1e-3 * gas::dissolved_at(gas::Gas::nitrous_oxide, p, temperature(in)).si},
          {"gas_phase_mol_per_L", 1e-3 * gas::concentration(gas::Gas::nitrous_oxide, p, temperature(in)).si}};
}

const std::vector<Subject> subjects = {
    {"gas_solubility_water", {"gas", "temperature_C"}, solubility_in_water},
    {"gas_vapour_pressure", {"gas", "temperature_C"}, vapour_pressure},
    {"gas_second_virial", {"gas", "temperature_C"}, second_virial},
    {"gas_pvt", {"gas", "temperature_C", "pressure_bar_abs", "phase"}, pressure_volume},
    {"carbonation_volumes", {"temperature_C", "gauge_pressure_bar"}, carbonation},
    {"n2o_dissolved_in_water", {"temperature_C", "n2o_partial_pressure_bar_abs"}, nitrous_oxide_in_water},
};

}  // namespace

std::span<const Subject> gas_subjects() { return subjects; }

}  // namespace bloomset::checks
