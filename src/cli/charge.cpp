// cli/charge.cpp - `bloomset charge --bottle 0.75L --liquid "450 g water" --charges 2`: a bottle under gas.
//
// `--pressure` is the regulator's where carbon dioxide goes in without chargers; with chargers it is what the bottle is stated for.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/charging.hpp"
#include "text/fold.hpp"

namespace bloomset::cli {
namespace {

gas::Gas gas_of(const ChargeOptions& options, QuantityReader& read) {
  const std::string gas = text::fold(options.gas);
  if (gas == "n2o") return gas::Gas::nitrous_oxide;
  if (gas != "co2") read.fault("--gas", options.gas, "unknown_gas", "a bottle is charged with N2O or CO2", "");
  return gas::Gas::carbon_dioxide;
}

// A volume, or a siphon or bottle of the kit with all that its maker states.
void set_bottle(sheet::Charging& how, const ChargeOptions& options, const kit::Kit& kit, QuantityReader& read) {
  const bool named = options.bottle.find_first_of("0123456789") != 0;
  if (!named) {
    how.gross = read.volume("--bottle", options.bottle);
    return;
  }
  const kit::Vessel* vessel = kit.vessel(options.bottle);
  if (vessel == nullptr || !vessel->pressure_rated) {
    const std::string near = base::nearest(options.bottle, kit.vessel_names());
    read.fault("--bottle", options.bottle, "unknown_vessel",
               vessel == nullptr ? "this is neither a volume nor in the kit" : "this vessel is not made for pressure: charge a siphon or a pressure bottle",
               near.empty() || vessel != nullptr ? "for instance `0.75 L` (filled to the brim) or `siphon, half litre`" : "did you mean `" + near + "`?");
    return;
  }
  how.bottle = vessel->name;
  how.gross = vessel->brim;
  how.fill_line = vessel->fill_line;
  how.most_charges = vessel->most_charges;
  how.limit = vessel->most_pressure;
  how.hot_rated = vessel->hot_rated;
}

void set_gas(sheet::Charging& how, const ChargeOptions& options, QuantityReader& read) {
  how.gas = gas_of(options, read);
  how.charge = read.mass("--charge-mass", options.charge_mass);
  how.purged = options.purged;
  const std::optional<units::Pressure> pressure = options.pressure ? std::optional(read.pressure("--pressure", *options.pressure)) : std::nullopt;
  if (options.charges) {
    how.charges = *options.charges;
    if (pressure) how.limit = pressure;
    if (how.charges < 1) read.fault("--charges", std::to_string(how.charges), "bad_charges", "there is at least one charger", "");
    return;
  }
  if (how.gas == gas::Gas::carbon_dioxide && pressure) {
    how.regulator = pressure;
    return;
  }
  read.fault("--charges", "", "charges_needed", "how many chargers go in is not said",
             how.gas == gas::Gas::carbon_dioxide ? "give --charges, or --pressure for a regulator" : "give --charges");
}

sheet::Charging charging(const ChargeOptions& options, const kit::Kit& kit, QuantityReader& read) {
  sheet::Charging how;
  set_bottle(how, options, kit, read);
  set_gas(how, options, read);
  how.at = read.temperature("--at", options.at);
  if (options.fill_line) how.fill_line = read.volume("--fill-line", *options.fill_line);
  if (options.most_charges) {
    how.most_charges = options.most_charges;
    if (*options.most_charges < 1) read.fault("--max-charges", std::to_string(*options.most_charges), "bad_charges", "a bottle takes at least one charger", "");
  }
  if (!read.faults.empty()) return how;
  if (how.fill_line && (*how.fill_line > how.gross || !(how.fill_line->si > 0.0)))
    read.fault("--fill-line", options.fill_line.value_or(""), "bad_fill_line", "a fill line lies below the brim of the bottle", "");
  return how;
}

}  // namespace

int run_charge(const ChargeOptions& options, const Common& common, const Streams& streams) {
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  if (!desk) return tell(desk.error(), sources, streams.err);
  QuantityReader read(sources);
  const sheet::Charging how = charging(options, desk->kit, read);
  const auto liquid = sheet::read_mixture(sources.add("--liquid", options.liquid), sources, desk->larder);
  if (!liquid || !read.faults.empty()) return tell_all(std::move(read.faults), liquid, sources, streams.err);
  const auto made = sheet::charge(*liquid, how);
  if (!made) return tell(made.error(), sources, streams.err);
  streams.out << (common.json ? press::charge_json(*made) : press::charge_text(*made));
  return 0;
}

}  // namespace bloomset::cli
