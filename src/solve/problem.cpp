#include "solve/problem.hpp"

#include <algorithm>
#include <cmath>

#include "flow/compile.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::solve {
namespace {

using flow::Flowsheet;
using flow::TakeInfo;
using text::AmountKind;

constexpr double hair = 1e-8;  // of a wish's scale

bool has_amount(const TakeInfo& take) {
  return take.written.kind != AmountKind::all && take.written.kind != AmountKind::rest && take.written.kind != AmountKind::half && take.written.span.known();
}

bool counted(const TakeInfo& take) { return take.written.kind == AmountKind::pieces || take.written.unit == "dash" || take.written.unit == "drop"; }

// The knob that holds a take's amount; nothing where it was not made into a unit.
std::optional<std::uint32_t> knob_of(const Flowsheet& flow, const TakeInfo& take) {
  for (std::size_t u = 0; u < flow.units.size(); ++u) {
    const flow::Unit& unit = flow.units[u];
    const bool source = unit.op == flow::Op::take || unit.op == flow::Op::take_ice || unit.op == flow::Op::draw;
    if (source && flow.unit_origin[u] == take.origin) return unit.knobs.first;
  }
  return std::nullopt;
}

const formula::Take* written_take(const formula::Formula& formula, const flow::Origin& at, bool serve) {
  const auto& steps = serve ? formula.serve->pours : formula.parts[at.part].steps;
  const formula::Step& step = steps[at.step - 1U];
  if (at.take >= 1 && at.take <= step.takes.size()) return &step.takes[at.take - 1U];
  return at.take == step.takes.size() + 1 && step.ice ? &*step.ice : nullptr;
}

// The usual band of the agent that lies nearest to its dose, as multiples of it; the dose itself is always inside.
void keep_in_band(Free& free, const Flowsheet& flow, const TakeInfo& take, const flow::Batch<1>& batch) {
  const larder::Thing& thing = flow.things[*take.thing];
  std::optional<texture::Agent> agent;
  for (std::size_t c = matter::index(matter::first_agent); c <= matter::index(matter::last_agent) && !agent; ++c)
    if (thing.per_kg.kg[c] > 0.1) agent = texture::agent_of(static_cast<matter::Component>(c));
  double base_kg = 0.0;
  for (const TakeInfo& other : flow.takes)
    if (other.origin.part == take.origin.part && other.in_base && other.liquid != flow::no_port) base_kg += batch.port(other.liquid).mass.total_kg();
  const double kg = take.liquid != flow::no_port ? batch.port(take.liquid).mass.total_kg() : 0.0;
  if (!agent || !(base_kg > 0.0) || !(kg > 0.0)) return;
  const double percent = 100.0 * kg / base_kg;
  const texture::DoseBand* nearest = nullptr;
  for (const texture::DoseBand& band : texture::dose_bands())
    if (band.agent == *agent && (nearest == nullptr || std::abs(std::log(band.nominal / percent)) < std::abs(std::log(nearest->nominal / percent))))
      nearest = &band;
  if (nearest == nullptr) return;
  free.low = std::min(nearest->low / percent, 1.0);
  free.high = std::max(nearest->high / percent, 1.0);
}

base::Diagnostic fault(std::string code, base::Span span, std::string message, std::string hint) {
  return {base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)};
}

// Percentages of a whole: more than all of it is no wish.
bool is_share_of_whole(const formula::Target& target) {
  const std::string_view key = formula::target_key(target.property);
  return key == "abv_percent" || key == "abv_percent_all_melted" || key == "sugar_percent" || key == "brix_percent" || key == "brix_read_percent";
}

std::vector<base::Diagnostic> target_faults(const formula::Formula& formula, const std::vector<formula::Target>& targets) {
  formula::Formula asked = formula;
  asked.targets = targets;
  std::vector<base::Diagnostic> faults = sheet::target_faults(asked);
  for (const formula::Target& target : targets) {
    const double high = target.wish == formula::Wish::at_least ? target.low : target.high;
    if (is_share_of_whole(target) && (high > 100.0 || (target.wish != formula::Wish::at_least && target.high < 0.0)))
      faults.push_back(fault("impossible_target", target.span, "`" + target.text + "` asks for more than all of it, or less than nothing",
                             "a share lies between 0 and 100 %"));
  }
  return faults;
}

// What the asker allows of an amount, as multiples of what is written.
void keep_within(Free& free, const text::Amount& within, const TakeInfo& take, const Flowsheet& flow, base::Span span, std::vector<base::Diagnostic>& faults) {
  // A kilogram, cubic metre or piece of `within` in the unit of what is written.
  double one = 1.0;
  if (within.kind != take.written.kind) {
    const bool mass = within.kind == AmountKind::mass && take.written.kind == AmountKind::volume;
    const bool volume = within.kind == AmountKind::volume && take.written.kind == AmountKind::mass;
    if (!take.thing || (!mass && !volume)) {
      faults.push_back(fault("other_measure", span, "these bounds are in another measure than the `" + text::print(take.written, {}) + "` of the document",
                             "give them in the unit of the document"));
      return;
    }
    const double density = flow.things[*take.thing].density_20c.si;
    one = mass ? 1.0 / density : density;
  }
  free.low = within.value.low * one / take.written.value.nominal();
  free.high = within.value.high * one / take.written.value.nominal();
}

base::Error refused(std::string message, std::vector<base::Diagnostic> faults) { return {base::ErrorKind::bad_input, std::move(message), std::move(faults)}; }

}  // namespace

bool names(const formula::Take& asked, const formula::Take& take) {
  if (asked.kind != take.kind || text::fold(asked.thing) != text::fold(take.thing)) return false;
  return asked.qualifiers.empty() || asked.qualifiers == take.qualifiers;
}

double one_of(const text::Amount& amount) {
  if (amount.kind == AmountKind::pieces) return amount.value.nominal();
  const text::Unit* unit = text::unit_named(amount.unit, text::Measures::metric);
  return unit == nullptr ? 1.0 : amount.value.nominal() * static_cast<double>(unit->denominator) / static_cast<double>(unit->numerator);
}

Problem::Problem(const BalanceAsked& asked, Flowsheet&& flow, std::vector<formula::Target> targets)
    : flow_(std::move(flow)),
      targets_(std::move(targets)),
      probe_(asked.in, flow_, targets_),
      knobs_(flow_.nominal),
      batch_(flow_),
      aim_at_middle_(asked.aim_at_middle),
      given_up_(asked.given_up) {
  for (const formula::Target& target : targets_)
    if (target.at_minute.value_or(0.0) > 0.0 || formula::target_key(target.property) == "headroom_ml") until_ = flow::Until::last_moment;
  flow::run<1>(flow_, flow_.nominal, batch_);
}

base::Result<std::unique_ptr<Problem>> Problem::of(const BalanceAsked& asked, std::vector<formula::Target> targets) {
  const formula::Formula& formula = asked.in.formula;
  if (targets.empty()) return tl::unexpected(refused("there is no target: neither asked for nor in the document", {}));
  std::vector<base::Diagnostic> faults = target_faults(formula, targets);
  auto flow = flow::compile(formula, asked.in.larder, asked.in.kit, asked.in.serves);
  if (!flow) {
    base::Error error = std::move(flow.error());
    error.diagnostics.insert(error.diagnostics.end(), faults.begin(), faults.end());
    return tl::unexpected(std::move(error));
  }
  std::unique_ptr<Problem> problem(new Problem(asked, std::move(*flow), std::move(targets)));
  const Flowsheet& sheet = problem->flow_;
  std::vector<bool> found(asked.vary.size(), false);
  std::vector<std::string> known;
  for (std::size_t t = 0; t < sheet.takes.size(); ++t) {
    const TakeInfo& take = sheet.takes[t];
    const bool serve = sheet.has_serve && take.origin.part + 1U == sheet.parts.size();
    const bool own = sheet.parts[take.origin.part].source == formula.source;
    const formula::Take* written = has_amount(take) && !take.maybe && own ? written_take(formula, take.origin, serve) : nullptr;
    const auto knob = written != nullptr ? knob_of(sheet, take) : std::nullopt;
    if (!knob) continue;
    known.push_back(take.label);
    const bool ice = take.thing && sheet.things[*take.thing].is_ice();
    const bool by_measure = take.written.kind == AmountKind::mass || take.written.kind == AmountKind::volume;
    bool free = (asked.vary.empty() || asked.besides) && take.thing && !ice && !take.agent && by_measure && !counted(take) && !take.used_only;
    const Vary* by = nullptr;
    for (std::size_t v = 0; v < asked.vary.size(); ++v)
      if (names(asked.vary[v].thing, *written)) free = found[v] = true, by = &asked.vary[v];
    if (!free || (asked.may_change && !asked.may_change(sheet, take))) continue;
    Free one{t, *knob, least_share, most_times, counted(take)};
    if (take.agent) keep_in_band(one, sheet, take, problem->batch_);
    if (one.whole) one.low = std::min(1.0, std::max(one.low, 1.0 / one_of(take.written)));
    if (by != nullptr && by->within) keep_within(one, *by->within, take, sheet, by->span, faults);
    problem->free_.push_back(one);
  }
  for (std::size_t v = 0; v < found.size(); ++v)
    if (!found[v]) {
      const std::string near = base::nearest(asked.vary[v].written, known);
      faults.push_back(fault("unknown_thing", asked.vary[v].span,
                             "nothing called `" + asked.vary[v].written + "` with an amount of its own is taken in this document",
                             near.empty() ? "name a thing as the document does, or a part" : "did you mean `" + near + "`?"));
    }
  if (!faults.empty()) return tl::unexpected(refused("the question cannot be asked of this document", std::move(faults)));
  if (problem->free_.empty()) return tl::unexpected(refused("nothing is free: name what may change with --vary", {}));
  return problem;
}

const flow::Batch<1>& Problem::run(std::span<const double> multiples) {
  for (std::size_t i = 0; i < free_.size(); ++i) knobs_[free_[i].knob] = multiples[i] * flow_.nominal[free_[i].knob];
  flow::run<1>(flow_, knobs_, batch_, until_);
  return batch_;
}

void Problem::values(std::span<const double> multiples, std::span<double> out) {
  ends_ = ends_ || (given_up_ && given_up_());
  if (ends_) return std::fill(out.begin(), out.end(), std::numeric_limits<double>::quiet_NaN());
  probe_.read(run(multiples), out);
}

Search Problem::search() {
  Search ask;
  ask.model = [this](std::span<const double> x, std::span<double> out) { values(x, out); };
  for (const Free& one : free_) {
    ask.start.push_back(std::clamp(1.0, one.low, one.high));
    ask.low.push_back(one.low);
    ask.high.push_back(one.high);
  }
  for (const formula::Target& target : targets_) {
    Wish wish;
    if (target.wish != formula::Wish::at_most) wish.low = target.low;
    if (target.wish != formula::Wish::at_least) wish.high = target.wish == formula::Wish::equal ? target.low : target.high;
    double scale = 0.0;
    for (const double edge : {wish.low, wish.high})
      if (std::isfinite(edge)) scale = std::max(scale, std::abs(edge));
    wish.scale = scale > 0.0 ? scale : 1.0;
    if (aim_at_middle_ && std::isfinite(wish.low) && std::isfinite(wish.high)) wish.low = wish.high = 0.5 * (wish.low + wish.high);
    // A hair inside, so that what is found at an edge does not print as missed.
    if (wish.high - wish.low > 4.0 * hair * wish.scale) {
      wish.low += hair * wish.scale;
      wish.high -= hair * wish.scale;
    }
    ask.wishes.push_back(wish);
  }
  return ask;
}

}  // namespace bloomset::solve
