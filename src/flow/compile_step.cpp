// flow/compile_step.cpp - steps become units.
//
// A step acts on all that is in the part so far plus its takes, in order. Where the text is silent the act's row or
// the kit speaks, and where that matters to a cook a mark says so.
#include <cmath>

#include "flow/compiler.hpp"
#include "matter/vapour.hpp"
#include "text/fold.hpp"

namespace bloomset::flow {
namespace {

using formula::Act;

constexpr double strain_pulp_out = 0.60;   // share of fibre a fine sieve keeps: practice
constexpr double strain_pulp_holds = 3.0;  // kg of liquid a kg of wet fibre keeps: practice
constexpr double pieces_let_run = 0.98;    // of the water that rinses spheres or cubes: practice
constexpr double lid_off_c = 40.0;         // below it an infusion stands covered: practice

bool cools(Act act) { return act == Act::chill || act == Act::freeze || act == Act::rest || act == Act::set; }
// Mixed as it comes, or brought to a temperature where the text gives one.
bool may_be_held(Act act) { return act == Act::disperse || act == Act::hydrate || act == Act::bloom || act == Act::carbonate || act == Act::charge; }
bool stays_shut(Act act) { return cools(act) || act == Act::warm; }
bool is_fizz(const formula::Step& step) { return step.act == Act::carbonate || (step.act == Act::charge && step.gas && text::fold(step.gas->text) == "co2"); }

}  // namespace

void Compiler::emit_vessel_shares(std::uint16_t part, std::uint16_t number, const formula::Step& step, const Stock& stock) {
  for (std::size_t t = 0; t < step.takes.size(); ++t) {
    const formula::Take& take = step.takes[t];
    const auto key = std::pair{part, static_cast<std::uint32_t>(static_cast<std::uint32_t>(number) << 16U | (t + 1))};
    if (made_.contains(key) || take.amount.kind != text::AmountKind::percent) continue;
    TakeInfo* info = take_info({part, number, static_cast<std::uint16_t>(t + 1)});
    if (info == nullptr || info->maybe) continue;
    std::vector<Port> vessel;
    if (stock.liquid != no_port) vessel.push_back(stock.liquid);
    for (const SolidPiece& solid : stock.solids) vessel.push_back(solid.port);
    for (std::size_t other = 0; other < step.takes.size(); ++other) {
      const auto found = made_.find({part, static_cast<std::uint32_t>(static_cast<std::uint32_t>(number) << 16U | (other + 1))});
      if (found == made_.end() || step.takes[other].amount.kind == text::AmountKind::percent) continue;
      if (found->second.liquid != no_port) vessel.push_back(found->second.liquid);
      for (const SolidPiece& solid : found->second.solids) vessel.push_back(solid.port);
    }
    if (vessel.empty()) {
      fault("share_of_nothing", take.span, "the vessel is empty at this step, so a percentage of what is in it is nothing",
            "give an amount, or put something in first");
      continue;
    }
    if (take.kind == formula::ThingKind::made)
      emit_draw(take, *info, made_[key], vessel);
    else
      emit_bought(take, *info, made_[key], vessel, 1.0);
  }
}

// Where a heating or cooling step ends; nothing if the text gives too little (a fault is said).
std::optional<double> Compiler::end_temperature(const ActRow& row, const formula::Step& step, Origin origin, StepInfo& info) {
  if (step.to_c) return step.to_c->nominal();
  if (step.at_c) return step.at_c->nominal();
  const kit::Place* place = nullptr;
  if (step.in) {
    place = kit_.place(step.in->text);
    if (place == nullptr && text::fold(step.in->text) != "room") {
      fault("unknown_place", step.in->span, "\"" + step.in->text + "\" is not a place of the kit",
            "one of the kit's places, for example " + base::nearest(step.in->text, kit_.place_names()));
      return std::nullopt;
    }
    if (place == nullptr) {
      info.place = "room";
      return units::in_celsius(kit_.room);
    }
  } else if (cools(row.act)) {
    place = kit_.first_place(row.act == Act::freeze ? kit::PlaceKind::freezer : kit::PlaceKind::still_fridge);
    if (place != nullptr)
      mark(base::Code::assumption, origin, step.span,
           "no place is named: taken as " + place->name + " at " + text::print_number(units::in_celsius(place->temperature)) + " C");
  }
  if (place != nullptr) {
    info.place = place->name;
    return units::in_celsius(place->temperature);
  }
  if (!std::isnan(row.default_to_c)) return row.default_to_c;
  if (row.op == Op::infuse) {
    mark(base::Code::assumption, origin, step.span,
         "no temperature is given: infused at room temperature, " + text::print_number(units::in_celsius(kit_.room)) + " C");
    return units::in_celsius(kit_.room);
  }
  if (step.until) return until_it_boils_c;
  std::string act = "`";
  act.append(formula::name(row.act)).append("`");
  fault("no_temperature", step.act_span, act + " needs to know where it ends", "give `to = \"70 C\"`, `at`, or `until`");
  return std::nullopt;
}

void Compiler::emit_step(std::uint16_t part, std::uint16_t number, const formula::Step& step, Stock& stock) {
  if (step.maybe) return;
  const ActRow* row = row_of(step.act);
  if (row == nullptr) {
    fault("act_not_computed", step.act_span, "`" + std::string(formula::name(step.act)) + "` is an act of the document that this version does not compute yet",
          "the acts computed now: see `bloomset sheet --help`");
    return;
  }
  if (step.vessel && row->op != Op::contact && kit_.vessel(step.vessel->text) == nullptr)
    fault("unknown_vessel", step.vessel->span, "\"" + step.vessel->text + "\" is not a vessel of the kit",
          "nearest known: " + base::nearest(step.vessel->text, kit_.vessel_names()));
  if (step.split) return emit_split(part, number, step, *row, stock);
  if (!is_arm(step)) return emit_act(part, number, step, *row, stock);
  // On its own takes; what is in the vessel waits.
  Stock arm;
  emit_act(part, number, step, *row, arm);
  stock.arms.push_back(std::move(arm));
}

void Compiler::emit_act(std::uint16_t part, std::uint16_t number, const formula::Step& step, const ActRow& row_of_act, Stock& stock) {
  const ActRow* row = &row_of_act;
  const Origin origin{part, number, 0};
  emit_vessel_shares(part, number, step, stock);

  // What comes together: the stock, then the takes as written.
  std::vector<Port> liquids, ices, solids;
  std::vector<SolidPiece> new_solids;
  if (stock.liquid != no_port) liquids.push_back(stock.liquid);
  if (stock.ice != no_port) ices.push_back(stock.ice);
  for (const Stock& arm : stock.arms) {
    if (arm.liquid != no_port) liquids.push_back(arm.liquid);
    if (arm.ice != no_port) ices.push_back(arm.ice);
    stock.fizzy = stock.fizzy || arm.fizzy;
    new_solids.insert(new_solids.end(), arm.solids.begin(), arm.solids.end());
  }
  stock.arms.clear();
  std::vector<Port> rinse_takes;
  bool all_came = true;  // else a fault is said already
  for (std::size_t t = 0; t <= step.takes.size(); ++t) {
    const auto found = made_.find({part, static_cast<std::uint32_t>(static_cast<std::uint32_t>(number) << 16U | (t + 1))});
    if (found == made_.end() || !found->second.emitted) {
      all_came = all_came && t == step.takes.size();
      continue;
    }
    const MadeTake& made = found->second;
    const bool foam = is_serve(part) && made.foam_of && made.liquid != no_port;
    if (foam) stock.foams.push_back({made.liquid, *made.foam_of});
    stock.fizzy = stock.fizzy || made.fizzy;
    if (made.ice_piece_kg > 0.0) stock.ice_piece_kg = made.ice_piece_kg;
    const bool lies_on_glass = !foam && (step.act == Act::rim || step.act == Act::roll);
    if (lies_on_glass) {
      if (made.liquid != no_port) stock.asides.push_back(made.liquid);
      for (const SolidPiece& solid : made.solids) stock.asides.push_back(solid.port);
      continue;
    }
    if (made.liquid != no_port && !foam) (step.act == Act::rinse ? rinse_takes : liquids).push_back(made.liquid);
    if (made.ice != no_port) ices.push_back(made.ice);
    for (const SolidPiece& solid : made.solids) new_solids.push_back(solid);
  }
  stock.solids.insert(stock.solids.end(), new_solids.begin(), new_solids.end());

  StepInfo info;
  info.origin = origin;
  info.act = step.act;
  info.seconds = step.time_s ? step.time_s->nominal() : row->default_seconds;
  info.seconds_range = step.time_s.value_or(text::Range{info.seconds, info.seconds});
  info.keeps_s = step.keeps_s;
  info.size_m = step.size_m;
  info.span = step.span;

  if (step.act == Act::dispense && (!is_serve(part) || (stock.foams.empty() && !stock.fizzy)) && all_came)
    fault("nothing_to_dispense", step.act_span, "`dispense` lets a charged bottle out into the serve, and no charged part is taken here",
          "take a part that has a `charge` step, in single quotes, at this pour");
  if (step.act == Act::charge && !is_fizz(step)) emit_charge(part, origin, step, info);
  if (step.act == Act::degas) sheet_.parts[part].foams = Foams::no;  // let out: what the gas drove into the liquid stays
  if (step.act == Act::froth) sheet_.parts[part].foams = Foams::froth;
  if (step.act == Act::bloom)
    if (const auto water = emit_blooming_water(part, number, step)) liquids.push_back(*water);

  if (!rinse_takes.empty()) {
    Unit rinse;
    rinse.op = Op::rinse;
    rinse.liquids_in = static_cast<std::uint16_t>(rinse_takes.size());
    rinse.in = links(rinse_takes);
    const Port film = port(), poured_away = port();
    rinse.out = links({film, poured_away});
    rinse.outs = outs::sticks;
    rinse.knobs = {knob(1.0, KnobKind::share, origin, "CO2 kept", "practice"), 2};
    const double away = is_serve(part) ? row->sticks : pieces_let_run;
    knob(step.loss ? step.loss->nominal() : away, KnobKind::share, origin, "poured away", step.loss ? "" : row->source, step.loss);
    unit(rinse, origin);
    lose(Fate::sticks, poured_away, origin);
    liquids.push_back(film);
  }
  if (liquids.empty()) {
    // Ice alone in a glass, or a rim before anything is poured: nothing to act on yet.
    if (ices.size() > 1) {
      fault("two_ices", step.span, "two kinds of ice before any liquid are not computed", "take them at one step after the liquid, or as one amount");
      return;
    }
    const bool may_be_dry =
        step.act == Act::rim || step.act == Act::roll || step.act == Act::garnish || step.act == Act::combine || step.act == Act::pour || !stock.foams.empty();
    if (!may_be_dry && all_came)
      fault("nothing_to_act_on", step.act_span, "`" + std::string(formula::name(step.act)) + "` has nothing to act on",
            "take something at this step or before it");
    stock.ice = ices.empty() ? no_port : ices.front();
    info.liquid = no_port;
    info.ice = stock.ice;
    sheet_.steps.push_back(info);
    return;
  }

  Unit act;
  const bool held = may_be_held(row->act) && (step.to_c || step.at_c || (step.in && kit_.place(step.in->text) != nullptr));
  act.op = row->op == Op::rinse ? Op::mix : held ? Op::cool : row->op;
  act.liquids_in = static_cast<std::uint16_t>(liquids.size());
  act.ices_in = static_cast<std::uint16_t>(ices.size());
  const bool ice_goes_in = act.op == Op::heat || act.op == Op::cool || act.op == Op::infuse;  // melts into the batch
  const bool ice_comes_out = act.op == Op::contact || (!ices.empty() && !ice_goes_in);
  std::vector<Port> in = liquids, out{port()};
  in.insert(in.end(), ices.begin(), ices.end());
  const auto also = [&](std::uint8_t which) {
    act.outs |= which;
    out.push_back(port());
    return out.back();
  };
  const Port ice_out = ice_comes_out ? also(outs::ice) : no_port;
  const bool loss_is_vapour = act.op == Op::heat || act.op == Op::infuse;
  const bool shut = stock.closed && stays_shut(row->act);                              // a closed bottle lets nothing out
  const double sticks = step.yield_                    ? 1.0 - step.yield_->nominal()  // what does not come through
                        : shut || row->op == Op::rinse ? 0.0
                        : step.loss && !loss_is_vapour ? step.loss->nominal()
                                                       : row->sticks;
  const char* loss_source = step.loss || step.yield_ ? "" : row->source;
  const double co2_kept = shut ? 1.0 : row->co2_kept;
  if (stock.fizzy && co2_kept < 1.0) lose(Fate::gas, also(outs::gas), origin);
  if (sticks > 0.0) lose(Fate::sticks, also(outs::sticks), origin);
  const std::uint32_t first_knob = knob(co2_kept, KnobKind::share, origin, "CO2 kept", row->source);
  knob(sticks, KnobKind::share, origin, "sticks", loss_source, loss_is_vapour ? std::nullopt : step.loss);

  switch (act.op) {
    case Op::mix:
      break;
    case Op::cool: {
      const auto to_c = end_temperature(*row, step, origin, info);
      if (!to_c) return;
      act.mode = row->act == Act::rest || held ? 0 : 1;  // resting may warm, chilling may not
      knob(*to_c, KnobKind::celsius, origin, "temperature", "", step.to_c ? step.to_c : step.at_c);
      break;
    }
    case Op::heat:
    case Op::infuse: {
      const auto to_c = end_temperature(*row, step, origin, info);
      if (!to_c) return;
      if (*to_c > 110.0 && *to_c < until_it_boils_c)
        mark(base::Code::range_left, origin, step.span, "the model of matter is not checked above 100 C, and syrups above 85 % sugar are beyond it", *to_c,
             100.0);
      knob(*to_c, KnobKind::celsius, origin, "temperature", "", step.to_c ? step.to_c : step.at_c);
      // A jar that steeps below blood heat has its lid on.
      const bool lid = row->op == Op::infuse && *to_c < lid_off_c;
      const double rate = shut ? 0.0 : step.loss ? -std::log1p(-step.loss->nominal()) / std::max(info.seconds, 1.0) : lid ? 0.0 : row->steams_per_min / 60.0;
      knob(step.loss ? rate / matter::steaming(std::min(*to_c, 100.0)) : rate, KnobKind::ratio, origin, "steams off per second at 100 C", loss_source);
      knob(info.seconds, KnobKind::seconds, origin, "time", step.time_s ? "" : row->source, step.time_s);
      if (act.op == Op::infuse) {
        for (SolidPiece& solid : stock.solids) {
          knob(solid.extracts, KnobKind::share, origin, "extracted", "practice");
          solids.push_back(solid.port);
          in.push_back(solid.port);
        }
      } else {
        double end = 0.0;
        if (step.until) {
          end = step.until->value;
          using What = formula::Until::What;
          switch (step.until->what) {
            case What::mass:
              act.mode = static_cast<std::uint8_t>(HeatEnd::mass);
              break;
            case What::brix:
              act.mode = static_cast<std::uint8_t>(HeatEnd::brix);
              break;
            case What::share_of_start:
              act.mode = static_cast<std::uint8_t>(HeatEnd::share_of_start);
              break;
            case What::ph:
              fault("until_ph", step.until->span, "heating does not end at a pH", "end at a mass, a Brix or a share; set the pH with an acid or a citrate");
              return;
          }
        } else if (step.act == Act::reduce) {
          fault("no_end", step.act_span, "`reduce` needs an end", "give until = \"65 brix\", \"606 g\" or \"25 %\"");
          return;
        }
        const auto mode = static_cast<HeatEnd>(act.mode);
        knob(end, mode == HeatEnd::brix ? KnobKind::brix : mode == HeatEnd::mass ? KnobKind::mass_kg : KnobKind::share, origin, "end");
      }
      lose(Fate::evaporates, also(outs::vapour), origin);
      break;
    }
    case Op::contact: {
      const kit::Vessel* vessel = nullptr;
      if (step.vessel) {
        vessel = kit_.vessel(step.vessel->text);
        if (vessel == nullptr) {
          fault("unknown_vessel", step.vessel->span, "\"" + step.vessel->text + "\" is not a vessel of the kit",
                "nearest known: " + base::nearest(step.vessel->text, kit_.vessel_names()));
          return;
        }
      } else {
        vessel = kit_.first_vessel(step.act == Act::shake  ? kit::VesselKind::shaker
                                   : step.act == Act::stir ? kit::VesselKind::mixing_glass
                                                           : kit::VesselKind::blender);
      }
      PartInfo& maker = sheet_.parts[part];
      double heat_share = 1.0;
      if (maker.made == formula::Made::to_order || is_serve(part)) {
        const double holds = std::max(1.0, vessel != nullptr && vessel->holds_serves ? *vessel->holds_serves : 2.0);
        maker.rounds = std::max(maker.rounds, static_cast<int>(std::ceil(sheet_.serves / holds)));
        heat_share = std::ceil(sheet_.serves / holds) / sheet_.serves;
      }
      if (vessel != nullptr) info.vessel = vessel->name;
      knob(info.seconds, KnobKind::seconds, origin, "time", step.time_s ? "" : row->source, step.time_s);
      knob(row->contact_time_s, KnobKind::seconds, origin, "time constant of contact with ice", row->source);
      knob(vessel != nullptr ? vessel->heat.si * heat_share : 0.0, KnobKind::joule_per_kelvin, origin, "heat capacity of the vessel, a serve's share", "kit");
      knob(units::in_celsius(kit_.room), KnobKind::celsius, origin, "temperature of the vessel", "kit");
      act.mode = row->leftover_follows ? 1 : 0;
      if (ices.empty()) mark(base::Code::assumption, origin, step.span, "no ice is named, so this only mixes");
      break;
    }
    case Op::strain: {
      knob(strain_pulp_out, KnobKind::share, origin, "pulp kept back", "practice");
      knob(strain_pulp_holds, KnobKind::ratio, origin, "liquid that pulp holds", "practice");
      lose(Fate::pulp, also(outs::pulp), origin);
      break;
    }
    case Op::soak: {
      const auto bath = emit_bath(part, origin, step);
      if (!bath) return;
      in.push_back(*bath);
      out.push_back(port());
      lose(Fate::stays, out.back(), origin);
      break;
    }
    case Op::clarify: {
      const Port curd = also(outs::pulp);
      lose(Fate::stays, curd, origin);
      emit_filter(part, origin, step, curd);
      break;
    }
    default:
      break;
  }
  if (act.op == Op::infuse)
    for (SolidPiece& solid : stock.solids) out.push_back(solid.port = port());
  act.in = links(in);
  act.out = links(out);
  act.knobs = {first_knob, static_cast<std::uint32_t>(sheet_.nominal.size()) - first_knob};
  unit(act, origin);
  stock.liquid = out[0];
  stock.ice = ice_out;
  if (is_fizz(step)) emit_fizz(part, origin, step, info, stock);
  stock.closed = step.act == Act::charge || step.act == Act::carbonate || shut;
  emit_leave(step, *row, origin, stock);
  info.liquid = info.worked = stock.liquid;
  info.ice = stock.ice;
  sheet_.steps.push_back(std::move(info));
}

// Solids with the liquid they hold, and ice, that do not go on.
void Compiler::emit_leave(const formula::Step& step, const ActRow& row, Origin origin, Stock& stock) {
  std::vector<SolidPiece> left, stay_in;
  bool all_solids = row.op == Op::strain && step.leave.empty() && !stock.solids.empty();
  if (row.op == Op::strain && stock.ice != no_port && step.leave.empty())
    mark(base::Code::assumption, origin, step.span, "the ice goes on: say leave = [\"ice\"] if the sieve keeps it back");
  if (all_solids) mark(base::Code::assumption, origin, step.span, "the sieve keeps back every solid that was put in");
  std::vector<bool> matched(step.leave.size(), false);
  for (std::size_t w = 0; w < step.leave.size(); ++w) {
    if (text::fold(step.leave[w].text) != "ice") continue;
    matched[w] = true;
    if (stock.ice == no_port) {
      fault("no_ice_to_leave", step.leave[w].span, "there is no ice here to leave behind", "remove \"ice\" from `leave`");
      continue;
    }
    lose(Fate::stays, stock.ice, origin);
    stock.ice = no_port;
  }
  for (const SolidPiece& solid : stock.solids) {
    bool leaves = all_solids;
    for (std::size_t w = 0; w < step.leave.size(); ++w)
      if (text::fold(step.leave[w].text) == solid.name) matched[w] = leaves = true;
    (leaves ? left : stay_in).push_back(solid);
  }
  for (std::size_t w = 0; w < step.leave.size(); ++w)
    if (!matched[w])
      fault("nothing_to_leave", step.leave[w].span, "\"" + step.leave[w].text + "\" is not a solid that is in the part at this step",
            "name a whole solid that was taken above (a pod, a leaf, a peel), or \"ice\"");
  if (left.empty()) return;
  Unit unit_leave;
  unit_leave.op = Op::leave;
  unit_leave.liquids_in = 1;
  std::vector<Port> in{stock.liquid};
  const std::uint32_t first_knob = static_cast<std::uint32_t>(sheet_.nominal.size());
  for (const SolidPiece& solid : left) {
    in.push_back(solid.port);
    knob(solid.holds, KnobKind::ratio, origin, "liquid a solid holds", "larder");
  }
  const Port liquid = port(), stays = port();
  unit_leave.in = links(in);
  unit_leave.out = links({liquid, stays});
  unit_leave.knobs = {first_knob, static_cast<std::uint32_t>(left.size())};
  unit(unit_leave, origin);
  lose(Fate::stays, stays, origin);
  stock.liquid = liquid;
  stock.solids = std::move(stay_in);
}

}  // namespace bloomset::flow
