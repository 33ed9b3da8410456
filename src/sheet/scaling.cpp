#include "sheet/scaling.hpp"

#include <algorithm>
#include <cmath>

#include "flow/compile.hpp"
#include "gas/bottle.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

using formula::Formula;
using text::AmountKind;

struct Ran {
  flow::Flowsheet flow;
  flow::Batch<1> batch;
  explicit Ran(flow::Flowsheet&& made) : flow(std::move(made)), batch(flow) { flow::run<1>(flow, flow.nominal, batch, flow::Until::service); }
};

base::Error refused(std::string code, base::Span span, std::string message, std::string hint) {
  return {base::ErrorKind::bad_input,
          "the formula cannot be scaled like that",
          {{base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)}}};
}

bool grows(const text::Amount& amount) { return amount.kind == AmountKind::mass || amount.kind == AmountKind::volume || amount.kind == AmountKind::pieces; }

void grow(formula::Part& part, double times) {
  const auto amount = [times](text::Amount& a) {
    if (!grows(a)) return;
    a.value.low *= times;
    a.value.high *= times;
  };
  for (formula::Step& step : part.steps) {
    for (formula::Take& take : step.takes) amount(take.amount);
    if (step.bath) amount(step.bath->in.amount);
    if (step.until && step.until->what == formula::Until::What::mass) step.until->value *= times;
  }
  if (part.makes) amount(*part.makes);
}

std::optional<std::size_t> part_named(const Formula& formula, const std::string& name) {
  for (std::size_t p = 0; p < formula.parts.size(); ++p)
    if (text::fold(formula.parts[p].name) == text::fold(name)) return p;
  return std::nullopt;
}

units::Volume line_of(const kit::Vessel& vessel) {
  if (vessel.kind == kit::VesselKind::siphon) return gas::fill_limit(vessel.brim, std::nullopt, vessel.fill_line);
  return vessel.fill_line.value_or(vessel.brim);
}

// Liquid in the bottle when it is charged, else of the finished part.
flow::Port measured(const flow::Flowsheet& flow, std::size_t part) {
  if (const auto& charge = flow.parts[part].charge)
    for (const flow::StepInfo& step : flow.steps)
      if (step.origin.part == part && step.origin.step == charge->origin.step) return step.liquid;
  return flow.parts[part].liquid;
}

struct Filled {
  units::Volume volume;
  units::Temperature at;
};
Filled filled(const Ran& ran, std::size_t part) {
  const flow::Port port = measured(ran.flow, part);
  if (port == flow::no_port) return {};
  const units::Temperature at = units::celsius(stream_celsius(ran.batch.port(port)));
  return {matter::liquid_volume(ran.batch.port(port).mass, at), at};
}

// As many chargers as give the same gas a litre in the new bottle.
void recharge(const Inputs& in, const Ran& ran, std::size_t p, const kit::Vessel& to, Scaled& out) {
  const flow::ChargeInfo& charge = *ran.flow.parts[p].charge;
  const Filled was = filled(ran, p);
  const matter::Composition& base = ran.batch.port(measured(ran.flow, p)).mass;
  gas::Bottle bottle = gas::closed(gas::Gas::nitrous_oxide, charge.gross, was.volume, was.at,
                                   gas::relative_solubility(gas::Gas::nitrous_oxide, base, was.at).value, charge.purged);
  gas::charge(bottle, units::kilograms(charge.charge_kg * charge.charges));
  gas::settle(bottle);
  const double wanted = gas::charge_for_same_gas(bottle, to.brim, line_of(to)).si / charge.charge_kg;
  const int most = to.most_charges.value_or(std::max(1, static_cast<int>(std::lround(wanted))));
  const int count = std::clamp(static_cast<int>(std::lround(wanted)), 1, most);
  for (formula::Step& step : out.formula.parts[p].steps) {
    if (step.act != formula::Act::charge) continue;
    step.vessel = formula::Word{to.name, step.span};
    step.charges = count;
  }
  out.findings.push_back(say(base::Code::assumption, where(ran.flow, charge.origin, charge.span),
                             "'" + in.formula.parts[p].name + "' in the " + to.name + ": " + shown(wanted) +
                                 " chargers would give the same gas a litre; taken as " + std::to_string(count)));
}

}  // namespace

base::Result<Scaled> fit(const Inputs& in, const Fit& asked) {
  const auto p = part_named(in.formula, asked.part);
  if (!p) {
    std::vector<std::string> names;
    for (const formula::Part& part : in.formula.parts) names.push_back(part.name);
    return tl::unexpected(
        refused("unknown_part", asked.span, "no part is called '" + asked.part + "'", "nearest known: '" + base::nearest(asked.part, names) + "'"));
  }
  const kit::Vessel* vessel = in.kit.vessel(asked.vessel);
  if (vessel == nullptr)
    return tl::unexpected(refused("unknown_vessel", asked.span, "\"" + asked.vessel + "\" is not a vessel of the kit",
                                  "nearest known: " + base::nearest(asked.vessel, in.kit.vessel_names())));
  auto flow = flow::compile(in.formula, in.larder, in.kit, in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  const Ran ran(std::move(*flow));
  const Filled was = filled(ran, *p);
  if (!(was.volume.si > 0.0)) return tl::unexpected(refused("nothing_to_fit", asked.span, "'" + asked.part + "' has no liquid that could fill a vessel", ""));
  Scaled out{in.formula, in.serves.value_or(in.formula.serves), {}};
  const double times = line_of(*vessel).si / was.volume.si;
  grow(out.formula.parts[*p], times);
  out.findings.push_back(
      say(base::Code::assumption, where(ran.flow, {static_cast<std::uint16_t>(*p), 0, 0}, in.formula.parts[*p].name_span),
          "'" + in.formula.parts[*p].name + "' is made " + shown(times) + " times as large, so that it fills the " + vessel->name + " to its line"));
  if (ran.flow.parts[*p].charge) recharge(in, ran, *p, *vessel, out);
  return out;
}

base::Result<Scaled> have(const Inputs& in, const Have& asked) {
  auto flow = flow::compile(in.formula, in.larder, in.kit, in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  const Ran ran(std::move(*flow));
  const Ledger book = ledger_of(ran.flow, ran.batch);
  const text::Amount& amount = asked.thing.amount;
  double batches_kg = 0.0, a_serve_kg = 0.0, have_kg = amount.value.nominal();
  std::vector<std::string> known;
  std::vector<bool> in_batch(in.formula.parts.size(), false);
  for (std::size_t t = 0; t < ran.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = ran.flow.takes[t];
    if (!take.thing || take.maybe || !take.written.span.known()) continue;
    const larder::Thing& thing = ran.flow.things[*take.thing];
    known.push_back(thing.name);
    if (text::fold(thing.name) != text::fold(asked.thing.thing) || !grows(take.written)) continue;
    if (amount.kind == AmountKind::volume) have_kg = amount.value.nominal() * thing.density_20c.si;
    if (amount.kind == AmountKind::pieces && thing.piece) have_kg = amount.value.nominal() * thing.piece->si;
    const flow::PartInfo& part = ran.flow.parts[take.origin.part];
    const bool serve = ran.flow.has_serve && take.origin.part + 1U == ran.flow.parts.size();
    if (!serve && part.made == formula::Made::ahead) {
      batches_kg += book.takes[t].kg * part.times;
      in_batch[take.origin.part] = true;
    } else {
      a_serve_kg += book.takes[t].kg;
    }
  }
  if (!(batches_kg + a_serve_kg > 0.0))
    return tl::unexpected(refused("unknown_thing", asked.span, "nothing called `" + asked.thing.thing + "` is taken by an amount of its own",
                                  "nearest known: `" + base::nearest(asked.thing.thing, known) + "`"));
  Scaled out{in.formula, in.serves.value_or(in.formula.serves), {}};
  const base::Where here = where(ran.flow, {0, 0, 0}, in.formula.title_span);
  if (a_serve_kg > 0.0) {
    const double serves = std::floor((have_kg - batches_kg) / a_serve_kg + 1e-9);
    if (serves < 1.0) return tl::unexpected(refused("too_little", asked.span, "that is not enough for one serve", "take more, or scale the formula down"));
    out.serves = static_cast<int>(std::min(serves, 10000.0));
    out.findings.push_back(
        say(base::Code::assumption, here, "what there is of " + asked.thing.thing + " is enough for " + std::to_string(out.serves) + " serves"));
    return out;
  }
  const double times = have_kg / batches_kg;
  for (std::size_t p = 0; p < in_batch.size(); ++p) {
    if (!in_batch[p]) continue;
    grow(out.formula.parts[p], times);
    out.findings.push_back(
        say(base::Code::assumption, where(ran.flow, {static_cast<std::uint16_t>(p), 0, 0}, in.formula.parts[p].name_span),
            "'" + in.formula.parts[p].name + "' is made " + shown(times) + " times as large, so that all of the " + asked.thing.thing + " is used"));
  }
  return out;
}

}  // namespace bloomset::sheet
