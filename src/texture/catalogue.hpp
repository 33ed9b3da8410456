// texture/catalogue.hpp - what each agent is, what it needs, what it cannot bear, and how much of it gives what.
//
// Tables of data/texture: agents (identity, diet, handling), doses by effect and kind of base, limits (temperatures, pH, spirit, sugar, salt, hardness),
// partners, legal rules (apart from practice), and gelatin as it is sold. Read once at first use from the bytes of the program; a fault in them is
// found by a test. Figures of use levels hold to +-30 %, temperatures to +-5 C. Called by every file of this module and by callers that list agents.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "texture/texture.hpp"

namespace bloomset::texture {

/// How an agent's texture comes about.
enum class Way : std::uint8_t { cooling, heating, coagulates, calcium, sugar_acid, thickens, foams, melts };
enum class Answer : std::uint8_t { no, yes, ask };

/// All views point into the program's own bytes.
struct AgentInfo {
  Agent agent = Agent::gelatin;
  std::string_view name;                       // as in the larder: "low acyl gellan"
  std::optional<matter::Component> component;  // none for egg white, starch, calcium salts, isomalt
  std::string_view e_number;                   // empty: none
  Way way = Way::cooling;
  bool reversible = true;  // its gel melts again
  Answer vegan = Answer::ask, vegetarian = Answer::ask;
  std::vector<std::string_view> allergens;  // codes of data/larder/allergens.csv; "?code": ask the maker
  std::string_view halal, kosher, frozen, feel, note, disperse, hydrate;
  std::vector<std::string_view> gives, takes;  // what a cook gains and loses with it
  Cited cited;
};
const AgentInfo& info(Agent);
/// By the catalogue's name or the component's.
std::optional<Agent> agent_named(std::string_view);
std::optional<Agent> agent_of(matter::Component);

/// Percent of the base. Gelatin: of 200 Bloom.
struct DoseBand {
  Agent agent = Agent::gelatin;
  Effect effect = Effect::soft_gel;
  std::optional<BaseKind> kind;  // nullopt: any
  double low = 0.0, nominal = 0.0, high = 0.0;
  std::string_view note;
  Cited cited;
};
/// The band for that kind of base, else the one for any; nullptr if the agent does not give the effect.
const DoseBand* dose_band(Agent, Effect, BaseKind);
std::span<const DoseBand> dose_bands();

/// What a limit is about; units in data/texture/limits.csv.
enum class Quantity : std::uint8_t {
  hydrate,
  hydrate_below,
  hydrate_time,
  set,
  melt,
  gels_above,
  melt_above_set,
  overheat,
  ph,
  ph_hot,
  abv,
  solids,
  solids_hydrating,
  hardness,
  salt,
  calcium,
  fat,
  stock
};
/// What being outside does to the set.
enum class Bearing : std::uint8_t { stops, weakens, tells };
struct Limit {
  Agent agent = Agent::gelatin;
  Quantity quantity = Quantity::hydrate;
  std::optional<double> low, nominal, high;
  Bearing beyond = Bearing::tells;
  std::string_view unit, note;
  Cited cited;
};
/// nullptr: nothing known.
const Limit* limit(Agent, Quantity);
std::span<const Limit> limits();

struct Partner {
  Agent first = Agent::xanthan, second = Agent::locust_bean;
  std::string_view does;
  std::optional<double> gels_from_percent;  // of both together; none: they do not gel by being together
  double share_of_first = 0.5;
  std::optional<double> heat_c;  // both must have seen it to gel
  Cited cited;
};
std::span<const Partner> partners();
std::vector<Partner> partners_of(Agent);

struct LegalRule {
  Agent agent = Agent::agar;
  std::string_view where, food, says;   // "US", "all other", "21 CFR 184.1115"
  std::optional<double> limit_percent;  // as served; none: prohibited
  Cited cited;
};
std::span<const LegalRule> legal_rules();
/// Published limits that `percent` as served misses: the food's own row where a rule names it, else the country's `all other`. Prohibitions of other
/// foods are not reported. `food` may be empty.
std::vector<LegalRule> missed_rules(Agent, double percent, std::string_view food = {});

/// Gelatin as it is sold, by the larder's name.
struct GelatinForm {
  std::string_view name;
  Agent agent = Agent::gelatin;
  double bloom_low = 0.0, bloom = 0.0, bloom_high = 0.0;
  std::optional<units::Mass> leaf_low, leaf, leaf_high;
  Cited cited;
};
std::span<const GelatinForm> gelatin_forms();
const GelatinForm* gelatin_form(std::string_view name);

/// What is wrong with the tables; empty, or the program is broken.
std::span<const std::string> catalogue_faults();

}  // namespace bloomset::texture
