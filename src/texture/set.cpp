// texture/set.cpp - all agents of a liquid together: partners, the gel that carries, causes in order.
#include "texture/set.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using base::Code;

constexpr double trace_percent = 0.005;            // less of an agent is what clung to a spoon
constexpr double kelvin_far = 20.0, ph_far = 1.0;  // as far outside as nothing at all of what is counted by its share: practice

AgentSet* find(SetResult& r, Agent a) {
  const auto at = std::find_if(r.agents.begin(), r.agents.end(), [a](const AgentSet& s) { return s.agent == a; });
  return at == r.agents.end() ? nullptr : &*at;
}

bool heated_for(const Partner& p, const GelState& state) {
  return !p.heat_c || !state.seen.hottest || units::in_celsius(*state.seen.hottest) >= *p.heat_c - 10.0;
}

// Two that do not gel alone may do so together.
void join_partners(SetResult& r, const GelState& state) {
  for (const Partner& p : partners()) {
    AgentSet* first = find(r, p.first);
    AgentSet* second = find(r, p.second);
    if (first == nullptr || second == nullptr) continue;
    const double both = first->percent + second->percent;
    const std::string pair = std::string(info(p.first).name) + " with " + std::string(info(p.second).name);
    if (!p.gels_from_percent) {
      r.causes.push_back({Code::assumption, p.first, Bearing::tells, both, 0.0, pair + " gives " + std::string(p.does), p.cited});
    } else if (both < *p.gels_from_percent) {
      r.causes.push_back({Code::sets_soft, p.first, Bearing::tells, both, *p.gels_from_percent,
                          pair + " gels from " + shown(*p.gels_from_percent) + " % of both: there is " + shown(both) + " %", p.cited, Fault::too_little});
    } else if (!heated_for(p, state)) {
      r.causes.push_back({Code::sets_soft, p.first, Bearing::tells, units::in_celsius(*state.seen.hottest), *p.heat_c,
                          pair + " must both see " + shown(*p.heat_c) + " C to gel: they have seen " + shown(units::in_celsius(*state.seen.hottest)) + " C",
                          p.cited, Fault::not_dissolved});
    } else {
      r.causes.push_back({Code::assumption, p.first, Bearing::tells, both, *p.gels_from_percent, pair + " gives " + std::string(p.does), p.cited});
      for (AgentSet* one : {first, second}) {
        if (one->verdict >= Verdict::sets) continue;
        one->verdict = Verdict::sets;
        one->gel_class = GelClass::soft;
      }
      if (r.verdict < Verdict::sets) {
        r.verdict = Verdict::sets;
        r.gel_class = GelClass::soft;
        r.carried_by = p.first;
        r.sets_at = first->sets_at;
        r.melts_at = first->melts_at;
      }
    }
  }
}

// Alginate never sets without calcium, whatever the temperature.
void check_calcium(SetResult& r, const Liquor& liquor) {
  const auto at = std::find_if(r.agents.begin(), r.agents.end(), [](const AgentSet& s) { return s.agent == Agent::alginate; });
  if (at == r.agents.end()) return;
  constexpr double least_mg_per_g = 20.0;  // below, too little to link the chains (practice)
  const double per_gram = liquor.calcium_mg / (10.0 * at->percent * liquor.mass_kg);
  if (at->verdict == Verdict::will_not_set) return;
  const bool softer = std::any_of(r.causes.begin(), r.causes.end(), [](const Cause& c) { return c.agent == Agent::alginate && c.bearing == Bearing::weakens; });
  if (per_gram >= least_mg_per_g) {
    at->verdict = softer ? Verdict::sets_soft : Verdict::sets;
    at->gel_class = GelClass::firm;
    return;
  }
  r.causes.push_back({Code::will_not_set,
                      Agent::alginate,
                      Bearing::tells,
                      per_gram,
                      least_mg_per_g,
                      "alginate sets only with calcium: in the liquid there are " + shown(per_gram) + " mg a gram; it sets where it meets a calcium bath",
                      {"alginatevendors", Confidence::high},
                      Fault::matter});
}

double how_far(const Cause& c) {
  if (c.code == Code::live_enzyme) return std::numeric_limits<double>::infinity();
  const double off = std::abs(c.value - c.limit);
  switch (c.fault) {
    case Fault::not_dissolved:
    case Fault::not_swollen:
    case Fault::overheated:
    case Fault::rests_warm:
    case Fault::rests_cold:
      return off / kelvin_far;
    case Fault::too_acid:
    case Fault::too_little_acid:
      return off / ph_far;
    default:
      return c.limit != 0.0 ? off / std::abs(c.limit) : 0.0;
  }
}

}  // namespace

std::string_view name(Verdict v) {
  constexpr std::array<std::string_view, 4> names = {"will not set", "thickens", "sets soft", "sets"};
  return names[static_cast<std::size_t>(v)];
}

SetResult will_set(const GelState& state) {
  SetResult r;
  const Liquor liquor = read(state.liquid);
  for (std::size_t i = 0; i < agent_count; ++i) {
    const auto agent = static_cast<Agent>(i);
    const auto component = info(agent).component;
    if (!component || !(liquor.mass_kg > 0.0) || 100.0 * state.liquid[*component] / liquor.mass_kg < trace_percent) continue;
    r.agents.push_back(agent_sets(agent, state, liquor, r.causes));
  }
  if (r.agents.empty()) {
    r.causes.push_back(
        {Code::will_not_set, Agent::gelatin, Bearing::stops, 0.0, 0.0, "there is no texture agent in it", {"practice", Confidence::high}, Fault::other});
    return r;
  }
  check_calcium(r, liquor);
  for (const AgentSet& a : r.agents) {
    const bool better = !r.carried_by || a.verdict > r.verdict || (a.verdict == r.verdict && a.gel_class > r.gel_class);
    if (!better) continue;
    r.verdict = a.verdict;
    r.gel_class = a.gel_class;
    r.force_g = a.force_g;
    r.sets_at = a.sets_at;
    r.melts_at = a.melts_at;
    r.carried_by = a.agent;
  }
  join_partners(r, state);
  rank(r.causes);
  return r;
}

void rank(std::vector<Cause>& causes) {
  std::stable_sort(causes.begin(), causes.end(), [](const Cause& a, const Cause& b) {
    if (a.bearing != b.bearing) return a.bearing < b.bearing;
    return how_far(a) > how_far(b);
  });
}

}  // namespace bloomset::texture
