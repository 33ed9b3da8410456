// cli/sheet.cpp - `bloomset sheet FORMULA`: the sheet of one formula.
#include "sheet/sheet.hpp"

#include <ostream>

#include "cli/commands.hpp"
#include "cli/quantities.hpp"
#include "press/press.hpp"
#include "sheet/digest.hpp"
#include "sheet/scaling.hpp"
#include "solve/whiskers.hpp"

namespace bloomset::cli {
namespace {

// `'orange cloud'=siphon, one litre`.
base::Result<sheet::Fit> read_fit(const std::string& written, base::Sources& words) {
  sheet::Fit fit;
  fit.span = whole(words.add("--fit", written), written);
  const std::size_t equals = written.find("'=");
  if (written.empty() || written.front() != '\'' || equals == std::string::npos || equals < 2)
    return tl::unexpected(unread({{base::Severity::error, "bad_fit", "--fit reads a part in single quotes, =, and a vessel", fit.span, std::nullopt,
                                   "for instance \"'orange cloud'=siphon, one litre\""}}));
  fit.part = written.substr(1, equals - 1);
  fit.vessel = written.substr(equals + 2);
  return fit;
}

base::Result<sheet::Scaled> scaled_for(const SheetOptions& options, const sheet::Inputs& in, base::Sources& words) {
  if (options.fit) {
    const auto fit = read_fit(*options.fit, words);
    return fit ? sheet::fit(in, *fit) : tl::unexpected(fit.error());
  }
  if (options.have) {
    text::Faults faults;
    const base::Span span = whole(words.add("--have", *options.have), *options.have);
    auto thing = formula::read_take(*options.have, span, in.formula.measures, faults);
    if (!thing) return tl::unexpected(unread(std::move(faults)));
    return sheet::have(in, {std::move(*thing), span});
  }
  return sheet::Scaled{in.formula, in.serves.value_or(in.formula.serves), {}};
}

}  // namespace

int run_sheet(const SheetOptions& options, const Common& common, const Streams& streams) {
  base::Sources desk_sources, sources;
  const auto desk = open_desk(common, desk_sources);
  if (!desk) return tell(desk.error(), desk_sources, streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  const sheet::Inputs as_written{*formula, desk->larder, desk->kit, options.serves, sheet::all_texts(sources)};
  base::Sources words;
  const auto scaled = scaled_for(options, as_written, words);
  if (!scaled) return tell(scaled.error(), words, streams.err);
  auto made = sheet::make_sheet({scaled->formula, desk->larder, desk->kit, scaled->serves, as_written.formula_text});
  if (!made) return tell(made.error(), sources, streams.err);
  made->findings.insert(made->findings.end(), scaled->findings.begin(), scaled->findings.end());
  press::Whiskers whiskers;
  if (options.scatter) {
    solve::Course course;
    course.threads = threads_here();
    auto rows = solve::whiskers({scaled->formula, desk->larder, desk->kit, scaled->serves, {}}, course);
    if (!rows) return tell(rows.error(), sources, streams.err);
    whiskers = std::move(*rows);
  }
  streams.out << (common.json ? press::sheet_json(*made, sources, whiskers) : press::sheet_text(*made, scaled->formula, whiskers));
  return made->stop() ? 1 : 0;
}

}  // namespace bloomset::cli
