#include "sheet/replacing.hpp"

#include <algorithm>
#include <cmath>

#include "flow/compile.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::sheet {
namespace {

using base::ErrorKind;
using flow::no_port;
using formula::Act;
using texture::Agent;
using texture::Effect;

/// The takes of one agent in one part.
struct Use {
  std::size_t part = 0;
  std::vector<std::size_t> takes;
};

std::optional<Agent> agent_at(const Kitchen& k, std::size_t take) {
  const flow::TakeInfo& info = k.flow.takes[take];
  if (!info.thing || !k.book.takes[take].there) return std::nullopt;
  return agent_of(k.flow.things[*info.thing]);
}

std::vector<Use> uses_of(const Kitchen& k, Agent agent) {
  std::vector<Use> uses(k.flow.parts.size());
  for (std::size_t p = 0; p < uses.size(); ++p) uses[p].part = p;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t)
    if (agent_at(k, t) == agent) uses[k.flow.takes[t].origin.part].takes.push_back(t);
  std::erase_if(uses, [](const Use& one) { return one.takes.empty(); });
  return uses;
}

// "gelatin in 'cloud'" for every agent of the formula, for those who asked for one that is not there.
std::string agents_there(const Kitchen& k) {
  std::vector<std::string> words;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const auto agent = agent_at(k, t);
    if (!agent) continue;
    std::string word = std::string(texture::info(*agent).name) + " in '" + k.flow.parts[k.flow.takes[t].origin.part].name + "'";
    if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(std::move(word));
  }
  return words.empty() ? "it takes no agent at all" : "it takes " + listed(words);
}

bool acts(const Kitchen& k, std::size_t part, Act act) {
  return std::any_of(k.flow.steps.begin(), k.flow.steps.end(), [&](const flow::StepInfo& s) { return s.origin.part == part && s.act == act; });
}

// What the part holds where its agent does its work: at its end; before it is cleared, where the agent stays behind.
matter::Composition liquid_of(const Kitchen& k, std::size_t part) {
  flow::Port port = k.flow.parts[part].liquid;
  flow::Port last = no_port;
  for (const flow::StepInfo& step : k.flow.steps) {
    if (step.origin.part != part) continue;
    if (step.act == Act::clarify && last != no_port) return k.batch.port(last).mass;
    if (step.liquid != no_port && k.batch.port(step.liquid).mass.total_kg() > 0.0) last = step.liquid;
  }
  if (port == no_port || !(k.batch.port(port).mass.total_kg() > 0.0)) port = last;
  return port == no_port ? matter::Composition{} : k.batch.port(port).mass;
}

// An agent that is a component of matter is taken out as such; foods (egg white, starch) by what they brought.
matter::Composition without(const Kitchen& k, const Use& use, Agent agent, matter::Composition liquid) {
  if (const auto component = texture::info(agent).component) {
    liquid[*component] = 0.0;
    return liquid;
  }
  for (const std::size_t t : use.takes) liquid -= k.flow.things[*k.flow.takes[t].thing].per_kg * k.book.takes[t].kg;
  for (std::size_t i = 0; i < matter::component_count; ++i)
    if (static_cast<matter::Component>(i) != matter::Component::salt_hydrogen) liquid.kg[i] = std::max(liquid.kg[i], 0.0);
  return liquid;
}

// Mass of the agent in the first form it is taken in: other Blooms by the root rule.
double agent_kg(const Kitchen& k, const Use& use, double bloom) {
  double sum = 0.0;
  for (const std::size_t t : use.takes) {
    const auto own = k.flow.things[*k.flow.takes[t].thing].bloom;
    sum += k.book.takes[t].kg * (own ? std::sqrt(*own / bloom) : 1.0);
  }
  return sum;
}

struct Guess {
  Effect effect;
  std::string why;
};

Guess guess_by_dose(Agent agent, double percent, texture::BaseKind kind) {
  std::optional<Effect> nearest;
  double distance = 0.0;
  for (const Effect effect : {Effect::thickened, Effect::soft_gel, Effect::firm_gel, Effect::hot_gel}) {
    const texture::DoseBand* band = texture::dose_band(agent, effect, kind);
    if (band == nullptr) continue;
    const double off = std::abs(std::log(percent / band->nominal));
    if (!nearest || off < distance) {
      nearest = effect;
      distance = off;
    }
  }
  if (nearest) return {*nearest, "by its dose, " + shown(percent) + " % of the base"};
  const auto effects = texture::effects_of(agent);
  return {effects.empty() ? Effect::thickened : effects.front(), "it is the agent's usual work"};
}

std::optional<Guess> guess_by_acts(const Kitchen& k, std::size_t part) {
  if (acts(k, part, Act::clarify)) return Guess{Effect::clarify, "the part is clarified"};
  if (acts(k, part, Act::sphere)) return Guess{Effect::sphere, "the part is dropped into a bath"};
  const auto effect = effect_of_acts(k, part);
  if (effect == Effect::hot_foam) return Guess{*effect, "the part is charged and held hot"};
  if (effect == Effect::cold_foam) return Guess{*effect, "the part is charged"};
  if (effect == Effect::fluid_gel) return Guess{*effect, "the part is set and blitzed"};
  if (effect == Effect::froth) return Guess{*effect, "the part is frothed"};
  return std::nullopt;  // how firm a set is its dose says
}

Guess guess(const Kitchen& k, std::size_t part, Agent agent, double percent, texture::BaseKind kind) {
  const auto by_acts = guess_by_acts(k, part);
  // What does not give that effect does something else in the part: xanthan in a siphon thickens.
  if (by_acts && texture::dose_band(agent, by_acts->effect, kind) != nullptr) return *by_acts;
  return guess_by_dose(agent, percent, kind);
}

base::Result<Replacement> replacement(const Kitchen& k, const Use& use, const ReplaceAsk& ask) {
  const flow::TakeInfo& first = k.flow.takes[use.takes.front()];
  const flow::PartInfo& part = k.flow.parts[use.part];
  Replacement out;
  out.part = part.name;
  out.ahead = part.made == formula::Made::ahead && !k.is_serve(use.part);
  out.label = first.label;

  texture::SubstituteAsked asked;
  asked.agent = ask.agent;
  asked.base = without(k, use, ask.agent, liquid_of(k, use.part));
  asked.bloom = form_of(k.flow.things[*first.thing], ask.agent).bloom;
  asked.mass = units::kilograms(agent_kg(k, use, asked.bloom));
  asked.vegan = ask.vegan;
  asked.vegetarian = ask.vegetarian;
  asked.live_enzyme = !live_enzymes(k, use.part).empty();
  out.base_g = units::in_grams(asked.base.mass());
  out.agent_g = units::in_grams(asked.mass);
  if (!(out.base_g > 0.0) || !(out.agent_g > 0.0))
    return base::fail(ErrorKind::bad_input, "'" + out.part + "' holds nothing that " + std::string(texture::info(ask.agent).name) + " could work in");
  out.percent_of_base = 100.0 * out.agent_g / out.base_g;
  out.kind = texture::base_kind(texture::read(asked.base));
  const double as_200 =
      texture::is_gelatin(ask.agent) ? units::in_percent(texture::equivalent_200(units::mass_percent(out.percent_of_base), asked.bloom)) : out.percent_of_base;
  const Guess guessed = guess(k, use.part, ask.agent, as_200, out.kind.kind);
  out.effect = asked.effect = guessed.effect;
  out.why = guessed.why;
  out.served_c = values_at(k, part.liquid, part.ice)[matter::Property::temperature_c];
  if (std::isfinite(out.served_c)) asked.served_at = units::celsius(out.served_c);

  auto answer = texture::substitutes(asked);
  if (!answer) return tl::unexpected<base::Error>(std::move(answer.error()));
  out.answer = std::move(*answer);
  if (ask.wanted) {
    std::erase_if(out.answer.candidates, [&](const texture::Candidate& c) { return c.agent != *ask.wanted; });
    std::erase_if(out.answer.refused, [&](const texture::Refused& r) { return r.agent != *ask.wanted; });
  }
  return out;
}

base::Result<std::vector<Use>> wanted_uses(const Kitchen& k, const ReplaceAsk& ask) {
  std::vector<Use> uses = uses_of(k, ask.agent);
  const std::string name(texture::info(ask.agent).name);
  if (uses.empty()) return base::fail(ErrorKind::not_found, "no part of this formula takes " + name + ": " + agents_there(k));
  if (!ask.part) return uses;
  std::vector<std::string> parts;
  for (const Use& use : uses) parts.push_back("'" + k.flow.parts[use.part].name + "'");
  std::erase_if(uses, [&](const Use& use) { return text::fold(k.flow.parts[use.part].name) != text::fold(*ask.part); });
  if (uses.empty())
    return base::fail(ErrorKind::not_found, "--part: '" + *ask.part + "' takes no " + name + "; " + listed(parts) + (parts.size() == 1 ? " does" : " do"));
  return uses;
}

base::Finding others(const Kitchen& k, const std::vector<Use>& uses) {
  std::vector<std::string> parts;
  for (std::size_t i = 1; i < uses.size(); ++i) parts.push_back("'" + k.flow.parts[uses[i].part].name + "'");
  base::Finding out =
      say(base::Code::assumption, {},
          "the answer is for '" + k.flow.parts[uses.front().part].name + "'; " + listed(parts) + (parts.size() == 1 ? " takes" : " take") + " the agent too");
  out.why = "one document holds one answer";
  out.remedies = {{"ask for another with --part", std::nullopt}};
  return out;
}

}  // namespace

base::Result<ReplaceSheet> replace_agent(const ReplaceAsk& ask) {
  const auto compiled = flow::compile(ask.in.formula, ask.in.larder, ask.in.kit, ask.in.serves);
  if (!compiled) return tl::unexpected<base::Error>(compiled.error());
  flow::Batch<1> batch(*compiled);
  flow::run<1>(*compiled, compiled->nominal, batch);
  const Ledger book = ledger_of(*compiled, batch);
  const Kitchen kitchen{ask.in, *compiled, batch, book};

  auto uses = wanted_uses(kitchen, ask);
  if (!uses) return tl::unexpected<base::Error>(std::move(uses.error()));
  ReplaceSheet sheet;
  sheet.title = ask.in.formula.title;
  if (ask.first_only && uses->size() > 1) {
    sheet.findings.push_back(others(kitchen, *uses));
    uses->resize(1);
  }
  for (const Use& use : *uses) {
    auto one = replacement(kitchen, use, ask);
    if (!one) return tl::unexpected<base::Error>(std::move(one.error()));
    base::Where at = where(*compiled, compiled->takes[use.takes.front()].origin, compiled->takes[use.takes.front()].span);
    sheet.findings.push_back(
        because("the effect is read off the part's acts",
                say(base::Code::assumption, std::move(at), "'" + one->part + "' is read as " + std::string(texture::called(one->effect)) + ": " + one->why)));
    sheet.parts.push_back(std::move(*one));
  }
  tidy(sheet.findings);
  return sheet;
}

}  // namespace bloomset::sheet
