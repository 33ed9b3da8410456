// solve/scatter.hpp - how a drink varies when fruit, ice, tools and hands vary, and what drives it.
//
// The flowsheet is compiled once and given its variations (flow/vary.hpp); each draw moves every varying number at once and runs it to the first sip.
// Properties of the serve at service are read from every draw; of the drink with its foam collapsed, and of parts, from the first `kept_draws`; targets are
// judged on the first `judged_draws`. Causes are variance shares of the serve (of the last part, where there is no serve): all numbers that a cook
// would call the same are one cause. Things vary independently of each other: how acid and sugar of one fruit go together is not in the tables.
// Callers: the command `scatter`.
#pragma once

#include <array>

#include "flow/flowsheet.hpp"
#include "solve/experiment.hpp"
#include "solve/solve.hpp"

namespace bloomset::solve {

class Drink;

inline constexpr std::uint64_t most_draws = 100'000'000;
inline constexpr std::uint64_t judged_draws = 4096;
inline constexpr std::uint64_t most_pairs = 2048;  // of draws, for causes

struct ScatterAsked {
  Inputs in;
  Course course;  // draws 1 to most_draws
};

/// One property at one place: `serve` (at service), `merged` (all foam collapsed; only where there is foam), or a part's name in single quotes.
struct PropertySpread {
  std::string where;
  matter::Property property = matter::Property::mass_g;
  Spread spread;
};

/// How often a target is met, or a code (solve/code_holds.hpp) is not raised; `error`: two standard errors of plain random draws.
struct Hold {
  std::string target;
  double share = 0.0, error = 0.0;
  std::uint64_t draws = 0;
  std::string code = {};  // in place of a target
};

/// What one cause makes of the scatter of one property.
struct Cause {
  std::string words;  // "acid of the lime juice"
  matter::Property of = matter::Property::mass_g;
  Index index;
};

/// How much of a property's scatter each kind of ground makes by itself: widths that the document gives, published ones, remembered ones, those of
/// practice. By flow::Ground.
struct Rests {
  matter::Property of = matter::Property::mass_g;
  std::array<Index, flow::ground_count> on;
};

struct ScatterSheet {
  std::string title, place;  // place: whose causes these are
  std::uint64_t draws = 0, seed = 0, pairs = 0;
  std::vector<PropertySpread> properties;
  std::vector<Hold> holds;
  std::vector<Cause> causes;  // by property, the largest first; what makes less than a hundredth is left out
  std::vector<Rests> rests;
  std::string says;                        // what to do first; empty where nothing scatters
  std::vector<flow::Variation> variation;  // all that varied, each with its source
  std::vector<base::Finding> findings;
};

/// Errors: compile's; bad_input for draws out of range, or more that varies than there are dimensions. Nothing if it was stopped.
base::Result<std::optional<ScatterSheet>> scatter(const ScatterAsked&);

/// Rows for the first places of a drink; properties that are not there, or nothing in every draw, have none. `of`: an answer's spread, by place and property.
std::vector<PropertySpread> property_rows(const Drink&, std::size_t places, const std::vector<Spread>& of);

/// The advice of a cause: "measure the acid of the lime juice: it causes 61 % of the scatter in sourness".
std::string advice(const Cause&);

}  // namespace bloomset::solve
