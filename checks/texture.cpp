// checks/texture.cpp - answers check points: `texture FILE` reads a JSON array of {id, op, column, input} and prints
// `table,row,column,computed` with table = op and row = id, one line an entry; what cannot be computed stays empty.
//
// It knows no expected value and no tolerance: judging is done elsewhere. Exit 0, or 2 if FILE is not such a document.
#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>

#include "text/json_reader.hpp"
#include "texture_ops.hpp"

namespace {

void print(const bloomset::text::Node& entry) {
  const auto cell = [&entry](std::string_view key) {
    const bloomset::text::Node* node = entry.find(key);
    return node == nullptr ? std::string{} : node->string;
  };
  std::printf("%s,%s,%s,", cell("op").c_str(), cell("id").c_str(), cell("column").c_str());
  const double value = bloomset::checks::answer(entry);
  if (std::isfinite(value)) std::printf("%.10g", value);
  std::printf("\n");
}

}  // namespace

int main(int count, char** words) {
  std::ifstream file;
  if (count == 2) file.open(words[1], std::ios::binary);
  if (!file.is_open()) {
    std::fprintf(stderr, "usage: texture FILE   (check points, JSON)\n");
    return 2;
  }
  std::ostringstream text;
  text << file.rdbuf();
  bloomset::base::Sources sources;
  const auto document = bloomset::text::read_json(sources.add(words[1], text.str()), sources);
  if (!document || !document->is(bloomset::text::NodeKind::array)) {
    const std::string why = document ? "not an array\n" : bloomset::base::render(document.error().diagnostics, sources);
    std::fprintf(stderr, "%s", why.c_str());
    return 2;
  }
  std::printf("table,row,column,computed\n");
  for (const auto& entry : document->items) print(entry);
  return 0;
}
