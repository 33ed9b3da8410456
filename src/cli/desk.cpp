#include "cli/desk.hpp"

#include <algorithm>
#include <fstream>
#include <ostream>
#include <system_error>
#include <thread>

#include "text/document.hpp"

namespace bloomset::cli {
namespace {

namespace fs = std::filesystem;

// A fault of a whole borrowed file is said by the reader of formulas, at the borrow; here only the text or nothing.
std::optional<std::string> read_beside(const fs::path& folder, const std::string& file) {
  const fs::path name(file);
  if (name.is_absolute() || name.empty()) return std::nullopt;
  for (const fs::path& step : name)
    if (step == "..") return std::nullopt;
  std::error_code trouble;
  const fs::path root = fs::weakly_canonical(folder, trouble);
  const fs::path target = fs::weakly_canonical(folder / name, trouble);
  if (trouble) return std::nullopt;
  const fs::path inside = target.lexically_relative(root);
  if (inside.empty() || *inside.begin() == "..") return std::nullopt;
  auto text = read_file(target);
  if (!text) return std::nullopt;
  return std::move(*text);
}

template <class Catalogue>
base::Result<void> add_file(Catalogue& catalogue, const std::optional<std::string>& path, base::Sources& sources) {
  if (!path) return {};
  auto text = read_file(*path);
  if (!text) return tl::unexpected(std::move(text.error()));
  return catalogue.add(*path, std::move(*text), sources);
}

}  // namespace

base::Result<Desk> open_desk(const Common& common, base::Sources& sources) {
  if (common.calibration)
    return base::fail(base::ErrorKind::bad_input,
                      "--calibration: calibrations are not read by this version; leave the option out, or carry the values in --larder and --kit files");
  auto larder = larder::Larder::built_in();
  if (!larder) return tl::unexpected(std::move(larder.error()));
  auto kit = kit::Kit::built_in();
  if (!kit) return tl::unexpected(std::move(kit.error()));
  if (auto added = add_file(*larder, common.larder, sources); !added) return tl::unexpected(std::move(added.error()));
  if (auto added = add_file(*kit, common.kit, sources); !added) return tl::unexpected(std::move(added.error()));
  return Desk{std::move(*larder), std::move(*kit)};
}

base::Result<std::string> read_file(const fs::path& path) {
  std::error_code trouble;
  const fs::file_status status = fs::status(path, trouble);
  if (!fs::exists(status)) return base::fail(base::ErrorKind::not_found, path.string() + ": there is no such file");
  if (fs::is_directory(status)) return base::fail(base::ErrorKind::io, path.string() + ": this is a folder, not a file");
  std::ifstream file(path, std::ios::binary);
  if (!file) return base::fail(base::ErrorKind::io, path.string() + ": this file may not be read");
  std::string text;
  std::vector<char> piece(1U << 16U);
  while (file.read(piece.data(), static_cast<std::streamsize>(piece.size())) || file.gcount() > 0) {
    text.append(piece.data(), static_cast<std::size_t>(file.gcount()));
    if (text.size() > text::most_bytes) return base::fail(base::ErrorKind::io, path.string() + ": this file is over 4 MB, more than any document may have");
  }
  if (file.bad()) return base::fail(base::ErrorKind::io, path.string() + ": reading this file broke off");
  return text;
}

formula::Borrower beside(const fs::path& formula) {
  return [folder = formula.has_parent_path() ? formula.parent_path() : fs::path(".")](const std::string& file) { return read_beside(folder, file); };
}

base::Result<formula::Formula> read_formula(const fs::path& path, base::Sources& sources) {
  auto text = read_file(path);
  if (!text) return tl::unexpected(std::move(text.error()));
  return formula::read(path.string(), std::move(*text), sources, beside(path));
}

base::Error unread(std::vector<base::Diagnostic> faults) { return {base::ErrorKind::bad_input, "the command line cannot be read", std::move(faults)}; }

unsigned threads_here() { return std::max(1U, std::thread::hardware_concurrency()); }

int tell(const base::Error& error, const base::Sources& sources, std::ostream& err) {
  err << base::render(error.diagnostics, sources) << "bloomset: " << error.message << "\n";
  return error.kind == base::ErrorKind::internal ? 3 : 2;
}

}  // namespace bloomset::cli
