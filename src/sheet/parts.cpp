// sheet/parts.cpp - one part as a cook reads it: what goes in, what each step leaves, what comes of it.
#include <algorithm>
#include <array>
#include <functional>

#include "matter/density.hpp"
#include "sheet/ratio.hpp"

namespace bloomset::sheet {
namespace {

using larder::Family;

constexpr double grams_per_kg = 1e3;

// A spoon may be a third off: never beside what sets a gel or a sourness.
bool may_be_spooned(const larder::Thing& thing) {
  if (thing.solid || thing.is_ice() || thing.family == Family::agent || thing.family == Family::acid || thing.family == Family::chemical ||
      thing.family == Family::acid_solution)
    return false;
  return is_poured(thing.family) || thing.density_measured;
}

TakeLine take_line(const Kitchen& k, std::size_t t, const PartLedger& part) {
  const flow::TakeInfo& take = k.flow.takes[t];
  const TakeLedger& entry = k.book.takes[t];
  TakeLine line;
  line.thing = take.label;
  line.step = take.origin.step;
  line.mass_g = entry.kg * grams_per_kg;
  line.volume_ml = matter::cannot_be_given;
  line.percent_of_base = part.base_kg > 0.0 ? entry.kg / part.base_kg * 100.0 : matter::cannot_be_given;
  line.percent_of_total = part.finished_kg > 0.0 ? entry.kg / part.finished_kg * 100.0 : matter::cannot_be_given;
  if (take.used_only) line.percent_of_base = line.percent_of_total = matter::cannot_be_given;
  line.written = text::print(take.written, k.in.formula.measures);
  line.agent = take.agent;
  line.maybe = take.maybe;
  line.made = take.made.has_value();
  line.span = take.span;
  if (take.made) {
    if (entry.there && take.liquid != flow::no_port && entry.liquid_kg > 0.0)
      line.volume_ml = matter::liquid_volume(k.batch.port(take.liquid).mass, units::celsius(entry.celsius)).si * 1e6;
  } else if (take.thing) {
    const larder::Thing& thing = k.flow.things[*take.thing];
    line.ice = thing.is_ice();
    if (line.ice) line.percent_of_base = line.percent_of_total = matter::cannot_be_given;  // ice is no part of the base, and most of it is left behind
    const double ml = thing.density_20c.si > 0.0 ? entry.kg / thing.density_20c.si * 1e6 : matter::cannot_be_given;
    const bool by_volume = take.written.kind == text::AmountKind::volume;
    if (!thing.solid && !thing.is_ice() && (is_poured(thing.family) || by_volume)) line.volume_ml = ml;
    if (thing.piece && thing.piece->si > 0.0) line.pieces = entry.kg / thing.piece->si;
    if (entry.there && may_be_spooned(thing)) line.measure = text::kitchen_measure(units::millilitres(ml), k.in.formula.measures);
  }
  return line;
}

PartSheet part_sheet(const Kitchen& k, std::size_t p) {
  const flow::PartInfo& part = k.flow.parts[p];
  const PartLedger& entry = k.book.parts[p];
  PartSheet sheet;
  sheet.name = part.name;
  sheet.ahead = part.made == formula::Made::ahead;
  sheet.values = values_at(k, part.liquid, part.ice);
  sheet.batch_mass_g = entry.finished_kg * grams_per_kg;
  sheet.used_per_serve_g = entry.drawn_kg / k.flow.serves * grams_per_kg;
  sheet.batches = part.batches;
  sheet.rounds = part.rounds;
  const double left_g = entry.left_kg() * grams_per_kg;
  sheet.left_over_g = std::max(left_g, 0.0);
  sheet.short_g = std::max(-left_g, 0.0) + entry.short_of_outputs_kg * grams_per_kg;
  sheet.losses = loss_lines(k, p);
  sheet.takes = take_lines(k, p);
  sheet.ratio = ratio_of(k, p, sheet.takes);
  sheet.steps = step_lines(k, p);
  sheet.agents = agent_lines(k, p);
  for (const flow::StepInfo& step : k.flow.steps)
    if (step.origin.part == p && step.keeps_s) sheet.keeps_h = step.keeps_s->nominal() / 3600.0;
  return sheet;
}

}  // namespace

bool is_poured(Family family) {
  switch (family) {
    case Family::water:
    case Family::juice:
    case Family::puree:
    case Family::syrup:
    case Family::spirit:
    case Family::liqueur:
    case Family::wine:
    case Family::bitters:
    case Family::dairy:
    case Family::egg:
    case Family::plant_milk:
    case Family::acid_solution:
    case Family::saline:
    case Family::soda:
    case Family::tea_coffee:
      return true;
    default:
      return false;
  }
}

std::vector<TakeLine> take_lines(const Kitchen& k, std::size_t p) {
  std::vector<TakeLine> lines;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t)
    if (k.flow.takes[t].origin.part == p) lines.push_back(take_line(k, t, k.book.parts[p]));
  // What an act brings with it stands behind the takes of its own step.
  std::stable_sort(lines.begin(), lines.end(), [](const TakeLine& a, const TakeLine& b) { return a.step < b.step; });
  return lines;
}

std::vector<LossLine> loss_lines(const Kitchen& k, std::size_t p) {
  static constexpr std::array<const char*, 7> kinds = {"goes on", "stays", "evaporates", "sticks", "pulp", "gas", "aside"};
  std::vector<LossLine> lines;
  for (std::size_t l = 0; l < k.flow.losses.size(); ++l) {
    const flow::LossInfo& loss = k.flow.losses[l];
    if (loss.origin.part == p && k.book.losses_kg[l] > 0.0)
      lines.push_back({kinds[static_cast<std::size_t>(loss.fate)], loss.origin.step, k.book.losses_kg[l] * grams_per_kg});
  }
  return lines;
}

std::vector<StepLine> step_lines(const Kitchen& k, std::size_t p) {
  std::vector<StepLine> lines;
  for (const flow::StepInfo& step : k.flow.steps)
    if (step.origin.part == p)
      lines.push_back({step.origin.step, std::string(formula::name(step.act)), step.vessel, step.place, values_at(k, step.liquid, step.ice),
                       step_seconds(k, step), step.span});
  return lines;
}

matter::Values values_at(const Kitchen& k, flow::Port liquid, flow::Port ice) { return values_at(k, liquid, ice, matter::PropertySet().set()); }

matter::Values values_at(const Kitchen& k, flow::Port liquid, flow::Port ice, const matter::PropertySet& asked) {
  matter::Values values;
  values.of.fill(matter::cannot_be_given);
  if (liquid != flow::no_port && k.batch.port(liquid).mass.total_kg() > 0.0) matter::read(flow::state_at(k.batch, liquid, ice), asked, values);
  return values;
}

// Parts are a chain without circles: compile has seen to that. Each is worked out once.
std::vector<double> ready_after_h(const Kitchen& k) {
  std::vector<double> own_s(k.flow.parts.size(), 0.0), ready_s(k.flow.parts.size(), -1.0);
  std::vector<std::vector<std::uint16_t>> draws_from(k.flow.parts.size());
  for (const flow::StepInfo& step : k.flow.steps) own_s[step.origin.part] += step_seconds(k, step);
  for (const flow::DrawInfo& draw : k.flow.draws) draws_from[draw.by].push_back(draw.from);
  const std::function<double(std::size_t)> ready = [&](std::size_t p) {
    if (ready_s[p] >= 0.0) return ready_s[p];
    double before_s = 0.0;
    for (const std::uint16_t from : draws_from[p]) before_s = std::max(before_s, ready(from));
    return ready_s[p] = own_s[p] + before_s;
  };
  for (std::size_t p = 0; p < ready_s.size(); ++p) ready(p);
  for (double& s : ready_s) s /= 3600.0;
  return ready_s;
}

std::vector<PartSheet> part_sheets(const Kitchen& k) {
  std::vector<PartSheet> sheets;
  const std::vector<double> ready_h = ready_after_h(k);
  for (std::size_t p = 0; p < k.flow.parts.size(); ++p) {
    if (k.is_serve(p)) continue;
    sheets.push_back(part_sheet(k, p));
    sheets.back().ready_after_h = ready_h[p];
    if (k.flow.parts[p].charge) sheets.back().siphon = siphon_line(k, p, sheets.back());
  }
  return sheets;
}

}  // namespace bloomset::sheet
