// texture/texture.hpp - the words of this module: agents, effects, kinds of base, and how sure a figure is.
//
// Where to look: catalogue.hpp (what each agent is, needs and bears), gelatin.hpp (its laws), form.hpp (leaves, powder, stock), dose.hpp (how
// much), set.hpp (does it set, and why not), foam.hpp (what holds a siphon foam), contact.hpp (where two things meet), substitute.hpp (another
// agent for the same effect). All are pure functions on values; figures stand in data/texture, each with source and confidence. Callers: flow,
// sheet, and the commands `dose`, `gelatin` and `substitute`.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::texture {

/// In the order of data/texture/agents.csv. Some are components of matter, some are foods (egg white, starch) or salts.
enum class Agent : std::uint8_t {
  gelatin,
  fish_gelatin,
  agar,
  gellan_low_acyl,
  gellan_high_acyl,
  kappa_carrageenan,
  iota_carrageenan,
  lambda_carrageenan,
  xanthan,
  guar,
  locust_bean,
  alginate,
  calcium,
  pectin_high_methoxyl,
  pectin_low_methoxyl,
  methylcellulose,
  hpmc,
  starch,
  modified_starch,
  konjac,
  egg_white,
  lecithin,
  sucrose_ester,
  caseinate,
  gum_arabic,
  isomalt
};
inline constexpr std::size_t agent_count = static_cast<std::size_t>(Agent::isomalt) + 1;
constexpr std::size_t index(Agent a) { return static_cast<std::size_t>(a); }
constexpr bool is_gelatin(Agent a) { return a == Agent::gelatin || a == Agent::fish_gelatin; }

/// What an agent is taken for.
enum class Effect : std::uint8_t { soft_gel, firm_gel, fluid_gel, hot_gel, cold_foam, hot_foam, froth, thickened, sphere, clarify };
inline constexpr std::size_t effect_count = static_cast<std::size_t>(Effect::clarify) + 1;
/// "cold foam", as a person writes it.
std::string_view name(Effect);
std::optional<Effect> effect_named(std::string_view);
/// In a sentence: "a cold foam", "clarifying".
std::string_view called(Effect);
constexpr bool is_foam(Effect e) { return e == Effect::cold_foam || e == Effect::hot_foam || e == Effect::froth; }
constexpr bool is_gel(Effect e) { return e == Effect::soft_gel || e == Effect::firm_gel || e == Effect::fluid_gel || e == Effect::hot_gel; }

/// What the agent goes into, as far as doses differ by it.
enum class BaseKind : std::uint8_t { juice, cream, acid, spirit };
inline constexpr std::size_t base_kind_count = 4;
std::string_view name(BaseKind);
std::optional<BaseKind> base_kind_named(std::string_view);

/// What doses and limits are judged by, read off a composition once.
struct Liquor {
  double mass_kg = 0.0;
  double ph = 7.0;              // at 25 C; 7 where there is no water
  double abv_percent = 0.0;     // at 20 C
  double fat_percent = 0.0;     // of the mass, as all below
  double solids_percent = 0.0;  // dissolved, without the agents
  double salt_percent = 0.0;    // sodium, as sodium chloride
  double calcium_mg = 0.0;      // in all
  double hardness_mg_l = 0.0;   // calcium and magnesium as CaCO3, also what acids hold bound
  double protein_percent = 0.0;
};
Liquor read(const matter::Composition&);

/// Fat makes cream (15 %), then pH below 3.2 acid, then more than 10 %vol spirit; everything else counts as juice. Practice.
struct KindRead {
  BaseKind kind = BaseKind::juice;
  std::string why;           // "pH 2.4", for a person
  bool near_border = false;  // within a tenth of the border in fat or strength, or 0.2 in pH
};
KindRead base_kind(const Liquor&);

/// How far a figure is to be trusted. Low: from memory or from practice that differs between cooks.
enum class Confidence : std::uint8_t { low, medium, high };
std::string_view name(Confidence);

/// Where a figure comes from: keys of data/sources.bib parted by blanks, `practice`, or `memory: …`.
struct Cited {
  std::string_view source = "practice";
  Confidence confidence = Confidence::low;
  bool from_memory() const { return source.starts_with("memory: "); }
  bool practice() const { return source == "practice"; }
};
inline constexpr Cited usual_practice = {"practice", Confidence::medium};

/// A sentence for the sheet, with where it comes from.
struct Note {
  std::string says;
  Cited cited;
};

}  // namespace bloomset::texture
