#include "texture/contact.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "matter/acidity.hpp"
#include "matter/density.hpp"
#include "matter/enthalpy.hpp"
#include "texture/contact_table.hpp"
#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using base::Code;
using matter::Component;
using matter::Composition;

double enthalpy_j(const Warm& w) { return matter::heat_curve(w.liquid).at_c(units::in_celsius(w.at)); }

units::Temperature base_that_lands(const Warm& hot, const Warm& base, units::Temperature lands) {
  const double wanted = matter::heat_curve(hot.liquid + base.liquid).at_c(units::in_celsius(lands)) - enthalpy_j(hot);
  return units::celsius(matter::heat_curve(base.liquid).celsius_at(wanted));
}

struct Zone {
  units::Temperature low, high;
  Cited cited;
};
std::optional<Zone> setting_zone(Agent agent) {
  if (is_gelatin(agent)) return Zone{units::celsius(table::landing[0]), units::celsius(table::landing[1]), usual_practice};
  const Limit* set = limit(agent, Quantity::set);
  if (set == nullptr || !set->low || !set->high) return std::nullopt;
  return Zone{units::celsius(*set->low), units::celsius(*set->high), set->cited};
}

std::string celsius_shown(units::Temperature t) { return shown(units::in_celsius(t)) + " C"; }

}  // namespace

units::Temperature landing_temperature(const Warm& a, const Warm& b) {
  return units::celsius(matter::heat_curve(a.liquid + b.liquid).celsius_at(enthalpy_j(a) + enthalpy_j(b)));
}

Landing landing(Agent agent, const Warm& hot, const Warm& base) {
  Landing out;
  out.lands = landing_temperature(hot, base);
  const auto zone = setting_zone(agent);
  if (!zone) return out;
  out.zone_low = zone->low;
  out.zone_high = zone->high;
  out.base_for_low = base_that_lands(hot, base, zone->low);
  out.base_for_high = base_that_lands(hot, base, zone->high);
  constexpr double hair_k = 1e-6;
  out.strings = out.lands.si < zone->high.si - hair_k;
  out.for_certain = out.lands.si < zone->low.si - hair_k;
  if (!out.strings) return out;
  const std::string name_of(info(agent).name);
  out.remedies = {"warm the base to " + celsius_shown(out.base_for_high) + " before " + name_of + " goes in: it then lands at " + celsius_shown(zone->high),
                  "or temper: whisk a third of the base, warmed to 35 to 40 C, into it first, then fold in the rest",
                  "rescue: warm all of it until it is smooth" + std::string(is_gelatin(agent) ? " (40 C)" : "") + " and strain"};
  if (!is_gelatin(agent)) out.remedies[1] = "or take more of the hot liquid that carries it";
  out.cause = Cause{Code::strings_on_landing,
                    agent,
                    out.for_certain ? Bearing::stops : Bearing::weakens,
                    units::in_celsius(out.lands),
                    units::in_celsius(zone->high),
                    "the mix lands at " + celsius_shown(out.lands) + (out.for_certain ? ", under" : ", inside") + " the zone of " + celsius_shown(zone->low) +
                        " to " + celsius_shown(zone->high) + " in which " + name_of + " sets: it gels in strings and beads on contact",
                    zone->cited};
  return out;
}

std::optional<Cause> melts_on(Agent agent, units::MassFraction dose, double bloom, units::Temperature drink) {
  const auto melts = melt_temperature(agent, dose, bloom);
  if (!melts || !info(agent).reversible || info(agent).way == Way::heating || drink.si <= melts->nominal.si) return std::nullopt;
  return Cause{Code::melts_on_hot,
               agent,
               Bearing::weakens,
               units::in_celsius(drink),
               units::in_celsius(melts->nominal),
               std::string(info(agent).name) + " melts near " + celsius_shown(melts->nominal) + " and the drink has " + celsius_shown(drink) +
                   ": serve it at once, beside, or take an agent that stands hot",
               melts->cited};
}

units::Duration time_to_warm(units::Temperature start, units::Temperature end, units::Temperature room, units::Duration time_constant) {
  if (end.si <= start.si) return {0.0};
  if (room.si <= end.si) return {std::numeric_limits<double>::infinity()};
  return {time_constant.si * std::log((room.si - start.si) / (room.si - end.si))};
}

units::Duration stands_for(units::Temperature start, units::Temperature room, units::Duration time_constant) {
  return time_to_warm(start, units::celsius(table::slump), room, time_constant);
}

std::optional<Cause> enzyme_contact(Agent agent, bool other_has_live_enzyme) {
  if (!other_has_live_enzyme || !(is_gelatin(agent) || agent == Agent::caseinate)) return std::nullopt;
  return Cause{Code::enzyme_contact,
               agent,
               Bearing::weakens,
               0.0,
               0.0,
               std::string(info(agent).name) + " touches raw fruit with protease: it weeps and melts from the contact inwards, within minutes to an hour",
               {"practice", Confidence::medium}};
}

Curd curdling(const Composition& mix, units::Mass milk_protein, units::Temperature t, Order order) {
  Curd out;
  out.order = order;
  const Liquor liquor = read(mix);
  out.ph = liquor.ph;
  out.limit_ph = units::in_celsius(t) > table::curdle_heat ? table::curdle_ph_hot : table::curdle_ph;
  const bool by_spirit = liquor.abv_percent >= table::ethanol_curdles;
  if (!(milk_protein.si > 0.0) || (out.ph > out.limit_ph && !by_spirit)) return out;
  out.curdles = true;
  const CurdKeeps keeps = curd_keeps();
  out.protein = milk_protein * keeps.protein;
  out.fat = units::Mass{mix[Component::fat] * keeps.fat};
  out.liquid_held = (out.protein + out.fat) * table::curd_water;
  out.notes.push_back(
      {order == Order::milk_into_acid
           ? "milk poured into acid curdles at once, fine and even"
           : "acid poured into milk takes it through every pH and curdles coarse: for clarifying pour the milk first and the acid drink into it, "
             "slowly; the coarse curd filters clearer",
       {"practice", Confidence::low}});
  out.notes.push_back({"what protein buffers is not counted: the real pH lies up to 0.5 higher where milk is most of the mix", {"practice", Confidence::low}});
  out.cause =
      Cause{Code::curdles,
            Agent::caseinate,
            Bearing::weakens,
            by_spirit && out.ph > out.limit_ph ? liquor.abv_percent : out.ph,
            by_spirit && out.ph > out.limit_ph ? table::ethanol_curdles : out.limit_ph,
            by_spirit && out.ph > out.limit_ph ? shown(liquor.abv_percent) + " %vol make milk curdle"
                                               : "the mix has pH " + shown(out.ph) + ": milk protein comes out from about " + shown(out.limit_ph) + " down",
            {"memory: milk protein handbooks, isoelectric point of casein 4.6", Confidence::medium}};
  return out;
}

CurdKeeps curd_keeps() { return {table::casein_share * table::curd_holds_protein, table::curd_holds_fat}; }

Spheres spheres(SphereWay way, const Composition& drop, const Composition& bath) {
  Spheres out;
  const bool direct = way == SphereWay::direct;
  const Liquor liquor = read(drop);
  const auto& percents = direct ? table::bath_calcium_chloride : table::bath_alginate;
  out.bath_percent_low = percents[0];
  out.bath_percent = percents[1];
  out.bath_percent_high = percents[2];
  const auto say = [&out](Code code, Bearing bearing, double value, double limit_value, std::string words, Cited cited = usual_practice,
                          Fault fault = Fault::other) {
    out.causes.push_back({code, Agent::alginate, bearing, value, limit_value, std::move(words), cited, fault});
    if (bearing == Bearing::stops)
      out.verdict = Verdict::will_not_set;
    else if (bearing == Bearing::weakens && out.verdict == Verdict::sets)
      out.verdict = Verdict::sets_soft;
  };
  const auto advise = [&out](std::string words) { out.advice.push_back(std::move(words)); };

  const Bearing hard = direct ? Bearing::stops : Bearing::tells;
  if (liquor.ph < table::sphere_ph) {
    say(Code::too_acid, hard, liquor.ph, table::sphere_ph,
        "at pH " + shown(liquor.ph) + " alginate thickens or falls out: direct spheres need pH " + shown(table::sphere_ph) + " or above");
    if (direct) advise("buffer it with trisodium citrate to pH 4 or above, or take the reverse way");
  }
  const double most_salt = direct ? table::sphere_sodium_chloride_direct : table::sphere_sodium_chloride_reverse;
  if (liquor.salt_percent > most_salt) {
    say(direct ? Code::will_not_set : Code::sets_soft, direct ? Bearing::stops : Bearing::weakens, liquor.salt_percent, most_salt,
        "sodium like " + shown(liquor.salt_percent) + " % of salt competes with calcium: above " + shown(most_salt) + " % the skin stays soft or fails",
        usual_practice, Fault::matter);
    advise(direct ? "cut it with water, take the reverse way (calcium lactate gluconate in the liquid with 0.2 to 0.4 % xanthan, a rested bath of 0.5 % "
                    "alginate), or pearls of 0.9 % agar in cold oil"
                  : "cut it with water, or make pearls of 0.9 % agar in cold oil");
  }
  const double litres = units::in_litres(matter::liquid_volume(drop, units::celsius(20.0)));
  const double citrate_g_l = litres > 0.0 ? 1e3 * drop[Component::citric_acid] / litres : 0.0;
  if (direct && citrate_g_l > table::sphere_citrate)
    say(Code::sets_soft, Bearing::weakens, citrate_g_l, table::sphere_citrate,
        "citrate (" + shown(citrate_g_l) + " g/L as citric acid) ties up calcium: the skin grows slowly", usual_practice, Fault::matter);
  if (direct && liquor.abv_percent > *limit(Agent::alginate, Quantity::abv)->low) {
    say(Code::too_strong, Bearing::weakens, liquor.abv_percent, *limit(Agent::alginate, Quantity::abv)->low, "liquids with alcohol go better the reverse way",
        limit(Agent::alginate, Quantity::abv)->cited);
    advise("take the reverse way");
  }
  const double alginate_percent = 100.0 * (direct ? drop : bath)[Component::alginate] / std::max((direct ? drop : bath).total_kg(), 1e-12);
  const double least = direct ? dose_band(Agent::alginate, Effect::sphere, BaseKind::juice)->low : table::bath_alginate[0];
  if (alginate_percent < least - 1e-9)
    say(Code::sets_soft, alginate_percent < 0.5 * least ? Bearing::stops : Bearing::weakens, alginate_percent, least,
        "alginate " + shown(alginate_percent) + " %: less than " + shown(least) + " %", usual_practice, Fault::too_little);
  const Composition& calcium_side = direct ? bath : drop;
  const double calcium_percent = 100.0 * calcium_side[Component::calcium] / std::max(calcium_side.total_kg(), 1e-12);
  constexpr double least_calcium_percent = 0.12;  // of calcium itself: 0.35 % of the chloride, 0.9 % of the lactate gluconate (practice)
  if (calcium_percent < least_calcium_percent)
    say(Code::will_not_set, Bearing::stops, calcium_percent, least_calcium_percent, "calcium " + shown(calcium_percent) + " %: too little to form a skin",
        usual_practice, Fault::matter);
  const Liquor other = read(direct ? drop : bath);
  const Limit* hard_water = limit(Agent::alginate, Quantity::hardness);
  if (other.hardness_mg_l > *hard_water->high)
    say(Code::too_hard_water, Bearing::weakens, other.hardness_mg_l, *hard_water->high,
        "hardness " + shown(other.hardness_mg_l) + " mg/L where the alginate dissolves: above " + shown(*hard_water->high) +
            " it sets before time; take low-mineral water, or a little citrate",
        hard_water->cited);
  const units::Temperature room = units::celsius(20.0);
  out.density_difference_kg_m3 = matter::liquid_density(drop, room).si - matter::liquid_density(bath, room).si;
  if (out.density_difference_kg_m3 < 0.0) {
    say(Code::sinks_or_floats, Bearing::weakens, out.density_difference_kg_m3, 0.0, "the drops are lighter than the bath and float: they get no even skin");
    advise("add sugar to the drop, or turn the drops under");
  }
  return out;
}

Layer layer(const Warm& upper, const Warm& lower) {
  Layer out;
  out.difference_kg_m3 = matter::liquid_density(upper.liquid, upper.at).si - matter::liquid_density(lower.liquid, lower.at).si;
  const double margin = table::float_difference;
  out.lying = out.difference_kg_m3 < -margin ? Lying::floats : out.difference_kg_m3 > margin ? Lying::sinks : Lying::mixes;
  if (out.lying != Lying::floats)
    out.cause = Cause{Code::sinks_or_floats,
                      Agent::gelatin,
                      Bearing::weakens,
                      out.difference_kg_m3,
                      -margin,
                      out.lying == Lying::sinks ? "the upper liquid is " + shown(out.difference_kg_m3) + " kg/m3 heavier and sinks"
                                                : "the two differ by less than " + shown(margin) + " kg/m3 and run together",
                      usual_practice};
  return out;
}

}  // namespace bloomset::texture
