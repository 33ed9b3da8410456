// cli/balance.cpp - `bloomset balance FORMULA --target "serve.abv 14 %"`: amounts that meet targets, or which targets contradict.
#include "solve/balance.hpp"

#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/digest.hpp"

namespace bloomset::cli {
int run_balance(const BalanceOptions& options, const Common& common, const Streams& streams) {
  base::Sources words, sources;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  const auto formula = read_formula(options.formula, sources);
  text::Faults faults;
  const text::Measures measures = formula ? formula->measures : text::Measures::metric;
  std::vector<formula::Target> targets;
  for (const std::string& written : options.targets)
    if (auto target = formula::read_target_text({written, whole(words.add("--target", written), written)}, measures, faults))
      targets.push_back(std::move(*target));
  std::vector<solve::Vary> vary;
  for (const std::string& written : options.vary)
    if (auto one = solve::read_vary(written, whole(words.add("--vary", written), written), measures, faults)) vary.push_back(std::move(*one));
  if (!faults.empty()) return tell(unread(std::move(faults)), words, streams.err);
  if (!formula) return tell(formula.error(), sources, streams.err);
  const solve::BalanceAsked asked{.in = {*formula, desk->larder, desk->kit, options.serves, sheet::all_texts(sources)},
                                  .document = std::string(sources.text(formula->source)),
                                  .targets = std::move(targets),
                                  .vary = std::move(vary),
                                  .exact = options.exact};
  const auto made = solve::balance(asked);
  if (!made) return tell(made.error(), asked.targets.empty() ? sources : words, streams.err);
  streams.out << (common.json ? press::balance_json(*made, sources) : press::balance_text(*made, formula->title));
  return made->met ? 0 : 1;
}

}  // namespace bloomset::cli
