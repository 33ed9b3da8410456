// sheet/set_remedies.cpp - changes of the text that make a part set: a larger dose, more heat, more time.
//
// The dose becomes the usual one for what the acts show (texture/dose.hpp), firm where it is to stand by itself, unmoulded or cut. The heat becomes what the
// agent is usually dissolved at, the rest as long as its limit says. Where the text does not hold that number as one plain value the words stay words.
// Called by setting.cpp.
#include <algorithm>
#include <cmath>

#include "sheet/agent_form.hpp"
#include "sheet/readings.hpp"
#include "texture/catalogue.hpp"
#include "texture/dose.hpp"

namespace bloomset::sheet {
namespace {

using formula::Act;
using texture::Effect;
using texture::Fault;

constexpr double dose_step = 0.1;  // in the amount's own unit: one decimal, upwards, as an agent is written: practice

bool stands_alone(const Kitchen& k, std::size_t part) {
  return std::any_of(k.flow.steps.begin(), k.flow.steps.end(),
                     [&](const flow::StepInfo& step) { return step.origin.part == part && (step.act == Act::unmould || step.act == Act::cut); });
}

const formula::Step* step_text(const Kitchen& k, const flow::StepInfo* step) {
  return step == nullptr ? nullptr : &k.in.formula.parts[step->origin.part].steps[step->origin.step - 1U];
}

// The only take of the agent in the part; nothing where it came in several, or with another part.
const flow::TakeInfo* only_take(const Kitchen& k, std::size_t part, texture::Agent agent) {
  const flow::TakeInfo* only = nullptr;
  for (const flow::TakeInfo& take : k.flow.takes) {
    if (take.origin.part != part || !take.agent || take.maybe || !take.thing || agent_of(k.flow.things[*take.thing]) != agent) continue;
    if (only != nullptr) return nullptr;
    only = &take;
  }
  return only;
}

std::optional<base::Remedy> larger_dose(const Kitchen& k, std::size_t part, const texture::GelState& state, texture::Agent agent) {
  const flow::TakeInfo* take = only_take(k, part, agent);
  if (take == nullptr) return std::nullopt;
  const larder::Thing& thing = k.flow.things[*take->thing];
  const matter::Component component = *texture::info(agent).component;
  matter::Composition base = state.liquid;
  base[component] = 0.0;
  const Effect effect = stands_alone(k, part) ? Effect::firm_gel : state.wanted.value_or(Effect::soft_gel);
  const auto dose = texture::dose({base, std::nullopt, form_of(thing, agent), effect, std::nullopt});
  if (!dose || !(state.liquid[component] > 0.0)) return std::nullopt;
  const double factor = dose->mass_g.nominal * 1e-3 / (state.liquid[component] * (thing.per_kg[component] > 0.0 ? 1.0 / thing.per_kg[component] : 1.0));
  if (!(factor > 1.0)) return std::nullopt;

  const text::Amount& was = take->written;
  const bool by_share = was.kind == text::AmountKind::percent || was.kind == text::AmountKind::percent_total;
  const bool by_piece = was.kind == text::AmountKind::pieces;
  const double own_unit = by_share ? 100.0 : was.kind == text::AmountKind::mass ? 1e3 : 1.0;
  if (!by_share && !by_piece && was.kind != text::AmountKind::mass) return std::nullopt;
  const double step = by_piece ? 1.0 : dose_step;
  const double number = std::ceil(was.value.nominal() * own_unit * factor / step - 1e-9) * step;
  const std::string amount = text::print_number(number) + (by_piece ? " " + was.unit : was.kind == text::AmountKind::mass ? " g" : " " + was.unit);
  base::Remedy remedy{"take " + amount + (by_piece && number > 1.0 && !amount.ends_with('s') ? "s of " : " of ") + take->label + ", the usual dose for " +
                          std::string(texture::called(effect)),
                      std::nullopt};
  if (was.span.source == k.in.formula.source && was.span.known()) remedy.edit = base::Edit{was.span, amount};
  return remedy;
}

// What the agent is usually dissolved at, on the step that was its hottest.
std::optional<base::Edit> more_heat(const Kitchen& k, const SetQuestion& question, texture::Agent agent) {
  const formula::Step* step = step_text(k, question.hottest);
  const texture::Limit* need = texture::limit(agent, texture::Quantity::hydrate);
  if (step == nullptr || need == nullptr || !need->low) return std::nullopt;
  const flow::ActRow* row = flow::row_of(step->act);
  if (row == nullptr || row->op != flow::Op::heat) return std::nullopt;
  const base::Span& place = step->to_c ? step->to_span : step->at_span;
  if (!place.known() || place.source != k.in.formula.source) return std::nullopt;
  return base::Edit{place, text::print_temperature({need->nominal.value_or(*need->low), need->nominal.value_or(*need->low)})};
}

std::optional<base::Edit> more_time(const Kitchen& k, const SetQuestion& question, double hours) {
  const formula::Step* step = step_text(k, question.asked_at);
  if (step == nullptr || !step->time_s || !step->time_span.known() || step->time_span.source != k.in.formula.source) return std::nullopt;
  return base::Edit{step->time_span, text::print_duration({hours * 3600.0, hours * 3600.0})};
}

}  // namespace

void mend_the_text(const Kitchen& k, std::size_t part, const SetQuestion& question, const texture::Cause& cause, base::Finding& said) {
  if ((cause.code != base::Code::will_not_set && cause.code != base::Code::sets_soft) || said.remedies.empty()) return;
  base::Remedy& first = said.remedies.front();
  if (cause.fault == Fault::too_little) {
    if (auto remedy = larger_dose(k, part, question.state, cause.agent)) first = std::move(*remedy);
  } else if (cause.fault == Fault::not_dissolved) {
    first.edit = more_heat(k, question, cause.agent);
  } else if (cause.fault == Fault::rests_short) {
    first.edit = more_time(k, question, cause.limit);
  }
}

}  // namespace bloomset::sheet
