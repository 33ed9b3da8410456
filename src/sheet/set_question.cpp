// sheet/set_question.cpp - what texture is asked about a part: does it set? And the answer, agent by agent, as the sheet prints it.
//
// One question for the rule that raises findings (setting.cpp) and for the lines of agents, so that both say the same. It is asked of the finished
// liquid, with the hottest and coldest that the agents have seen since the first went in, the acid, sugar and hardness at that moment, a protease that
// still lives, and the place of the last rest. A part that has its agents from another part is not asked again.
#include <algorithm>
#include <cmath>

#include "sheet/agent_form.hpp"
#include "sheet/readings.hpp"
#include "texture/dose.hpp"

namespace bloomset::sheet {
namespace {

using flow::no_port;
using formula::Act;
using texture::Effect;

constexpr double least_agent_kg = 1e-9;

bool works_apart(Act act) { return act == Act::bloom || act == Act::disperse || act == Act::hydrate; }

bool takes_agent(const flow::TakeInfo& take, std::size_t part) { return take.origin.part == part && take.agent && !take.maybe && take.thing; }

// The raft has kept its agent back: parting.cpp asks about it.
bool clarified(const Kitchen& k, std::size_t part) {
  return std::any_of(k.flow.steps.begin(), k.flow.steps.end(),
                     [&](const flow::StepInfo& step) { return step.origin.part == part && step.act == Act::clarify; });
}
bool holds_agent(const Kitchen& k, flow::Port port) {
  const matter::Composition& mass = k.batch.port(port).mass;
  for (std::size_t c = matter::index(matter::first_agent); c <= matter::index(matter::last_agent); ++c)
    if (mass.kg[c] > least_agent_kg) return true;
  return false;
}

void see(const Kitchen& k, const flow::StepInfo& step, SetQuestion& question) {
  texture::History& seen = question.state.seen;
  const units::Temperature at = units::celsius(stream_celsius(k.batch.port(step.worked)));  // a share that is heated apart dissolves its agent
  if (!seen.hottest || at.si > seen.hottest->si) {
    const texture::Liquor hot = texture::read(k.batch.port(step.worked).mass);
    seen.hottest = at;
    seen.ph_hot = hot.ph;
    seen.solids_hydrating_percent = hot.solids_percent;
    seen.hardness_hydrating_mg_l = hot.hardness_mg_l;
    seen.hot_for = units::seconds(step.seconds);
    question.hottest = &step;
  }
  if (!seen.coldest || at.si < seen.coldest->si) seen.coldest = at;
}

void rest_at(const Kitchen& k, const flow::StepInfo& last, texture::Rest& rest) {
  if (last.act != Act::rest && last.act != Act::set && last.act != Act::chill) return;
  rest.at = units::celsius(celsius_at_best(k, last).value_or(stream_celsius(k.batch.port(last.liquid))));
  if (const double rested_s = step_seconds(k, last); rested_s > 0.0) rest.time = units::seconds(rested_s);
}

// The band of what the acts ask for; where they ask for nothing, the first that the dose lies in.
const texture::DoseBand* band_of(texture::Agent agent, const texture::GelState& state, double percent_of_200) {
  const texture::BaseKind kind = texture::base_kind(texture::read(state.liquid)).kind;
  if (state.wanted) return texture::dose_band(agent, *state.wanted, kind);
  for (const Effect effect : texture::effects_of(agent)) {
    const texture::DoseBand* band = texture::dose_band(agent, effect, kind);  // an effect may be known in other bases only
    if (band != nullptr && percent_of_200 >= band->low && percent_of_200 <= band->high) return band;
  }
  return nullptr;
}

void hold_against_band(AgentLine& line, const texture::Form& form, const texture::GelState& state, double percent_of_base) {
  if (std::isnan(percent_of_base)) return;
  const units::MassFraction dose = units::mass_percent(percent_of_base);
  const double percent = texture::is_gelatin(form.agent) ? units::in_percent(texture::equivalent_200(dose, form.bloom)) : percent_of_base;
  const texture::DoseBand* band = band_of(form.agent, state, percent);
  if (band == nullptr) return;
  line.effect = texture::name(band->effect);
  line.dose_is = percent < band->low ? "below" : percent > band->high ? "above" : "within";
}

AgentLine agent_line(const TakeLine& take) {
  AgentLine line;
  line.thing = take.thing;
  line.mass_g = take.mass_g;
  line.percent_of_base = take.percent_of_base;
  line.percent_of_total = take.percent_of_total;
  return line;
}

std::optional<double> nominal_c(const std::optional<texture::TemperatureSpan>& span) {
  return span ? std::optional(units::in_celsius(span->nominal)) : std::nullopt;
}

}  // namespace

std::optional<texture::Effect> effect_of_acts(const Kitchen& k, std::size_t part) {
  constexpr double hot_c = 40.0;  // no gelatin stands above it: practice
  std::optional<texture::Effect> effect;
  bool charged = false;
  for (const flow::StepInfo& step : k.flow.steps) {
    if (step.origin.part != part) continue;
    charged = charged || step.act == Act::charge;
    if (step.act == Act::charge) effect = texture::Effect::cold_foam;
    if (effect == texture::Effect::cold_foam && charged && step.liquid != no_port && stream_celsius(k.batch.port(step.liquid)) > hot_c)
      effect = texture::Effect::hot_foam;
    if (step.act == Act::set || step.act == Act::unmould || step.act == Act::cut) effect = texture::Effect::soft_gel;
    if (step.act == Act::blitz) effect = texture::Effect::fluid_gel;
    if (step.act == Act::froth) effect = texture::Effect::froth;
  }
  return effect;
}

std::optional<SetQuestion> set_question(const Kitchen& k, std::size_t part) {
  const flow::PartInfo& info = k.flow.parts[part];
  if (info.liquid == no_port || clarified(k, part)) return std::nullopt;
  SetQuestion question{{}, nullptr, nullptr};
  texture::GelState& state = question.state;
  state.liquid = k.batch.port(info.liquid).mass;
  std::uint16_t since = 0;
  for (const flow::TakeInfo& take : k.flow.takes) {
    if (!takes_agent(take, part)) continue;
    since = since == 0 ? take.origin.step : std::min(since, take.origin.step);
    if (k.flow.things[*take.thing].bloom) state.bloom = *k.flow.things[*take.thing].bloom;
  }
  if (since == 0) return std::nullopt;
  for (const flow::StepInfo& step : k.flow.steps) {
    if (step.origin.part != part || step.liquid == no_port) continue;
    // What is worked on apart is history of the agent that is in it; blooming dissolves none.
    if (step.origin.step < since || step.act == Act::bloom || (works_apart(step.act) && !holds_agent(k, step.worked))) continue;
    see(k, step, question);
    // It has set before it is unmoulded or cut, or it has not.
    if (question.asked_at == nullptr || !(step.act == Act::unmould || step.act == Act::cut)) question.asked_at = &step;
  }
  if (question.asked_at == nullptr) return std::nullopt;
  rest_at(k, *question.asked_at, state.rest);
  state.seen.live_enzyme = !live_enzymes(k, part).empty();
  state.wanted = effect_of_acts(k, part);
  return question;
}

std::vector<AgentLine> agent_lines(const Kitchen& k, std::size_t part) {
  std::vector<AgentLine> lines;
  const auto question = set_question(k, part);
  const texture::SetResult answer = question ? texture::will_set(question->state) : texture::SetResult{};
  for (const TakeLine& take : take_lines(k, part)) {
    if (!take.agent || take.maybe) continue;
    AgentLine& line = lines.emplace_back(agent_line(take));
    const auto of =
        std::find_if(k.flow.takes.begin(), k.flow.takes.end(), [&](const flow::TakeInfo& info) { return takes_agent(info, part) && info.span == take.span; });
    const auto agent = of != k.flow.takes.end() ? agent_of(k.flow.things[*of->thing]) : std::nullopt;
    if (!question || !agent) continue;
    hold_against_band(line, form_of(k.flow.things[*of->thing], *agent), question->state, take.percent_of_base);
    const auto set = std::find_if(answer.agents.begin(), answer.agents.end(), [&](const texture::AgentSet& one) { return one.agent == *agent; });
    if (set == answer.agents.end()) continue;
    line.gel_class = texture::name(set->gel_class);
    line.verdict = texture::name(set->verdict);
    line.sets_at_c = nominal_c(set->sets_at);
    line.melts_at_c = nominal_c(set->melts_at);
  }
  return lines;
}

}  // namespace bloomset::sheet
