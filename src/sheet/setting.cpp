// sheet/setting.cpp - does what should set, set: enzymes by the heat they have seen, agents by what is around them.
//
// A raw fruit's protease travels with it from part to part until a step has been hot enough for long enough. Where gelatin and
// a live one are together it is a `stop`; where gelatin only touches it in the glass, a `mind`. What acid, spirit, sugar, salt or
// lime do to an agent is texture/set.hpp's answer to the part's question (set_question.cpp); its causes stay in the order of that answer.
#include <algorithm>

#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "sheet/remedies.hpp"
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
      if (auto remedy = heat_treated(k_, part)) findings_.back().remedies.push_back(std::move(*remedy));
      return;
    }
  }
  static bool is_arm(Act act) { return act == Act::bloom || act == Act::disperse || act == Act::hydrate; }

  void agents_of(std::size_t part) {
    const auto question = set_question(k_, part);
    if (!question || !question->state.wanted) return;  // nothing in the part asks for a set or a foam
    for (const texture::Cause& cause : texture::will_set(question->state).causes) {
      if (cause.code == Code::live_enzyme) continue;  // said with its step above
      base::Finding& said = findings_.emplace_back(finding(cause, where(k_.flow, question->asked_at->origin, question->asked_at->span)));
      mend_the_text(k_, part, *question, cause, said);
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

void setting_rules(const Kitchen& k, std::vector<base::Finding>& findings) { Setting(k, findings).apply(); }

}  // namespace bloomset::sheet
