// cli/gelatin.cpp - `bloomset gelatin "3 leaves" --from "gelatin, gold leaf" --to "gelatin, powder"`: one gelatin for another.
#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/gelatin_swap.hpp"

namespace bloomset::cli {

int run_gelatin(const GelatinOptions& options, const Common& common, const Streams& streams) {
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  if (!desk) return tell(desk.error(), sources, streams.err);
  QuantityReader read(sources);
  const sheet::GelatinAmount amount = read.gelatin("amount", options.amount);
  const std::uint32_t from_at = sources.add("--from", options.from), to_at = sources.add("--to", options.to);
  const auto from = sheet::read_agent(from_at, sources, desk->larder), to = sheet::read_agent(to_at, sources, desk->larder);
  if (!from) read.faults.insert(read.faults.end(), from.error().diagnostics.begin(), from.error().diagnostics.end());
  if (!from || !to || !read.faults.empty()) return tell_all(std::move(read.faults), to, sources, streams.err);
  const auto span = [](std::uint32_t source, const std::string& text) { return base::Span{source, 1, 1, static_cast<std::uint32_t>(text.size())}; };
  const auto made = sheet::swap_gelatin(amount, *from, span(from_at, options.from), *to, span(to_at, options.to));
  if (!made) return tell(made.error(), sources, streams.err);
  streams.out << (common.json ? press::gelatin_json(*made) : press::gelatin_text(*made));
  return 0;
}

}  // namespace bloomset::cli
