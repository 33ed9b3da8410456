#include "solve/measures.hpp"

#include <array>
#include <cmath>

#include "text/units.hpp"

namespace bloomset::solve {
namespace {

using text::Amount;
using text::AmountKind;
using Steps = std::array<double, fineness_levels>;

// What a bar or a kitchen measures by: a jigger's marks, a scale's step, a spoon's halves. All practice.
Steps steps_of(const Amount& amount, double in_unit) {
  if (amount.kind == AmountKind::pieces || amount.unit == "dash" || amount.unit == "drop") return {1.0, 1.0, 1.0};
  if (amount.kind == AmountKind::percent || amount.kind == AmountKind::percent_total) return in_unit >= 5.0 ? Steps{1.0, 0.5, 0.1} : Steps{0.1, 0.05, 0.01};
  if (amount.unit == "mL" || amount.unit == "g") {
    if (in_unit >= 200.0) return {10.0, 5.0, 1.0};
    if (in_unit >= 20.0) return amount.unit == "mL" ? Steps{2.5, 1.0, 0.5} : Steps{1.0, 0.5, 0.1};
    if (in_unit >= 5.0) return amount.unit == "mL" ? Steps{1.0, 0.5, 0.25} : Steps{0.5, 0.1, 0.05};
    return {0.1, 0.05, 0.01};
  }
  if (amount.unit == "L" || amount.unit == "kg") return {0.01, 0.005, 0.001};
  return {0.25, 0.125, 0.0625};  // ounces, cups, spoons
}

double unit_si(const Amount& amount, text::Measures measures) {
  if (amount.kind == AmountKind::pieces) return 1.0;
  if (amount.kind == AmountKind::percent || amount.kind == AmountKind::percent_total) return 0.01;
  const text::Unit* unit = text::unit_named(amount.unit, measures);
  return unit != nullptr ? static_cast<double>(unit->numerator) / static_cast<double>(unit->denominator) : 1.0;
}

// Through its text, so that the amount computed with is the very one that will be read.
Amount written(const Amount& like, double in_unit, int digits, text::Measures measures) {
  Amount out = like;
  const double si = in_unit * unit_si(like, measures);
  out.value = {si, si};
  text::Faults faults;
  const std::string number = text::print_number(in_unit, digits) + " " + like.unit;
  text::Cursor cursor{number, {}};
  if (const auto read = text::read_amount(cursor, measures, faults); read && read->kind == like.kind) out.value = read->value;
  return out;
}

}  // namespace

Amount practical(const Amount& amount, double times, int fineness, text::Measures measures) {
  const double in_unit = amount.value.nominal() * times / unit_si(amount, measures);
  const double step = steps_of(amount, in_unit)[static_cast<std::size_t>(fineness)];
  const double whole = std::round(in_unit / step);
  return written(amount, (in_unit > 0.0 ? std::max(whole, 1.0) : whole) * step, 9, measures);
}

Amount scaled(const Amount& amount, double times, text::Measures measures) {
  return written(amount, amount.value.nominal() * times / unit_si(amount, measures), 15, measures);
}

}  // namespace bloomset::solve
