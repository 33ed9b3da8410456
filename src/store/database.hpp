// store/database.hpp - SQLite behind two small classes: a connection and a prepared statement. Private to store.
//
// Every failure becomes an `Error` that names the file and says in plain words what happened and what to do; the library's own words follow in brackets.
// A statement is bound by position and read by column, both from 0.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace bloomset::store {

class Database;

/// One prepared statement. Texts given to `bind` are copied.
class Statement {
 public:
  Statement& bind(std::int64_t value);
  Statement& bind(std::string_view value);
  /// True: a row is there to be read; false: done.
  base::Result<bool> step();
  /// Runs to its end; rows are passed over.
  base::Result<void> run();
  std::int64_t integer(int column) const;
  std::string text(int column) const;

 private:
  friend class Database;
  struct Finalize {
    void operator()(sqlite3_stmt*) const;
  };
  Statement(const Database& on, sqlite3_stmt* statement) : on_(&on), statement_(statement) {}
  const Database* on_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  int bound_ = 0;
};

class Database {
 public:
  enum class Mode { read_write_create, create_new };
  /// Opens or makes a file. It waits up to five seconds for another writer.
  static base::Result<Database> open(const std::string& path, Mode);

  base::Result<Statement> prepare(std::string_view sql) const;
  /// Several statements without values.
  base::Result<void> execute(const std::string& sql) const;
  /// The number in the first column of the first row.
  base::Result<std::int64_t> number(std::string_view sql) const;
  std::int64_t last_row_id() const;
  /// Copies all of it into another, page by page, while others go on working.
  base::Result<void> copy_into(const Database& other) const;
  /// The error of the last call.
  tl::unexpected<base::Error> failed() const;
  const std::string& path() const { return path_; }

 private:
  struct Close {
    void operator()(sqlite3*) const;
  };
  Database(std::string path, sqlite3* connection) : path_(std::move(path)), connection_(connection) {}
  std::string path_;
  std::unique_ptr<sqlite3, Close> connection_;
};

/// A change that is made whole or not at all: undone when it goes out of scope without `commit`.
class Transaction {
 public:
  /// Takes the right to write at once, so that what is read inside is what is written over.
  static base::Result<Transaction> begin(const Database&);
  base::Result<void> commit();
  Transaction(Transaction&& other) noexcept : on_(other.on_) { other.on_ = nullptr; }
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

 private:
  explicit Transaction(const Database& on) : on_(&on) {}
  const Database* on_;
};

}  // namespace bloomset::store
