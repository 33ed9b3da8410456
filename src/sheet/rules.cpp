// sheet/rules.cpp - what a reader should know about the finished sheet, by rules that look at states and amounts.
//
// Amounts: left over, short, over the brim, no ice left, pieces that do not come out whole. Food: control of time and temperature by pH and water activity
// (only for parts that are stored), keeping, raw egg, hot sugar, heated spirit. Guests: allergens, alcohol. Numbers that cannot be given,
// and readings outside the range of their models. Limits stand beside their source; words stand in findings.cpp.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "matter/density.hpp"
#include "sheet/out_of_cold.hpp"
#include "sheet/readings.hpp"
#include "sheet/remedies.hpp"
#include "sheet/tcs.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using base::Finding;
using base::Weight;
using matter::Property;

constexpr double least_left_g = 0.1, least_left_share = 1e-3;   // below a kitchen scale's step nothing is left over: practice
constexpr double ice_left_share = 0.05;                         // less than that of the ice is left: it is as good as gone (the approach never ends): practice
constexpr double makes_share = 0.02;                            // `makes` is met within 2 %: practice
constexpr double cold_hold_c = 5.0;                             // US FDA Food Code 3-501.16: 5 C (41 F) or below
constexpr double longest_keep_s = 6.0 * 86400.0;                // US FDA Food Code 3-501.17: 7 days, the day of preparation being the first
constexpr double low_acid_ph = 4.6;                             // 21 CFR 114.3
constexpr double low_acid_aw = 0.92;                            // US FDA Food Code 1-201.10
constexpr double tables_know_no_spirit_percent = 20.0;          // at and above it a batch is commonly kept at room temperature: practice
constexpr double alcohol_percent = 0.5;                         // 27 CFR 16.10
constexpr double hot_sugar_c = 90.0, hot_sugar_percent = 50.0;  // practice
constexpr double egg_heated_c = 68.0;                           // US FDA Food Code 3-401.11(A)(2), eggs not for immediate service: 68 C for 17 s
constexpr double egg_heated_s = 17.0;
constexpr double heated_spirit_c = 40.0, heated_spirit_percent = 15.0;  // practice
constexpr double whole_within = 1e-3;                                   // of a piece: no scale sees it: practice

std::string quoted(const std::string& name) { return "'" + name + "'"; }
// `shake` of 'sour'
std::string act_of(formula::Act act, const std::string& part) {
  std::string out = "`";
  return out.append(formula::name(act)).append("` of ").append(quoted(part));
}
std::string grams(double g) { return shown(g) + " g"; }

class Rules {
 public:
  Rules(const Kitchen& k, const Sheet& sheet, std::vector<Finding>& findings) : k_(k), sheet_(sheet), findings_(findings) {}

  void apply() {
    for (std::size_t p = 0; p < k_.flow.parts.size(); ++p) {
      if (k_.is_serve(p)) continue;
      amounts(p);
      if (part_sheet(p).ahead && is_stored(k_, p)) storage(p);
    }
    events();
    hot_sugar();
    heated_spirit();
    whole_pieces();
    raw_egg();
    if (sheet_.serve) {
      glass(*sheet_.serve);
      price(*sheet_.serve);
    }
    guests();
    readings();
    raise(Code::defer, {}, "");
  }

 private:
  const PartSheet& part_sheet(std::size_t p) const { return sheet_.parts[p]; }  // the serve is the last part, so indices agree

  Finding& raise(Code code, base::Where at, const std::string& about, double value = 0.0, double limit = 0.0) {
    findings_.push_back(say(code, std::move(at), about, value, limit));
    return findings_.back();
  }
  base::Where at_part(std::size_t p, const char* property = "") const {
    base::Where at;
    at.part = k_.flow.parts[p].name;
    at.property = property;
    at.span = k_.flow.parts[p].span;
    return at;
  }

  // What its users draw less or more than a part gives. A part that nobody draws from is the product where there is no serve.
  void amounts(std::size_t p) {
    const PartLedger& part = k_.book.parts[p];
    const flow::PartInfo& info = k_.flow.parts[p];
    const double made_g = part.times * part.finished_kg * 1e3, left_g = part.left_kg() * 1e3;
    check_makes(p);
    if (part.short_of_outputs_kg * 1e3 > least_left_g)
      raise(
          Code::short_of, at_part(p, "short_g"),
          "of " + quoted(info.name + "/" + info.outputs.back().name) + " " + grams(part.short_of_outputs_kg * 1e3) + " more is taken than is kept back there");
    if (!part.drawn && !k_.flow.has_serve) return;
    if (std::abs(left_g) <= std::max(least_left_g, least_left_share * made_g)) return;
    const double per_serve_kg = (part.drawn_kg - part.drawn_by_batches_kg) / k_.flow.serves;
    const double for_serves_kg = part.times * part.finished_kg - part.drawn_by_batches_kg;
    const bool ahead = info.made == formula::Made::ahead;
    if (left_g > 0.0) {
      std::string about = grams(left_g) + " of " + quoted(info.name) + " is left over";
      if (ahead && per_serve_kg > 0.0) {
        const double serves = std::floor(for_serves_kg / per_serve_kg + 1e-9);
        about += ": there is enough for " + text::print_number(serves, 9) + (serves == 1.0 ? " serve" : " serves") + " in all";
      }
      if (!part.drawn) about = "nothing takes of " + quoted(info.name) + ": all " + grams(left_g) + " is left over";
      Finding& finding = raise(Code::left_over, at_part(p, "left_over_g"), about);
      if (ahead && part.drawn) {
        // A batch is made whole.
        const double enough = std::ceil(info.batches * part.drawn_kg / (part.times * part.finished_kg) - 1e-9);
        if (enough >= 1.0 && enough < info.batches) finding.remedies.push_back(set_batches(k_, p, enough));
      }
      return;
    }
    Finding& finding = raise(Code::short_of, at_part(p, "short_g"),
                             quoted(info.name) + " is short by " + grams(-left_g) + ": " + grams(part.drawn_kg * 1e3) + " is taken of " + grams(made_g));
    if (!ahead || !(part.finished_kg > 0.0)) return;
    if (per_serve_kg > 0.0 && for_serves_kg > 0.0) finding.from_serves = std::floor(for_serves_kg / per_serve_kg + 1e-9) + 1.0;
    finding.remedies.push_back(set_batches(k_, p, std::ceil(part.drawn_kg / part.finished_kg - 1e-9)));
  }

  void check_makes(std::size_t p) {
    const flow::PartInfo& info = k_.flow.parts[p];
    if (!info.makes || info.makes->kind == text::AmountKind::pieces) return;
    const bool by_mass = info.makes->kind == text::AmountKind::mass;
    const double says = info.makes->value.nominal() * (by_mass ? 1e3 : 1e6),
                 makes = by_mass ? part_sheet(p).batch_mass_g : part_sheet(p).values[Property::volume_ml];
    if (!(std::abs(makes - says) > makes_share * says)) return;
    const std::string unit = by_mass ? " g" : " mL";
    base::Where at = at_part(p, by_mass ? "batch_mass_g" : "volume_ml");
    at.span = info.makes->span;
    raise(makes < says ? Code::short_of : Code::left_over, at,
          quoted(info.name) + " says that it makes " + shown(says) + unit + "; its steps make " + shown(makes) + unit);
  }

  void storage(std::size_t p) {
    const PartSheet& part = part_sheet(p);
    const double strength = part.values[Property::abv_percent_all_melted], ph = part.values[Property::ph_25c], aw = part.values[Property::water_activity],
                 held_c = part.values[Property::temperature_c];
    if (std::isnan(held_c)) return;
    if (strength >= tables_know_no_spirit_percent) {
      raise(Code::range_left, at_part(p, "water_activity"),
            quoted(part.name) + " holds " + shown(strength) + " %vol: the tables of pH and water activity do not cover ethanol, so it is not classed")
          .why = "the published tables were made for food without alcohol";
      return;
    }
    const TcsClass tcs = tcs_class(ph, aw, TcsTable::anything_else);
    if (tcs == TcsClass::non_tcs) return;
    const bool warm = held_c > cold_hold_c + 1e-6;
    const std::string read = std::isnan(ph) || std::isnan(aw) ? "pH or water activity is not known" : "pH " + shown(ph) + ", water activity " + shown(aw);
    Finding& control = raise(
        Code::time_temperature_control, at_part(p, "ph_25c"),
        quoted(part.name) + " (" + read + ") is stored at " + shown(held_c) + " C: the published cold-holding limit of 5 C is " + (warm ? "missed" : "met"),
        held_c, cold_hold_c);
    if (warm) control.weight = Weight::mind;
    const double room_c = units::in_celsius(k_.in.kit.room);
    control.remedies.push_back(
        {"out of the fridge, in a room of " + shown(room_c) + " C, serve it within " + clock_words(room_c) + ", and discard it then", std::nullopt});
    if (warm && ph > low_acid_ph && aw > low_acid_aw)
      raise(Code::low_acid_stored, at_part(p, "ph_25c"),
            quoted(part.name) + " is low in acid (" + read + ") and stored at " + shown(held_c) + " C, above the published 5 C", held_c, cold_hold_c);
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == p && step.keeps_s && step.keeps_s->high > longest_keep_s + 1e-6)
        raise(Code::keeps_passed, where(k_.flow, step.origin, step.span),
              quoted(part.name) + " is said to keep " + text::print_duration(*step.keeps_s) + ": the published limit is passed", step.keeps_s->high / 86400.0,
              longest_keep_s / 86400.0);
  }

  const flow::StepInfo* step_at(const flow::Origin& at) const {
    for (const flow::StepInfo& step : k_.flow.steps)
      if (step.origin.part == at.part && step.origin.step == at.step) return &step;
    return nullptr;
  }

  bool hardly_ice_left(const flow::Unit& unit) const {
    if ((unit.op != flow::Op::contact && unit.op != flow::Op::stand) || unit.ices_in == 0) return false;
    double in_kg = 0.0;
    for (std::uint32_t i = 0; i < unit.ices_in; ++i) in_kg += k_.batch.port(k_.flow.links[unit.in.first + unit.liquids_in + i]).mass.total_kg();
    return in_kg > 0.0 && k_.batch.port(k_.flow.links[unit.out.first + 1]).mass.total_kg() < ice_left_share * in_kg;
  }

  // What run said of its units.
  void events() {
    for (std::size_t u = 0; u < k_.flow.units.size(); ++u) {
      const std::uint8_t said = k_.batch.events[u];
      const flow::Origin& origin = k_.flow.unit_origin[u];
      const flow::StepInfo* step = step_at(origin);
      const auto happened = [&](flow::Event event) { return (said & static_cast<std::uint8_t>(event)) != 0; };
      if ((happened(flow::Event::ice_gone) || hardly_ice_left(k_.flow.units[u])) && step != nullptr && k_.flow.units[u].ices_in > 0) {
        const bool stands = k_.flow.units[u].op == flow::Op::stand;
        const flow::Port liquid = k_.flow.links[k_.flow.units[u].out.first];
        Finding& finding = raise(Code::ice_gone, where(k_.flow, origin, step->span),
                                 stands ? "in the glass" : act_of(step->act, k_.flow.parts[origin.part].name), stream_celsius(k_.batch.port(liquid)));
        if (step->act == formula::Act::blend) finding.weight = Weight::note;  // a blended drink is meant to take its ice up
      }
      if (happened(flow::Event::end_not_reached) && step != nullptr) {
        Finding& finding =
            raise(Code::range_left, where(k_.flow, origin, step->span),
                  act_of(step->act, k_.flow.parts[origin.part].name) + " cannot end where the text says: it is there already, or nothing is left to boil off");
        finding.weight = Weight::mind;
        finding.why = "what is printed is where it ends in fact";
      }
      if (happened(flow::Event::more_than_there_is))
        for (const flow::TakeInfo& take : k_.flow.takes)
          if (take.made && take.origin == origin)
            raise(Code::short_of, where(k_.flow, origin, take.span),
                  "no rest of " + quoted(k_.flow.parts[*take.made].name) + " is there: more than all of it is taken before");
    }
  }

  void hot_sugar() {
    for (const flow::StepInfo& step : k_.flow.steps) {
      const flow::ActRow* row = flow::row_of(step.act);
      if (row == nullptr || (row->op != flow::Op::heat && row->op != flow::Op::infuse) || k_.is_serve(step.origin.part)) continue;
      for (const StepLine& line : part_sheet(step.origin.part).steps) {
        if (line.number != step.origin.step) continue;
        const double t_c = line.after[Property::temperature_c], sugar = line.after[Property::sugar_percent];
        if (t_c >= hot_sugar_c - 1e-6 && sugar > hot_sugar_percent)
          raise(Code::hot_sugar, where(k_.flow, step.origin, step.span), quoted(k_.flow.parts[step.origin.part].name) + ", " + shown(sugar) + " % sugar", t_c,
                hot_sugar_c);
      }
    }
  }

  matter::Composition liquid_at(flow::Port port) const { return port == flow::no_port ? matter::Composition{} : k_.batch.port(port).mass; }

  // By what enters: a reduction may end weaker than it began.
  void heated_spirit() {
    std::map<std::uint16_t, flow::Port> before;
    for (const flow::StepInfo& step : k_.flow.steps) {
      const std::uint16_t part = step.origin.part;
      matter::Composition entering = before.contains(part) ? liquid_at(before[part]) : matter::Composition{};
      for (const flow::TakeInfo& take : k_.flow.takes)
        if (take.origin.part == part && take.origin.step == step.origin.step) entering += liquid_at(take.liquid);
      before[part] = step.liquid;
      const flow::ActRow* row = flow::row_of(step.act);
      const bool heats = row != nullptr && (row->op == flow::Op::heat || row->op == flow::Op::infuse), flame = step.act == formula::Act::torch;
      if (!(heats || flame) || step.liquid == flow::no_port || !(entering.total_kg() > 0.0)) continue;
      if (!flame && stream_celsius(k_.batch.port(step.liquid)) <= heated_spirit_c + 1e-6) continue;
      const double percent = matter::strength(entering).si * 100.0;
      if (percent > heated_spirit_percent)
        raise(Code::flame_near_spirit, where(k_.flow, step.origin, step.span), act_of(step.act, k_.flow.parts[part].name), percent, heated_spirit_percent);
    }
  }

  // Leaves, pods and the like that are asked for by percent: how many is that?
  void whole_pieces() {
    for (std::size_t t = 0; t < k_.flow.takes.size(); ++t) {
      const flow::TakeInfo& take = k_.flow.takes[t];
      const bool by_percent = take.written.kind == text::AmountKind::percent || take.written.kind == text::AmountKind::percent_total;
      if (!by_percent || !take.thing || !k_.book.takes[t].there) continue;
      const larder::Thing& thing = k_.flow.things[*take.thing];
      if (!(take.agent || thing.solid) || thing.is_ice() || !thing.piece || !(thing.piece->si > 0.0)) continue;
      const double count = k_.book.takes[t].kg / thing.piece->si, whole = std::max(std::round(count), 1.0);
      if (!(count > 0.0) || std::abs(count - whole) <= whole_within) continue;
      const double off = (whole / count - 1.0) * 100.0;
      raise(Code::pieces_rounded, where(k_.flow, take.origin, take.span),
            take.label + ": " + grams(k_.book.takes[t].kg * 1e3) + " is " + shown(count) + " pieces; " + shown(whole) +
                (whole == 1.0 ? " piece is " : " pieces are ") + shown(std::abs(off)) + (off < 0.0 ? " % less" : " % more"),
            count, whole);
    }
  }

  // Heated through in its own part, from the step that takes it on.
  bool heated_later(const flow::TakeInfo& take) const {
    for (const flow::StepInfo& step : k_.flow.steps) {
      if (step.origin.part != take.origin.part || step.origin.step < take.origin.step || step.seconds < egg_heated_s || step.liquid == flow::no_port) continue;
      const flow::ActRow* row = flow::row_of(step.act);
      const bool heats = row != nullptr && (row->op == flow::Op::heat || row->op == flow::Op::infuse);
      if (heats && stream_celsius(k_.batch.port(step.liquid)) >= egg_heated_c - 1e-6) return true;
    }
    return false;
  }

  void raw_egg() {
    std::set<std::string> said;
    for (const flow::TakeInfo& take : k_.flow.takes) {
      if (!take.thing || !k_.flow.things[*take.thing].raw_egg || !k_.book.parts[take.origin.part].in_use || heated_later(take)) continue;
      if (said.insert(text::fold(take.label)).second) raise(Code::raw_egg, where(k_.flow, take.origin, take.span), take.label);
    }
  }

  void glass(const ServeSheet& serve) {
    if (serve.solids_g > least_left_g && serve.brim_ml > 0.0)
      raise(Code::assumption, at_part(k_.flow.parts.size() - 1, "headroom_ml"),
            "the " + grams(serve.solids_g) + " of solids in the glass sink and take as much room as that much water");
    if (!(serve.headroom_ml < 0.0)) return;
    base::Where at = at_part(k_.flow.parts.size() - 1, "headroom_ml");
    at.span = k_.in.formula.serve->vessel.span;
    Finding& finding = raise(Code::glass_over, at, "\"" + serve.vessel + "\" runs over:", -serve.headroom_ml, serve.brim_ml);
    if (auto remedy = less_ice(k_, -serve.headroom_ml, serve.at_service[Property::density_kg_m3] * 1e-3)) finding.remedies.push_back(std::move(*remedy));
    if (auto remedy = larger_glass(k_, serve.brim_ml - serve.headroom_ml)) finding.remedies.push_back(std::move(*remedy));
    if (finding.remedies.empty()) finding.remedies.push_back({"pour less, or into a larger glass", std::nullopt});
  }

  void price(const ServeSheet& serve) {
    if (serve.cost) return;
    const Cost cost = cost_of_serve(k_);
    const base::Where at = at_part(k_.flow.parts.size() - 1, "cost");
    if (cost.mixed_currencies) {
      raise(Code::value_missing, at, "the cost cannot be given: prices stand in more than one currency").why = "nothing here knows a rate of exchange";
      return;
    }
    Finding& finding = raise(Code::value_missing, at, "the cost cannot be given: the larder has no price for " + listed(cost.without_price));
    finding.why = "prices differ from buyer to buyer, so the built-in larder has none";
    finding.remedies.push_back({"add packs and prices with --larder FILE", std::nullopt});
  }

  void guests() {
    const std::size_t last = k_.flow.parts.size() - 1;
    const base::Where at = k_.flow.has_serve ? at_part(last, "allergens") : base::Where{};
    std::vector<std::string> sure, ask;
    for (const std::string& code : allergens(k_)) (code.front() == '?' ? ask : sure).push_back(code.front() == '?' ? code.substr(1) : code);
    const auto spoken = [](std::vector<std::string> codes) {
      for (std::string& code : codes) std::replace(code.begin(), code.end(), '_', ' ');
      return listed(codes);
    };
    if (!sure.empty()) raise(Code::allergen, at, spoken(sure));
    if (!ask.empty()) raise(Code::allergen_unknown, at, spoken(ask));
    std::vector<std::string> unknown;
    for (const flow::TakeInfo& take : k_.flow.takes)
      if (take.thing && k_.book.parts[take.origin.part].in_use && !k_.flow.things[*take.thing].allergens_known &&
          std::find(unknown.begin(), unknown.end(), take.label) == unknown.end())
        unknown.push_back(take.label);
    if (!unknown.empty()) raise(Code::allergen_unknown, at, "allergens in " + listed(unknown));
    alcohol();
  }

  void alcohol() {
    if (sheet_.serve) {
      const double strength = sheet_.serve->at_service[Property::abv_percent];
      if (!(strength >= alcohol_percent)) return;
      const StandardDrinks& drinks = sheet_.serve->standard_drinks;
      raise(Code::alcohol, at_part(k_.flow.parts.size() - 1, "abv_percent"),
            shown(strength) + " %vol, " + shown(drinks.us) + " US standard drinks, " + shown(drinks.uk) + " UK units a serve", strength, alcohol_percent);
      return;
    }
    for (std::size_t p = 0; p < k_.flow.parts.size(); ++p)
      if (const double strength = part_sheet(p).values[Property::abv_percent]; strength >= alcohol_percent)
        raise(Code::alcohol, at_part(p, "abv_percent"), quoted(part_sheet(p).name) + " at " + shown(strength) + " %vol", strength, alcohol_percent);
  }

  // Values outside their models, and values that cannot be given: once each, with all the places.
  void readings() {
    const std::span<const RangeWords> notes = range_words();
    std::array<std::vector<std::string>, 8> places;
    std::map<std::size_t, std::vector<std::string>> missing;
    std::vector<std::string> dry;
    const auto look = [&](const std::string& name, flow::Port liquid, flow::Port ice, const matter::Values& values) {
      if (liquid == flow::no_port || !(k_.batch.port(liquid).mass.total_kg() > 0.0)) {
        dry.push_back(name);
        return;
      }
      const auto bits = matter::range_notes(flow::state_at(k_.batch, liquid, ice));
      for (std::size_t b = 0; b < bits.size(); ++b)
        if (bits.test(b)) places[b].push_back(name);
      for (std::size_t i = 0; i < matter::property_count; ++i)
        if (std::isnan(values.of[i])) missing[i].push_back(name);
    };
    for (std::size_t p = 0; p < sheet_.parts.size(); ++p)
      if (k_.book.parts[p].in_use) look(quoted(sheet_.parts[p].name), k_.flow.parts[p].liquid, k_.flow.parts[p].ice, sheet_.parts[p].values);
    if (sheet_.serve) look("the glass", k_.flow.served_liquid, k_.flow.served_ice, sheet_.serve->at_service);
    const auto place_of = [&](const std::string& name, const char* property) {
      for (std::size_t p = 0; p < sheet_.parts.size(); ++p)
        if (quoted(sheet_.parts[p].name) == name) return at_part(p, property);
      return at_part(k_.flow.parts.size() - 1, property);
    };
    for (std::size_t b = 0; b < notes.size(); ++b)
      if (!places[b].empty())
        raise(Code::range_left, place_of(places[b].front(), notes[b].property), listed(places[b]) + ": " + notes[b].says).why = notes[b].why;
    if (!dry.empty())
      raise(Code::value_missing, place_of(dry.front(), ""), "there is no liquid in " + listed(dry) + ", so its properties cannot be given").why =
          "properties are those of a liquid";
    for (const auto& [property, where_missing] : missing) {
      const std::string_view key = matter::key(static_cast<Property>(property));
      raise(Code::value_missing, place_of(where_missing.front(), key.data()),
            "the " + std::string(label(static_cast<Property>(property))) + " cannot be given for " + listed(where_missing));
    }
  }

  const Kitchen& k_;
  const Sheet& sheet_;
  std::vector<Finding>& findings_;
};

}  // namespace

bool is_stored(const Kitchen& k, std::size_t part) {
  bool keeps = false;
  formula::Act last = formula::Act::combine;
  for (const flow::StepInfo& step : k.flow.steps)
    if (step.origin.part == part) {
      keeps = keeps || step.keeps_s.has_value();
      last = step.act;
    }
  return keeps || last == formula::Act::rest || last == formula::Act::chill || last == formula::Act::freeze;
}

void apply_rules(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) { Rules(k, sheet, findings).apply(); }

}  // namespace bloomset::sheet
