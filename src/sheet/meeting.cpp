// sheet/meeting.cpp - where liquids meet: does an agent gel in strings, does milk curdle, does what is laid on top stay there?
//
// A unit's liquids come in the written order. They are judged pairwise in it: what is in the vessel so far meets the next, and what comes of both is in
// the vessel so far. Strings: one side carries a dissolved agent, warmer than it sets, and the two land where it sets (texture::landing); a step that
// melts it again later makes it smooth, so nothing is said. Curdling: milk's protein is followed from the dairy it came in, as the same share of
// all protein in every stream of a unit; it meets acid, spirit or heat (texture::curdling). What came curdled (yoghurt) does so once, and where a part is
// clarified it is meant to. Floats and layers do not mix while they lie: each is held against what lies right under it (texture::layer). Solids are left
// out, since the larder knows the density of their heap only.
#include <map>

#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "sheet/remedies.hpp"
#include "texture/catalogue.hpp"
#include "texture/contact.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using flow::no_port;
using flow::Op;
using formula::Act;
using matter::Component;

constexpr double least_kg = 1e-9;
constexpr double hair_k = 1e-6;
constexpr double gels_from = 0.5;  // of the least dose of a soft gel: below it there is nothing that could string (texture's class `none`)

/// One of the liquids that meet.
struct Side {
  flow::Stream stream;
  double milk_kg = 0.0;  // of milk's own protein
  std::string label;
  const flow::TakeInfo* take = nullptr;  // where it is a line of the text

  double kg() const { return stream.mass.total_kg(); }
  texture::Warm warm() const { return {stream.mass, units::celsius(stream_celsius(stream))}; }
};

class Meetings {
 public:
  Meetings(const Kitchen& k, std::vector<base::Finding>& findings) : k_(k), findings_(findings), milk_kg_(milk_protein_kg(k)) {}

  void apply() {
    std::map<std::uint16_t, Side> on_top;  // of a part: what was laid last and lies apart
    for (std::size_t u = 0; u < k_.flow.units.size(); ++u) {
      const flow::Unit& unit = k_.flow.units[u];
      const flow::Origin& at = k_.flow.unit_origin[u];
      if (!brings_together(unit.op) || at.step == 0 || !k_.book.parts[at.part].in_use) continue;
      const flow::StepInfo* step = step_of(at);
      if (step == nullptr) continue;
      const bool lays = step->act == Act::float_on || step->act == Act::layer;
      if (!lays) on_top.erase(at.part);
      const std::vector<Side> sides = sides_of(unit, at);
      if (sides.empty()) continue;
      Side so_far = sides.front();
      for (std::size_t i = 1; i < sides.size(); ++i) {
        const Side& next = sides[i];
        const bool stays_apart = lays && lies_on(next, on_top.contains(at.part) ? on_top[at.part] : so_far, *step);
        if (stays_apart) {
          on_top[at.part] = next;
        } else {
          on_top.erase(at.part);
          strings(so_far, next, *step);
          curd(so_far, next, *step);
        }
        so_far.label = in_the_vessel(at.part);
        so_far.take = nullptr;
        so_far.stream += next.stream;
        so_far.milk_kg += next.milk_kg;
      }
      if (unit.op == Op::heat) curd_by_heat(so_far, *step);
    }
  }

 private:
  static bool brings_together(Op op) {
    return op == Op::mix || op == Op::heat || op == Op::cool || op == Op::contact || op == Op::infuse || op == Op::strain || op == Op::rinse;
  }
  const flow::StepInfo* step_of(const flow::Origin& at) const {
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == at.part && step.origin.step == at.step) return &step;
    return nullptr;
  }

  std::string in_the_vessel(std::uint16_t part) const { return k_.is_serve(part) ? "the drink" : "'" + k_.flow.parts[part].name + "'"; }
  std::vector<Side> sides_of(const flow::Unit& unit, const flow::Origin& at) const {
    std::vector<Side> sides;
    for (std::uint32_t i = 0; i < unit.liquids_in; ++i) {
      const flow::Port port = k_.flow.links[unit.in.first + i];
      Side side{k_.batch.port(port), milk_kg_[port], in_the_vessel(at.part), nullptr};
      if (!(side.kg() > least_kg)) continue;
      for (const flow::TakeInfo& take : k_.flow.takes)
        if (take.liquid == port && take.origin.part == at.part && take.origin.step == at.step) side.take = &take;
      if (side.take != nullptr) side.label = side.take->label;
      sides.push_back(std::move(side));
    }
    return sides;
  }
  base::Where at(const flow::StepInfo& step, const Side& next) const {
    return next.take != nullptr ? where(k_.flow, next.take->origin, next.take->span) : where(k_.flow, step.origin, step.span);
  }

  // Warmed again later, strings melt.
  bool melts_later(const flow::StepInfo& from, units::Temperature melts) const {
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == from.origin.part && step.origin.step >= from.origin.step && step.worked != no_port &&
          stream_celsius(k_.batch.port(step.worked)) >= units::in_celsius(melts))
        return true;
    return false;
  }
  void strings(const Side& one, const Side& other, const flow::StepInfo& step) {
    for (std::size_t i = 0; i < texture::agent_count; ++i) {
      const auto agent = static_cast<texture::Agent>(i);
      for (const auto& [hot, base] : {std::pair{&one, &other}, std::pair{&other, &one}}) {
        if (!could_gel(agent, hot->stream.mass)) continue;
        const texture::Warm carries = hot->warm(), meets = base->warm();
        const texture::Landing landing = texture::landing(agent, carries, meets);
        if (!landing.strings || carries.at.si <= landing.zone_high.si + hair_k) continue;  // set already: nothing is dissolved
        const units::MassFraction dose{hot->stream.mass[*texture::info(agent).component] / hot->kg()};
        const auto melts = texture::melt_temperature(agent, dose, usual_bloom);
        if (melts && melts_later(step, melts->nominal)) continue;
        base::Finding said = finding(*landing.cause, at(step, other));
        said.says = hot->label + " meets " + base->label + " of " + shown(units::in_celsius(meets.at)) + " C: " + said.says;
        for (const std::string& remedy : landing.remedies) said.remedies.push_back({remedy, std::nullopt});
        if (base->take != nullptr && !said.remedies.empty()) said.remedies.front().edit = bring_at(k_, *base->take, landing.base_for_high);
        findings_.push_back(std::move(said));
        return;
      }
    }
  }

  bool curdling_is_wanted(const flow::StepInfo& from) const {
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == from.origin.part && step.act == Act::clarify && step.origin.step >= from.origin.step) return true;
    return false;
  }
  static bool is_curd(const Side& side) { return texture::curdling(side.stream.mass, units::kilograms(side.milk_kg), side.warm().at, {}).curdles; }

  void curd(const Side& so_far, const Side& next, const flow::StepInfo& step) {
    if (!(so_far.milk_kg + next.milk_kg > least_kg) || curdling_is_wanted(step) || is_curd(so_far) || is_curd(next)) return;
    const auto order = next.milk_kg > so_far.milk_kg ? texture::Order::milk_into_acid : texture::Order::acid_into_milk;
    const texture::Curd curd = texture::curdling(so_far.stream.mass + next.stream.mass, units::kilograms(so_far.milk_kg + next.milk_kg),
                                                 texture::landing_temperature(so_far.warm(), next.warm()), order);
    if (!curd.curdles) return;
    base::Finding said = finding(*curd.cause, at(step, next));
    said.says = next.label + " goes into " + so_far.label + ": " + said.says;
    findings_.push_back(std::move(said));
  }
  // Together already, and now hot.
  void curd_by_heat(const Side& all, const flow::StepInfo& step) {
    if (!(all.milk_kg > least_kg) || step.worked == no_port || curdling_is_wanted(step) || is_curd(all)) return;
    const double hot_c = stream_celsius(k_.batch.port(step.worked));
    const texture::Curd curd = texture::curdling(all.stream.mass, units::kilograms(all.milk_kg), units::celsius(hot_c), texture::Order::acid_into_milk);
    if (!curd.curdles) return;
    base::Finding said = finding(*curd.cause, where(k_.flow, step.origin, step.span));
    said.says = "heated to " + shown(hot_c) + " C: " + said.says;
    findings_.push_back(std::move(said));
  }

  bool lies_on(const Side& upper, const Side& lower, const flow::StepInfo& step) {
    const texture::Layer layer = texture::layer(upper.warm(), lower.warm());
    if (!layer.cause) return true;
    base::Finding said = finding(*layer.cause, at(step, upper));
    said.says = upper.label + " on " + lower.label + ": " + said.says;
    findings_.push_back(std::move(said));
    return false;
  }
  static constexpr double usual_bloom = 200.0;  // gold leaf: data/texture

  const Kitchen& k_;
  std::vector<base::Finding>& findings_;
  std::vector<double> milk_kg_;
};

}  // namespace

std::vector<double> milk_protein_kg(const Kitchen& k) {
  std::vector<double> milk(k.flow.port_count, 0.0);
  const auto protein = [&](flow::Port port) { return k.batch.port(port).mass[Component::protein]; };
  for (const flow::TakeInfo& take : k.flow.takes)
    if (take.thing && take.liquid != no_port && k.flow.things[*take.thing].family == larder::Family::dairy) milk[take.liquid] = protein(take.liquid);
  // Units stand in the order in which they run, so what enters one is known by then.
  for (const flow::Unit& unit : k.flow.units) {
    if (unit.op == Op::take || unit.op == Op::take_ice) continue;
    const flow::Slice from = unit.op == Op::draw ? flow::Slice{unit.refs.first, unit.out.count} : unit.in;  // a draw uses nothing up
    double of_milk = 0.0, of_all = 0.0;
    for (std::uint32_t i = 0; i < from.count; ++i) {
      of_milk += milk[k.flow.links[from.first + i]];
      of_all += protein(k.flow.links[from.first + i]);
    }
    if (!(of_milk > 0.0)) continue;
    for (std::uint32_t i = 0; i < unit.out.count; ++i) milk[k.flow.links[unit.out.first + i]] = protein(k.flow.links[unit.out.first + i]) * of_milk / of_all;
  }
  return milk;
}

bool could_gel(texture::Agent agent, const matter::Composition& mass) {
  const auto component = texture::info(agent).component;
  if (!component || texture::info(agent).way == texture::Way::heating) return false;
  const texture::DoseBand* band = texture::dose_band(agent, texture::Effect::soft_gel, texture::BaseKind::juice);
  if (band == nullptr) band = texture::dose_band(agent, texture::Effect::firm_gel, texture::BaseKind::juice);
  return band != nullptr && 100.0 * mass[*component] >= gels_from * band->low * mass.total_kg();
}

void meeting_rules(const Kitchen& k, std::vector<base::Finding>& findings) { Meetings(k, findings).apply(); }

}  // namespace bloomset::sheet
