#include "text/units.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include "text/fold.hpp"
#include "text/number.hpp"
#include "text/table.hpp"

namespace bloomset::text {

std::string_view embedded(std::string_view path);

namespace {

// Spellings met in kitchens that are not ours: only used for the hint, never read as a unit.
struct OtherSpelling {
  std::string_view written, ours;
};
constexpr std::array<OtherSpelling, 37> other_spellings = {{{"gram", "g"},
                                                            {"grams", "g"},
                                                            {"gr", "g"},
                                                            {"gm", "g"},
                                                            {"kilo", "kg"},
                                                            {"kilos", "kg"},
                                                            {"milligram", "mg"},
                                                            {"ounce", "oz"},
                                                            {"ounces", "oz"},
                                                            {"ozs", "oz"},
                                                            {"pound", "lb"},
                                                            {"pounds", "lb"},
                                                            {"lbs", "lb"},
                                                            {"litre", "L"},
                                                            {"litres", "L"},
                                                            {"liter", "L"},
                                                            {"liters", "L"},
                                                            {"millilitre", "mL"},
                                                            {"millilitres", "mL"},
                                                            {"milliliter", "mL"},
                                                            {"milliliters", "mL"},
                                                            {"cc", "mL"},
                                                            {"teaspoon", "tsp"},
                                                            {"teaspoons", "tsp"},
                                                            {"tsps", "tsp"},
                                                            {"tablespoon", "tbsp"},
                                                            {"tablespoons", "tbsp"},
                                                            {"tbsps", "tbsp"},
                                                            {"tbs", "tbsp"},
                                                            {"floz", "fl oz"},
                                                            {"pc", "piece"},
                                                            {"pcs", "piece"},
                                                            {"pt", "pint"},
                                                            {"qt", "quart"},
                                                            {"gal", "gallon"},
                                                            {"barspoon", "bar spoon"},
                                                            {"barspoons", "bar spoons"}}};

std::vector<Unit> load() {
  std::vector<Unit> rows;
  for (const auto& fields : table_rows(embedded("text/units.csv"))) {
    Unit u;
    u.spelling = fields[0];
    u.plural = fields[1];
    u.kind = fields[2] == "mass" ? UnitKind::mass : fields[2] == "volume" ? UnitKind::volume : UnitKind::pieces;
    for (const Measures m : {Measures::metric, Measures::us, Measures::imperial, Measures::au})
      if (fields[3] == name(m)) u.measures = m;
    std::from_chars(fields[4].data(), fields[4].data() + fields[4].size(), u.numerator);
    std::from_chars(fields[5].data(), fields[5].data() + fields[5].size(), u.denominator);
    if (u.kind == UnitKind::mass) u.denominator *= 1000;       // g → kg
    if (u.kind == UnitKind::volume) u.denominator *= 1000000;  // mL → m3
    u.source = fields[6];
    rows.push_back(std::move(u));
  }
  return rows;
}

std::vector<std::string> spellings() {
  std::vector<std::string> all;
  for (const Unit& u : units()) {
    if (std::find(all.begin(), all.end(), u.spelling) == all.end()) all.push_back(u.spelling);
  }
  return all;
}

std::string hint_for(std::string_view word) {
  if (word.starts_with('%')) return "a strength stands in the bracket behind the thing: `45 mL spirit (40 %vol)`";
  const std::string folded = fold(word);
  for (const std::string& known : spellings())
    if (fold(known) == folded) return say({"write ", ticked(known)});
  for (const OtherSpelling& other : other_spellings)
    if (other.written == folded) return say({"write ", ticked(other.ours)});
  std::string hint;
  if (word.size() > 2) hint = base::nearest(word, spellings());
  if (!hint.empty()) return say({"did you mean ", ticked(hint), "?"});
  return "count things as `2 piece …`; other units are mg, g, kg, oz, lb, mL, cL, dL, L, fl oz, cup, pint, tbsp, tsp, drop, dash, bar spoon, %";
}

}  // namespace

const std::vector<Unit>& units() {
  static const std::vector<Unit> table = load();
  return table;
}

const Unit* unit_named(std::string_view spelling, Measures measures) {
  for (const Unit& u : units())
    if ((u.spelling == spelling || (!u.plural.empty() && u.plural == spelling)) && (!u.measures || *u.measures == measures)) return &u;
  return nullptr;
}

std::string_view unit_word_at(const Cursor& cursor) {
  std::string_view longest;
  for (const Unit& u : units())
    for (const std::string_view word : {std::string_view(u.spelling), std::string_view(u.plural)}) {
      Cursor ahead = cursor;
      if (word.size() > longest.size() && accept_word(ahead, word)) longest = word;
    }
  return longest;
}

const Unit* read_unit(Cursor& cursor, Measures measures, Faults& faults) {
  const std::string_view word = unit_word_at(cursor);
  if (!word.empty()) {
    const std::size_t from = cursor.at;
    cursor.at += word.size();
    if (const Unit* unit = unit_named(word, measures)) return unit;
    std::string have;
    for (const Unit& u : units())
      if ((u.spelling == word || u.plural == word) && u.measures) have.append(have.empty() ? "" : ", ").append(name(*u.measures));
    fault(faults, cursor.span(from, word.size()), "unit_not_in_system", say({"there is no ", ticked(word), " in ", name(measures), " measures"}),
          say({"measures that have it: ", have, "; or write mL"}));
    return nullptr;
  }
  const std::string_view read = word_at(cursor);
  if (read.empty()) {
    fault(faults, cursor.span(cursor.at, 1), "unit_missing", "a unit is missing behind the number", "write for instance `g`, `mL` or `piece`");
  } else {
    fault(faults, cursor.span(cursor.at, read.size()), "unknown_unit", say({ticked(read), " is not a unit"}), hint_for(read));
  }
  return nullptr;
}

std::string_view name(Measures measures) {
  switch (measures) {
    case Measures::metric:
      return "metric";
    case Measures::us:
      return "us";
    case Measures::imperial:
      return "imperial";
    case Measures::au:
      return "au";
  }
  return "metric";
}

}  // namespace bloomset::text
