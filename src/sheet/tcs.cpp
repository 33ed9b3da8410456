#include "sheet/tcs.hpp"

#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

struct Bound {
  double value = 0.0;
  bool belongs = true;
};
struct Cell {
  TcsTable table = TcsTable::anything_else;
  std::optional<Bound> aw_min, aw_max, ph_min, ph_max;
  TcsClass result = TcsClass::unknown;
};

std::optional<Bound> bound(const std::string& value, const std::string& belongs) {
  if (value.empty()) return std::nullopt;
  double at = 0.0;
  std::from_chars(value.data(), value.data() + value.size(), at);
  return Bound{at, belongs == "1"};
}

const std::vector<Cell>& cells() {
  static const std::vector<Cell> all = [] {
    std::vector<Cell> made;
    for (const auto& row : text::table_rows(embedded("sheet/tcs.csv"))) {
      Cell cell;
      cell.table = row[0] == "A" ? TcsTable::heated_and_packaged : TcsTable::anything_else;
      cell.aw_min = bound(row[3], row[4]);
      cell.aw_max = bound(row[5], row[6]);
      cell.ph_min = bound(row[7], row[8]);
      cell.ph_max = bound(row[9], row[10]);
      cell.result = row[11] == "non_tcs" ? TcsClass::non_tcs : TcsClass::product_assessment;
      made.push_back(cell);
    }
    return made;
  }();
  return all;
}

bool above(double x, const std::optional<Bound>& low) { return !low || x > low->value || (low->belongs && x == low->value); }
bool below(double x, const std::optional<Bound>& high) { return !high || x < high->value || (high->belongs && x == high->value); }

// 4.2 that was computed, and lies one bit beside 4.2, must not change its cell.
double judged(double value) { return std::round(value * 1e6) / 1e6; }

}  // namespace

TcsClass tcs_class(double ph, double water_activity, TcsTable table) {
  if (!(ph >= 0.0 && ph <= 14.0 && water_activity >= 0.0 && water_activity <= 1.0)) return TcsClass::unknown;
  const double x = judged(ph), aw = judged(water_activity);
  for (const Cell& cell : cells())
    if (cell.table == table && above(aw, cell.aw_min) && below(aw, cell.aw_max) && above(x, cell.ph_min) && below(x, cell.ph_max)) return cell.result;
  return TcsClass::unknown;
}

}  // namespace bloomset::sheet
