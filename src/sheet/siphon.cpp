// sheet/siphon.cpp - a charged part: its bottle's numbers, and what a cook should know before the first charger goes in.
//
// The maker's fill line and count of chargers bind; a stated pressure comes after them. Cautions that always hold are notes.
#include <cmath>

#include "flow/foam.hpp"
#include "gas/bottle.hpp"
#include "sheet/charging.hpp"
#include "sheet/readings.hpp"

namespace bloomset::sheet {

using base::Code;

namespace {

bool strained_before(const Kitchen& k, const flow::ChargeInfo& charge) {
  for (const flow::StepInfo& step : k.flow.steps)
    if (step.origin.part == charge.origin.part && step.origin.step < charge.origin.step && step.act == formula::Act::strain) return true;
  return false;
}

void fizz_rules(const Kitchen& k, std::vector<base::Finding>& findings) {
  for (std::size_t p = 0; p < k.flow.parts.size(); ++p) {
    if (!k.flow.parts[p].fizz || !k.book.parts[p].in_use) continue;
    const flow::FizzInfo& fizz = *k.flow.parts[p].fizz;
    const flow::FizzReading reading = flow::read_fizz(k.flow, k.batch, static_cast<std::uint16_t>(p));
    const base::Where at = where(k.flow, fizz.origin, fizz.span);
    if (reading.bottles > 1.0)
      findings.push_back(
          say(Code::assumption, at, "'" + k.flow.parts[p].name + "' takes " + shown(reading.bottles) + " of " + fizz.vessel + ", none above its fill line"));
    if (fizz.charges > 0 && !fizz.most_charges && !fizz.most_pressure)
      findings.push_back(say(Code::limit_unknown, at, fizz.vessel + ": the kit does not say how many chargers it takes"));
    if (fizz.most_charges && fizz.charges > *fizz.most_charges * reading.bottles)
      findings.push_back(say(Code::over_charges, at, fizz.vessel, fizz.charges / reading.bottles, *fizz.most_charges));
    const double peak_bar = units::in_bar_gauge(reading.peak), warm_bar = units::in_bar_gauge(reading.if_warm);
    if (fizz.most_pressure && peak_bar > units::in_bar_gauge(*fizz.most_pressure))
      findings.push_back(say(Code::over_pressure, at, fizz.vessel, peak_bar, units::in_bar_gauge(*fizz.most_pressure)));
    findings.push_back(say(Code::pressure_if_warm, at, fizz.vessel, warm_bar, warm_c));
    for (base::Finding& caution : gas_cautions(gas::Gas::carbon_dioxide)) {
      caution.where = at;
      findings.push_back(std::move(caution));
    }
  }
}

}  // namespace

SiphonLine siphon_line(const Kitchen& k, std::size_t part, const PartSheet& sheet) {
  const flow::ChargeInfo& charge = *k.flow.parts[part].charge;
  const flow::SiphonReading reading = flow::read_siphon(k.flow, k.batch, static_cast<std::uint16_t>(part));
  constexpr double percent = 100.0;
  SiphonLine line;
  line.vessel = charge.vessel;
  line.charges = charge.charges;
  line.fill_fraction = reading.fill_fraction;
  if (!reading.fits) {
    line.peak_bar_gauge = line.at_service_bar_gauge = line.if_warm_bar_gauge = matter::cannot_be_given;
    line.overrun_first = line.overrun_mean = line.overrun_last = matter::cannot_be_given;
    return line;
  }
  line.peak_bar_gauge = units::in_bar_gauge(reading.peak);
  line.at_service_bar_gauge = units::in_bar_gauge(reading.at_service);
  line.if_warm_bar_gauge = units::in_bar_gauge(reading.if_warm);
  line.overrun_first = percent * reading.overrun_first;
  line.overrun_mean = percent * reading.overrun_mean;
  line.overrun_last = percent * reading.overrun_last;
  if (sheet.used_per_serve_g > 0.0) line.portions = std::floor(sheet.batch_mass_g / sheet.used_per_serve_g + 1e-9);
  return line;
}

void bottle_rules(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) {
  fizz_rules(k, findings);
  for (std::size_t p = 0; p < sheet.parts.size(); ++p) {
    const auto& line = sheet.parts[p].siphon;
    if (!line) continue;
    const flow::ChargeInfo& charge = *k.flow.parts[p].charge;
    const base::Where at = where(k.flow, charge.origin, charge.span);
    const units::Volume fill_limit = gas::fill_limit(charge.gross, std::nullopt, charge.fill_line);
    if (line->fill_fraction > 1.0 + 1e-6)
      findings.push_back(
          say(Code::over_fill_line, at, charge.vessel, line->fill_fraction * units::in_millilitres(fill_limit), units::in_millilitres(fill_limit)));
    if (!charge.most_charges)
      findings.push_back(say(Code::limit_unknown, at, charge.vessel + ": the kit does not say how many chargers it takes"));
    else if (charge.charges > *charge.most_charges)
      findings.push_back(say(Code::over_charges, at, charge.vessel, charge.charges, *charge.most_charges));
    if (charge.most_pressure && line->peak_bar_gauge > units::in_bar_gauge(*charge.most_pressure))
      findings.push_back(say(Code::over_pressure, at, charge.vessel, line->peak_bar_gauge, units::in_bar_gauge(*charge.most_pressure)));
    if (!std::isnan(line->if_warm_bar_gauge)) findings.push_back(say(Code::pressure_if_warm, at, charge.vessel, line->if_warm_bar_gauge, warm_c));
    if (!strained_before(k, charge)) findings.push_back(say(Code::not_strained, at, "'" + sheet.parts[p].name + "'"));
    for (base::Finding& caution : gas_cautions(gas::Gas::nitrous_oxide)) {
      caution.where = at;
      findings.push_back(std::move(caution));
    }
  }
}

}  // namespace bloomset::sheet
