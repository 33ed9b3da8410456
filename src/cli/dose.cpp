// cli/dose.cpp - `bloomset dose "730 g orange juice" --with "gelatin, gold leaf" --for "cold foam"`: how much of an agent, and how.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/dosing.hpp"

namespace bloomset::cli {
namespace {

std::optional<texture::Effect> effect_of(const DoseOptions& options, QuantityReader& read) {
  if (!options.effect) return std::nullopt;
  const auto effect = texture::effect_named(*options.effect);
  if (effect) return effect;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < texture::effect_count; ++i) names.emplace_back(texture::name(static_cast<texture::Effect>(i)));
  std::string all;
  for (const std::string& name : names) all.append(all.empty() ? "" : ", ").append(name);
  const std::string near = base::nearest(*options.effect, names);
  read.fault("--for", *options.effect, "unknown_effect", "an agent is taken for: " + all, near.empty() ? "" : "did you mean `" + near + "`?");
  return std::nullopt;
}

}  // namespace

int run_dose(const DoseOptions& options, const Common& common, const Streams& streams) {
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  if (!desk) return tell(desk.error(), sources, streams.err);
  QuantityReader read(sources);
  const auto effect = effect_of(options, read);
  const units::Mass scale = read.mass("--scale", options.scale);
  if (read.faults.empty() && !(scale.si > 0.0)) read.fault("--scale", options.scale, "nothing_there", "a scale shows steps above 0 g", "");
  const auto agent = sheet::read_agent(sources.add("--with", options.agent), sources, desk->larder);
  if (!agent) read.faults.insert(read.faults.end(), agent.error().diagnostics.begin(), agent.error().diagnostics.end());
  const auto mixture = sheet::read_mixture(sources.add("base", options.mixture), sources, desk->larder);
  if (!mixture || !agent || !read.faults.empty()) return tell_all(std::move(read.faults), mixture, sources, streams.err);
  const auto made = sheet::dose({*mixture, *agent, effect, scale, desk->kit});
  if (!made) return tell(made.error(), sources, streams.err);
  streams.out << (common.json ? press::dose_json(*made) : press::dose_text(*made));
  return 0;
}

}  // namespace bloomset::cli
