#include "texture/substitute.hpp"

#include <algorithm>
#include <cmath>

#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

std::string temperatures(const char* verb, const std::optional<TemperatureSpan>& a) {
  const double low = units::in_celsius(a->least), high = units::in_celsius(a->most);
  if (high - low < 0.5) return std::string(verb) + " near " + shown(units::in_celsius(a->nominal)) + " C";
  return std::string(verb) + " at " + shown(std::round(low)) + " to " + shown(std::round(high)) + " C";
}

void add_differences(Candidate& c, const SubstituteAsked& asked, double percent_old, double percent_new) {
  const AgentInfo &was = info(asked.agent), &is = info(c.agent);
  if (was.feel != is.feel) c.differs.push_back("texture: " + std::string(is.feel) + "; it was " + std::string(was.feel));
  const auto sets = set_temperature(c.agent, units::mass_percent(percent_new), 200.0),
             melts = melt_temperature(c.agent, units::mass_percent(percent_new), 200.0);
  const auto set_before = set_temperature(asked.agent, units::mass_percent(percent_old), asked.bloom),
             melt_before = melt_temperature(asked.agent, units::mass_percent(percent_old), asked.bloom);
  if (sets)
    c.differs.push_back(temperatures(is.way == Way::heating ? "gels when warmed" : "sets", sets) +
                        (set_before ? "; it was " + shown(std::round(units::in_celsius(set_before->nominal))) + " C" : ""));
  if (!is.reversible)
    c.differs.push_back("does not melt again");
  else if (melts)
    c.differs.push_back(temperatures(is.way == Way::heating ? "thins again when cooled: below" : "melts", melts) +
                        (melt_before ? "; it was " + shown(std::round(units::in_celsius(melt_before->nominal))) + " C" : ""));
  if (was.hydrate != is.hydrate) c.differs.push_back("handling: " + std::string(is.disperse) + ", " + std::string(is.hydrate));
  if (was.frozen != is.frozen) c.differs.push_back("frozen and thawed: " + std::string(is.frozen));
  for (const auto word : is.gives) c.gained.emplace_back(word);
  if (is.vegan == Answer::yes && was.vegan != Answer::yes) c.gained.push_back("vegan diets");
  for (const auto word : was.gives)
    // The effect itself is kept, or it were no candidate.
    if (word.find(name(asked.effect)) == std::string_view::npos && std::find(is.gives.begin(), is.gives.end(), word) == is.gives.end())
      c.lost.emplace_back(word);
  for (const auto word : is.takes)
    if (std::find(was.takes.begin(), was.takes.end(), word) == was.takes.end() && std::find(c.lost.begin(), c.lost.end(), std::string(word)) == c.lost.end())
      c.lost.emplace_back(word);
  std::string allergens;
  for (const auto code : is.allergens)
    allergens +=
        (allergens.empty() ? "" : ", ") + std::string(code.starts_with('?') ? "perhaps " : "") + std::string(code.starts_with('?') ? code.substr(1) : code);
  if (!allergens.empty()) c.differs.push_back("allergens: " + allergens);
}

std::string diet_against(const AgentInfo& a, const SubstituteAsked& asked) {
  if (asked.vegan && a.vegan != Answer::yes) return a.vegan == Answer::no ? "not vegan" : "vegan only by some makers: ask";
  if (asked.vegetarian && a.vegetarian != Answer::yes) return a.vegetarian == Answer::no ? "not vegetarian" : "vegetarian only by some makers: ask";
  return {};
}

std::string served_too_warm(Agent agent, double percent, const SubstituteAsked& asked) {
  if (!asked.served_at) return {};
  const double at = units::in_celsius(*asked.served_at);
  if (info(agent).way == Way::heating) {
    const auto above = set_temperature(agent, units::mass_percent(percent), 200.0);
    if (is_gel(asked.effect) && above && at < units::in_celsius(above->least))
      return "gels only above " + shown(units::in_celsius(above->least)) + " C and is served at " + shown(at) + " C";
    return {};
  }
  if (agent == Agent::egg_white && at > units::in_celsius(units::celsius(62.0))) return "sets above 62 C and is served at " + shown(at) + " C";
  const auto melts = melt_temperature(agent, units::mass_percent(percent), 200.0);
  if (!info(agent).reversible || !melts || at <= units::in_celsius(melts->nominal)) return {};
  return "melts near " + shown(std::round(units::in_celsius(melts->nominal))) + " C and is served at " + shown(at) + " C";
}

// What stops this agent in this base, in words; the causes that only weaken are left in `causes`.
std::string stopped(Agent agent, const Dose& dose, const SubstituteAsked& asked, std::vector<Cause>& causes) {
  const bool protein = is_gelatin(agent) || agent == Agent::caseinate;
  if (asked.live_enzyme && protein) return "raw fruit with protease cuts it";
  for (const Cause& c : dose.causes) {
    if (c.bearing == Bearing::stops) return c.says;
    causes.push_back(c);
  }
  return {};
}

}  // namespace

double carried_over(double percent, const DoseBand& from, const DoseBand& to) { return std::clamp(to.nominal * percent / from.nominal, to.low, to.high); }

base::Result<Substitutes> substitutes(const SubstituteAsked& asked) {
  Substitutes out;
  const double base_g = units::in_grams(asked.base.mass());
  if (!(base_g > 0.0)) return base::fail(base::ErrorKind::bad_input, "the base has no mass");
  const BaseKind kind = asked.kind.value_or(base_kind(read(asked.base)).kind);
  const DoseBand* old = dose_band(asked.agent, asked.effect, kind);
  const double as_200 = is_gelatin(asked.agent) ? std::sqrt(asked.bloom / 200.0) : 1.0;
  const double percent_now = 100.0 * units::in_grams(asked.mass) / base_g * as_200;
  const double percent_old = percent_now > 0.0 ? percent_now : old != nullptr ? old->nominal : 0.0;
  for (std::size_t i = 0; i < agent_count; ++i) {
    const auto agent = static_cast<Agent>(i);
    if (agent == asked.agent) continue;
    const auto refuse = [&](std::string why) { out.refused.push_back({agent, std::move(why)}); };
    const DoseBand* band = dose_band(agent, asked.effect, kind);
    if (band == nullptr) {
      refuse("no agent for " + std::string(called(asked.effect)));
      continue;
    }
    DoseAsked wanted;
    wanted.base = asked.base;
    wanted.kind = kind;
    wanted.form.agent = agent;
    wanted.effect = asked.effect;
    const auto found = dose(wanted);
    if (!found) {
      refuse(found.error().message);
      continue;
    }
    Candidate c;
    c.agent = agent;
    const double percent_new = old != nullptr ? carried_over(percent_old, *old, *band) : band->nominal;
    std::string why = diet_against(info(agent), asked);
    if (why.empty()) why = served_too_warm(agent, percent_new, asked);
    if (why.empty()) why = stopped(agent, *found, asked, c.causes);
    if (!why.empty()) {
      refuse(why);
      continue;
    }
    c.mass_g = {found->mass_g.low, percent_new * base_g / 100.0, found->mass_g.high};
    c.cited = band->cited;
    c.method = method(agent, asked.effect, read(asked.base), c.mass_g.nominal, false);
    add_differences(c, asked, percent_old, percent_new);
    out.candidates.push_back(std::move(c));
  }
  std::stable_sort(out.candidates.begin(), out.candidates.end(), [](const Candidate& a, const Candidate& b) {
    if (a.causes.size() != b.causes.size()) return a.causes.size() < b.causes.size();
    return a.cited.confidence > b.cited.confidence;
  });
  return out;
}

}  // namespace bloomset::texture
