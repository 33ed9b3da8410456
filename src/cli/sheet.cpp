// cli/sheet.cpp - `bloomset sheet FORMULA`: the sheet of one formula.
#include "sheet/sheet.hpp"

#include <ostream>

#include "cli/commands.hpp"
#include "press/press.hpp"

namespace bloomset::cli {

int run_sheet(const SheetOptions& options, const Common& common, const Streams& streams) {
  base::Sources desk_sources, sources;
  const auto desk = open_desk(common, desk_sources);
  if (!desk) return tell(desk.error(), desk_sources, streams.err);
  const auto formula = read_formula(options.formula, sources);
  if (!formula) return tell(formula.error(), sources, streams.err);
  const auto made = sheet::make_sheet({*formula, desk->larder, desk->kit, options.serves, text_of(sources)});
  if (!made) return tell(made.error(), sources, streams.err);
  streams.out << (common.json ? press::sheet_json(*made, sources) : press::sheet_text(*made, *formula));
  return made->stop() ? 1 : 0;
}

}  // namespace bloomset::cli
