#include "flow/foam.hpp"

#include <algorithm>
#include <cmath>

#include "gas/bottle.hpp"
#include "gas/emptying.hpp"
#include "gas/foam.hpp"
#include "gas/real_gas.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "text/fold.hpp"

namespace bloomset::flow {
namespace {

constexpr double froth_overrun = 9.0;
constexpr double warm_room_c = 30.0;
constexpr double shaken_s = 10.0;  // after each charger: practice

double celsius_of(const Batch<1>& batch, Port port) {
  const Stream& stream = batch.port(port);
  return matter::thermal_state(stream.mass, stream.enthalpy_j).t_c;
}

}  // namespace

SiphonReading read_siphon(const Flowsheet& sheet, const Batch<1>& batch, std::uint16_t part) {
  const ChargeInfo& charge = *sheet.parts[part].charge;
  SiphonReading out;
  Port liquid = no_port;
  std::vector<double> later_c;
  for (const StepInfo& step : sheet.steps) {
    if (step.origin.part != part || step.liquid == no_port) continue;
    if (step.act == formula::Act::degas && step.origin.step > charge.origin.step) break;  // let out
    if (step.origin.step == charge.origin.step) liquid = step.liquid;
    if (step.origin.step > charge.origin.step) later_c.push_back(celsius_of(batch, step.liquid));
  }
  if (liquid == no_port) return out;
  const matter::Composition& base = batch.port(liquid).mass;
  const double charged_c = celsius_of(batch, liquid);
  out.liquid = matter::liquid_volume(base, units::celsius(charged_c));
  out.fill_fraction = out.liquid.si / gas::fill_limit(charge.gross, std::nullopt, charge.fill_line).si;
  out.fits = out.liquid.si > 0.0 && out.liquid.si < fullest_fill * charge.gross.si;
  if (!out.fits) return out;
  const double solubility = gas::relative_solubility(gas::Gas::nitrous_oxide, base, units::celsius(charged_c)).value;
  gas::Bottle bottle = gas::closed(gas::Gas::nitrous_oxide, charge.gross, out.liquid, units::celsius(charged_c), solubility, charge.purged);
  for (int n = 0; n < charge.charges; ++n) {
    gas::charge(bottle, units::kilograms(charge.charge_kg));
    gas::shake(bottle, units::seconds(shaken_s));
  }
  gas::settle(bottle);
  for (const double t_c : later_c) gas::bring_to(bottle, units::celsius(std::max(t_c, 0.0)));
  const gas::Reading now = gas::reading(bottle);
  out.peak = bottle.settled_peak;
  out.at_service = now.pressure;
  out.if_warm = gas::reading_at(bottle, units::celsius(warm_room_c)).pressure;
  out.dissolved = now.dissolved;
  const gas::Dispensed all = gas::emptying(bottle);
  const double kept = gas::retention().prior;
  const gas::Standing mean = gas::standing(all.mean, kept);
  out.overrun_first = gas::standing(all.first, kept).overrun;
  out.overrun_mean = mean.overrun;
  out.overrun_last = gas::standing(all.last, kept).overrun;
  out.spurt = mean.spurt;
  return out;
}

FizzReading read_fizz(const Flowsheet& sheet, const Batch<1>& batch, std::uint16_t part) {
  constexpr gas::Gas co2 = gas::Gas::carbon_dioxide;
  const FizzInfo& fizz = *sheet.parts[part].fizz;
  FizzReading out;
  const Stream& drink = batch.port(fizz.fizzed);
  const units::Temperature at = units::celsius(celsius_of(batch, fizz.fizzed));
  const units::Volume volume = matter::liquid_volume(drink.mass, at);
  if (!(volume.si > 0.0)) return out;
  out.bottles = std::max(std::ceil(volume.si / fizz.fill.si), 1.0);
  const double solubility = gas::relative_solubility(co2, drink.mass, at).value;
  gas::Bottle bottle = gas::closed(co2, fizz.gross, volume * (1.0 / out.bottles), at, solubility, fizz.pressure.has_value());
  if (fizz.pressure) {
    const units::Pressure alone{std::max(fizz.pressure->si - gas::water_vapour_pressure(at).si, 0.0)};
    const units::Amount above{gas::concentration(co2, alone, at).si * (bottle.gross.si - bottle.liquid.si)};
    gas::charge(bottle, units::kilograms(drink.mass[matter::Component::carbon_dioxide] / out.bottles + gas::mass(co2, above).si));
  } else {
    gas::charge(bottle, units::kilograms((batch.port(fizz.liquid).mass[matter::Component::carbon_dioxide] + fizz.charge_kg * fizz.charges) / out.bottles));
  }
  gas::settle(bottle);
  for (const StepInfo& step : sheet.steps)
    if (step.origin.part == part && step.origin.step > fizz.origin.step && step.liquid != no_port) {
      if (step.act == formula::Act::degas) break;
      gas::bring_to(bottle, units::celsius(std::max(celsius_of(batch, step.liquid), 0.0)));
    }
  out.peak = bottle.settled_peak;
  out.if_warm = gas::reading_at(bottle, units::celsius(warm_room_c)).pressure;
  return out;
}

texture::FoamHold foam_hold(const Flowsheet& sheet, const Batch<1>& batch, std::uint16_t part) {
  texture::FoamBase asked;
  const Port port = sheet.parts[part].liquid;
  if (port == no_port) return {};
  asked.liquid = batch.port(port).mass;
  asked.at = units::celsius(celsius_of(batch, port));
  asked.froth = sheet.parts[part].foams == Foams::froth;
  for (const TakeInfo& take : sheet.takes) {
    if (take.origin.part != part || !take.thing) continue;
    const larder::Thing& thing = sheet.things[*take.thing];
    if (thing.bloom) asked.bloom = *thing.bloom;
    if (thing.family == larder::Family::egg && text::fold(thing.name).find("white") != std::string::npos && take.liquid != no_port)
      asked.egg_white = {asked.egg_white.si + batch.port(take.liquid).mass.total_kg()};
  }
  return texture::foam_hold(asked);
}

double standing_overrun(const Flowsheet& sheet, const Batch<1>& batch, std::uint16_t part) {
  switch (sheet.parts[part].foams) {
    case Foams::siphon:
      return read_siphon(sheet, batch, part).overrun_mean;
    case Foams::froth:
      return froth_overrun;
    case Foams::no:
      break;
  }
  return 0.0;
}

}  // namespace bloomset::flow
