// cli/substitute.cpp - `bloomset substitute FORMULA --agent gelatin`: another agent for the same effect.
#include <ostream>

#include "cli/commands.hpp"
#include "press/press.hpp"
#include "sheet/replacing.hpp"

namespace bloomset::cli {

int run_substitute(const SubstituteOptions& options, const Common& common, const Streams& streams) {
  base::Sources words, sources;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  const auto agent = sheet::read_agent(words.add("--agent", options.agent), words, desk->larder);
  if (!agent) return tell(agent.error(), words, streams.err);
  std::optional<texture::Agent> wanted;
  if (options.wanted) {
    const auto named = sheet::read_agent(words.add("--for", *options.wanted), words, desk->larder);
    if (!named) return tell(named.error(), words, streams.err);
    wanted = named->form.agent;
  }
  if (wanted == agent->form.agent)
    return tell({base::ErrorKind::bad_input, "--for names the same agent as --agent: `bloomset gelatin` exchanges one gelatin for another", {}}, words,
                streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  const sheet::Inputs in{*formula, desk->larder, desk->kit, std::nullopt, {}};
  const auto made = sheet::replace_agent({in, agent->form.agent, wanted, options.vegan, options.vegetarian, options.part, common.json && !options.part});
  if (!made) return tell(made.error(), sources, streams.err);
  streams.out << (common.json ? press::substitute_json(*made, sources) : press::substitute_text(*made));
  return 0;
}

}  // namespace bloomset::cli
