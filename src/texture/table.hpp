// texture/table.hpp - rows of an embedded CSV table, for this module's catalogue only.
//
// Lines that begin with # are comment, the first other line is the header. A field in double quotes may hold commas but no quote, so that every
// field is a view into the bytes of the program. Numbers may be missing. A row of another width than the header, or a number that is none, is
// a fault: faults are collected and a test holds that there are none.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "texture/texture.hpp"

namespace bloomset::texture {

/// The bytes of a file under data/, empty if it is not embedded.
std::string_view embedded(std::string_view path);

struct TableRow {
  std::vector<std::string_view> fields;
  std::size_t line = 0;
};
struct Table {
  std::string_view path;
  std::vector<std::string_view> header;
  std::vector<TableRow> rows;
  std::vector<std::string> faults;
};
Table read_table(std::string_view path);

/// One row read field by field by the header's names; what is wrong is added to the list of faults.
class Fields {
 public:
  Fields(const Table& table, const TableRow& row, std::vector<std::string>& faults) : table_(table), row_(row), faults_(faults) {}
  std::string_view text(std::string_view column) const;
  std::optional<double> maybe(std::string_view column) const;
  double number(std::string_view column) const;
  Confidence confidence() const;
  Cited cited() const { return {text("source"), confidence()}; }
  void fault(const std::string& what) const;

 private:
  const Table& table_;
  const TableRow& row_;
  std::vector<std::string>& faults_;
};

}  // namespace bloomset::texture
