// sheet/mixture.hpp - any mixture without a document: its properties, and what ice makes of it.
//
// `40 g ethanol + 60 g water`: amounts and things parted by ` + `. Things are bought things of the larder, with their
// bracket, or components by their pure name (matter/component.hpp); volumes are measured at 20 C. A mixture is
// read in equilibrium: below its freezing point ice stands in it and the properties are of what stays liquid.
// Called by the commands `mix` and `chill`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "base/result.hpp"
#include "larder/larder.hpp"
#include "matter/ice.hpp"
#include "matter/properties.hpp"

namespace bloomset::sheet {

/// What a mixture's text comes to.
struct Mixture {
  matter::Composition masses;
  struct Line {
    std::string thing;
    double mass_g = 0.0;
  };
  std::vector<Line> lines;
  std::vector<std::string> assumptions;   // the larder's, each once
  units::Volume poured;                   // at 20 C, its things side by side: as one measures it into a bottle
  std::vector<std::string> live_enzymes;  // raw fruit in it whose protease has seen no heat
};

/// Reads a mixture; `source` is the index of its text in `sources`. Errors: bad_input with every fault at its place.
/// Made things, percents, ice, and pieces of things without a mass a piece are refused.
base::Result<Mixture> read_mixture(std::uint32_t source, const base::Sources& sources, const larder::Larder&);

struct MixtureSheet {
  Mixture mixture;
  matter::Values values;
  std::vector<base::Finding> findings;
};
/// In equilibrium at a temperature.
MixtureSheet mix(const Mixture&, units::Temperature at);

/// Ice for a mixture, and when to stop.
struct Chilling {
  units::Temperature at = units::celsius(20.0);     // of the mixture before
  units::Mass ice;                                  // its surface water included
  units::Mass surface_water;                        // at most `ice`
  units::Temperature ice_at = units::celsius(0.0);  // at most 0 C
  units::HeatCapacity vessel;
  units::Temperature vessel_at = units::celsius(20.0);
  matter::LeftoverIce leftover = matter::LeftoverIce::inert;
  std::optional<units::Temperature> to;  // neither `to` nor `time`: to equilibrium
  std::optional<units::Duration> time;
  units::Duration time_constant;  // of the act, with `time`
};

struct ChillSheet {
  Mixture mixture;
  matter::Values before, values;            // values: of the result
  std::optional<double> asked_c;            // where an end was asked for
  double melted_g = 0.0, ice_left_g = 0.0;  // melted: surface water included
  double dilution_percent_of_initial_mass = 0.0;
  double dilution_percent_of_initial_volume = 0.0;  // water at 20 C over the initial liquid at 20 C
  std::vector<base::Finding> findings;
};
ChillSheet chill(const Mixture&, const Chilling&);

}  // namespace bloomset::sheet
