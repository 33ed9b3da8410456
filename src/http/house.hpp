// http/house.hpp - what all requests share: the shelf, and the larder and kit in force.
//
// The shelf is used by one request at a time. In force are the built-in larder and kit with the shelf's documents of those kinds, added by name; they are put
// together once, and again when one of these documents has another revision, whoever saved it. A document that is not sound is left out, and said.
// Callers: the handlers, server.
#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <utility>

#include "formula/formula.hpp"
#include "kit/kit.hpp"
#include "larder/larder.hpp"
#include "store/shelf.hpp"

namespace bloomset::http {

/// Larder and kit in force. `sources` holds the texts of the shelf's documents, `left_out` the faults of those that are not in force.
struct Stock {
  larder::Larder larder;
  kit::Kit kit;
  base::Sources sources;
  std::vector<base::Diagnostic> left_out;
  std::vector<store::Entry> documents;  // it was put together from these
};

class House {
 public:
  /// Opens the shelf. Where there was none yet, one is made with the demo's formulas on it.
  static base::Result<std::unique_ptr<House>> open(const std::filesystem::path& shelf);

  /// Does something with the shelf, while nobody else does.
  auto with_shelf(auto does) {
    const std::lock_guard lock(guard_);
    return does(shelf_);
  }
  base::Result<std::shared_ptr<const Stock>> stock();
  /// What a formula borrows as `syrups.toml` is the shelf's formula `syrups`.
  formula::Borrower borrower();

  const std::string& path() const { return path_; }
  bool fresh() const { return fresh_; }  // this start made the shelf

 private:
  House(store::Shelf shelf, std::string path, bool fresh) : shelf_(std::move(shelf)), path_(std::move(path)), fresh_(fresh) {}
  std::mutex guard_;  // of the next two
  store::Shelf shelf_;
  std::shared_ptr<const Stock> stock_;
  const std::string path_;
  const bool fresh_;
};

/// Milliseconds since 1970 UTC.
std::int64_t now_ms();

}  // namespace bloomset::http
