#include "store/schema.hpp"

#include <array>

namespace bloomset::store {
namespace {

constexpr std::int64_t application_id = 0x626C6F6D;  // "blom"

// Step k brings a file of version k to version k + 1. A step that has been released is never edited.
constexpr std::array<const char*, schema_version> steps = {R"sql(
CREATE TABLE document (
  id   INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  name TEXT NOT NULL,
  last INTEGER NOT NULL,
  gone INTEGER NOT NULL DEFAULT 0,
  UNIQUE (kind, name)
) STRICT;
CREATE TABLE revision (
  document INTEGER NOT NULL REFERENCES document (id),
  number   INTEGER NOT NULL,
  saved_ms INTEGER NOT NULL,
  gone     INTEGER NOT NULL DEFAULT 0,
  text     TEXT NOT NULL,
  PRIMARY KEY (document, number)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER revision_is_never_changed BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END;
CREATE TRIGGER revision_is_never_lost BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'a revision is never lost'); END;
CREATE VIRTUAL TABLE found USING fts5 (name, text, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3');
)sql"};

}  // namespace

base::Result<void> bring_up(const Database& database) {
  // Outside of the transaction: these are of the connection, and WAL is of the file but cannot be set inside one.
  if (auto done = database.execute("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;"); !done) return done;
  auto change = Transaction::begin(database);
  if (!change) return tl::unexpected(change.error());
  const auto version = database.number("PRAGMA user_version"), maker = database.number("PRAGMA application_id"),
             tables = database.number("SELECT count(*) FROM sqlite_schema");
  for (const auto* read : {&version, &maker, &tables})
    if (!*read) return tl::unexpected(read->error());
  if (*maker != application_id && (*tables > 0 || *version != 0))
    return base::fail(base::ErrorKind::bad_input, database.path() + ": this file belongs to another program: name a shelf, or a file that is not there yet");
  if (*version > schema_version)
    return base::fail(base::ErrorKind::bad_input, database.path() + ": this shelf is of version " + std::to_string(*version) +
                                                      ", made by a later program; this one knows " + std::to_string(schema_version) +
                                                      ": bring the program up to date");
  for (auto step = *version; step < schema_version; ++step)
    if (auto done = database.execute(steps[static_cast<std::size_t>(step)]); !done) return done;
  if (*version < schema_version) {
    const std::string marks = "PRAGMA application_id = " + std::to_string(application_id) + "; PRAGMA user_version = " + std::to_string(schema_version);
    if (auto done = database.execute(marks); !done) return done;
  }
  return change->commit();
}

}  // namespace bloomset::store
