// sheet/service.cpp - a whole service in one place: rounds and seconds at the tin, ice in tins and glasses, bottles of foam and their chargers.
#include <cmath>

#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

bool at_the_tin(formula::Act act) {
  return act == formula::Act::shake || act == formula::Act::dry_shake || act == formula::Act::stir || act == formula::Act::blend;
}

}  // namespace

Service service_of(const Kitchen& k) {
  Service out;
  std::vector<bool> worked(k.flow.parts.size(), false);
  for (const flow::StepInfo& step : k.flow.steps) {
    const flow::PartInfo& part = k.flow.parts[step.origin.part];
    if (!at_the_tin(step.act) || part.made == formula::Made::ahead || !k.book.parts[step.origin.part].in_use) continue;
    out.seconds += part.rounds * step_seconds(k, step);
    if (!worked[step.origin.part]) out.rounds += part.rounds;
    worked[step.origin.part] = true;
  }
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    if (!take.thing || !k.flow.things[*take.thing].is_ice() || !k.book.takes[t].there) continue;
    double& grams = k.is_serve(take.origin.part) ? out.ice_in_glasses_g : out.ice_in_tins_g;
    grams += k.book.takes[t].kg * k.book.parts[take.origin.part].times * 1e3;
  }
  for (std::size_t p = 0; p < k.flow.parts.size(); ++p) {
    const PartLedger& entry = k.book.parts[p];
    if (!k.flow.parts[p].charge || !entry.in_use || !(entry.finished_kg > 0.0)) continue;
    const flow::ChargeInfo& charge = *k.flow.parts[p].charge;
    const int bottles = std::max(1, static_cast<int>(std::ceil(entry.drawn_kg / entry.finished_kg - 1e-9)));
    out.bottles.push_back({k.flow.parts[p].name, charge.vessel, bottles, bottles * charge.charges});
  }
  return out;
}

}  // namespace bloomset::sheet
