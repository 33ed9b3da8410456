// cli/desk.hpp - what every command needs before it can start: larder, kit, files, and how a fault is told.
//
// The only place of the program's front that reads files. A file is read once, at most 4 MB of it.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "cli/options.hpp"
#include "formula/formula.hpp"
#include "kit/kit.hpp"
#include "larder/larder.hpp"

namespace bloomset::cli {

/// Where a command prints.
struct Streams {
  std::ostream& out;
  std::ostream& err;
};

/// Larder and kit with what `--larder` and `--kit` add.
struct Desk {
  larder::Larder larder;
  kit::Kit kit;
};
base::Result<Desk> open_desk(const Common&, base::Sources&);

/// The text of a file. A missing file is not_found; a folder, a file that may not be read or is over 4 MB is io.
base::Result<std::string> read_file(const std::filesystem::path&);

/// Gives the text of what a formula borrows.
formula::Borrower beside(const std::filesystem::path& formula);
/// Reads a formula with what it borrows. Borrowed files lie beside it or in folders below: absolute names, `..` and
/// links that lead out are not followed.
base::Result<formula::Formula> read_formula(const std::filesystem::path&, base::Sources&);

/// As many threads as the machine has cores.
unsigned threads_here();

/// Tells an error with its diagnostics and answers the exit code: 3 for a fault of our own, else 2.
int tell(const base::Error&, const base::Sources&, std::ostream& err);
/// The faults of options as an error.
base::Error unread(std::vector<base::Diagnostic> faults);
/// Tells options (their faults first) and one result read beside them.
template <class T>
int tell_all(std::vector<base::Diagnostic> faults, const base::Result<T>& other, const base::Sources& sources, std::ostream& err) {
  base::Error error = unread(std::move(faults));
  if (!other) error.diagnostics.insert(error.diagnostics.end(), other.error().diagnostics.begin(), other.error().diagnostics.end());
  return tell(error, sources, err);
}

}  // namespace bloomset::cli
