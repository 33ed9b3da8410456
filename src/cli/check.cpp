// cli/check.cpp - `bloomset check FORMULA… or FOLDER`: findings and targets only.
//
// Larder and kit are loaded once; each formula is read, judged and forgotten, so a folder of thousands takes the memory
// of one and of what was found. Every formula that cannot be read is told on standard error; then nothing is printed
// but that, and the exit code is 2.
#include "press/check.hpp"

#include <algorithm>
#include <ostream>
#include <system_error>

#include "cli/commands.hpp"
#include "sheet/digest.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::cli {
namespace {

namespace fs = std::filesystem;

// The formulas that a path names: itself, or every *.toml below a folder, in the order of their names.
base::Result<std::vector<fs::path>> formulas_at(const fs::path& path) {
  std::error_code trouble;
  if (!fs::is_directory(path, trouble)) return std::vector<fs::path>{path};
  std::vector<fs::path> found;
  fs::recursive_directory_iterator at(path, trouble);
  for (; !trouble && at != fs::recursive_directory_iterator(); at.increment(trouble)) {
    std::error_code unseen;
    if (at->path().extension() == ".toml" && at->is_regular_file(unseen)) found.push_back(at->path());
  }
  if (trouble) return base::fail(base::ErrorKind::io, path.string() + ": this folder may not be read");
  if (found.empty()) return base::fail(base::ErrorKind::not_found, path.string() + ": there is no *.toml file in this folder");
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

int run_check(const CheckOptions& options, const Common& common, const Streams& streams) {
  base::Sources desk_sources;
  const auto desk = open_desk(common, desk_sources);
  if (!desk) return tell(desk.error(), desk_sources, streams.err);

  int unread = 0;
  std::vector<fs::path> files;
  for (const std::string& path : options.paths) {
    auto found = formulas_at(path);
    if (found)
      files.insert(files.end(), found->begin(), found->end());
    else
      unread = std::max(unread, tell(found.error(), desk_sources, streams.err));
  }

  press::CheckPrinter printer(common.json ? press::CheckPrinter::Form::json : press::CheckPrinter::Form::text, files.size());
  std::string out;
  bool stop = false;
  for (const fs::path& file : files) {
    base::Sources sources;
    const auto formula = read_formula(file, sources);
    if (!formula) {
      unread = std::max(unread, tell(formula.error(), sources, streams.err));
      continue;
    }
    const auto made = sheet::make_sheet({*formula, desk->larder, desk->kit, std::nullopt, sheet::all_texts(sources)});
    if (!made) {
      unread = std::max(unread, tell(made.error(), sources, streams.err));
      continue;
    }
    stop = stop || made->stop();
    out += printer.document(file.string(), *made, sources);
  }
  if (unread != 0) return unread;
  streams.out << out << printer.end();
  return stop ? 1 : 0;
}

}  // namespace bloomset::cli
