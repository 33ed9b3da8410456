// cli/mix.cpp - `bloomset mix "40 g ethanol + 60 g water"`: properties of any mixture.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::cli {

int run_mix(const MixOptions& options, const Common& common, const Streams& streams) {
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  if (!desk) return tell(desk.error(), sources, streams.err);
  QuantityReader read(sources);
  const units::Temperature at = read.temperature("--at", options.at);
  const auto mixture = sheet::read_mixture(sources.add("mixture", options.mixture), sources, desk->larder);
  if (!mixture || !read.faults.empty()) return tell_all(std::move(read.faults), mixture, sources, streams.err);
  const sheet::MixtureSheet made = sheet::mix(*mixture, at);
  streams.out << (common.json ? press::mixture_json(made) : press::mixture_text(made));
  return 0;
}

}  // namespace bloomset::cli
