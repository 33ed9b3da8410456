// sheet/setting.cpp - does what should set, set: enzymes by the heat they have seen, agents by what is around them.
//
// A raw fruit's protease travels with it from part to part until a step has been hot enough for long enough. Where gelatin and
// a live one are together it is a `stop`; where gelatin only touches it in the glass, a `mind`. What acid, spirit, sugar, salt or
// lime do to an agent is texture/set.hpp's answer for the finished part, with the hottest and coldest it has seen since it went in.
#include <algorithm>

#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "texture/contact.hpp"
#include "texture/set.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using flow::no_port;
using formula::Act;
using matter::Component;

constexpr double least_kg = 1e-9;
double gelatin_kg(const matter::Composition& c) { return c[Component::gelatin] + c[Component::fish_gelatin]; }

double celsius_at(const Kitchen& k, flow::Port port) { return stream_celsius(k.batch.port(port)); }

bool killed(const Kitchen& k, std::size_t part, std::uint16_t from_step, std::uint16_t to_step) {
  for (const flow::StepInfo& step : k.flow.steps) {
    if (step.origin.part != part || step.origin.step < from_step || (to_step > 0 && step.origin.step > to_step) || step.liquid == no_port) continue;
    if (texture::enzyme_is_dead(units::celsius(celsius_at(k, step.liquid)), units::seconds(step.seconds))) return true;
  }
  return false;
}

class Setting {
 public:
  Setting(const Kitchen& k, std::vector<base::Finding>& findings) : k_(k), findings_(findings) {}

  void apply() {
    for (std::size_t p = 0; p < k_.flow.parts.size(); ++p) {
      if (!k_.book.parts[p].in_use || k_.is_serve(p)) continue;
      enzyme_in(p);
      agents_of(p);
    }
    if (k_.flow.has_serve) in_the_glass();
  }

 private:
  double celsius(flow::Port port) const { return celsius_at(k_, port); }

  void enzyme_in(std::size_t part) {
    for (const flow::StepInfo& step : k_.flow.steps) {
      if (step.origin.part != part || step.liquid == no_port || gelatin_kg(k_.batch.port(step.liquid).mass) < least_kg) continue;
      if (is_arm(step.act)) continue;  // bloomed apart: they meet at the next step
      const std::vector<std::string> names = live_enzymes(k_, part, step.origin.step);
      if (names.empty()) continue;
      findings_.push_back(say(Code::live_enzyme, where(k_.flow, step.origin, step.span),
                              "'" + k_.flow.parts[part].name + "': gelatin with " + listed(names) + ", which has seen no heat, will not set"));
      return;
    }
  }
  // The raft has kept its agent back: parting.cpp asks about it.
  bool clarified(std::size_t part) const {
    return std::any_of(k_.flow.steps.begin(), k_.flow.steps.end(),
                       [&](const flow::StepInfo& step) { return step.origin.part == part && step.act == Act::clarify; });
  }
  bool holds_agent(flow::Port port) const {
    const matter::Composition& mass = k_.batch.port(port).mass;
    for (std::size_t c = matter::index(matter::first_agent); c <= matter::index(matter::last_agent); ++c)
      if (mass.kg[c] > least_kg) return true;
    return false;
  }
  static bool is_arm(Act act) { return act == Act::bloom || act == Act::disperse || act == Act::hydrate; }

  void agents_of(std::size_t part) {
    const flow::PartInfo& info = k_.flow.parts[part];
    if (info.liquid == no_port || clarified(part)) return;
    texture::GelState state;
    state.liquid = k_.batch.port(info.liquid).mass;
    std::uint16_t since = 0;
    for (const flow::TakeInfo& take : k_.flow.takes) {
      if (take.origin.part != part || !take.agent || take.maybe || !take.thing) continue;
      since = since == 0 ? take.origin.step : std::min(since, take.origin.step);
      if (k_.flow.things[*take.thing].bloom) state.bloom = *k_.flow.things[*take.thing].bloom;
    }
    if (since == 0) return;  // it has its agents from a part of its own, where this was asked
    const flow::StepInfo* last = nullptr;
    for (const flow::StepInfo& step : k_.flow.steps) {
      if (step.origin.part != part || step.liquid == no_port) continue;
      // What is worked on apart is history of the agent that is in it; blooming dissolves none.
      if (step.origin.step < since || step.act == Act::bloom || (is_arm(step.act) && !holds_agent(step.worked))) continue;
      const units::Temperature at = units::celsius(celsius(step.worked));  // a share that is heated apart dissolves its agent
      if (!state.seen.hottest || at.si > state.seen.hottest->si) {
        state.seen.hottest = at;
        const texture::Liquor hot = texture::read(k_.batch.port(step.worked).mass);
        state.seen.ph_hot = hot.ph;
        state.seen.solids_hydrating_percent = hot.solids_percent;
        state.seen.hardness_hydrating_mg_l = hot.hardness_mg_l;
        state.seen.hot_for = units::seconds(step.seconds);
      }
      if (!state.seen.coldest || at.si < state.seen.coldest->si) state.seen.coldest = at;
      if (last == nullptr || !(step.act == Act::unmould || step.act == Act::cut)) last = &step;  // it has set by then, or it has not
    }
    if (last == nullptr) return;
    if (last->act == Act::rest || last->act == Act::set || last->act == Act::chill) {
      state.rest.at = units::celsius(celsius_at_best(k_, *last).value_or(celsius(last->liquid)));
      if (const double rested_s = step_seconds(k_, *last); rested_s > 0.0) state.rest.time = units::seconds(rested_s);
    }
    state.wanted = effect_of_acts(k_, part);
    if (!state.wanted) return;  // nothing in the part asks for a set or a foam
    for (const texture::Cause& cause : texture::will_set(state).causes) {
      if (cause.code == Code::live_enzyme) continue;  // said with its step above
      findings_.push_back(finding(cause, where(k_.flow, last->origin, last->span)));
    }
  }

  // Foam on the drink: does it melt, does raw fruit get at it?
  void in_the_glass() {
    const std::size_t serve = k_.flow.parts.size() - 1;
    if (k_.flow.moments.empty() || k_.flow.served_liquid == no_port) return;
    const double drink_c = celsius(k_.flow.served_liquid);
    const std::vector<std::string> raw = live_enzymes(k_, serve);
    for (const flow::FoamInfo& foam : k_.flow.foams) {
      const flow::PartInfo& from = k_.flow.parts[foam.from];
      const matter::Composition& liquid = k_.batch.port(from.liquid).mass;
      if (gelatin_kg(liquid) < least_kg) continue;
      const base::Where at = where(k_.flow, {static_cast<std::uint16_t>(serve), 0, 0}, k_.flow.parts[serve].span);
      if (!raw.empty()) findings_.push_back(say(Code::enzyme_contact, at, "'" + from.name + "' on " + listed(raw)));
      const auto melts = texture::melts_on(texture::Agent::gelatin, {gelatin_kg(liquid) / liquid.total_kg()}, usual_bloom, units::celsius(drink_c));
      if (melts) findings_.push_back(finding(*melts, at));
    }
  }
  static constexpr double usual_bloom = 200.0;  // gold leaf: data/texture

  const Kitchen& k_;
  std::vector<base::Finding>& findings_;
};

}  // namespace

std::vector<std::string> live_enzymes(const Kitchen& k, std::size_t part, std::uint16_t after_step) {
  std::vector<std::string> names;
  for (const flow::TakeInfo& take : k.flow.takes) {
    if (take.origin.part != part || take.maybe || take.solid_left || (after_step > 0 && take.origin.step > after_step)) continue;
    // Foam lies on the drink: what is in it is not what it lies on.
    if (k.is_serve(part) && take.made && k.flow.parts[*take.made].foams != flow::Foams::no) continue;
    std::vector<std::string> came;
    if (take.thing && k.flow.things[*take.thing].live_enzyme) came.push_back(take.label);
    if (take.made) came = live_enzymes(k, *take.made);
    if (came.empty() || killed(k, part, take.origin.step, after_step)) continue;
    names.insert(names.end(), came.begin(), came.end());
  }
  return names;
}

std::optional<texture::Effect> effect_of_acts(const Kitchen& k, std::size_t part) {
  constexpr double hot_c = 40.0;  // no gelatin stands above it: practice
  std::optional<texture::Effect> effect;
  bool charged = false;
  for (const flow::StepInfo& step : k.flow.steps) {
    if (step.origin.part != part) continue;
    charged = charged || step.act == Act::charge;
    if (step.act == Act::charge) effect = texture::Effect::cold_foam;
    if (effect == texture::Effect::cold_foam && charged && step.liquid != no_port && celsius_at(k, step.liquid) > hot_c) effect = texture::Effect::hot_foam;
    if (step.act == Act::set || step.act == Act::unmould || step.act == Act::cut) effect = texture::Effect::soft_gel;
    if (step.act == Act::blitz) effect = texture::Effect::fluid_gel;
    if (step.act == Act::froth) effect = texture::Effect::froth;
  }
  return effect;
}

void setting_rules(const Kitchen& k, std::vector<base::Finding>& findings) { Setting(k, findings).apply(); }

}  // namespace bloomset::sheet
