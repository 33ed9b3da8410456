// store/keeping.cpp - looking a shelf through, and copying it while it is in use.
#include <system_error>

#include "store/database.hpp"
#include "store/shelf.hpp"

namespace bloomset::store {

base::Result<std::vector<std::string>> Shelf::check() const {
  std::vector<std::string> faults;
  auto pages = database_->prepare("PRAGMA integrity_check");
  if (!pages) return tl::unexpected(pages.error());
  for (;;) {
    const auto row = pages->step();
    if (!row) return tl::unexpected(row.error());
    if (!*row) break;
    if (pages->text(0) != "ok") faults.push_back("the file is damaged: " + pages->text(0));
  }
  const auto expect_none = [&](std::string_view sql, const std::string& words) -> base::Result<void> {
    const auto count = database_->number(sql);
    if (!count) return tl::unexpected(count.error());
    if (*count != 0) faults.push_back(std::to_string(*count) + " " + words);
    return {};
  };
  auto done = expect_none("SELECT count(*) FROM pragma_foreign_key_check", "revisions belong to no document");
  if (done)
    done = expect_none(
        "SELECT count(*) FROM document WHERE last != (SELECT count(*) FROM revision WHERE document = id) OR "
        "last != (SELECT max(number) FROM revision WHERE document = id)",
        "documents lack revisions");
  if (done)
    done = expect_none("SELECT count(*) FROM document WHERE gone = (id IN (SELECT rowid FROM found))",
                       "documents are not in the index of words as they should be");
  if (!done) return tl::unexpected(done.error());
  if (auto words = database_->execute("INSERT INTO found (found) VALUES ('integrity-check')"); !words)
    faults.push_back("the index of words is damaged: " + words.error().message);
  return faults;
}

base::Result<void> Shelf::backup(const std::filesystem::path& path) const {
  std::error_code trouble;
  if (std::filesystem::exists(path, trouble)) return base::fail(base::ErrorKind::io, path.string() + ": there is a file of this name already: name another");
  // Under another name until it is whole, so that a half-made copy is never taken for one.
  const std::filesystem::path half = path.string() + ".part";
  std::filesystem::remove(half, trouble);
  base::Result<void> done;
  {
    auto copy = Database::open(half.string(), Database::Mode::create_new);
    if (!copy) return tl::unexpected(copy.error());
    done = database_->copy_into(*copy);
    if (done) done = copy->execute("PRAGMA journal_mode = DELETE");  // one file, nothing beside it
  }
  if (done) {
    std::filesystem::rename(half, path, trouble);
    if (!trouble) return {};
    done = base::fail(base::ErrorKind::io, path.string() + ": the copy could not be put in its place (" + trouble.message() + ")");
  }
  std::filesystem::remove(half, trouble);
  return done;
}

}  // namespace bloomset::store
