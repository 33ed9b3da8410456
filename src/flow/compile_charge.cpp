// flow/compile_charge.cpp - bottles and agents: a charge, the water a gelatin takes up, and how long a foam stands.
//
// The gas of a siphon is booked as a take of its own that leaves as gas: what of it stands in the liquid while the bottle is
// closed is read by foam.hpp, and all of it goes when the foam is out of the bottle.
#include <algorithm>

#include "flow/compiler.hpp"
#include "flow/foam.hpp"
#include "flow/run.hpp"
#include "text/fold.hpp"
#include "texture/catalogue.hpp"
#include "texture/form.hpp"

namespace bloomset::flow {
namespace {

using matter::Component;

constexpr double blooming_water_c = 10.0;     // cold tap water: practice
constexpr std::uint16_t water_line = 0xFFFE;  // a take that the act brings with it, behind all written ones

}  // namespace

void Compiler::emit_charge(std::uint16_t part, Origin origin, const formula::Step& step, StepInfo& info) {
  if (step.pressure_pa) {
    fault("pressure_of_a_charger", step.act_span, "`charge` lets in chargers; a pressure is what a regulator gives", "give `charges`, or `carbonate` with CO2");
    return;
  }
  PartInfo& made = sheet_.parts[part];
  if (made.charge || made.fizz) {
    fault("charged_twice", step.act_span, "'" + made.name + "' is charged twice", "give all chargers at one step: charges = 2");
    return;
  }
  const kit::Vessel* vessel = step.vessel ? kit_.vessel(step.vessel->text) : kit_.first_vessel(kit::VesselKind::siphon);
  if (vessel == nullptr) {
    if (!step.vessel) fault("no_siphon", step.act_span, "the kit has no siphon", "add one to the kit, or name a vessel");
    return;  // an unknown name is said by the step
  }
  if (!step.vessel) mark(base::Code::assumption, origin, step.span, "no bottle is named: taken as " + vessel->name);
  if (!step.charges) mark(base::Code::assumption, origin, step.span, "no number of chargers is given: taken as one");
  ChargeInfo charge;
  charge.origin = origin;
  charge.vessel = info.vessel = vessel->name;
  charge.charges = step.charges.value_or(1);
  charge.charge_kg = charger_kg;
  charge.purged = step.purged;
  charge.gross = vessel->brim;
  charge.fill_line = vessel->fill_line;
  charge.most_charges = vessel->most_charges;
  charge.most_pressure = vessel->most_pressure;
  charge.hot_rated = vessel->hot_rated;
  charge.span = step.span;
  if (!vessel->pressure_rated) mark(base::Code::unrated_vessel, origin, step.span, vessel->name);
  made.foams = Foams::siphon;
  made.charge = std::move(charge);

  lose(Fate::gas,
       emit_gas(origin, step,
                {"N2O charger",
                 Component::nitrous_oxide,
                 TakeMode::mass,
                 charger_kg * made.charge->charges,
                 KnobKind::mass_kg,
                 "gas of the chargers",
                 "practice",
                 charger_kg,
                 {}}),
       origin);
}

// Leaf or powder that blooms in cold water keeps five to six times its weight of it.
std::optional<Port> Compiler::emit_blooming_water(std::uint16_t part, std::uint16_t number, const formula::Step& step) {
  if (!step.in || text::fold(step.in->text) != "cold water") return std::nullopt;
  std::vector<Port> agents;
  double water_per_kg = 0.0;
  for (const TakeInfo& take : sheet_.takes) {
    if (take.origin.part != part || take.origin.step != number || !take.agent || !take.thing || take.liquid == no_port) continue;
    const larder::Thing& thing = sheet_.things[*take.thing];
    if (!(thing.per_kg[Component::gelatin] > 0.0)) continue;
    water_per_kg = texture::blooming_water(units::kilograms(1.0), thing.piece.has_value()).usual.si;
    agents.push_back(take.liquid);
  }
  if (agents.empty()) return std::nullopt;
  auto water = larder_.resolve("water", {}, step.in->span);
  if (!water) return std::nullopt;
  TakeInfo take;
  take.origin = {part, number, water_line};
  take.label = "blooming water";
  take.in_base = false;
  take.span = step.in->span;
  take.thing = static_cast<std::uint32_t>(sheet_.things.size());
  Unit source;
  source.op = Op::take;
  source.mode = static_cast<std::uint8_t>(TakeMode::share_of_refs);
  source.stuff = stuff_of(*water);
  sheet_.things.push_back(std::move(*water));
  source.knobs = {knob(water_per_kg, KnobKind::share, take.origin, "water that gelatin takes up", "practice"), 2};
  knob(step.at_c ? step.at_c->nominal() : blooming_water_c, KnobKind::celsius, take.origin, "temperature", "practice");
  source.refs = links(agents);
  take.liquid = port();
  source.out = links({take.liquid});
  unit(source, take.origin);
  const Port out = take.liquid;
  sheet_.takes.push_back(std::move(take));
  return out;
}

// How far a foam rises and how fast it drains depends on what it is made of, which only a run tells.
void Compiler::time_foams() {
  if (sheet_.foams.empty() && foam_ratios_.empty()) return;
  Batch<1> batch(sheet_);
  run<1>(sheet_, sheet_.nominal, batch, Until::service);
  for (const auto& [knob, from] : foam_ratios_) sheet_.nominal[knob] = 1.0 + standing_overrun(sheet_, batch, from);
  for (const FoamInfo& foam : sheet_.foams) {
    constexpr double seconds_a_minute = 60.0, least_minutes = 0.1;
    const double minutes = std::max(foam_hold(sheet_, batch, foam.from).drain_minutes, least_minutes);
    for (const std::uint32_t knob : foam.half_time_knobs) sheet_.nominal[knob] = seconds_a_minute * minutes;
  }
}

}  // namespace bloomset::flow
