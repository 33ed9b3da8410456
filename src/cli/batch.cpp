// cli/batch.cpp - `bloomset batch FORMULA --part "'shaken rum'" --serves 40`: a part made to order as a bottled batch.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/batching.hpp"
#include "sheet/digest.hpp"

namespace bloomset::cli {

int run_batch(const BatchOptions& options, const Common& common, const Streams& streams) {
  base::Sources words, sources;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  QuantityReader read(words);
  const units::Volume bottle = read.volume("--bottle", options.bottle);
  if (read.faults.empty() && !(bottle.si > 0.0)) read.fault("--bottle", options.bottle, "nothing_there", "a bottle holds something", "for instance `700 mL`");
  if (!read.faults.empty()) return tell(unread(std::move(read.faults)), words, streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  const sheet::Inputs in{*formula, desk->larder, desk->kit, options.serves, sheet::all_texts(sources)};
  const bool quoted = options.part.size() > 2 && options.part.front() == '\'' && options.part.back() == '\'';
  sheet::BatchAsked asked{
      in, quoted ? options.part.substr(1, options.part.size() - 2) : options.part, whole(words.add("--part", options.part), options.part), bottle, options.hold,
      {}};
  if (options.hold) asked.place_span = whole(words.add("--hold", *options.hold), *options.hold);
  const auto made = sheet::batch(asked);
  if (!made) {
    const bool of_words = !made.error().diagnostics.empty() &&
                          (made.error().diagnostics.front().span == asked.part_span || made.error().diagnostics.front().span == asked.place_span);
    return tell(made.error(), of_words ? words : sources, streams.err);
  }
  streams.out << (common.json ? press::batch_json(*made, sources) : press::batch_text(*made));
  return made->stop ? 1 : 0;
}

}  // namespace bloomset::cli
