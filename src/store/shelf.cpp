#include "store/shelf.hpp"

#include <algorithm>

#include "store/database.hpp"
#include "store/schema.hpp"

namespace bloomset::store {
namespace {

constexpr std::size_t longest_key = 200, largest_text = 4U << 20U;

base::Result<void> judge(const Key& key, const std::string& text) {
  const auto fault = [](const std::string& words) { return base::fail(base::ErrorKind::bad_input, words); };
  if (key.kind.empty() || key.kind.size() > longest_key || !std::all_of(key.kind.begin(), key.kind.end(), [](char c) { return c >= 'a' && c <= 'z'; }))
    return fault("`" + key.kind + "` is no kind of document: a kind is of small letters, as in `formula`");
  if (key.name.empty() || key.name.size() > longest_key)
    return fault("a name has 1 to " + std::to_string(longest_key) + " bytes, this one has " + std::to_string(key.name.size()));
  if (std::any_of(key.name.begin(), key.name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }))
    return fault("a name is one line of letters, digits and signs");
  if (text.size() > largest_text) return fault(key.name + ": a document has at most 4 MB, this one has " + std::to_string(text.size()) + " bytes");
  return {};
}

// Words as a person types them, each quoted and taken as a beginning, so that no sign in them is a sign of the query's own language.
std::string query_of(const std::string& words) {
  std::string query;
  for (std::size_t at = 0; at < words.size();) {
    const auto blank = [](char c) { return static_cast<unsigned char>(c) <= 0x20; };
    while (at < words.size() && blank(words[at])) ++at;
    std::string word;
    bool says_something = false;
    for (; at < words.size() && !blank(words[at]); ++at) {
      const auto c = static_cast<unsigned char>(words[at]);
      says_something = says_something || c >= 0x80 || (c >= '0' && c <= '9') || ((c | 0x20) >= 'a' && (c | 0x20) <= 'z');
      word += words[at] == '"' ? ' ' : words[at];
    }
    if (says_something) query += "\"" + word + "\"* ";
  }
  return query;
}

Revision revision_of(const Statement& row) { return {row.integer(0), row.integer(1), row.integer(2) != 0, row.text(3)}; }

base::Result<std::optional<Revision>> revision_of(const Database& database, std::int64_t document, std::int64_t number) {
  auto statement = database.prepare("SELECT number, saved_ms, gone, text FROM revision WHERE document = ? AND number = ?");
  if (!statement) return tl::unexpected(statement.error());
  const auto row = statement->bind(document).bind(number).step();
  if (!row) return tl::unexpected(row.error());
  return *row ? std::optional(revision_of(*statement)) : std::nullopt;
}

struct Place {
  std::int64_t id = 0, last = 0;
};
// Where a document stands; id 0: nowhere.
base::Result<Place> place_of(const Database& database, const Key& key) {
  auto statement = database.prepare("SELECT id, last FROM document WHERE kind = ? AND name = ?");
  if (!statement) return tl::unexpected(statement.error());
  const auto row = statement->bind(key.kind).bind(key.name).step();
  if (!row) return tl::unexpected(row.error());
  return *row ? Place{statement->integer(0), statement->integer(1)} : Place{};
}

base::Result<std::vector<Entry>> entries_of(Statement& rows) {
  std::vector<Entry> all;
  for (;;) {
    const auto row = rows.step();
    if (!row) return tl::unexpected(row.error());
    if (!*row) return all;
    all.push_back({{rows.text(0), rows.text(1)}, rows.integer(2), rows.integer(3), rows.text(4)});
  }
}

base::Result<void> run(const Database& database, std::string_view sql, const auto&... values) {
  auto statement = database.prepare(sql);
  if (!statement) return tl::unexpected(statement.error());
  (statement->bind(values), ...);
  return statement->run();
}

tl::unexpected<base::Error> not_there(const Key& key) {
  return base::fail(base::ErrorKind::not_found, "there is no " + key.kind + " `" + key.name + "` on this shelf");
}

}  // namespace

Shelf::Shelf(Database database) : database_(std::make_unique<Database>(std::move(database))) {}
Shelf::Shelf(Shelf&&) noexcept = default;
Shelf::~Shelf() = default;

base::Result<Shelf> Shelf::open(const std::filesystem::path& path) {
  std::error_code trouble;
  if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), trouble);
  if (trouble) return base::fail(base::ErrorKind::io, path.parent_path().string() + ": this folder cannot be made (" + trouble.message() + ")");
  auto database = Database::open(path.string(), Database::Mode::read_write_create);
  if (!database) return tl::unexpected(database.error());
  if (auto up = bring_up(*database); !up) return tl::unexpected(up.error());
  return Shelf(std::move(*database));
}

base::Result<Saved> Shelf::save(const Key& key, const std::string& text, std::int64_t made_from, std::int64_t now_ms) {
  return add(key, text, false, made_from, now_ms);
}

base::Result<Saved> Shelf::remove(const Key& key, std::int64_t made_from, std::int64_t now_ms) {
  const auto there = place_of(*database_, key);
  if (!there) return tl::unexpected(there.error());
  if (there->id == 0) return not_there(key);
  return add(key, {}, true, made_from, now_ms);
}

base::Result<Saved> Shelf::add(const Key& key, const std::string& text, bool gone, std::int64_t made_from, std::int64_t now_ms) {
  auto change = Transaction::begin(*database_);
  if (!change) return tl::unexpected(change.error());
  auto saved = add_inside(key, text, gone, made_from, now_ms);
  if (!saved) return saved;
  if (auto done = change->commit(); !done) return tl::unexpected(done.error());
  return saved;
}

base::Result<Saved> Shelf::add_inside(const Key& key, const std::string& text, bool gone, std::int64_t made_from, std::int64_t now_ms) {
  if (auto sound = judge(key, text); !sound) return tl::unexpected(sound.error());
  auto place = place_of(*database_, key);
  if (!place) return tl::unexpected(place.error());
  if (place->id != 0) {
    auto last = revision_of(*database_, place->id, place->last);
    if (!last) return tl::unexpected(last.error());
    if (!*last) return base::fail(base::ErrorKind::internal, key.name + ": the last revision is not there");
    if ((*last)->gone == gone && (*last)->text == text) return Saved(std::move(**last));
    if (made_from != place->last && !(made_from == 0 && (*last)->gone)) {
      auto began = revision_of(*database_, place->id, made_from);
      if (!began) return tl::unexpected(began.error());
      return Saved(Conflict{std::move(**last), std::move(*began)});
    }
  } else {
    if (made_from != 0) return not_there(key);
    if (auto made = run(*database_, "INSERT INTO document (kind, name, last) VALUES (?, ?, 0)", key.kind, key.name); !made) return tl::unexpected(made.error());
    place->id = database_->last_row_id();
  }
  const Revision next{place->last + 1, now_ms, gone, text};
  const std::int64_t gone_mark = gone ? 1 : 0;
  auto done =
      run(*database_, "INSERT INTO revision (document, number, saved_ms, gone, text) VALUES (?, ?, ?, ?, ?)", place->id, next.number, now_ms, gone_mark, text);
  if (done) done = run(*database_, "UPDATE document SET last = ?, gone = ? WHERE id = ?", next.number, gone_mark, place->id);
  if (done) done = run(*database_, "DELETE FROM found WHERE rowid = ?", place->id);
  if (done && !gone) done = run(*database_, "INSERT INTO found (rowid, name, text) VALUES (?, ?, ?)", place->id, key.name, text);
  if (!done) return tl::unexpected(done.error());
  return Saved(next);
}

base::Result<Revision> Shelf::read(const Key& key, std::optional<std::int64_t> number) const {
  const auto place = place_of(*database_, key);
  if (!place) return tl::unexpected(place.error());
  if (place->id == 0) return not_there(key);
  auto found = revision_of(*database_, place->id, number.value_or(place->last));
  if (!found) return tl::unexpected(found.error());
  if (!*found)
    return base::fail(base::ErrorKind::not_found,
                      key.kind + " `" + key.name + "` has no revision " + std::to_string(*number) + ": they run from 1 to " + std::to_string(place->last));
  return std::move(**found);
}

base::Result<std::vector<Revision>> Shelf::history(const Key& key) const {
  const auto place = place_of(*database_, key);
  if (!place) return tl::unexpected(place.error());
  if (place->id == 0) return not_there(key);
  auto rows = database_->prepare("SELECT number, saved_ms, gone, text FROM revision WHERE document = ? ORDER BY number DESC");
  if (!rows) return tl::unexpected(rows.error());
  rows->bind(place->id);
  std::vector<Revision> all;
  for (;;) {
    const auto row = rows->step();
    if (!row) return tl::unexpected(row.error());
    if (!*row) return all;
    all.push_back(revision_of(*rows));
  }
}

base::Result<std::vector<Entry>> Shelf::list(const std::string& kind) const {
  auto rows = database_->prepare(
      "SELECT kind, name, last, saved_ms, '' FROM document JOIN revision ON document = id AND number = last "
      "WHERE document.gone = 0 AND (?1 = '' OR kind = ?1) ORDER BY kind, name");
  if (!rows) return tl::unexpected(rows.error());
  rows->bind(kind);
  return entries_of(*rows);
}

base::Result<std::vector<Entry>> Shelf::search(const std::string& words, std::size_t most) const {
  const std::string query = query_of(words);
  if (query.empty()) return std::vector<Entry>{};
  // A word in the name weighs ten times one in the text. Only the best are joined and excerpted.
  auto rows = database_->prepare(
      "SELECT kind, document.name, last, saved_ms, excerpt FROM "
      "(SELECT rowid AS id, rank AS place, snippet(found, -1, '\u00ab', '\u00bb', '\u2026', 12) AS excerpt FROM found WHERE found MATCH ? AND rank MATCH "
      "'bm25(10.0, 1.0)' ORDER BY rank LIMIT ?) "
      "JOIN document USING (id) JOIN revision ON document = document.id AND number = last ORDER BY place, document.name");
  if (!rows) return tl::unexpected(rows.error());
  rows->bind(query).bind(static_cast<std::int64_t>(most));
  return entries_of(*rows);
}

}  // namespace bloomset::store
