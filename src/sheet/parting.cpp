// sheet/parting.cpp - spheres in their bath, and what is clarified: does it come about?
//
// Spheres: the liquid that drops and the bath it drops into, judged by texture/contact.hpp; alginate in the drops is the direct way, in the bath the
// reverse. Clarifying: milk must curdle, and a raft needs its agent in the dose that holds.
#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "texture/catalogue.hpp"
#include "texture/contact.hpp"
#include "texture/dose.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using formula::Act;
using matter::Component;

// All that came into a unit as liquid.
flow::Stream entering(const Kitchen& k, const flow::Unit& unit) {
  flow::Stream sum;
  for (std::uint32_t i = 0; i < unit.liquids_in; ++i) sum += k.batch.port(k.flow.links[unit.in.first + i]);
  return sum;
}

const flow::Unit* unit_of(const Kitchen& k, const flow::StepInfo& step, flow::Op op) {
  for (std::size_t u = 0; u < k.flow.units.size(); ++u)
    if (k.flow.units[u].op == op && k.flow.unit_origin[u].part == step.origin.part && k.flow.unit_origin[u].step == step.origin.step) return &k.flow.units[u];
  return nullptr;
}

void spheres(const Kitchen& k, const flow::StepInfo& step, std::vector<base::Finding>& findings) {
  const flow::Unit* unit = unit_of(k, step, flow::Op::soak);
  if (unit == nullptr) return;
  const matter::Composition drop = entering(k, *unit).mass, &bath = k.batch.port(k.flow.links[unit->in.first + unit->in.count - 1]).mass;
  const bool direct = drop[Component::alginate] > bath[Component::alginate];
  for (const texture::Cause& cause : texture::spheres(direct ? texture::SphereWay::direct : texture::SphereWay::reverse, drop, bath).causes)
    findings.push_back(finding(cause, where(k.flow, step.origin, step.span)));
}

void clarifying(const Kitchen& k, const flow::StepInfo& step, std::vector<base::Finding>& findings) {
  const flow::Unit* unit = unit_of(k, step, flow::Op::clarify);
  if (unit == nullptr) return;
  const flow::Stream mix = entering(k, *unit);
  const double kg = mix.mass.total_kg();
  if (!(kg > 0.0)) return;
  const base::Where at = where(k.flow, step.origin, step.span);
  const std::string name = "'" + k.flow.parts[step.origin.part].name + "'";
  const formula::Step& written = k.in.formula.parts[step.origin.part].steps[step.origin.step - 1U];
  const std::vector<double> milk_kg = milk_protein_kg(k);
  units::Mass milk;
  for (std::uint32_t i = 0; i < unit->liquids_in; ++i) milk.si += milk_kg[k.flow.links[unit->in.first + i]];
  const std::string by = written.by ? written.by->text : milk.si > 0.0 ? "milk" : "";
  if (by == "milk") {
    const texture::Curd curd = texture::curdling(mix.mass, milk, units::celsius(stream_celsius(mix)), texture::Order::milk_into_acid);
    if (!curd.curdles)
      findings.push_back(say(Code::will_not_set, at,
                             name + (milk.si > 0.0 ? " does not curdle: it has pH " + shown(curd.ph) + ", and milk protein comes out from about pH " +
                                                         shown(curd.limit_ph) + " down"
                                                   : " holds no milk that could curdle"),
                             curd.ph, curd.limit_ph));
    return;
  }
  const auto agent = by == "agar" ? std::optional(texture::Agent::agar) : by == "gelatin" ? std::optional(texture::Agent::gelatin) : std::nullopt;
  if (!agent) return;  // spun: no agent
  const double share = mix.mass[*texture::info(*agent).component] / kg;
  if (!(share > 0.0))
    findings.push_back(say(Code::will_not_set, at, name + " holds no " + by + " that could make the raft"));
  else if (const auto odd = texture::odd_dose(*agent, texture::Effect::clarify, texture::BaseKind::juice, {share}))
    findings.push_back(finding(*odd, at));
}

}  // namespace

void parting_rules(const Kitchen& k, std::vector<base::Finding>& findings) {
  for (const flow::StepInfo& step : k.flow.steps) {
    if (!k.book.parts[step.origin.part].in_use || k.is_serve(step.origin.part)) continue;
    if (step.act == Act::sphere) spheres(k, step, findings);
    if (step.act == Act::clarify) clarifying(k, step, findings);
  }
}

}  // namespace bloomset::sheet
