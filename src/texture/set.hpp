// texture/set.hpp - will it set, how firm, at what temperatures, and if not, why not.
//
// Each agent in the liquid is held against its dose bands, its dissolving (the hottest or coldest it has seen), what it cannot bear (acid, spirit, sugar,
// salt, hard water, live enzyme, long heat), what it needs (calcium, sugar with acid, a partner), and where it rests. Each miss is a cause with
// its number and its limit; causes that stop the set come first, and among these the one furthest outside. The diagnosis "why did it not set" is this list. A
// gel of gelatin below 2 % gets a class and no force. Limits are those of limits.csv; a value at a limit has not crossed it. Callers: flow's marks, sheet, the
// command `dose`.
#pragma once

#include <string>
#include <vector>

#include "base/finding.hpp"
#include "texture/catalogue.hpp"
#include "texture/gelatin.hpp"

namespace bloomset::texture {

/// What the agents have been through since they went in. What is not known is taken as done right, and a cause says so.
struct History {
  std::optional<units::Temperature> hottest, coldest;
  units::Duration hot_for{0.0};                    // near the hottest
  std::optional<double> ph_hot;                    // while it was hot; none: as it is now
  std::optional<double> solids_hydrating_percent;  // while it dissolved; none: as now
  std::optional<double> hardness_hydrating_mg_l;   // of the water it dissolved in; none: as now
  bool live_enzyme = false;                        // protease that has not been heated
};

struct Rest {
  units::Temperature at = units::celsius(5.0);
  std::optional<units::Duration> time;  // none: long enough
};

struct GelState {
  matter::Composition liquid;  // with its agents
  double bloom = 200.0;
  History seen;
  Rest rest;
  std::optional<BaseKind> kind;           // none: read off the liquid
  std::optional<Effect> wanted;           // none: a gel; else its dose is judged only where it is one
  std::string_view food;                  // a category of the legal rules
  std::optional<units::Mass> scale_step;  // to tell doses too small to weigh
};

/// What is amiss, and so what would mend it: which number of a cause lies outside.
enum class Fault : std::uint8_t {
  other,
  too_little,     // of the agent [%], alone or with its partner
  not_dissolved,  // never hot enough [C]
  not_swollen,    // never cold enough [C]
  overheated,     // hotter than it bears [C]
  bloom_lost,     // share of Bloom that a long heat left
  too_acid,       // pH
  too_little_acid,
  too_strong,  // [%vol]
  matter,      // too much or too little of what is dissolved beside it: sugar, salt, hardness, calcium
  rests_warm,  // too warm where it is to set [C]
  rests_cold,  // a gel of heat that is to stand when cold [C]
  rests_short  // [h]
};

struct Cause {
  base::Code code = base::Code::assumption;
  Agent agent = Agent::gelatin;
  Bearing bearing = Bearing::tells;
  double value = 0.0, limit = 0.0;
  std::string says;
  Cited cited;
  Fault fault = Fault::other;
};
/// In the order in which a cook should look: what stops the set, what weakens it, what is merely told; of each the furthest outside first. How far outside
/// is a share of the limit; of what has no true zero, 20 K or one pH count as the whole of it (practice). A live enzyme is past all.
void rank(std::vector<Cause>&);

/// thickens: body, but no gel that stands. sets_soft: softer than its dose promises, or thickened only by what should set it.
enum class Verdict : std::uint8_t { will_not_set, thickens, sets_soft, sets };
std::string_view name(Verdict);

/// One agent of the liquid.
struct AgentSet {
  Agent agent = Agent::gelatin;
  double percent = 0.0;  // of the liquid
  Verdict verdict = Verdict::will_not_set;
  GelClass gel_class = GelClass::none;
  std::optional<GelClass> or_else;
  std::optional<double> force_g;                     // gelatin from 2 % up
  std::optional<TemperatureSpan> sets_at, melts_at;  // gels of heat: sets above, melts below
  std::optional<Maturity> matured;                   // gelatin with a time of rest
};
struct SetResult {
  Verdict verdict = Verdict::will_not_set;
  GelClass gel_class = GelClass::none;
  std::optional<double> force_g;
  std::optional<TemperatureSpan> sets_at, melts_at;  // of the agent that carries the gel
  std::optional<Agent> carried_by;
  std::vector<AgentSet> agents;
  std::vector<Cause> causes;  // stops, weakens, tells; the furthest outside first
};
SetResult will_set(const GelState&);

/// One agent alone, its causes appended as they are found; used by will_set and by those who ask about a single agent.
AgentSet agent_sets(Agent, const GelState&, const Liquor&, std::vector<Cause>&);

/// Set and melting temperature of an agent at a dose of the liquid, where known.
std::optional<TemperatureSpan> set_temperature(Agent, units::MassFraction, double bloom);
std::optional<TemperatureSpan> melt_temperature(Agent, units::MassFraction, double bloom);

/// Whether heat has ended a fruit's protease: 85 C for 5 minutes (sources say 68 and 82 C). Freezing does not.
bool enzyme_is_dead(units::Temperature hottest, units::Duration);

}  // namespace bloomset::texture
