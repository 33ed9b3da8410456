// flow/compile_fizz.cpp - carbonating: a regulator on a rated bottle, or chargers of carbon dioxide.
#include <algorithm>

#include "flow/compiler.hpp"
#include "flow/foam.hpp"
#include "text/fold.hpp"

namespace bloomset::flow {
namespace {

using formula::Act;
using matter::Component;

constexpr std::uint16_t gas_line = 0xFFFF;

}  // namespace

// Gas that an act brings with it: no recipe names it, yet it is bought and weighs.
Port Compiler::emit_gas(Origin act, const formula::Step& step, GasTake gas) {
  TakeInfo take;
  take.origin = {act.part, act.step, gas_line};
  take.label = gas.label;
  take.in_base = false;
  take.used_only = true;
  take.span = step.span;
  larder::Thing thing;
  thing.name = thing.label = take.label;
  thing.per_kg = matter::pure(gas.component, units::kilograms(1.0));
  if (gas.piece_kg > 0.0) thing.piece = units::kilograms(gas.piece_kg);
  thing.source = "practice";
  Unit source;
  source.op = Op::take;
  source.mode = static_cast<std::uint8_t>(gas.mode);
  Stuff stuff;  // its enthalpy is left out, as in stream.hpp
  stuff.per_kg = thing.per_kg;
  source.stuff = static_cast<std::uint16_t>(sheet_.stuffs.size());
  sheet_.stuffs.push_back(stuff);
  take.thing = static_cast<std::uint32_t>(sheet_.things.size());
  sheet_.things.push_back(std::move(thing));
  source.knobs = {knob(gas.amount, gas.kind, take.origin, gas.what, gas.source), 2};
  knob(units::in_celsius(kit_.room), KnobKind::celsius, take.origin, "temperature", "kit");
  take.liquid = port();
  source.refs = links(gas.refs);
  source.out = links({take.liquid});
  unit(source, take.origin);
  const Port out = take.liquid;
  sheet_.takes.push_back(std::move(take));
  return out;
}

void Compiler::emit_fizz(std::uint16_t part, Origin origin, const formula::Step& step, StepInfo& info, Stock& stock) {
  PartInfo& made = sheet_.parts[part];
  if (step.gas && text::fold(step.gas->text) != "co2") {
    fault("wrong_gas", step.gas->span, "a drink is carbonated with CO2; read \"" + step.gas->text + "\"", "for a foam of N2O `charge` a siphon");
    return;
  }
  if (made.fizz || made.charge) {
    fault("charged_twice", step.act_span, "'" + made.name + "' is put under gas twice", "carbonate or charge a part at one step");
    return;
  }
  if (step.pressure_pa.has_value() == step.charges.has_value()) {
    fault("one_source_of_gas", step.act_span,
          step.charges ? "both a regulator's `pressure` and `charges` are given" : "neither a regulator's `pressure` nor `charges` is given",
          "give `pressure = \"1.5 bar\"` as the gauge shows it, or `charges = 2`");
    return;
  }
  const kit::Vessel* vessel =
      step.vessel ? kit_.vessel(step.vessel->text) : kit_.first_vessel(step.act == Act::charge ? kit::VesselKind::siphon : kit::VesselKind::bottle);
  if (vessel == nullptr) {
    if (!step.vessel) fault("no_bottle", step.act_span, "the kit has no pressure bottle", "add one to the kit, or name a vessel");
    return;  // an unknown name is said by the step
  }
  if (!step.vessel) mark(base::Code::assumption, origin, step.span, "no bottle is named: taken as " + vessel->name);
  if (!vessel->pressure_rated) mark(base::Code::unrated_vessel, origin, step.span, vessel->name);
  FizzInfo fizz;
  fizz.origin = origin;
  fizz.vessel = info.vessel = vessel->name;
  fizz.gross = vessel->brim;
  fizz.fill = {std::min(vessel->fill_line.value_or(vessel->brim).si, fullest_fill * vessel->brim.si)};
  fizz.most_charges = vessel->most_charges;
  fizz.most_pressure = vessel->most_pressure;
  fizz.hot_rated = vessel->hot_rated;
  fizz.liquid = stock.liquid;
  fizz.span = step.span;
  if (step.pressure_pa) {
    fizz.pressure = units::pascals(*step.pressure_pa);
    const Port gas = emit_gas(
        origin, step,
        {"CO2", Component::carbon_dioxide, TakeMode::fizz, *step.pressure_pa, KnobKind::pascal, "the regulator's pressure, absolute", "", 0.0, {stock.liquid}});
    Unit mix;
    mix.op = Op::mix;
    mix.liquids_in = 2;
    mix.in = links({stock.liquid, gas});
    mix.out = links({stock.liquid = port()});
    mix.knobs = {knob(1.0, KnobKind::share, origin, "CO2 kept", "practice"), 2};
    knob(0.0, KnobKind::share, origin, "sticks", "practice");
    unit(mix, origin);
  } else {
    fizz.charges = *step.charges;
    fizz.charge_kg = charger_kg;
    const Port gas = emit_gas(origin, step,
                              {"CO2 charger",
                               Component::carbon_dioxide,
                               TakeMode::mass,
                               charger_kg * fizz.charges,
                               KnobKind::mass_kg,
                               "gas of the chargers",
                               "practice",
                               charger_kg,
                               {}});
    Unit dissolve;
    dissolve.op = Op::fizz;
    dissolve.mode = step.purged ? 1 : 0;
    dissolve.liquids_in = 2;
    dissolve.in = links({stock.liquid, gas});
    const Port drink = port(), above = port();
    dissolve.out = links({stock.liquid = drink, above});
    dissolve.knobs = {knob(fizz.gross.si, KnobKind::volume_m3, origin, "gross volume of the bottle", "kit"), 2};
    knob(fizz.fill.si, KnobKind::volume_m3, origin, "fill line of the bottle", "kit");
    unit(dissolve, origin);
    lose(Fate::gas, above, origin);
  }
  fizz.fizzed = stock.liquid;
  stock.fizzy = true;
  made.fizz = std::move(fizz);
}

}  // namespace bloomset::flow
