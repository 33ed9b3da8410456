// cli/shelf.cpp - `bloomset shelf check|backup|export|import`: the stored collection, looked through, copied, and moved to and from a folder.
#include "store/shelf.hpp"

#include <chrono>
#include <cstdlib>
#include <ostream>

#include "cli/commands.hpp"
#include "cli/shelf_path.hpp"
#include "press/json.hpp"

namespace bloomset::cli {
namespace {

namespace fs = std::filesystem;

std::int64_t now_ms() { return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch()).count(); }

text::Json document(const fs::path& path) {
  text::Json out = press::document();
  out.set("shelf", path.string());
  return out;
}

// What a command did, in words and as members of its document.
struct Told {
  std::string words;
  text::Json document;
  bool sound = true;
};

base::Result<Told> check(const store::Shelf& shelf, const fs::path& path) {
  const auto faults = shelf.check();
  if (!faults) return tl::unexpected(faults.error());
  const auto all = shelf.list();
  if (!all) return tl::unexpected(all.error());
  Told told{"", document(path), faults->empty()};
  told.document.set("documents", all->size());
  told.document.set("faults", text::Json::array_of(*faults, [](const std::string& fault) { return text::Json(fault); }));
  told.words =
      path.string() + ": " + std::to_string(all->size()) + (all->size() == 1 ? " document" : " documents") + (faults->empty() ? ", all in order\n" : "\n");
  for (const std::string& fault : *faults) told.words += "  " + fault + "\n";
  if (!faults->empty()) told.words += "Put back a backup, or export what can still be read.\n";
  return told;
}

base::Result<Told> go(store::Shelf& shelf, const fs::path& path, const ShelfOptions& options) {
  const fs::path place = options.place;
  Told told{"", document(path)};
  switch (options.act) {
    case ShelfAct::check:
      return check(shelf, path);
    case ShelfAct::backup:
      if (auto done = shelf.backup(place); !done) return tl::unexpected(done.error());
      told.words = "copied to " + options.place + "\n";
      told.document.set("backup", options.place);
      break;
    case ShelfAct::export_to: {
      const auto files = shelf.export_to(place);
      if (!files) return tl::unexpected(files.error());
      told.words = std::to_string(*files) + (*files == 1 ? " document" : " documents") + " written below " + options.place + "\n";
      told.document.set("folder", options.place).set("documents", *files);
      break;
    }
    case ShelfAct::import_from: {
      const auto taken = shelf.import_from(place, now_ms());
      if (!taken) return tl::unexpected(taken.error());
      told.words = std::to_string(taken->added) + " new, " + std::to_string(taken->changed) + " changed, " + std::to_string(taken->same) + " as they were\n";
      told.document.set("folder", options.place).set("added", taken->added).set("changed", taken->changed).set("same", taken->same);
      break;
    }
  }
  return told;
}

}  // namespace

base::Result<fs::path> shelf_path(const std::optional<std::string>& named) {
  if (named) return fs::path(*named);
  const auto folder = [](const char* variable) -> fs::path {
    const char* value = std::getenv(variable);
    return value != nullptr && *value == '/' ? value : "";
  };
  if (const fs::path data = folder("XDG_DATA_HOME"); !data.empty()) return data / "bloomset" / "bloomset.shelf";
  if (const fs::path home = folder("HOME"); !home.empty()) return home / ".local" / "share" / "bloomset" / "bloomset.shelf";
  return base::fail(base::ErrorKind::bad_input, "no home folder is known to keep the shelf in: name a file with --shelf FILE");
}

int run_shelf(const ShelfOptions& options, const Common& common, const Streams& streams) {
  const base::Sources none;
  const auto path = shelf_path(options.shelf);
  if (!path) return tell(path.error(), none, streams.err);
  std::error_code trouble;
  if (options.act != ShelfAct::import_from && !fs::exists(*path, trouble))
    return tell(
        {base::ErrorKind::not_found, path->string() + ": there is no shelf here: `bloomset shelf import FOLDER` makes one, --shelf FILE names another", {}},
        none, streams.err);
  auto shelf = store::Shelf::open(*path);
  if (!shelf) return tell(shelf.error(), none, streams.err);
  const auto told = go(*shelf, *path, options);
  if (!told) return tell(told.error(), none, streams.err);
  text::Json out = told->document;
  streams.out << (common.json ? press::printed(out.set("findings", press::findings_json({}, none))) : told->words);
  return told->sound ? 0 : 2;
}

}  // namespace bloomset::cli
