#include "sheet/charging.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "gas/carbonation.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using base::ErrorKind;
using gas::Gas;

constexpr double hot_from_c = 40.0;           // what a maker of a cold bottle means (practice)
constexpr double judged_to_c = 60.0;          // solubility.hpp: extrapolated to there
constexpr double boils_in_the_hand_c = 95.0;  // above: nobody opens such a bottle
constexpr double freezes_within_k = 0.05;     // what a kitchen thermometer shows as the same
constexpr double absurd_gas_g_l = 100.0;      // of the gross volume; three chargers of 8 g in 0.75 L are 32
constexpr int most_charges_of_any_bottle = 24;
constexpr double litres_a_charger = 0.5;  // the trade's usual number (practice)
constexpr double charger_not_counted = 0.1;

double litre(units::Volume v) { return units::in_litres(v); }
std::string millilitres_words(units::Volume v) { return shown(units::in_millilitres(v)) + " mL"; }

base::Result<void> check(const Mixture& liquid, const Charging& how, units::Volume volume) {
  const auto refuse = [](std::string words) { return base::fail(ErrorKind::bad_input, std::move(words)); };
  if (volume >= how.gross)
    return refuse(millilitres_words(volume) + " of liquid do not go into a bottle of " + millilitres_words(how.gross) +
                  " to the brim: take less of it, or a larger bottle");
  const double at_c = units::in_celsius(how.at);
  const double freezes_c = units::in_celsius(matter::freezing_point(liquid.masses));
  if (at_c < freezes_c - freezes_within_k)
    return refuse("at " + shown(at_c) + " C this liquid freezes in the bottle (it begins at " + shown(freezes_c) + " C): charge it warmer");
  if (at_c > boils_in_the_hand_c)
    return refuse("at " + shown(at_c) + " C a bottle boils over when it is opened: charge it below " + shown(boils_in_the_hand_c) + " C");
  if (how.regulator) return {};
  const double grams = units::in_grams(how.charge) * how.charges;
  if (!(grams > 0.0)) return refuse("no gas goes in: a charge weighs more than 0 g, and there is at least one");
  if (how.charges > most_charges_of_any_bottle)
    return refuse(std::to_string(how.charges) + " charges: no bottle of a kitchen takes more than " + std::to_string(most_charges_of_any_bottle));
  if (grams / litre(how.gross) > absurd_gas_g_l)
    return refuse(shown(grams) + " g of gas are " + shown(grams / litre(how.gross)) +
                  " g a litre of bottle, and no table-top bottle bears that: three chargers of 8 g in 0.75 L are 32 g a litre");
  return {};
}

gas::Bottle charged(const Charging& how, units::Volume volume, double relative) {
  gas::Bottle bottle = gas::closed(how.gas, how.gross, volume, how.at, relative, how.purged);
  for (int i = 0; i < how.charges; ++i) {
    gas::charge(bottle, how.charge);
    gas::settle(bottle);
  }
  return bottle;
}

// Under a regulator the air was let out: what stands above the liquid is gas and water vapour.
gas::Bottle regulated(const Charging& how, units::Volume volume, double relative) {
  gas::Bottle bottle = gas::closed(how.gas, how.gross, volume, how.at, relative, true);
  const gas::Fizz fizz = gas::regulated(how.gas, *how.regulator, how.at, relative);
  const units::Pressure alone{std::max(how.regulator->si - gas::water_vapour_pressure(how.at).si, 0.0)};
  const double head_mol = gas::concentration(how.gas, alone, how.at).si * (how.gross - volume).si;
  bottle.dissolved = {fizz.dissolved.si * volume.si};
  bottle.total = {bottle.dissolved.si + head_mol};
  return bottle;
}

double gauge(const gas::Reading& reading) { return units::in_bar_gauge(reading.pressure); }

void read_regulated(ChargeSheet& sheet, const gas::Bottle& bottle) {
  const double bar = units::in_bar_gauge(*sheet.how.regulator);
  sheet.pressure_bar_gauge = {bar, bar, bar};
  sheet.pressure_bar_abs = units::in_bar_absolute(*sheet.how.regulator);
  sheet.unshaken_bar_gauge = std::numeric_limits<double>::quiet_NaN();
  sheet.dissolved_g = units::in_grams(gas::mass(bottle.gas, bottle.dissolved));
  sheet.headspace_g = units::in_grams(gas::mass(bottle.gas, bottle.total - bottle.dissolved));
  sheet.gas_volumes = gas::regulated(sheet.how.gas, *sheet.how.regulator, sheet.how.at, sheet.relative_solubility).volumes;
}

void read_charged(ChargeSheet& sheet, const gas::Bottle& bottle, units::Volume volume) {
  const double off = sheet.relative_solubility_uncertainty;
  const auto with = [&](double factor) { return gauge(gas::reading(charged(sheet.how, volume, sheet.relative_solubility * factor))); };
  const gas::Reading reading = gas::reading(bottle);
  sheet.pressure_bar_gauge = {gauge(reading), with(1.0 + off), with(1.0 - off)};  // what holds more gas stands lower
  sheet.pressure_bar_abs = units::in_bar_absolute(reading.pressure);
  sheet.unshaken_bar_gauge = units::in_bar_gauge(bottle.peak);
  sheet.dissolved_g = units::in_grams(reading.dissolved);
  sheet.headspace_g = units::in_grams(reading.headspace);
  sheet.liquefied_g = units::in_grams(reading.liquefied);
  sheet.gas_volumes = reading.gas_volumes;
  const gas::Dispensed out = gas::emptying(bottle);
  sheet.overrun_percent = {100.0 * out.first, 100.0 * out.mean, 100.0 * out.last};
  sheet.stays_ml = units::in_millilitres(volume - out.liquid);
}

void check_limits(ChargeSheet& sheet) {
  const Charging& how = sheet.how;
  auto& findings = sheet.findings;
  const double poured_ml = units::in_millilitres(sheet.liquid.poured);
  if (poured_ml > sheet.fill_limit_ml * (1.0 + line_read_within)) {
    findings.push_back(say(Code::over_fill_line, {}, how.bottle, poured_ml, sheet.fill_limit_ml));
    if (!how.fill_line) findings.back().weight = base::Weight::mind;  // nobody stated that line
  }
  if (!how.hot_rated && units::in_celsius(how.at) >= hot_from_c) {
    base::Finding cold_only = because("its maker states it for cold use only", say(Code::unrated_vessel, {}, how.bottle));
    cold_only.says = how.bottle + " is not rated for hot liquid, and this is at " + shown(units::in_celsius(how.at)) + " C";
    cold_only.source = "the bottle's maker";
    cold_only.remedies = {{"take a bottle that is rated for heat, or charge it cold", std::nullopt}};
    findings.push_back(std::move(cold_only));
  }
  if (!how.regulator && how.most_charges && how.charges > *how.most_charges)
    findings.push_back(say(Code::over_charges, {}, how.bottle, how.charges, *how.most_charges));
  if (!how.regulator && !how.most_charges)
    findings.push_back(say(Code::limit_unknown, {}, "limit unknown: how many charges " + how.bottle + " takes is not said"));
  if (how.regulator && !how.limit) findings.push_back(say(Code::limit_unknown, {}, "limit unknown: what pressure " + how.bottle + " bears is not said"));
  const double bar = sheet.pressure_bar_gauge.nominal;
  if (how.limit && bar > units::in_bar_gauge(*how.limit)) findings.push_back(say(Code::over_pressure, {}, how.bottle, bar, units::in_bar_gauge(*how.limit)));
  if (sheet.liquefied_g > 0.0) {
    findings.push_back(say(Code::over_pressure, {}, how.bottle, bar, bar));
    findings.back().says =
        how.bottle + ": " + shown(sheet.liquefied_g) + " g of the gas do not go in as gas and would stand as a liquid, at its vapour pressure";
    findings.back().why = "no kitchen bottle is made for liquefied gas";
  }
}

void add_warm(ChargeSheet& sheet, const gas::Bottle& bottle) {
  if (units::in_celsius(sheet.how.at) >= warm_c) return;
  sheet.warm_bar_gauge = gauge(gas::reading_at(bottle, units::celsius(warm_c)));
  base::Finding warm = say(Code::pressure_if_warm, {}, sheet.how.bottle, *sheet.warm_bar_gauge, warm_c);
  if (sheet.how.limit && *sheet.warm_bar_gauge > units::in_bar_gauge(*sheet.how.limit)) {
    warm.weight = base::Weight::mind;
    warm.says += ", above the " + shown(units::in_bar_gauge(*sheet.how.limit)) + " bar that it is stated for";
  }
  sheet.findings.push_back(std::move(warm));
}

void add_notes(ChargeSheet& sheet) {
  for (const std::string& one : sheet.liquid.assumptions) sheet.findings.push_back(say(Code::assumption, {}, one));
  if (sheet.how.regulator && !sheet.how.purged)
    sheet.findings.push_back(say(Code::assumption, {}, "the air above the liquid was let out before the regulator was opened"));
  if (!sheet.how.fill_line)
    sheet.findings.push_back(
        say(Code::assumption, {}, "no fill line was given, so it lies at three quarters of the gross volume, " + shown(sheet.fill_limit_ml) + " mL"));
  if (units::in_celsius(sheet.how.at) > judged_to_c)
    sheet.findings.push_back(say(
        Code::range_left, {}, "solubility of the gas is known to " + shown(judged_to_c) + " C, and this is " + shown(units::in_celsius(sheet.how.at)) + " C"));
  if (sheet.how.regulator) {
    base::Where where;
    where.property = "overrun_percent";
    sheet.findings.push_back(
        because("it is poured for its fizz, and not as foam", say(Code::value_missing, std::move(where), "no overrun is given under a regulator")));
  }
}

}  // namespace

base::Result<ChargeSheet> charge(const Mixture& liquid, const Charging& how) {
  const units::Volume volume = matter::liquid_volume(liquid.masses, how.at);
  if (auto checked = check(liquid, how, volume); !checked) return tl::unexpected<base::Error>(std::move(checked.error()));
  ChargeSheet sheet;
  sheet.liquid = liquid;
  sheet.how = how;
  sheet.liquid_ml = units::in_millilitres(volume);
  sheet.head_ml = units::in_millilitres(how.gross - volume);
  sheet.fill_limit_ml = units::in_millilitres(gas::fill_limit(how.gross, std::nullopt, how.fill_line));
  const gas::RelativeSolubility relative = gas::relative_solubility(how.gas, liquid.masses, how.at);
  sheet.relative_solubility = relative.value;
  sheet.relative_solubility_uncertainty = relative.uncertainty;
  const gas::Bottle bottle = how.regulator ? regulated(how, volume, relative.value) : charged(how, volume, relative.value);
  if (how.regulator)
    read_regulated(sheet, bottle);
  else
    read_charged(sheet, bottle, volume);
  check_limits(sheet);
  add_warm(sheet, bottle);
  add_notes(sheet);
  for (base::Finding& one : gas_cautions(how.gas)) sheet.findings.push_back(std::move(one));
  tidy(sheet.findings);
  return sheet;
}

std::vector<base::Finding> gas_cautions(Gas gas) {
  std::vector<base::Finding> out;
  out.push_back(say(Code::gas_caution, {}, "unscrew the head of a charged bottle only when all its gas has been let out"));
  out.back().why = "heads that flew off under pressure have broken ribs and hurt eyes";
  out.back().remedies.push_back(
      {"blocked: leave it closed, chill it, stand it upright and vent it slowly through a cloth; if it will not vent, keep it cold and ask the supplier",
       std::nullopt});
  if (gas == Gas::nitrous_oxide) {
    out.push_back(say(Code::gas_caution, {}, "nitrous oxide is for foaming food: breathed in it can kill, and many places restrict its sale"));
    out.back().why = "it takes the place of air";
  } else {
    out.push_back(say(Code::gas_caution, {}, "carbon dioxide goes into a bottle made for nitrous oxide only if its maker permits it"));
    out.back().why = "in cream it prickles and tastes sour, and set free in a small room it takes the place of air";
  }
  return out;
}

int usual_charges(units::Volume liquid, std::optional<int> most_charges) {
  const int usual = std::max(static_cast<int>(std::ceil(litre(liquid) / litres_a_charger - charger_not_counted)), 1);
  return most_charges ? std::min(usual, *most_charges) : usual;
}

}  // namespace bloomset::sheet
