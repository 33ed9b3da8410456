#include "texture/foam.hpp"

#include <algorithm>
#include <cmath>

#include "texture/table.hpp"
#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using base::Code;
using matter::Component;

constexpr Cited rough_practice = {"practice", Confidence::low};
constexpr double cold_c = 5.0, hot_c = 55.0;   // where "cold" and "hot" are asked
constexpr double nothing_holds_minutes = 0.3;  // bare bubbles break within seconds
constexpr double enough = 1.0;
// The guess of gas retained, and its span: as for any siphon foam without data.
constexpr double retention_prior = 0.6, retention_least = 0.4, retention_most = 1.0;

struct Row {
  std::string_view what, says;
  double low, full, cold, hot, drain;
  Cited cited;
};

const std::vector<Row>& rows() {
  static const std::vector<Row> all = [] {
    std::vector<Row> made;
    std::vector<std::string> faults;
    const Table table = read_table("texture/stabilisers.csv");
    for (const TableRow& row : table.rows) {
      const Fields f(table, row, faults);
      made.push_back({f.text("what"), f.text("says"), f.number("low"), f.number("full"), f.number("cold"), f.number("hot"), f.number("drain"), f.cited()});
    }
    return made;
  }();
  return all;
}

std::optional<Agent> agent_of_row(std::string_view what) {
  std::string spaced(what);
  std::replace(spaced.begin(), spaced.end(), '_', ' ');
  if (what == "starch") return Agent::starch;
  if (what == "gellan_low_acyl") return Agent::gellan_low_acyl;
  if (what == "hpmc") return Agent::hpmc;
  return agent_named(spaced);
}

double percent_there(const Row& row, const FoamBase& base, double total_kg) {
  const auto share = [&](double kg) { return total_kg > 0.0 ? 100.0 * kg / total_kg : 0.0; };
  if (row.what == "fat") return share(base.liquid[Component::fat]);
  if (row.what == "protein") return share(base.liquid[Component::protein]);
  if (row.what == "starch") return share(base.liquid[Component::starch]);
  if (row.what == "egg_white") return share(base.egg_white.si);
  const auto agent = agent_of_row(row.what);
  if (!agent || !info(*agent).component) return 0.0;
  const double percent = share(base.liquid[*info(*agent).component]);
  return is_gelatin(*agent) ? percent * std::sqrt(base.bloom / 200.0) : percent;
}

// Gelatin's band goes with the kind of base: from thickened to soft.
void set_gelatin_band(Stabiliser& s, BaseKind kind) {
  if (s.agent != Agent::gelatin) return;
  s.low_percent = units::in_percent(class_from(GelClass::thickened, kind));
  s.full_percent = units::in_percent(class_from(GelClass::soft, kind));
}

double share_of(double percent, double low, double full) { return percent < low ? 0.0 : std::min(percent / full, 1.5); }

bool spoiled_by_acid(const Stabiliser& s, double ph) {
  return s.agent == Agent::caseinate && limit(Agent::caseinate, Quantity::ph) != nullptr && ph < *limit(Agent::caseinate, Quantity::ph)->low;
}

double strength_at(const std::vector<Stabiliser>& by, double celsius) {
  double sum = 0.0;
  for (const Stabiliser& s : by)
    if (celsius >= units::in_celsius(s.holds_from) && celsius <= units::in_celsius(s.holds_to)) sum += share_of(s.percent, s.low_percent, s.full_percent);
  return sum;
}

void say(FoamHold& out, Code code, Agent agent, Bearing bearing, double value, double limit_value, std::string words, Cited cited = rough_practice) {
  out.causes.push_back({code, agent, bearing, value, limit_value, std::move(words), cited});
}

std::string remedies(bool hot) {
  return hot ? "for a hot foam: pasteurised egg white 15 to 25 % (held below 62 C), methylcellulose about 1 %, starch, cream or butter of 20 % fat or more, or "
               "a fluid gel of iota carrageenan or agar"
             : "for a cold foam: gelatin, cream of 28 % fat or more, egg white, or methylcellulose";
}

void explain(FoamHold& out, const FoamBase& base, double xanthan_percent, double at_c) {
  const bool hot = at_c > 35.0;
  for (const Stabiliser& s : out.by) {
    const double to = units::in_celsius(s.holds_to);
    const bool other_row_holds = std::any_of(out.by.begin(), out.by.end(), [&s](const Stabiliser& o) { return o.what == s.what && o.share > 0.0; });
    const bool cooked = s.agent && info(*s.agent).way == Way::coagulates;
    if (s.percent >= s.low_percent && at_c > to && !other_row_holds)
      say(out, cooked ? Code::will_not_set : Code::melts_on_hot, s.agent.value_or(Agent::gelatin), Bearing::weakens, at_c, to,
          s.what + " holds nothing at " + shown(at_c) + " C: only up to " + shown(to) + " C", s.cited);
    if (s.agent == Agent::lecithin && !base.froth && s.percent >= s.low_percent)
      say(out, Code::sets_soft, Agent::lecithin, Bearing::weakens, s.percent, s.low_percent, s.says, s.cited);
  }
  if (base.live_enzyme && base.liquid[Component::gelatin] + base.liquid[Component::fish_gelatin] > 0.0)
    say(out, Code::live_enzyme, Agent::gelatin, Bearing::stops, 0.0, 0.0, "raw fruit with protease cuts the gelatin: the foam will not hold at any dose",
        {"practice", Confidence::high});
  if (out.holds) return;
  if (xanthan_percent > 0.0)
    say(out, Code::will_not_set, Agent::xanthan, Bearing::stops, xanthan_percent, 0.0,
        "xanthan thickens, but makes no wall round a bubble: alone it holds no foam; keep it at 0.1 to 0.3 % beside something that does");
  say(out, Code::will_not_set, Agent::gelatin, Bearing::stops, out.strength, enough,
      "at " + shown(at_c) + " C nothing here holds the walls of the bubbles; more gas does not help; " + remedies(hot));
}

}  // namespace

double drain_minutes(const std::vector<Stabiliser>& by, double xanthan_percent) {
  double weighted = 0.0, sum = 0.0;
  for (const Stabiliser& s : by) {
    weighted += s.share * std::log(s.drain_minutes);
    sum += s.share;
  }
  const double own = sum > 0.0 ? std::exp(weighted / sum) * std::min(sum, 1.0) : 0.0;
  // Each tenth of a percent of xanthan, up to three, slows draining by half as much again (practice).
  const double thicker = 1.0 + 5.0 * std::min(xanthan_percent, 0.3);
  return std::max(own, nothing_holds_minutes) * thicker;
}

FoamHold foam_hold(const FoamBase& base) {
  FoamHold out;
  out.retention = retention_prior;
  out.retention_least = retention_least;
  out.retention_most = retention_most;
  const Liquor liquor = read(base.liquid);
  const BaseKind kind = base.kind.value_or(base_kind(liquor).kind);
  const double total_kg = base.liquid.total_kg() + base.egg_white.si, at_c = units::in_celsius(base.at);
  for (const Row& row : rows()) {
    Stabiliser s;
    s.agent = agent_of_row(row.what);
    s.what = s.agent ? std::string(info(*s.agent).name) : row.what == "fat" ? "fat of cream" : "protein of the base";
    s.percent = percent_there(row, base, total_kg);
    s.low_percent = row.low;
    s.full_percent = row.full;
    set_gelatin_band(s, kind);
    s.holds_from = units::celsius(row.cold);
    s.holds_to = units::celsius(row.hot);
    if (s.agent && is_gelatin(*s.agent) && s.percent > 0.0) s.holds_to = gelatin_sets(*s.agent, units::mass_percent(s.percent), 200.0).nominal;
    s.drain_minutes = row.drain;
    s.says = row.says;
    s.cited = row.cited;
    const bool dead = (base.live_enzyme && s.agent && is_gelatin(*s.agent)) || spoiled_by_acid(s, liquor.ph);
    if (s.percent <= 0.0 || dead) continue;
    if (at_c >= row.cold && at_c <= units::in_celsius(s.holds_to)) s.share = share_of(s.percent, s.low_percent, s.full_percent);
    out.by.push_back(s);
  }
  // Lecithin holds a froth; it does not add to what holds a siphon foam.
  std::vector<Stabiliser> holding;
  for (Stabiliser& s : out.by) {
    if (s.agent == Agent::lecithin && !base.froth)
      s.share = 0.0;
    else
      holding.push_back(s);
  }
  out.strength = strength_at(holding, at_c);
  out.holds = out.strength >= enough;
  out.holds_cold = strength_at(holding, cold_c) >= enough;
  out.holds_hot = strength_at(holding, hot_c) >= enough;
  std::stable_sort(out.by.begin(), out.by.end(), [](const Stabiliser& a, const Stabiliser& b) { return a.share > b.share; });
  const double xanthan = total_kg > 0.0 ? 100.0 * base.liquid[Component::xanthan] / total_kg : 0.0;
  out.drain_minutes = drain_minutes(out.by, xanthan);
  explain(out, base, xanthan, at_c);
  std::stable_sort(out.causes.begin(), out.causes.end(), [](const Cause& a, const Cause& b) { return a.bearing < b.bearing; });
  return out;
}

}  // namespace bloomset::texture
