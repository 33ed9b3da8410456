#include "solve/swap.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "flow/compile.hpp"
#include "matter/density.hpp"
#include "sheet/gelatin_swap.hpp"
#include "solve/measures.hpp"
#include "solve/problem.hpp"
#include "text/fold.hpp"

namespace bloomset::solve {
namespace {

using formula::Take;
using text::AmountKind;

constexpr double least_wet = 0.1;       // of its mass: what pours (practice)
constexpr double least_brought = 0.02;  // of its mass: egg white has less sugar, juices more sugar or acid (practice)
constexpr double least_water = 0.01;    // of the old thing's mass: less water than that is nobody's measure (practice)

base::Span whole(const base::Sources& sources, std::uint32_t source) { return {source, 1, 1, static_cast<std::uint32_t>(sources.text(source).size())}; }

void fault(std::vector<base::Diagnostic>& faults, base::Span span, std::string code, std::string message, std::string hint) {
  faults.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
}

// What a thing is there for.
enum class Brings : std::uint8_t { ethanol, sugar, acid };
constexpr std::array<Brings, 3> all_brought = {Brings::ethanol, Brings::sugar, Brings::acid};

double brought_kg(const matter::Composition& mass, Brings what) {
  double kg = 0.0;
  for (std::size_t c = 0; c < matter::component_count; ++c) {
    const auto kind = matter::info(static_cast<matter::Component>(c)).kind;
    const bool counts = what == Brings::ethanol ? kind == matter::Class::ethanol
                        : what == Brings::sugar ? kind == matter::Class::sugar
                                                : kind == matter::Class::acid;
    if (counts) kg += mass.kg[c];
  }
  return kg;
}

struct Stuff {
  matter::Composition per_kg;
  double density_20c = 1000.0;
  std::string label;
};

std::optional<Stuff> stuff_of(const RefitAsked& asked, const Take& to, const Cooked& cooked, base::Span span, std::vector<base::Diagnostic>& faults) {
  if (to.kind == formula::ThingKind::bought) {
    auto thing = asked.in.larder.resolve(to.thing, flow::bracket_of(to), span);
    if (thing) return Stuff{thing->per_kg, thing->density_20c.si, thing->label};
    faults.insert(faults.end(), thing.error().diagnostics.begin(), thing.error().diagnostics.end());
    if (thing.error().diagnostics.empty()) fault(faults, span, "unknown_thing", thing.error().message, "");
    return std::nullopt;
  }
  std::vector<std::string> names;
  for (const flow::PartInfo& part : cooked.flow.parts) {
    names.push_back(part.name);
    if (text::fold(part.name) != text::fold(to.thing) || part.liquid == flow::no_port) continue;
    const matter::Composition& mass = cooked.batch.port(part.liquid).mass;
    if (!(mass.total_kg() > 0.0)) continue;
    return Stuff{mass * (1.0 / mass.total_kg()), mass.total_kg() / matter::liquid_volume(mass, units::celsius(20.0)).si, "'" + part.name + "'"};
  }
  const std::string near = base::nearest(to.thing, names);
  fault(faults, span, "unknown_part", "no part is called '" + to.thing + "' here",
        near.empty() ? "write the part, or borrow it, first" : "did you mean '" + near + "'?");
  return std::nullopt;
}

// How much of the new thing brings what the old one was there for [kg].
double equal_kg(const Cooked& cooked, const flow::TakeInfo& info, const matter::Composition& old, const Stuff& stuff) {
  matter::Composition part;
  for (const flow::TakeInfo& other : cooked.flow.takes)
    if (other.origin.part == info.origin.part && other.liquid != flow::no_port) part += cooked.batch.port(other.liquid).mass;
  Brings most = Brings::ethanol;
  double share = 0.0;
  for (const Brings what : all_brought) {
    const double all = brought_kg(part, what);
    if (all > 0.0 && brought_kg(old, what) / all > share) share = brought_kg(old, what) / all, most = what;
  }
  const double in_one_kg = brought_kg(stuff.per_kg, most);
  const double kg = share > 0.0 && in_one_kg > 0.0 ? brought_kg(old, most) / in_one_kg : old.total_kg();
  return std::clamp(kg, least_share * old.total_kg(), most_times * old.total_kg());
}

// The old amount in the new thing's measure: `kg` of it in place of `old_kg`.
text::Amount amount_of(const text::Amount& old, double kg, double old_kg, const Stuff& stuff, text::Measures measures, bool exact) {
  text::Amount grams{AmountKind::mass, {kg, kg}, "g", old.span};
  double times = kg / old_kg;
  if (old.kind == AmountKind::volume) times = kg / stuff.density_20c / old.value.nominal();
  // Nobody measures a dry thing by the millilitre.
  const bool dry = old.kind == AmountKind::volume && stuff.per_kg[matter::Component::water] + stuff.per_kg[matter::Component::ethanol] < least_wet;
  const bool by_itself = dry || old.kind == AmountKind::all || old.kind == AmountKind::rest || old.kind == AmountKind::half || old.kind == AmountKind::pieces;
  const text::Amount& like = by_itself ? grams : old;
  if (by_itself) times = 1.0;
  return exact ? scaled(like, times, measures) : practical(like, times, fineness_levels - 1, measures);
}

// The place before a whole value of a list, its quote or brace: behind its quote might stand, in a table, other keys.
base::Span before_value(const std::string& document, base::Span inside) {
  std::size_t line = 0;
  for (std::uint32_t n = 1; n < inside.line; ++n) line = document.find('\n', line) + 1;
  std::size_t at = line + inside.column - 1;
  while (at > line && document[at - 1] != '{' && document[at - 1] != '[' && document[at - 1] != ',') --at;
  if (at > line && document[at - 1] == '{') --at;
  while (document[at] == ' ' || document[at] == '\t') ++at;
  return {inside.source, inside.line, static_cast<std::uint32_t>(at - line + 1), 0};
}

void swap_liquid(const RefitAsked& asked, const Take& take, const Take& to, const flow::TakeInfo& info, const Cooked& cooked, const Stuff& stuff,
                 Changes& out) {
  Take now = take;
  now.kind = to.kind;
  now.thing = to.thing;
  now.output = to.output;
  now.qualifiers = to.qualifiers;
  now.charged_as = formula::ChargedAs::unsaid;
  Swapped done{info.origin, false, false};
  const bool ice = info.thing && cooked.flow.things[*info.thing].is_ice();
  const bool counted = ice || take.amount.unit == "dash" || take.amount.unit == "drop";
  if (info.liquid != flow::no_port && cooked.batch.port(info.liquid).mass.total_kg() > 0.0 && !counted) {
    const matter::Composition& old = cooked.batch.port(info.liquid).mass;
    const double kg = equal_kg(cooked, info, old, stuff), water_kg = old.total_kg() - kg;
    now.amount = amount_of(take.amount, kg, old.total_kg(), stuff, asked.in.formula.measures, asked.exact);
    done.balanced = true;
    const bool by_measure = take.amount.kind == AmountKind::mass || take.amount.kind == AmountKind::volume;
    if (water_kg > least_water * old.total_kg() && by_measure && stuff.per_kg[matter::Component::water] < 0.999) {
      text::Amount water{AmountKind::volume, {water_kg * 1e-3, water_kg * 1e-3}, "mL", {}};
      if (take.amount.kind == AmountKind::mass) water = {AmountKind::mass, {water_kg, water_kg}, "g", {}};
      water = asked.exact ? scaled(water, 1.0, asked.in.formula.measures) : practical(water, 1.0, fineness_levels - 1, asked.in.formula.measures);
      out.edits.push_back({before_value(asked.document, take.span), "\"" + text::print(water, asked.in.formula.measures) + " water\", "});
      done.water_before = true;
    }
  }
  if (now.kind == formula::ThingKind::made && done.balanced) {
    Vary vary;
    vary.thing = now;
    vary.written = now.thing;
    out.vary.push_back(std::move(vary));
  }
  out.edits.push_back({take.span, formula::print(now, asked.in.formula.measures)});
  out.takes.push_back(done);
}

bool swap_gelatin(const RefitAsked& asked, const Swap& swap, const Take& take, const Take& to, const flow::TakeInfo& info, const Cooked& cooked, Changes& out,
                  std::vector<base::Diagnostic>& faults) {
  base::Sources sources = asked.sources;
  const std::string old = formula::print(take, asked.in.formula.measures).substr(text::print(take.amount, asked.in.formula.measures).size() + 1);
  const auto from_form = sheet::read_agent(sources.add("the document", old), sources, asked.in.larder),
             to_form = sheet::read_agent(swap.to, sources, asked.in.larder);
  if (!from_form || !to_form) {
    const base::Error& error = from_form ? to_form.error() : from_form.error();
    faults.insert(faults.end(), error.diagnostics.begin(), error.diagnostics.end());
    return false;
  }
  const bool counted = take.amount.kind == AmountKind::pieces;
  sheet::GelatinAmount amount;
  const double kg = info.liquid != flow::no_port ? cooked.batch.port(info.liquid).mass.total_kg() : 0.0;
  if (counted)
    amount.pieces = take.amount.value.nominal();
  else
    amount.mass = units::kilograms(kg);
  auto made = sheet::swap_gelatin(amount, *from_form, whole(asked.sources, swap.from), *to_form, whole(asked.sources, swap.to));
  if (!made) {
    faults.insert(faults.end(), made.error().diagnostics.begin(), made.error().diagnostics.end());
    return false;
  }
  const texture::Converted& chosen = made->chosen();
  Take now = take;
  now.thing = to.thing;
  now.qualifiers = to.qualifiers;
  const text::Measures measures = asked.in.formula.measures;
  const auto rounded = [&](const text::Amount& like, double times) {
    return asked.exact ? scaled(like, times, measures) : practical(like, times, fineness_levels - 1, measures);
  };
  if (counted && chosen.pieces)
    now.amount.value.low = now.amount.value.high = std::round(*chosen.pieces * 1e6) / 1e6;  // 3, not 2.9999999999999996
  else if (counted)
    now.amount = rounded({AmountKind::mass, {chosen.mass->si, chosen.mass->si}, "g", {}}, 1.0);
  else
    now.amount = rounded(take.amount, *chosen.mass / units::kilograms(kg));
  out.edits.push_back({take.span, formula::print(now, measures)});
  out.takes.push_back({info.origin, false, false});
  for (base::Finding& finding : made->findings) {
    finding.where.part = cooked.flow.parts[info.origin.part].name;
    out.findings.push_back(std::move(finding));
  }
  return true;
}

// What stays behind is named without its bracket, at whatever step it is strained out.
void rename_left(const std::vector<formula::Step>& steps, const Take& from, const Take& to, Changes& out) {
  for (const formula::Step& step : steps)
    for (const formula::Word& word : step.leave)
      if (text::fold(word.text) == text::fold(from.thing)) out.edits.push_back({word.span, to.thing});
}

}  // namespace

base::Result<std::unique_ptr<Cooked>> cook(const RefitAsked& asked, const std::string& document) {
  base::Sources sources;
  auto read = formula::read(asked.name, document, sources, asked.borrower);
  if (!read) return tl::unexpected(std::move(read.error()));
  auto flow = flow::compile(*read, asked.in.larder, asked.in.kit, asked.in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  return std::make_unique<Cooked>(std::move(sources), std::move(*read), std::move(*flow));
}

bool swap_thing(const RefitAsked& asked, const Swap& swap, const Cooked& cooked, Changes& out, std::vector<base::Diagnostic>& faults) {
  const auto from = formula::read_named(asked.sources.text(swap.from), whole(asked.sources, swap.from), faults),
             to = formula::read_named(asked.sources.text(swap.to), whole(asked.sources, swap.to), faults);
  if (!from || !to) return false;
  const auto stuff = stuff_of(asked, *to, cooked, whole(asked.sources, swap.to), faults);
  if (!stuff) return false;
  std::vector<std::string> known;
  std::set<std::uint16_t> renamed;
  bool elsewhere = false, found = false;
  for (const flow::TakeInfo& info : cooked.flow.takes) {
    if (!info.written.span.known()) continue;
    known.push_back(info.label);
    const bool serve = cooked.flow.has_serve && info.origin.part + 1U == cooked.flow.parts.size();
    const bool own = cooked.flow.parts[info.origin.part].source == cooked.formula.source;
    if (!own) {
      elsewhere =
          elsewhere || (from->kind == formula::ThingKind::bought && info.thing && text::fold(cooked.flow.things[*info.thing].name) == text::fold(from->thing));
      continue;
    }
    const std::vector<formula::Step>& steps = serve ? cooked.formula.serve->pours : cooked.formula.parts[info.origin.part].steps;
    const formula::Step& step = steps[info.origin.step - 1U];
    if (info.origin.take < 1 || info.origin.take > step.takes.size()) continue;
    const Take& take = step.takes[info.origin.take - 1U];
    if (!names(*from, take)) continue;
    found = true;
    const auto same = [&](const Swapped& one) { return one.at == info.origin; };
    if (std::any_of(out.takes.begin(), out.takes.end(), same)) {
      fault(faults, whole(asked.sources, swap.from), "swapped_twice", "another --swap has taken the place of this thing already",
            "say once what there is instead of a thing");
      return false;
    }
    const auto agent = info.thing ? sheet::agent_of(cooked.flow.things[*info.thing]) : std::nullopt;
    if (agent && !texture::is_gelatin(*agent)) {
      fault(faults, whole(asked.sources, swap.from), "no_gelatin", "of texture agents only gelatins are exchanged one for one",
            "`bloomset substitute FORMULA --agent NAME` finds another agent for the same effect");
      return false;
    }
    if (agent && !swap_gelatin(asked, swap, take, *to, info, cooked, out, faults)) return false;
    if (!agent) swap_liquid(asked, take, *to, info, cooked, *stuff, out);
    if (renamed.insert(info.origin.part).second) rename_left(steps, *from, *to, out);
  }
  if (found) return true;
  const std::string written(asked.sources.text(swap.from)), near = base::nearest(written, known);
  fault(faults, whole(asked.sources, swap.from), "unknown_thing", "nothing called `" + written + "` is taken in this document",
        elsewhere      ? "it is taken in a part that this document borrows: refit the file that the part is written in"
        : near.empty() ? "name a thing as the document does, a part in single quotes, or a bottle that a part is charged in"
                       : "did you mean `" + near + "`?");
  return false;
}

bool shapes(const larder::Thing& thing) {
  if (thing.family == larder::Family::water) return true;
  return std::any_of(all_brought.begin(), all_brought.end(), [&](Brings what) { return brought_kg(thing.per_kg, what) > least_brought; });
}

}  // namespace bloomset::solve
