// cli/chill.cpp - `bloomset chill MIXTURE --ice 200g`: how cold, how much melts, how strong after.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "flow/acts.hpp"
#include "press/press.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::cli {
namespace {

// The act's own approach to equilibrium, from flow's table of acts.
units::Duration time_constant(const ChillOptions& options, QuantityReader& read) {
  const std::string by = options.by.value_or("shake");
  const auto act = formula::act_named(by);
  const flow::ActRow* row = act ? flow::row_of(*act) : nullptr;
  if (row != nullptr && row->contact_time_s > 0.0) return units::seconds(row->contact_time_s);
  read.fault("--by", by, "unknown_act", "a drink meets ice by shake, stir or blend", base::nearest(by, {"shake", "stir", "blend"}));
  return units::seconds(1.0);
}

sheet::Chilling chilling(const ChillOptions& options, QuantityReader& read) {
  sheet::Chilling how;
  how.at = read.temperature("--at", options.at);
  how.ice = read.mass("--ice", options.ice);
  how.ice_at = read.temperature("--ice-at", options.ice_at);
  how.surface_water = read.mass("--surface-water", options.surface_water);
  how.vessel = read.heat_capacity("--vessel-heat", options.vessel_heat);
  how.leftover = options.leftover_ice == "follows" ? matter::LeftoverIce::follows : matter::LeftoverIce::inert;
  if (options.to) how.to = read.temperature("--to", *options.to);
  if (options.for_how_long) {
    how.time = read.duration("--for", *options.for_how_long);
    how.time_constant = time_constant(options, read);
  }
  if (!read.faults.empty()) return how;
  if (units::in_celsius(how.ice_at) > 0.0) read.fault("--ice-at", options.ice_at, "too_warm", "ice is at most 0 C", "");
  if (how.to && *how.to > how.at)
    read.fault("--to", *options.to, "too_warm", "ice makes nothing warmer: this is above --at", "a temperature at most that of the mixture");
  if (how.surface_water > how.ice)
    read.fault("--surface-water", options.surface_water, "too_much", "there is more water on the ice than --ice weighs", "--ice includes its surface water");
  return how;
}

}  // namespace

int run_chill(const ChillOptions& options, const Common& common, const Streams& streams) {
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  if (!desk) return tell(desk.error(), sources, streams.err);
  QuantityReader read(sources);
  const sheet::Chilling how = chilling(options, read);
  const auto mixture = sheet::read_mixture(sources.add("mixture", options.mixture), sources, desk->larder);
  if (!mixture || !read.faults.empty()) return tell_all(std::move(read.faults), mixture, sources, streams.err);
  const sheet::ChillSheet made = sheet::chill(*mixture, how);
  streams.out << (common.json ? press::chill_json(made) : press::chill_text(made));
  return 0;
}

}  // namespace bloomset::cli
