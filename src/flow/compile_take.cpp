// flow/compile_take.cpp - takes become sources: by mass, by volume, by piece, by share.
//
// Order inside a part: takes with an amount of their own first, then what is a share of a marked line, then agents (a
// share of the base), then shares of the finished part. A share of "what is in the vessel" waits for its step.
#include <algorithm>

#include "flow/compiler.hpp"
#include "text/fold.hpp"

namespace bloomset::flow {
namespace {

using text::AmountKind;

// Share of its soluble matter that a solid gives up in one infusion. Ground coffee and tea leaf are cut for it: a 6 % brew of
// coffee with 28 % solubles has 1.2-1.45 % dissolved (memory: coffee brewing handbook), so about three quarters. Whole pods, peel, leaves: practice.
constexpr double leaf_extracts = 0.75, infusion_extracts = 0.30;

std::uint32_t take_key(std::size_t step, std::size_t take) { return static_cast<std::uint32_t>(step << 16U | take); }

std::uint64_t origin_key(Origin o) { return std::uint64_t{o.part} << 32U | std::uint64_t{o.step} << 16U | o.take; }

bool is_share(const formula::Take& take) { return take.amount.kind == AmountKind::percent || take.amount.kind == AmountKind::percent_total; }

}  // namespace

std::vector<larder::Qualifier> bracket_of(const formula::Take& take) {
  std::vector<larder::Qualifier> out;
  for (const formula::Qualifier& q : take.qualifiers) out.push_back({q.name, q.value, q.span});
  return out;
}

std::optional<std::uint16_t> Compiler::part_named(const std::string& name) const {
  for (std::uint16_t i = 0; i < formula_.parts.size(); ++i)
    if (text::fold(formula_.parts[i].name) == text::fold(name)) return i;
  return std::nullopt;
}

std::optional<std::uint32_t> Compiler::thing_of(const formula::Take& take) {
  auto thing = larder_.resolve(take.thing, bracket_of(take), take.thing_span);
  if (!thing) {
    if (thing.error().diagnostics.empty()) fault("unknown_thing", take.thing_span, thing.error().message);
    for (base::Diagnostic& fault : thing.error().diagnostics) faults_.push_back(std::move(fault));
    return std::nullopt;
  }
  sheet_.things.push_back(std::move(*thing));
  return static_cast<std::uint32_t>(sheet_.things.size() - 1);
}

// A strain or a leave further down keeps this solid back, so it is not part of the base.
bool Compiler::is_left_later(const std::vector<formula::Step>& steps, std::size_t step, const std::string& thing) const {
  for (std::size_t n = step; n < steps.size(); ++n) {
    if (steps[n].act == formula::Act::strain && steps[n].leave.empty()) return true;
    for (const formula::Word& word : steps[n].leave)
      if (text::fold(word.text) == text::fold(thing)) return true;
  }
  return false;
}

TakeInfo* Compiler::take_info(Origin origin) {
  const auto found = take_at_.find(origin_key(origin));
  return found == take_at_.end() ? nullptr : &sheet_.takes[found->second];
}

std::vector<Port> Compiler::base_of(std::uint16_t part) const {
  std::vector<Port> ports;
  for (const TakeInfo& info : sheet_.takes) {
    if (info.origin.part != part || !info.in_base || info.maybe) continue;
    for (const Port p : {info.liquid, info.solid})
      if (p != no_port) ports.push_back(p);
  }
  return ports;
}

void Compiler::emit_takes(std::uint16_t part, const std::vector<formula::Step>& steps) {
  enum class Wave { own_amount, rest, of_mark, of_base, of_total };
  // First name everything, so that the base is known before any share of it is taken.
  for (std::size_t s = 0; s < steps.size(); ++s) {
    for (std::size_t t = 0; t < bath_line(steps[s]); ++t) {
      const bool is_ice_line = t == steps[s].takes.size(), is_bath = t + 1 == bath_line(steps[s]);
      if ((is_ice_line && !steps[s].ice) || (is_bath && !steps[s].bath)) continue;
      const formula::Take& take = is_bath ? steps[s].bath->in : is_ice_line ? *steps[s].ice : steps[s].takes[t];
      TakeInfo info;
      info.origin = {part, static_cast<std::uint16_t>(s + 1), static_cast<std::uint16_t>(t + 1)};
      info.label = take.thing;
      info.maybe = steps[s].maybe;
      info.written = take.amount;
      info.span = take.span;
      const bool counted = take.amount.kind != AmountKind::all && take.amount.kind != AmountKind::rest && take.amount.kind != AmountKind::half;
      if (counted && !(take.amount.value.nominal() > 0.0)) {
        fault("nothing_taken", take.span, "an amount of nothing is taken", "give an amount above zero, or take the line out");
        continue;
      }
      if (take.kind == formula::ThingKind::made) {
        info.made = part_named(take.thing);
        if (!info.made) {
          std::vector<std::string> known;
          for (const formula::Part& p : formula_.parts) known.push_back(p.name);
          const std::string near = base::nearest(take.thing, known);
          fault("unknown_part", take.thing_span, "no part is called '" + take.thing + "'",
                near.empty() ? "parts are named in single quotes; things bought are not" : "did you mean '" + near + "'?");
          continue;
        }
        const PartInfo& from = sheet_.parts[*info.made];
        if (from.made == formula::Made::to_order && sheet_.parts[part].made == formula::Made::ahead && !is_serve(part)) {
          fault("to_order_in_ahead", take.thing_span,
                "'" + from.name + "' is made to order, so '" + sheet_.parts[part].name + "', which is made ahead, cannot use it",
                "make '" + from.name + "' ahead too");
          continue;
        }
        const auto output = output_of(from, take);
        if (!output) continue;
        info.output = *output;
        if (!take.output.empty()) info.label += "/" + from.outputs[*output].name;
        if (from.foams == Foams::siphon && take.amount.kind == AmountKind::volume && take.charged_as == formula::ChargedAs::unsaid) {
          fault("foam_by_volume", take.span, "a volume of '" + from.name + "' may mean its foam or its base",
                "say `as foam` or `as base` behind the name, or give grams");
          continue;
        }
      } else {
        info.thing = thing_of(take);
        if (!info.thing) continue;
        const larder::Thing& thing = sheet_.things[*info.thing];
        info.label = thing.label;
        info.agent = thing.family == larder::Family::agent;
        info.solid_left = thing.solid && is_left_later(steps, s, take.thing);
        info.in_base = !info.agent && !thing.is_ice() && !info.solid_left;
        if (is_ice_line && !thing.is_ice()) {
          fault("not_ice", take.thing_span, "\"" + take.thing + "\" is not a kind of ice", "name an ice of the larder, for example \"200 g ice cubes\"");
          continue;
        }
      }
      info.used_only = is_bath || steps[s].act == formula::Act::rinse;
      info.in_base = info.in_base && !info.used_only;
      take_at_[origin_key(info.origin)] = sheet_.takes.size();
      sheet_.takes.push_back(std::move(info));
    }
  }

  const auto wave_of = [&](const formula::Take& take, const TakeInfo& info) -> std::optional<Wave> {
    if (take.amount.kind == AmountKind::rest) return Wave::rest;  // counts the other draws, so it comes after them
    if (!is_share(take)) return Wave::own_amount;
    if (!take.of_mark.empty()) return Wave::of_mark;
    if (take.amount.kind == AmountKind::percent_total) return Wave::of_total;
    if (info.agent) return Wave::of_base;
    return std::nullopt;  // of the vessel: at its step
  };
  double total_shares = 0.0;
  for (const formula::Step& step : steps)
    for (const formula::Take& take : step.takes)
      if (take.amount.kind == AmountKind::percent_total) total_shares += take.amount.value.nominal();
  if (total_shares >= 1.0) {
    fault("shares_over_whole", sheet_.parts[part].span, "the shares of the finished part add up to 100 % or more", "they must leave room for the rest");
    return;
  }

  for (const Wave wave : {Wave::own_amount, Wave::rest, Wave::of_mark, Wave::of_base, Wave::of_total}) {
    for (std::size_t s = 0; s < steps.size(); ++s) {
      for (std::size_t t = 0; t < steps[s].takes.size(); ++t) {
        const formula::Take& take = steps[s].takes[t];
        const Origin origin{part, static_cast<std::uint16_t>(s + 1), static_cast<std::uint16_t>(t + 1)};
        TakeInfo* info = take_info(origin);
        if (info == nullptr || info->maybe || wave_of(take, *info) != std::optional(wave)) continue;
        MadeTake& made = made_[{part, take_key(s + 1, t + 1)}];
        std::vector<Port> refs;
        double factor = 1.0;
        if (wave == Wave::of_mark) {
          const auto found = marks_by_name_.find(text::fold(take.of_mark));
          if (found == marks_by_name_.end()) {
            fault("unknown_mark", take.span, "no line above is marked '" + take.of_mark + "'",
                  "a mark is set with { take = …, mark = \"" + take.of_mark + "\" } on a line with an amount of its own");
            continue;
          }
          refs = {found->second};
        } else if (wave == Wave::of_base) {
          refs = base_of(part);
        } else if (wave == Wave::of_total) {
          // f of the whole is f / (1 - sum of all f) of everything else.
          for (const TakeInfo& other : sheet_.takes)
            if (other.origin.part == part && !other.maybe && !other.solid_left && !other.used_only && other.written.kind != AmountKind::percent_total)
              for (const Port p : {other.liquid, other.solid})
                if (p != no_port) refs.push_back(p);
          factor = 1.0 / (1.0 - total_shares);
          for (std::size_t later = s; later < steps.size(); ++later)
            if (const ActRow* row = row_of(steps[later].act); row != nullptr && (row->op == Op::heat || row->op == Op::strain || row->op == Op::infuse)) {
              mark(base::Code::assumption, origin, take.span,
                   "\"% total\" is of all that goes in: what is lost afterwards makes its share of the finished part larger");
              break;
            }
        }
        if (wave > Wave::rest && refs.empty()) {
          fault("share_of_nothing", take.span, "a percentage needs something with an amount of its own to be a percentage of",
                "give the lines it refers to a mass or a volume");
          continue;
        }
        if (take.kind == formula::ThingKind::made)
          emit_draw(take, *info, made, refs);
        else if (sheet_.things[*info->thing].is_ice())
          emit_ice(take, *info, made, take.at_c, 1.0);
        else
          emit_bought(take, *info, made, refs, factor);
        if (!take.mark.empty() && made.emitted) marks_by_name_[text::fold(take.mark)] = info->liquid != no_port ? info->liquid : info->solid;
      }
      if (wave == Wave::own_amount && steps[s].ice && !steps[s].maybe) {
        const Origin origin{part, static_cast<std::uint16_t>(s + 1), static_cast<std::uint16_t>(steps[s].takes.size() + 1)};
        // `ice` is written for one serve; a batch needs it for all the serves it is made for.
        const double times = sheet_.serves / sheet_.parts[part].times;
        if (TakeInfo* info = take_info(origin))
          emit_ice(*steps[s].ice, *info, made_[{part, take_key(s + 1, steps[s].takes.size() + 1)}], steps[s].ice_at_c, times);
      }
      if (wave == Wave::own_amount && steps[s].bath && !steps[s].maybe) {
        const formula::Take& bath = steps[s].bath->in;
        TakeInfo* info = take_info({part, static_cast<std::uint16_t>(s + 1), bath_line(steps[s])});
        MadeTake& made = made_[{part, take_key(s + 1, bath_line(steps[s]))}];
        if (info != nullptr && is_share(bath))
          fault("bath_by_share", bath.span, "a bath has an amount of its own", "give grams or millilitres");
        else if (info != nullptr && bath.kind == formula::ThingKind::made)
          emit_draw(bath, *info, made, {});
        else if (info != nullptr)
          emit_bought(bath, *info, made, {}, 1.0);
      }
    }
  }
}

std::uint16_t Compiler::stuff_of(const larder::Thing& thing) {
  const matter::Composition per_kg = thing.per_kg + matter::Composition{};  // nothing is a plain 0, not a negative one
  sheet_.stuffs.push_back({per_kg, matter::heat_curve(per_kg), thing.density_20c.si});
  return static_cast<std::uint16_t>(sheet_.stuffs.size() - 1);
}

// A take of something bought. `refs` and `factor` matter to shares only.
void Compiler::emit_bought(const formula::Take& take, TakeInfo& info, MadeTake& made, const std::vector<Port>& refs, double factor) {
  const larder::Thing& thing = sheet_.things[*info.thing];
  Unit source;
  source.op = Op::take;
  double amount = take.amount.value.nominal(), per_unit = 1.0;
  KnobKind kind = KnobKind::mass_kg;
  switch (take.amount.kind) {
    case AmountKind::mass:
      source.mode = static_cast<std::uint8_t>(TakeMode::mass);
      break;
    case AmountKind::volume:
      source.mode = static_cast<std::uint8_t>(TakeMode::volume);
      kind = KnobKind::volume_m3;
      break;
    case AmountKind::pieces:
      if (!thing.piece) {
        fault("no_piece_mass", take.span, "the larder has no mass a piece for \"" + thing.name + "\"",
              "say it in the bracket, for example (4 g a piece), or give grams");
        return;
      }
      per_unit = thing.piece->si;
      break;
    case AmountKind::percent:
    case AmountKind::percent_total:
      source.mode = static_cast<std::uint8_t>(TakeMode::share_of_refs);
      kind = KnobKind::share;
      per_unit = factor;
      break;
    case AmountKind::all:
    case AmountKind::rest:
    case AmountKind::half: {
      const char* word = take.amount.kind == AmountKind::all ? "`all`" : take.amount.kind == AmountKind::rest ? "`rest`" : "`half`";
      fault("all_of_bought", take.span, std::string(word) + " goes with a part in single quotes; \"" + take.thing + "\" is bought",
            "give an amount, or quote the name if a part is meant");
      return;
    }
  }
  source.stuff = stuff_of(thing);
  std::optional<text::Range> range = take.amount.value;
  range->low *= per_unit;
  range->high *= per_unit;
  amount *= per_unit;
  source.knobs = {knob(amount, kind, info.origin, "amount", "", range), 2};
  knob(take.at_c ? take.at_c->nominal() : thing.storage_c, KnobKind::celsius, info.origin, "temperature", take.at_c ? "" : "larder", take.at_c);
  source.refs = links(refs);
  const Port out = port();
  source.out = links({out});
  unit(source, info.origin);
  made.emitted = true;
  made.fizzy = thing.per_kg[matter::Component::carbon_dioxide] > 0.0;
  if (thing.solid) {
    info.solid = out;
    made.solids.push_back({out, text::fold(take.thing), thing.holds_liquid, thing.family == larder::Family::tea_coffee ? leaf_extracts : infusion_extracts});
  } else {
    info.liquid = out;
    made.liquid = out;
  }
  for (const std::string& assumed : thing.assumptions) mark(base::Code::assumption, info.origin, take.span, assumed);
}

void Compiler::emit_ice(const formula::Take& take, TakeInfo& info, MadeTake& made, const std::optional<text::Range>& at_c, double times) {
  const larder::Thing& thing = sheet_.things[*info.thing];
  double amount = take.amount.value.nominal() * times;
  Unit source;
  source.op = Op::take_ice;
  if (take.amount.kind == AmountKind::pieces && thing.piece) {
    amount *= thing.piece->si;
  } else if (take.amount.kind != AmountKind::mass) {
    fault("ice_by_weight", take.span, "ice is taken by weight" + std::string(thing.piece ? " or by piece" : ""), "for example \"200 g ice cubes\"");
    return;
  }
  if (at_c && at_c->high > 0.0) {
    fault("ice_above_zero", take.span, "ice cannot be warmer than 0 C", "give its own temperature, 0 C or below");
    return;
  }
  Stuff water;
  water.per_kg = matter::pure(matter::Component::water, units::kilograms(1.0));
  water.curve = matter::heat_curve(water.per_kg);
  sheet_.stuffs.push_back(water);
  source.stuff = static_cast<std::uint16_t>(sheet_.stuffs.size() - 1);
  source.knobs = {knob(amount, KnobKind::mass_kg, info.origin, "amount", "", text::Range{take.amount.value.low * times, take.amount.value.high * times}), 3};
  knob(at_c ? at_c->nominal() : thing.ice_c, KnobKind::celsius, info.origin, "temperature of the ice", at_c ? "" : "larder", at_c);
  knob(*thing.ice_wet, KnobKind::share, info.origin, "surface water of the ice", "larder");
  made.ice_piece_kg = thing.piece ? thing.piece->si : 0.0;
  made.ice = port();
  made.liquid = port();
  info.ice = made.ice;
  info.liquid = made.liquid;
  source.out = links({made.ice, made.liquid});
  unit(source, info.origin);
  made.emitted = true;
}

// A draw of a made part. `vessel` is what a plain percentage is a share of.
void Compiler::emit_draw(const formula::Take& take, TakeInfo& info, MadeTake& made, const std::vector<Port>& vessel) {
  const PartInfo& from = sheet_.parts[*info.made];
  const PartInfo& by = sheet_.parts[info.origin.part];
  if (from.liquid == no_port && from.solids.empty()) return;  // its own fault is already said
  Unit draw;
  draw.op = Op::draw;
  std::vector<Port> refs, out;
  const auto phase = [&](Port source) {
    refs.push_back(source);
    out.push_back(port());
    return out.back();
  };
  DrawInfo account;
  account.from = *info.made;
  account.by = info.origin.part;
  account.origin = info.origin;
  account.output = info.output;
  if (info.output > 0) {
    made.liquid = account.liquid = phase(from.outputs[info.output].liquid);
  } else {
    if (from.liquid != no_port) made.liquid = account.liquid = phase(from.liquid);
    if (from.ice != no_port) made.ice = account.ice = phase(from.ice);
    for (const std::vector<Port>* loose : {&from.solids, &from.asides})
      for (const Port solid : *loose) made.solids.push_back({phase(solid), text::fold(from.name), 0.0, infusion_extracts});
  }
  const double there_is = from.times / by.times;
  double amount = take.amount.value.nominal();
  KnobKind kind = KnobKind::share;
  switch (take.amount.kind) {
    case AmountKind::mass:
      draw.mode = static_cast<std::uint8_t>(DrawMode::mass);
      kind = KnobKind::mass_kg;
      break;
    case AmountKind::volume:
      draw.mode = static_cast<std::uint8_t>(take.charged_as == formula::ChargedAs::foam ? DrawMode::foam_volume : DrawMode::volume);
      if (take.charged_as == formula::ChargedAs::foam && from.foams == Foams::no) {
        fault("no_foam", take.span, "'" + from.name + "' is neither charged nor frothed, so it has no foam", "take `as foam` out");
        return;
      }
      kind = KnobKind::volume_m3;
      break;
    case AmountKind::pieces:
      if (!from.makes || from.makes->kind != AmountKind::pieces) {
        fault("pieces_of_what", take.span, "'" + from.name + "' does not say how many pieces it makes",
              "write makes = \"24 piece\" on the part, or take grams");
        return;
      }
      amount = amount / from.makes->value.nominal() / there_is;
      draw.mode = static_cast<std::uint8_t>(DrawMode::share);
      break;
    case AmountKind::percent:
    case AmountKind::percent_total:
      draw.mode = static_cast<std::uint8_t>(DrawMode::share_of_refs);
      refs.insert(refs.end(), vessel.begin(), vessel.end());
      break;
    case AmountKind::all:
      draw.mode = static_cast<std::uint8_t>(DrawMode::share);
      amount = 1.0;
      break;
    case AmountKind::half:
      draw.mode = static_cast<std::uint8_t>(DrawMode::share);
      amount = 0.5;
      break;
    case AmountKind::rest:
      draw.mode = static_cast<std::uint8_t>(DrawMode::rest);
      for (const DrawInfo& other : sheet_.draws)
        if (other.from == account.from && other.output == account.output) {
          if (other.by != account.by) {
            fault("rest_across_parts", take.span,
                  "`rest` of '" + from.name + "' counts what this part has already taken of it, but '" + sheet_.parts[other.by].name + "' takes of it too",
                  "give one of the two an amount");
            return;
          }
          for (const Port p : {other.liquid, other.ice})
            if (p != no_port) refs.push_back(p);
          refs.insert(refs.end(), other.solids.begin(), other.solids.end());
        }
      amount = 1.0;
      break;
  }
  draw.knobs = {knob(amount, kind, info.origin, "amount", "", take.amount.kind == AmountKind::pieces ? std::nullopt : std::optional(take.amount.value)), 2};
  knob(there_is, KnobKind::ratio, info.origin, "share of the batch for one", "the document");
  if (static_cast<DrawMode>(draw.mode) == DrawMode::foam_volume) {
    foam_ratios_.emplace_back(knob(1.0, KnobKind::ratio, info.origin, "foam over base", "practice"), account.from);  // set by time_foams
    draw.knobs.count = 3;
  }
  draw.refs = links(refs);
  draw.out = links(out);
  unit(draw, info.origin);
  made.emitted = true;
  made.fizzy = from.fizzy;
  if (from.foams != Foams::no && account.output == 0) made.foam_of = account.from;
  info.liquid = account.liquid;
  info.ice = account.ice;
  for (const SolidPiece& solid : made.solids) account.solids.push_back(solid.port);
  if (!account.solids.empty()) info.solid = account.solids.front();
  sheet_.draws.push_back(std::move(account));
}

}  // namespace bloomset::flow
