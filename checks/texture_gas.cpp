// checks/texture_gas.cpp - answers about gas: solubility, a charged siphon bottle, its foam, a room.
#include <limits>
#include <optional>

#include "gas/emptying.hpp"
#include "gas/foam.hpp"
#include "texture_ops.hpp"

namespace bloomset::checks {
namespace {

using namespace units;

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::optional<gas::Gas> gas_of(const Given& in) {
  if (in.text("gas") == "N2O") return gas::Gas::nitrous_oxide;
  if (in.text("gas") == "CO2") return gas::Gas::carbon_dioxide;
  return std::nullopt;
}

double ostwald(const Given& in, std::string_view column) {
  const auto gas = gas_of(in);
  return gas && column == "ostwald" ? gas::ostwald(*gas, celsius(in.number("temperature_c"))) : unknown;
}

double saturation_pressure(const Given& in, std::string_view column) {
  const auto gas = gas_of(in);
  return gas && column == "bar_abs" ? in_bar_absolute(gas::vapour_pressure(*gas, celsius(in.number("temperature_c")))) : unknown;
}

// `ostwald`, if given, is the coefficient of the liquid in the bottle; else it is water.
gas::Bottle bottle(const Given& in) {
  constexpr gas::Gas n2o = gas::Gas::nitrous_oxide;
  const Temperature t = celsius(in.number("temperature_c"));
  const double relative = in.has("ostwald") ? in.number("ostwald") / gas::ostwald(n2o, t) : 1.0;
  gas::Bottle b = gas::closed(n2o, litres(in.number("gross_l")), litres(in.number("liquid_l")), t, relative);
  gas::charge(b, grams(in.number("n2o_g")));
  gas::settle(b);
  return b;
}

double siphon_state(const Given& in, std::string_view column) {
  const gas::Reading r = gas::reading(bottle(in));
  if (column == "pressure_bar_gauge") return in_bar_gauge(r.pressure);
  return column == "dissolved_fraction" ? r.dissolved_share : unknown;
}

double siphon_overrun(const Given& in, std::string_view column) {
  const gas::Dispensed d = gas::emptying(bottle(in));
  if (column == "first") return 100.0 * d.first;
  if (column == "mean") return 100.0 * d.mean;
  return column == "last" ? 100.0 * d.last : unknown;
}

double gas_fraction(const Given& in, std::string_view column) { return column == "phi" ? gas::gas_fraction(0.01 * in.number("overrun_percent")) : unknown; }

double overrun_from_fraction(const Given& in, std::string_view column) {
  return column == "overrun_percent" ? 100.0 * gas::overrun_of(in.number("phi")) : unknown;
}

double room_ppm(const Given& in, std::string_view column) {
  if (column != "ppm") return unknown;
  return gas::room_rise_ppm(gas::Gas::nitrous_oxide, grams(in.number("n2o_g")), Volume{in.number("room_m3")}, litres(in.number("molar_volume_l")));
}

constexpr Op ops[] = {
    {"ostwald", ostwald},           {"saturation_pressure", saturation_pressure},     {"siphon_state", siphon_state}, {"siphon_overrun", siphon_overrun},
    {"gas_fraction", gas_fraction}, {"overrun_from_fraction", overrun_from_fraction}, {"room_ppm", room_ppm}};

}  // namespace

std::span<const Op> gas_ops() { return ops; }

}  // namespace bloomset::checks
