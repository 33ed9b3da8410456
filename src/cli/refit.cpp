// cli/refit.cpp - `bloomset refit FORMULA --swap "spirit (40 %vol)=spirit (50 %vol)"`: the same drink with other things.
#include "solve/refit.hpp"

#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/digest.hpp"

namespace bloomset::cli {
namespace {

std::string trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return std::string(text);
}

// Each side becomes a source of its own, so that a fault points into it. No name holds an equals sign.
std::optional<solve::Swap> read_swap(const std::string& written, base::Sources& words, text::Faults& faults) {
  const std::size_t equals = written.find('=');
  const std::string from = trimmed(std::string_view(written).substr(0, equals));
  const std::string to = equals == std::string::npos ? "" : trimmed(std::string_view(written).substr(equals + 1));
  if (!from.empty() && !to.empty()) return solve::Swap{words.add("--swap", from), words.add("--swap", to)};
  faults.push_back({base::Severity::error, "bad_swap", "--swap reads a thing, =, and another thing", whole(words.add("--swap", written), written), std::nullopt,
                    "for instance \"spirit (40 %vol)=spirit (50 %vol)\""});
  return std::nullopt;
}

}  // namespace

int run_refit(const RefitOptions& options, const Common& common, const Streams& streams) {
  base::Sources words, sources;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  text::Faults faults;
  std::vector<solve::Swap> swaps;
  for (const std::string& written : options.swaps)
    if (const auto swap = read_swap(written, words, faults)) swaps.push_back(*swap);
  if (!faults.empty()) return tell(unread(std::move(faults)), words, streams.err);
  const auto made = solve::refit({{*formula, desk->larder, desk->kit, options.serves, sheet::all_texts(sources)},
                                  options.formula,
                                  std::string(sources.text(formula->source)),
                                  beside(options.formula),
                                  words,
                                  std::move(swaps),
                                  options.exact});
  if (!made) return tell(made.error(), words, streams.err);
  streams.out << (common.json ? press::balance_json(*made, sources) : press::balance_text(*made, formula->title));
  return made->met ? 0 : 1;
}

}  // namespace bloomset::cli
