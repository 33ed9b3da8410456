// cli/ratio.cpp - `bloomset ratio "2 : 1 : 0.75" "spirit (40 %vol)" "syrup (50 brix)" "lime juice"`: a drink told in parts.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "flow/compile.hpp"
#include "press/press.hpp"
#include "solve/proportion.hpp"

namespace bloomset::cli {
namespace {

// `2 : 1 : 0.75`.
std::vector<double> read_parts(const std::string& written, base::Sources& words, text::Faults& faults) {
  std::vector<double> parts;
  const base::Span span = whole(words.add("ratio", written), written);
  text::Cursor cursor{written, span};
  while (true) {
    while (cursor.at < written.size() && written[cursor.at] == ' ') ++cursor.at;
    const auto number = text::read_number(cursor, faults);
    if (!number) return {};
    parts.push_back(number->nominal());
    while (cursor.at < written.size() && written[cursor.at] == ' ') ++cursor.at;
    if (cursor.at == written.size()) break;
    if (written[cursor.at] != ':' || !(parts.back() > 0.0)) {
      faults.push_back({base::Severity::error, "bad_ratio", "a ratio is numbers above nothing, parted by `:`",
                        cursor.span(cursor.at, written.size() - cursor.at), std::nullopt, "for instance \"2 : 1 : 0.75\""});
      return {};
    }
    ++cursor.at;
  }
  if (!(parts.back() > 0.0))
    faults.push_back({base::Severity::error, "bad_ratio", "every part is above nothing", span, std::nullopt, "for instance \"2 : 1 : 0.75\""});
  return parts;
}

}  // namespace

int run_ratio(const RatioOptions& options, const Common& common, const Streams& streams) {
  base::Sources words;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  QuantityReader read(words);
  solve::ProportionAsked asked{desk->larder,   desk->kit,    read_parts(options.ratio, words, read.faults), {}, read.volume("--total", options.total),
                               options.target, options.exact};
  if (read.faults.empty() && !(asked.total.si > 0.0)) read.fault("--total", options.total, "nothing_there", "a drink holds something", "for instance `90 mL`");
  for (const std::string& written : options.things) {
    const base::Span span = whole(words.add("thing", written), written);
    auto thing = formula::read_thing(written, span, read.faults);
    if (!thing) continue;
    if (auto known = desk->larder.resolve(thing->thing, flow::bracket_of(*thing), span); !known)
      read.faults.insert(read.faults.end(), known.error().diagnostics.begin(), known.error().diagnostics.end());
    asked.things.push_back(std::move(*thing));
  }
  if (read.faults.empty() && asked.things.size() != asked.parts.size())
    read.fault("ratio", options.ratio, "uneven", std::to_string(asked.parts.size()) + " numbers for " + std::to_string(asked.things.size()) + " things",
               "one number a thing, in the same order");
  if (!read.faults.empty()) return tell(unread(std::move(read.faults)), words, streams.err);
  const auto made = solve::proportion(asked);
  if (!made) return tell(made.error(), words, streams.err);
  streams.out << (common.json ? press::ratio_json(*made, words) : press::ratio_text(*made));
  return made->met ? 0 : 1;
}

}  // namespace bloomset::cli
