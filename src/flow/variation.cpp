#include "flow/variation.hpp"

#include <algorithm>
#include <charconv>

#include "text/table.hpp"

namespace bloomset::flow {

std::string_view embedded(std::string_view path);  // written by the build

namespace {

// Of a width as the table writes it, in SI. A share or a pH stays as it is.
double one_unit(std::string_view unit) { return unit == "g" ? 1e-3 : unit == "mL" ? 1e-6 : 1.0; }

VariationRow row_of_fields(const std::vector<std::string>& f) {
  VariationRow row;
  row.what = f[0];
  row.fixed = f[1] == "fixed";
  row.law = f[1] == "lognormal" ? Law::lognormal : Law::normal;
  std::from_chars(f[2].data(), f[2].data() + f[2].size(), row.width);
  row.relative = f[3] == "1";
  row.width *= one_unit(f[3]);
  row.once = f[4] == "once";
  row.cause = f[5];
  row.ground = ground_of(f[7]);
  row.source = f[7];
  return row;
}

}  // namespace

Ground ground_of(std::string_view source) {
  return source == "practice" ? Ground::practice : source.starts_with("memory: ") ? Ground::memory : Ground::published;
}

std::span<const VariationRow> variation_rows() {
  static const std::vector<VariationRow> rows = [] {
    std::vector<VariationRow> all;
    for (const auto& fields : text::table_rows(embedded("flow/variation.csv"))) all.push_back(row_of_fields(fields));
    std::sort(all.begin(), all.end(), [](const VariationRow& a, const VariationRow& b) { return a.what < b.what; });
    return all;
  }();
  return rows;
}

const VariationRow* variation_row(std::string_view what) {
  const auto rows = variation_rows();
  const auto at = std::lower_bound(rows.begin(), rows.end(), what, [](const VariationRow& row, std::string_view key) { return row.what < key; });
  return at != rows.end() && at->what == what ? &*at : nullptr;
}

}  // namespace bloomset::flow
