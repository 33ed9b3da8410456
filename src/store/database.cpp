#include "store/database.hpp"

#include <sqlite3.h>

#include <utility>

namespace bloomset::store {
namespace {

constexpr int wait_ms = 5000;

const char* plain_words(int code) {
  switch (code & 0xFF) {
    case SQLITE_NOTADB:
      return "this is not a shelf, or it is damaged: name another file, or put back a backup";
    case SQLITE_CORRUPT:
      return "the shelf is damaged: put back a backup, or export what can still be read";
    case SQLITE_FULL:
      return "the disk is full: nothing was saved, the shelf is as it was; make room and save again";
    case SQLITE_READONLY:
      return "the shelf may not be written: nothing was saved; give the file and its folder the right to be written";
    case SQLITE_CANTOPEN:
      return "the shelf cannot be opened: the folder must be there and may be written";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "another program is writing to the shelf: nothing was saved; try again";
    case SQLITE_IOERR:
      return "the disk did not do its work: nothing was saved, the shelf is as it was";
    default:
      return "the shelf could not do this";
  }
}

}  // namespace

void Statement::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
void Database::Close::operator()(sqlite3* connection) const { sqlite3_close_v2(connection); }

Statement& Statement::bind(std::int64_t value) {
  sqlite3_bind_int64(statement_.get(), ++bound_, value);
  return *this;
}

Statement& Statement::bind(std::string_view value) {
  sqlite3_bind_text64(statement_.get(), ++bound_, value.data(), value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
  return *this;
}

base::Result<bool> Statement::step() {
  switch (sqlite3_step(statement_.get())) {
    case SQLITE_ROW:
      return true;
    case SQLITE_DONE:
      return false;
    default:
      return on_->failed();
  }
}

base::Result<void> Statement::run() {
  for (;;) {
    const auto more = step();
    if (!more) return tl::unexpected(more.error());
    if (!*more) return {};
  }
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }

std::string Statement::text(int column) const {
  const void* bytes = sqlite3_column_blob(statement_.get(), column);  // of a text: its UTF-8; before the length, as the library asks
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes == nullptr ? std::string() : std::string(static_cast<const char*>(bytes), size);
}

base::Result<Database> Database::open(const std::string& path, Mode mode) {
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_FULLMUTEX | (mode == Mode::create_new ? SQLITE_OPEN_EXCLUSIVE : 0);
  sqlite3* connection = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &connection, flags, nullptr);
  Database database(path, connection);
  if (code != SQLITE_OK) return database.failed();
  sqlite3_extended_result_codes(connection, 1);
  sqlite3_busy_timeout(connection, wait_ms);
  return database;
}

tl::unexpected<base::Error> Database::failed() const {
  const int code = connection_ ? sqlite3_extended_errcode(connection_.get()) : SQLITE_NOMEM;
  const char* said = connection_ ? sqlite3_errmsg(connection_.get()) : "out of memory";
  return base::fail((code & 0xFF) == SQLITE_BUSY ? base::ErrorKind::conflict : base::ErrorKind::io, path_ + ": " + plain_words(code) + " (" + said + ")");
}

base::Result<Statement> Database::prepare(std::string_view sql) const {
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(connection_.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr) != SQLITE_OK) return failed();
  return Statement(*this, statement);
}

base::Result<void> Database::execute(const std::string& sql) const {
  if (sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) return failed();
  return {};
}

base::Result<std::int64_t> Database::number(std::string_view sql) const {
  auto statement = prepare(sql);
  if (!statement) return tl::unexpected(statement.error());
  const auto row = statement->step();
  if (!row) return tl::unexpected(row.error());
  return *row ? statement->integer(0) : 0;
}

std::int64_t Database::last_row_id() const { return sqlite3_last_insert_rowid(connection_.get()); }

base::Result<void> Database::copy_into(const Database& other) const {
  constexpr int all_pages = -1;
  sqlite3_backup* copy = sqlite3_backup_init(other.connection_.get(), "main", connection_.get(), "main");
  if (copy == nullptr) return other.failed();
  sqlite3_backup_step(copy, all_pages);
  if (sqlite3_backup_finish(copy) != SQLITE_OK) return other.failed();
  return {};
}

base::Result<Transaction> Transaction::begin(const Database& on) {
  const auto begun = on.execute("BEGIN IMMEDIATE");
  if (!begun) return tl::unexpected(begun.error());
  return Transaction(on);
}

base::Result<void> Transaction::commit() {
  auto done = on_->execute("COMMIT");
  if (done) on_ = nullptr;
  return done;
}

Transaction::~Transaction() {
  // The library may have rolled back by itself (a full disk); a second time is then refused, and that is well.
  if (on_ != nullptr) static_cast<void>(on_->execute("ROLLBACK"));
}

}  // namespace bloomset::store
