// cli/scatter.cpp - `bloomset scatter FORMULA`: how a drink varies, and what drives it.
#include "solve/scatter.hpp"

#include <unistd.h>

#include <ostream>

#include "cli/commands.hpp"
#include "press/press.hpp"
#include "solve/code_holds.hpp"

namespace bloomset::cli {
namespace {

// One line that is written over and over, for a person who waits at a terminal.
class ProgressLine {
 public:
  explicit ProgressLine(std::ostream& err) : err_(err), seen_(isatty(STDERR_FILENO) != 0) {}
  void operator()(double share) {
    const int percent = static_cast<int>(100.0 * share);
    if (!seen_ || percent == last_) return;
    last_ = percent;
    err_ << "\rdrawing: " << percent << " %" << std::flush;
  }
  void clear() {
    if (last_ >= 0) err_ << "\r                \r" << std::flush;
  }

 private:
  std::ostream& err_;
  bool seen_;
  int last_ = -1;
};

}  // namespace

int run_scatter(const ScatterOptions& options, const Common& common, const Streams& streams) {
  base::Sources words, sources;
  const auto desk = open_desk(common, words);
  if (!desk) return tell(desk.error(), words, streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  ProgressLine line(streams.err);
  solve::ScatterAsked asked{{*formula, desk->larder, desk->kit, options.serves, {}}, {}};
  asked.course.draws = static_cast<std::uint64_t>(options.draws);
  asked.course.seed = static_cast<std::uint64_t>(options.seed);
  asked.course.threads = threads_here();
  asked.course.progress = [&line](double share) { line(share); };
  auto made = solve::scatter(asked);
  line.clear();
  if (!made) return tell(made.error(), sources, streams.err);
  auto codes = solve::code_holds(asked);
  if (!codes) return tell(codes.error(), sources, streams.err);
  (*made)->holds.insert((*made)->holds.end(), codes->begin(), codes->end());
  streams.out << (common.json ? press::scatter_json(**made, sources) : press::scatter_text(**made));
  return 0;
}

}  // namespace bloomset::cli
