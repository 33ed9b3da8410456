// tests/store/place.hpp - a folder of its own for one test, gone afterwards.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "store/shelf.hpp"

namespace bloomset::store::test {

class Place {
 public:
  Place() : folder_(std::filesystem::temp_directory_path() / ("bloomset-store-" + std::to_string(::getpid()) + "-" + std::to_string(count()++))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  ~Place() {
    std::error_code trouble;
    std::filesystem::remove_all(folder_, trouble);
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }

 private:
  static int& count() {
    static int made = 0;
    return made;
  }
  std::filesystem::path folder_;
};

inline Shelf open(const std::filesystem::path& path) {
  auto shelf = Shelf::open(path);
  if (!shelf) throw std::runtime_error(shelf.error().message);
  return std::move(*shelf);
}

/// The number of the revision saved; 0: a conflict or an error.
inline std::int64_t number_of(const base::Result<Saved>& saved) {
  if (!saved || !std::holds_alternative<Revision>(*saved)) return 0;
  return std::get<Revision>(*saved).number;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

}  // namespace bloomset::store::test
