// formula/target_reader.cpp - a wish on a property: `serve.abv 8-11 %`, `'orange cloud'.volume <= 500 mL`,
// `serve.abv at 10 min >= 8 %`.
//
// WHERE is `serve` or a part in single quotes. The table below holds every name, the wire key that it is judged by, and
// the units it may be written in. The value is kept in the wire key's own unit (for `fill`: a fraction).
#include <array>
#include <cmath>

#include "formula/reading.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"
#include "units/quantity.hpp"

namespace bloomset::formula {
namespace {

enum class In { percent, fraction, brix, grams, millilitres, grams_per_litre, celsius, bare, kg_m3, mpa_s, volumes, kcal, bar, hours };

struct TargetName {
  std::string_view name, key;
  In in;
};
constexpr std::array<TargetName, 28> target_table = {{{"abv", "abv_percent", In::percent},
                                                      {"abv_all_melted", "abv_percent_all_melted", In::percent},
                                                      {"ethanol", "ethanol_g", In::grams},
                                                      {"sugar", "sugar_percent", In::percent},
                                                      {"sugars", "sugars_g", In::grams},
                                                      {"brix", "brix_percent", In::brix},
                                                      {"brix_read", "brix_read_percent", In::brix},
                                                      {"sweetness", "sweetness_percent_sucrose", In::percent},
                                                      {"acidity", "titratable_acidity_g_100g_citric", In::percent},
                                                      {"acidity_g_l", "titratable_acidity_g_l_citric", In::grams_per_litre},
                                                      {"ph", "ph_25c", In::bare},
                                                      {"temperature", "temperature_c", In::celsius},
                                                      {"freezing_point", "freezing_point_c", In::celsius},
                                                      {"water_activity", "water_activity", In::bare},
                                                      {"density", "density_kg_m3", In::kg_m3},
                                                      {"viscosity", "viscosity_mpa_s", In::mpa_s},
                                                      {"co2", "co2_volumes", In::volumes},
                                                      {"mass", "mass_g", In::grams},
                                                      {"volume", "volume_ml", In::millilitres},
                                                      {"ice", "ice_g", In::grams},
                                                      {"foam", "foam_volume_ml", In::millilitres},
                                                      {"overrun", "overrun_percent", In::percent},
                                                      {"headroom", "headroom_ml", In::millilitres},
                                                      {"energy", "energy_kcal", In::kcal},
                                                      {"cost", "cost", In::bare},
                                                      {"fill", "fill_fraction", In::fraction},
                                                      {"pressure", "pressure_at_service_bar_gauge", In::bar},
                                                      {"ready_after", "ready_after_h", In::hours}}};

const TargetName* target_named(std::string_view name) {
  for (const TargetName& row : target_table)
    if (row.name == name) return &row;
  return nullptr;
}

struct Scale {
  std::int64_t by = 1, over = 1;
  bool fahrenheit = false;
};

std::string_view units_of(In in) {
  switch (in) {
    case In::percent:
    case In::fraction:
      return "%";
    case In::brix:
      return "brix or %";
    case In::grams:
      return "g, or another mass";
    case In::millilitres:
      return "mL, or another volume";
    case In::grams_per_litre:
      return "g/L";
    case In::celsius:
      return "C or F";
    case In::bare:
      return "no unit";
    case In::kg_m3:
      return "kg/m3 or g/mL";
    case In::mpa_s:
      return "mPa s";
    case In::volumes:
      return "volumes";
    case In::kcal:
      return "kcal";
    case In::bar:
      return "bar (as a gauge shows it)";
    case In::hours:
      return "min, h or d";
  }
  return "";
}

// One of the fixed unit words of a property, or a mass or volume of the document's measures.
std::optional<Scale> accept_unit(text::Cursor& cursor, In in, text::Measures measures) {
  const auto word = [&](std::string_view w) { return text::accept_word(cursor, w); };
  const auto listed = [&](text::UnitKind kind, std::int64_t per_si) -> std::optional<Scale> {
    const std::string_view spelling = text::unit_word_at(cursor);
    const text::Unit* unit = text::unit_named(spelling, measures);
    if (!unit || unit->kind != kind) return std::nullopt;
    cursor.at += spelling.size();
    return Scale{unit->numerator, unit->denominator / per_si, false};
  };
  switch (in) {
    case In::percent:
      if (word("%vol") || word("%")) return Scale{};
      break;
    case In::fraction:
      if (word("%")) return Scale{1, 100, false};
      break;
    case In::brix:
      if (word("brix") || word("%")) return Scale{};
      break;
    case In::grams:
      return listed(text::UnitKind::mass, 1000);
    case In::millilitres:
      return listed(text::UnitKind::volume, 1000000);
    case In::grams_per_litre:
      if (word("g/L")) return Scale{};
      break;
    case In::celsius:
      text::accept_word(cursor, "°");
      if (word("C")) return Scale{};
      if (word("F")) return Scale{5, 9, true};
      break;
    case In::bare:
      return Scale{};
    case In::kg_m3:
      if (word("kg/m3")) return Scale{};
      if (word("g/mL")) return Scale{1000, 1, false};
      break;
    case In::mpa_s:
      if (word("mPa s")) return Scale{};
      break;
    case In::volumes:
      if (word("volumes")) return Scale{};
      break;
    case In::kcal:
      if (word("kcal")) return Scale{};
      break;
    case In::bar:
      if (word("bar gauge") || word("bar")) return Scale{};
      break;
    case In::hours:
      if (word("min")) return Scale{1, 60, false};
      if (word("h")) return Scale{};
      if (word("d")) return Scale{24, 1, false};
      break;
  }
  return std::nullopt;
}

double scaled(const text::Number& n, const Scale& scale) { return scale.fahrenheit ? (n.value - 32.0) * 5.0 / 9.0 : n.times(scale.by, scale.over); }

// `serve.` or `'part'.`, then the property's name.
bool read_where(text::Cursor& cursor, Target& target, const TargetName*& row, Reading& reading) {
  text::skip_blanks(cursor);
  if (cursor.rest().starts_with("'")) {
    const std::size_t from = cursor.at, end = cursor.text.find('\'', from + 1);
    if (end == std::string_view::npos) {
      reading.fault(cursor.span(from, cursor.text.size() - from), "open_quote", "this single quote is not closed");
      return false;
    }
    target.of_serve = false;
    target.part = std::string(cursor.text.substr(from + 1, end - from - 1));
    if (!check_name(target.part, cursor.span(from + 1, end - from - 1), "a part", reading)) return false;
    cursor.at = end + 1;
  } else if (!text::accept_word(cursor, "serve")) {
    const std::string_view word = text::word_at(cursor);
    reading.fault(cursor.span(cursor.at, std::max<std::size_t>(word.size(), 1)), "bad_target",
                  "a target begins with `serve.` or with a part in single quotes and a point",
                  "for instance `serve.abv 8-11 %` or `'orange cloud'.volume <= 500 mL`");
    return false;
  }
  if (!cursor.rest().starts_with(".")) {
    reading.fault(cursor.span(cursor.at, 1), "bad_target", "a point and a property must follow", "for instance `serve.abv 8-11 %`");
    return false;
  }
  ++cursor.at;
  const std::string_view name = text::word_at(cursor);
  row = target_named(name);
  if (!row) {
    const std::string near = base::nearest(name, target_names());
    std::string hint = near.empty() ? "properties:" : text::say({"did you mean ", text::ticked(near), "?"});
    if (near.empty())
      for (const TargetName& known : target_table) hint.append(&known == target_table.data() ? " " : ", ").append(known.name);
    reading.fault(cursor.span(cursor.at, std::max<std::size_t>(name.size(), 1)), "unknown_property",
                  text::say({text::ticked(name), " is not a property of a target"}), hint);
    return false;
  }
  cursor.at += name.size();
  target.property = std::string(name);
  text::skip_blanks(cursor);
  return true;
}

bool read_moment(text::Cursor& cursor, Target& target, Reading& reading) {
  if (!text::accept_word(cursor, "at")) return true;
  const std::size_t from = cursor.at;
  const auto number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
  if (!number) return false;
  if (number->band || !text::accept_word(cursor, "min") || number->low.value > 1440.0) {
    reading.fault(cursor.span(from, cursor.at - from), "bad_target", "a moment is one number of minutes behind the last pour, at most 1440",
                  "for instance `serve.abv at 10 min >= 8 %`");
    return false;
  }
  if (!target.of_serve) {
    reading.fault(cursor.span(from, cursor.at - from), "bad_target", "only the serve has a course over time", "leave `at … min` out for a part");
    return false;
  }
  target.at_minute = number->low.value;
  text::skip_blanks(cursor);
  return true;
}

std::optional<Wish> accept_wish(text::Cursor& cursor) {
  const auto accept = [&](std::string_view sign) {
    if (!cursor.rest().starts_with(sign)) return false;
    cursor.at += sign.size();
    return true;
  };
  if (accept(">=") || accept("≥")) return Wish::at_least;
  if (accept("<=") || accept("≤")) return Wish::at_most;
  if (accept("=")) return Wish::equal;
  return std::nullopt;
}

}  // namespace

const std::vector<std::string>& target_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const TargetName& row : target_table) all.emplace_back(row.name);
    return all;
  }();
  return names;
}

std::string_view target_key(std::string_view target_name) {
  const TargetName* row = target_named(target_name);
  return row ? row->key : std::string_view{};
}

std::string_view target_unit(std::string_view target_name) {
  const TargetName* row = target_named(target_name);
  if (!row) return {};
  switch (row->in) {
    case In::percent:
    case In::fraction:
      return "%";
    case In::brix:
      return "brix";
    case In::grams:
      return "g";
    case In::millilitres:
      return "mL";
    case In::grams_per_litre:
      return "g/L";
    case In::celsius:
      return "C";
    case In::bare:
      return "";
    case In::kg_m3:
      return "kg/m3";
    case In::mpa_s:
      return "mPa s";
    case In::volumes:
      return "volumes";
    case In::kcal:
      return "kcal";
    case In::bar:
      return "bar";
    case In::hours:
      return "h";
  }
  return {};
}

std::optional<Target> read_target_text(text::Cursor cursor, text::Measures measures, text::Faults& faults) {
  Reading reading{faults, cursor.origin.source, measures};
  Target target;
  target.text = std::string(cursor.text);
  target.span = cursor.origin;
  const TargetName* row = nullptr;
  if (!read_where(cursor, target, row, reading) || !read_moment(cursor, target, reading)) return std::nullopt;
  const auto wish = accept_wish(cursor);
  text::skip_blanks(cursor);
  if (!wish && (cursor.rest().starts_with("<") || cursor.rest().starts_with(">"))) {
    reading.fault(cursor.span(cursor.at, 1), "bad_target", "the signs of a target are >=, <= and =");
    return std::nullopt;
  }
  const auto number = text::read_numbers(cursor, text::Sign::may_be_negative, faults);
  if (!number) return std::nullopt;
  if (wish && number->band) {
    reading.fault(number->span, "bad_target", "behind >=, <= or = stands one number", "a band is written without a sign: `8-11 %`");
    return std::nullopt;
  }
  const std::size_t unit_at = cursor.at;
  const auto scale = accept_unit(cursor, row->in, measures);
  if (!scale) {
    reading.fault(cursor.span(cursor.at, std::max<std::size_t>(cursor.rest().size(), 1)), "unknown_unit",
                  text::say({text::ticked(target.property), " is written in ", units_of(row->in)}));
    return std::nullopt;
  }
  target.unit = std::string(cursor.text.substr(unit_at, cursor.at - unit_at));
  target.one_unit = static_cast<double>(scale->by) / static_cast<double>(scale->over);
  target.fahrenheit = scale->fahrenheit;
  text::skip_blanks(cursor);
  if (cursor.at < cursor.text.size()) {
    reading.fault(cursor.span(cursor.at, cursor.text.size() - cursor.at), "unexpected_text",
                  text::say({text::ticked(cursor.rest()), " must not stand behind a target"}),
                  text::say({text::ticked(target.property), " is written in ", units_of(row->in)}));
    return std::nullopt;
  }
  target.low = scaled(number->low, *scale);
  target.high = scaled(number->high, *scale);
  target.wish = wish ? *wish : number->band ? Wish::within : Wish::equal;
  const bool is_temperature = row->in == In::celsius;
  if (!std::isfinite(target.high) || std::abs(target.low) > 1e9 || std::abs(target.high) > 1e9 ||
      (is_temperature && (target.low < -273.15 || target.high > 300.0)) || (!is_temperature && row->in != In::millilitres && target.low < 0.0)) {
    reading.fault(number->span, "out_of_range", text::say({"no ", text::ticked(target.property), " can be so"}));
    return std::nullopt;
  }
  // One end is kept where the wish has one, so that equal wishes compare equal.
  if (target.wish == Wish::at_least) target.high = 0.0;
  if (target.wish == Wish::at_most) target.low = 0.0;
  return target;
}

std::optional<Target> read_target(const text::Node& node, Reading& reading) {
  if (!node.is(text::NodeKind::string)) {
    text::fault_kind(reading.faults, node, "a target as text", "for instance \"serve.abv 8-11 %\"");
    return std::nullopt;
  }
  return read_target_text(text::cursor_of(node), reading.measures, reading.faults);
}

}  // namespace bloomset::formula
