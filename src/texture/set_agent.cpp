// texture/set_agent.cpp - one agent held against its dose, its limits, its history and its rest.
#include <algorithm>
#include <cmath>

#include "texture/form.hpp"
#include "texture/gelatin_table.hpp"
#include "texture/set.hpp"
#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using base::Code;

constexpr double kept_enough = 0.9;     // of Bloom after a hot hold, and
constexpr double matured_enough = 0.7;  // of firmness after a rest: below, it is told (practice)

struct Trial {
  Agent agent;
  const GelState& state;
  const Liquor& liquor;
  AgentSet& out;
  std::vector<Cause>& causes;
  bool stopped = false, weakened = false;

  std::string label() const { return std::string(info(agent).name); }
  void say(Code code, Bearing bearing, double value, double limit_value, std::string words, Cited cited, Fault fault = Fault::other) {
    stopped = stopped || bearing == Bearing::stops;
    weakened = weakened || bearing == Bearing::weakens;
    causes.push_back({code, agent, bearing, value, limit_value, std::move(words), cited, fault});
  }
};

Code outside_code(Bearing b) { return b == Bearing::stops ? Code::will_not_set : b == Bearing::weakens ? Code::sets_soft : Code::assumption; }

void check_enzyme(Trial& t) {
  if (!t.state.seen.live_enzyme || !(is_gelatin(t.agent) || t.agent == Agent::caseinate)) return;
  t.say(Code::live_enzyme, Bearing::stops, 0.0, table::enzyme_heat,
        "raw fruit with protease cuts " + t.label() + ": it will not set at any dose, and more of it or more time does not help; heat the fruit through to " +
            shown(table::enzyme_heat) + " C for " + shown(table::enzyme_heat_minutes) +
            " min (sources say 68 and 82 C), take it canned, or take an agent that is no protein",
        {"practice", Confidence::high});
}

void check_hydration(Trial& t) {
  if (const Limit* need = limit(t.agent, Quantity::hydrate); need != nullptr && need->beyond == Bearing::stops && need->low) {
    const std::string advice = shown(need->nominal.value_or(*need->low)) + " C";
    if (!t.state.seen.hottest) {
      t.say(Code::assumption, Bearing::tells, *need->low, *need->low, t.label() + ": taken as dissolved; it needs " + advice, need->cited);
    } else if (const double c = units::in_celsius(*t.state.seen.hottest); c < *need->low) {
      t.say(Code::will_not_set, Bearing::stops, c, *need->low, t.label() + " has seen " + shown(c) + " C and has not dissolved: it needs " + advice,
            need->cited, Fault::not_dissolved);
    }
  }
  if (const Limit* need = limit(t.agent, Quantity::hydrate_below); need != nullptr && need->high) {
    if (!t.state.seen.coldest) {
      t.say(Code::assumption, Bearing::tells, *need->high, *need->high, t.label() + ": taken as swollen cold; it needs " + shown(*need->high) + " C or below",
            need->cited);
    } else if (const double c = units::in_celsius(*t.state.seen.coldest); c > *need->high) {
      t.say(Code::will_not_set, Bearing::stops, c, *need->high,
            t.label() + " was never colder than " + shown(c) + " C and has not swollen: chill it to " + shown(*need->high) + " C or below overnight",
            need->cited, Fault::not_swollen);
    }
  }
}

void check_heat(Trial& t) {
  if (!t.state.seen.hottest) return;
  const double c = units::in_celsius(*t.state.seen.hottest);
  if (is_gelatin(t.agent)) {
    const double kept = bloom_kept(*t.state.seen.hottest, t.state.seen.hot_for);
    if (kept < kept_enough) {
      t.say(Code::sets_soft, Bearing::weakens, kept, kept_enough,
            t.label() + ": " + shown(units::in_hours(t.state.seen.hot_for)) + " h at " + shown(c) + " C leave about " + shown(100.0 * kept) + " % of its Bloom",
            {"memory: gelatin makers handbook (GMIA), 1 to 2 % an hour at 60 C, 4 to 8 % at 80 C", Confidence::low}, Fault::bloom_lost);
      return;
    }
  }
  const Limit* most = limit(t.agent, Quantity::overheat);
  if (most != nullptr && most->low && c > *most->low)
    t.say(outside_code(most->beyond), most->beyond, c, *most->low,
          t.label() + " was heated to " + shown(c) + " C; above " + shown(*most->low) + " C it is damaged", most->cited, Fault::overheated);
}

void check_acid(Trial& t) {
  const double ph = t.liquor.ph, ph_hot = t.state.seen.ph_hot.value_or(ph);
  if (const Limit* band = limit(t.agent, Quantity::ph)) {
    if (band->low && ph < *band->low) {
      // The dose bands of juice reach down to where a base counts as acid: above that, mild acid is told and takes nothing from the verdict.
      const bool in_the_dose = is_gelatin(t.agent) && ph >= table::acid_below;
      const bool stops = band->beyond == Bearing::stops;
      t.say(Code::too_acid, in_the_dose ? Bearing::tells : band->beyond, ph, *band->low,
            "at pH " + shown(ph) + " " + t.label() + (stops ? " does not work" : " sets softer") + "; it likes pH " + shown(*band->low) + " or above" +
                (is_gelatin(t.agent) ? ", in strong acid it takes 10 to 50 % more than in juice" : "") +
                (stops && !band->note.empty() ? ": " + std::string(band->note) : ""),
            band->cited, Fault::too_acid);
    }
    if (band->high && ph > *band->high)
      t.say(outside_code(band->beyond), band->beyond, ph, *band->high,
            "at pH " + shown(ph) + " " + t.label() + " has too little acid: it needs pH " + shown(*band->high) + " or below", band->cited,
            Fault::too_little_acid);
  }
  const Limit* hot = limit(t.agent, Quantity::ph_hot);
  constexpr double cooked_c = 70.0;
  const bool cooked = t.state.seen.hottest && units::in_celsius(*t.state.seen.hottest) >= cooked_c;
  if (hot != nullptr && hot->low && cooked && ph_hot < *hot->low)
    t.say(Code::too_acid, hot->beyond, ph_hot, *hot->low,
          t.label() + " was cooked at pH " + shown(ph_hot) + " and breaks down below pH " + shown(*hot->low) + ": add the acid off the heat", hot->cited,
          Fault::too_acid);
}

void check_spirit(Trial& t) {
  const Limit* band = limit(t.agent, Quantity::abv);
  if (band == nullptr) return;
  const double abv = t.liquor.abv_percent;
  if (band->high && abv > *band->high)
    t.say(Code::too_strong, band->beyond, abv, *band->high, shown(abv) + " %vol is past what " + t.label() + " bears (" + shown(*band->high) + " %vol)",
          band->cited, Fault::too_strong);
  else if (band->low && abv > *band->low)
    t.say(Code::too_strong, Bearing::weakens, abv, *band->low,
          "at " + shown(abv) + " %vol " + t.label() + " sets softer: above " + shown(*band->low) +
              " %vol it takes 20 to 50 % more than in juice; dissolve it in water first and stir the spirit in below 40 C",
          band->cited, Fault::too_strong);
}

void check_matter(Trial& t) {
  const auto outside = [&t](Quantity what, double value, Code code, const std::string& called) {
    const Limit* band = limit(t.agent, what);
    if (band == nullptr) return;
    if (band->low && value < *band->low)
      t.say(code == Code::assumption ? outside_code(band->beyond) : code, band->beyond, value, *band->low,
            t.label() + " needs at least " + shown(*band->low) + " " + std::string(band->unit) + " of " + called + ": there is " + shown(value), band->cited,
            Fault::matter);
    if (band->high && value > *band->high)
      t.say(code == Code::assumption ? outside_code(band->beyond) : code, band->beyond, value, *band->high,
            t.label() + " bears " + shown(*band->high) + " " + std::string(band->unit) + " of " + called + ": there is " + shown(value), band->cited,
            Fault::matter);
  };
  outside(Quantity::solids, t.liquor.solids_percent, Code::assumption, "dissolved matter");
  outside(Quantity::solids_hydrating, t.state.seen.solids_hydrating_percent.value_or(t.liquor.solids_percent), Code::assumption,
          "dissolved matter while it dissolves");
  outside(Quantity::hardness, t.state.seen.hardness_hydrating_mg_l.value_or(t.liquor.hardness_mg_l), Code::too_hard_water,
          "hardness (as calcium carbonate) while it dissolves");
  outside(Quantity::salt, t.liquor.salt_percent, Code::assumption, "salt");
  const double agent_g = 1e1 * t.out.percent * t.liquor.mass_kg;
  if (agent_g > 0.0) outside(Quantity::calcium, t.liquor.calcium_mg / agent_g, Code::assumption, "calcium");
}

// Class of any other gelling agent by its own bands.
GelClass class_by_bands(Agent agent, double percent, BaseKind kind) {
  const DoseBand* soft = dose_band(agent, Effect::soft_gel, kind);
  const DoseBand* firm = dose_band(agent, Effect::firm_gel, kind);
  if (firm == nullptr) firm = dose_band(agent, Effect::hot_gel, kind);
  if (firm != nullptr && percent >= firm->low) return firm == soft ? GelClass::soft : GelClass::firm;
  if (soft != nullptr && percent > soft->high) return GelClass::medium;
  if (soft != nullptr && percent >= soft->low) return GelClass::soft;
  const double least = soft != nullptr ? soft->low : firm != nullptr ? firm->low : 0.0;
  if (least == 0.0) return GelClass::none;
  return percent >= 0.5 * least ? GelClass::thickened : GelClass::none;
}

// A fluid gel is weak by design: its own band judges it.
bool gel_is_wanted(const GelState& state) { return !state.wanted || (is_gel(*state.wanted) && *state.wanted != Effect::fluid_gel); }

void check_dose(Trial& t, BaseKind kind) {
  double least = 0.0;
  Cited cited = usual_practice;
  if (is_gelatin(t.agent)) {
    const auto of_200 = equivalent_200(units::mass_percent(t.out.percent), t.state.bloom);
    const ClassRead read = gel_class(of_200, kind);
    t.out.gel_class = read.is;
    t.out.or_else = read.or_else;
    least = units::in_percent(from_200(class_from(GelClass::soft, kind), t.state.bloom));
    cited = read.cited;
  } else {
    t.out.gel_class = class_by_bands(t.agent, t.out.percent, kind);
    const DoseBand* band = dose_band(t.agent, Effect::soft_gel, kind);
    if (band == nullptr) band = dose_band(t.agent, Effect::firm_gel, kind);
    if (band == nullptr) band = dose_band(t.agent, Effect::hot_gel, kind);
    if (band == nullptr) return;
    least = band->low;
    cited = band->cited;
  }
  if (!gel_is_wanted(t.state)) return;
  const std::string numbers =
      shown(t.out.percent) + " % of " + t.label() + "; a soft gel begins at " + shown(least) + " % in a base like " + std::string(name(kind));
  if (t.out.gel_class == GelClass::none) t.say(Code::will_not_set, Bearing::stops, t.out.percent, least, "too little: " + numbers, cited, Fault::too_little);
  if (t.out.gel_class == GelClass::thickened)
    t.say(Code::sets_soft, Bearing::weakens, t.out.percent, least, "it thickens and does not gel: " + numbers, cited, Fault::too_little);
}

void check_rest(Trial& t) {
  const double at = units::in_celsius(t.state.rest.at);
  const auto dose = units::mass_percent(t.out.percent);
  t.out.sets_at = set_temperature(t.agent, dose, t.state.bloom);
  t.out.melts_at = melt_temperature(t.agent, dose, t.state.bloom);
  if (info(t.agent).way == Way::heating) {
    if (gel_is_wanted(t.state) && t.out.sets_at && at < units::in_celsius(t.out.sets_at->least))
      t.say(Code::will_not_set, Bearing::stops, at, units::in_celsius(t.out.sets_at->nominal),
            t.label() + " gels above " + shown(units::in_celsius(t.out.sets_at->nominal)) + " C and is thin at " + shown(at) + " C", t.out.sets_at->cited,
            Fault::rests_cold);
    return;
  }
  if (t.out.sets_at && at > units::in_celsius(t.out.sets_at->most))
    t.say(Code::will_not_set, Bearing::stops, at, units::in_celsius(t.out.sets_at->nominal),
          "at " + shown(at) + " C it is too warm for " + t.label() + ", which sets near " + shown(units::in_celsius(t.out.sets_at->nominal)) + " C",
          t.out.sets_at->cited, Fault::rests_warm);
  else if (t.out.sets_at && at > units::in_celsius(t.out.sets_at->least))
    t.say(Code::sets_soft, Bearing::weakens, at, units::in_celsius(t.out.sets_at->least),
          "at " + shown(at) + " C " + t.label() + " may only begin to set: chill it below " + shown(units::in_celsius(t.out.sets_at->least)) + " C",
          t.out.sets_at->cited, Fault::rests_warm);
  if (!is_gelatin(t.agent) || !t.state.rest.time) return;
  t.out.matured = maturity(*t.state.rest.time);
  if (t.out.matured->share < matured_enough)
    t.say(Code::sets_soft, Bearing::weakens, units::in_hours(*t.state.rest.time), table::test_hours,
          "after " + shown(units::in_hours(*t.state.rest.time)) + " h it has about " + shown(100.0 * t.out.matured->share) +
              " % of the firmness of 17 h: give it time",
          t.out.matured->cited, Fault::rests_short);
}

void check_law_and_scale(Trial& t) {
  for (const LegalRule& rule : missed_rules(t.agent, t.out.percent, t.state.food)) {
    const std::string where(rule.where), food(rule.food);
    if (rule.limit_percent)
      t.say(Code::over_legal_limit, Bearing::tells, t.out.percent, *rule.limit_percent,
            shown(t.out.percent) + " % of " + t.label() + " is over the limit of " + shown(*rule.limit_percent) + " % (" + where + ", " + food + ", " +
                std::string(rule.says) + ")",
            rule.cited);
    else
      t.say(Code::over_legal_limit, Bearing::tells, t.out.percent, 0.0, t.label() + " is " + std::string(rule.says) + " (" + where + ", " + food + ")",
            rule.cited);
  }
  if (t.agent == Agent::konjac)
    t.say(Code::choking, Bearing::tells, t.out.percent, 0.0,
          "firm bite-sized gels of konjac can choke: people have died; in the EU it is allowed in no jelly sweet", {"minicups2004", Confidence::high});
  if (!t.state.scale_step) return;
  const units::Mass dose{0.01 * t.out.percent * t.liquor.mass_kg};
  const Weighing w = weighing(t.agent, dose, *t.state.scale_step);
  if (w.too_small)
    t.say(Code::dose_below_scale, Bearing::tells, units::in_grams(dose), units::in_grams(w.least_weighable),
          grams_shown(units::in_grams(dose)) + " of " + t.label() + " may err by " + shown(100.0 * w.error_share) + " % on a scale of " +
              grams_shown(units::in_grams(*t.state.scale_step)) + ": make a stock",
          {"practice", Confidence::medium});
}

Verdict verdict(const Trial& t) {
  const Way way = info(t.agent).way;
  if (way == Way::thickens || way == Way::foams || way == Way::coagulates || way == Way::melts) return t.stopped ? Verdict::will_not_set : Verdict::thickens;
  // Whether there is calcium enough is seen from the whole liquid.
  if (way == Way::calcium) return t.stopped ? Verdict::will_not_set : Verdict::thickens;
  if (t.stopped || t.out.gel_class == GelClass::none) return Verdict::will_not_set;
  return t.weakened ? Verdict::sets_soft : Verdict::sets;
}

std::optional<TemperatureSpan> span_of(const Limit* l) {
  if (l == nullptr || (!l->low && !l->nominal && !l->high)) return std::nullopt;
  const double middle = l->nominal.value_or(l->low.value_or(l->high.value_or(0.0)));
  return TemperatureSpan{units::celsius(middle), units::celsius(l->low.value_or(middle)), units::celsius(l->high.value_or(middle)), l->cited};
}

}  // namespace

std::optional<TemperatureSpan> set_temperature(Agent agent, units::MassFraction dose, double bloom) {
  if (is_gelatin(agent)) return gelatin_sets(agent, dose, bloom);
  if (const auto above = span_of(limit(agent, Quantity::gels_above))) return above;
  return span_of(limit(agent, Quantity::set));
}

std::optional<TemperatureSpan> melt_temperature(Agent agent, units::MassFraction dose, double bloom) {
  if (is_gelatin(agent)) return gelatin_melts(agent, dose, bloom);
  if (const auto own = span_of(limit(agent, Quantity::melt))) return own;
  const Limit* set = limit(agent, Quantity::set);
  const Limit* rise = limit(agent, Quantity::melt_above_set);
  if (set == nullptr || rise == nullptr || !set->low || !set->nominal || !set->high || !rise->low || !rise->nominal || !rise->high) return std::nullopt;
  return TemperatureSpan{units::celsius(*set->nominal + *rise->nominal), units::celsius(*set->low + *rise->low), units::celsius(*set->high + *rise->high),
                         rise->cited};
}

bool enzyme_is_dead(units::Temperature hottest, units::Duration held) {
  return units::in_celsius(hottest) >= table::enzyme_heat - 1e-9 && units::in_seconds(held) >= 60.0 * table::enzyme_heat_minutes - 1e-9;
}

AgentSet agent_sets(Agent agent, const GelState& state, const Liquor& liquor, std::vector<Cause>& causes) {
  AgentSet out;
  out.agent = agent;
  const auto component = info(agent).component;
  out.percent = component && liquor.mass_kg > 0.0 ? 100.0 * state.liquid[*component] / liquor.mass_kg : 0.0;
  Trial t{agent, state, liquor, out, causes};
  check_enzyme(t);
  check_dose(t, state.kind.value_or(base_kind(liquor).kind));
  check_hydration(t);
  check_heat(t);
  check_acid(t);
  check_spirit(t);
  check_matter(t);
  check_rest(t);
  check_law_and_scale(t);
  if (is_gelatin(agent) && force_is_known(units::mass_percent(out.percent))) {
    const double kept = state.seen.hottest ? bloom_kept(*state.seen.hottest, state.seen.hot_for) : 1.0;
    out.force_g = gelatin_force_g(units::mass_percent(out.percent), state.bloom * kept);
  }
  out.verdict = verdict(t);
  return out;
}

}  // namespace bloomset::texture
