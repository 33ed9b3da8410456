// The table of routes against api/openapi.json, read as a plain document: what is written down is what is answered.
#include "http/routes.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "text/json_reader.hpp"

namespace bloomset::http {
namespace {

std::set<std::string> written_down() {
  std::ifstream file(BLOOMSET_SOURCE_DIR "/api/openapi.json", std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  base::Sources sources;
  const auto document = text::read_json(sources.add("openapi.json", text.str()), sources);
  std::set<std::string> all;
  if (!document) return all;
  for (const text::Node& path : document->find("paths")->items)
    for (const text::Node& method : path.items) {
      std::string name = method.key;
      for (char& c : name) c = static_cast<char>(c - 'a' + 'A');
      all.insert(name + " " + path.key);
    }
  return all;
}

TEST(Routes, AreWhatIsWrittenDown) {
  std::set<std::string> answered;
  for (const Route& row : routes()) EXPECT_TRUE(answered.insert(std::string(row.method) + " " + std::string(row.path)).second) << row.path << " stands twice";
  EXPECT_EQ(answered, written_down());
}

}  // namespace
}  // namespace bloomset::http
