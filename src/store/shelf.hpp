// store/shelf.hpp - the stored collection of documents: every text that was ever saved, found again by name, by word and by number.
//
// A document is a text with a kind (`formula`, `larder`, `kit`, …: data, not a table each) and a name, unique in its kind. What a text means is not known
// here. Every save is a new revision; nothing is overwritten. A save names the revision it was made from: if another has been saved meanwhile, it is
// refused with both texts, so that no edit is silently lost. When `save` has answered, the text is on the disk (write-ahead log, full synchronization).
// One file, one shelf; several programs may have it open. A `Shelf` may be used by one thread at a time.
//
// shelf.cpp saves and finds, exchange.cpp goes to and from folders, keeping.cpp checks and backs up, schema.hpp holds the tables.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/result.hpp"

namespace bloomset::store {

class Database;

/// Which document: kind and name, 1 to 200 bytes of UTF-8 each; a kind is of small letters.
struct Key {
  std::string kind, name;
  friend bool operator==(const Key&, const Key&) = default;
};

/// One text that was saved. `number` counts from 1 in each document; `saved_ms` is milliseconds since 1970 UTC.
struct Revision {
  std::int64_t number = 0, saved_ms = 0;
  bool gone = false;  // the document was removed by it; its text is empty
  std::string text;
};

/// Somebody else was first: what stands now, and what both began from (nothing: a new document).
struct Conflict {
  Revision theirs;
  std::optional<Revision> began_from;
};
using Saved = std::variant<Revision, Conflict>;

/// A line of a listing or of a search. `excerpt`: the words found, between «».
struct Entry {
  Key key;
  std::int64_t number = 0, saved_ms = 0;
  std::string excerpt;
};

/// What an import did with the files it found.
struct Imported {
  std::size_t added = 0, changed = 0, same = 0;
};

class Shelf {
 public:
  /// Opens a shelf, or makes one where no file is yet (its folder too); an older one is brought up to date.
  static base::Result<Shelf> open(const std::filesystem::path&);
  Shelf(Shelf&&) noexcept;
  ~Shelf();

  /// Saves a text made from revision `made_from` (0: a document that is not there, or was removed). A text equal to the last one is no new revision.
  /// Texts of at most 4 MB. Errors: bad_input for a key or a size out of bounds, io with the reason.
  base::Result<Saved> save(const Key&, const std::string& text, std::int64_t made_from, std::int64_t now_ms);
  /// Removes a document: a last revision says so, and all earlier ones stay.
  base::Result<Saved> remove(const Key&, std::int64_t made_from, std::int64_t now_ms);
  /// The last revision, or that of a number. Errors: not_found (a removed document's last revision is found, and says `gone`).
  base::Result<Revision> read(const Key&, std::optional<std::int64_t> number = std::nullopt) const;
  /// All revisions, the last first.
  base::Result<std::vector<Revision>> history(const Key&) const;

  /// Documents that are there, by name; of one kind, or of all ("").
  base::Result<std::vector<Entry>> list(const std::string& kind = {}) const;
  /// Documents that hold all these words or beginnings of words, in name or text; letters without accents and case; the best first. No word: nothing.
  base::Result<std::vector<Entry>> search(const std::string& words, std::size_t most = 50) const;

  /// Looks through the whole file. An empty list: all is in order; else one sentence a fault.
  base::Result<std::vector<std::string>> check() const;
  /// Copies the shelf, as it is at this moment, into a file that is not there yet.
  base::Result<void> backup(const std::filesystem::path&) const;
  /// Writes the last texts as KIND/NAME.toml into a folder that is not there yet; it appears whole or not at all. The number of files.
  base::Result<std::size_t> export_to(const std::filesystem::path& folder) const;
  /// Takes every KIND/NAME.toml of a folder in, all of them or none. A file that differs from the last text becomes its next revision.
  base::Result<Imported> import_from(const std::filesystem::path& folder, std::int64_t now_ms);

 private:
  explicit Shelf(Database);
  base::Result<Saved> add(const Key&, const std::string& text, bool gone, std::int64_t made_from, std::int64_t now_ms);
  base::Result<Saved> add_inside(const Key&, const std::string& text, bool gone, std::int64_t made_from, std::int64_t now_ms);
  std::unique_ptr<Database> database_;
};

}  // namespace bloomset::store
