#include "cli/quantities.hpp"

namespace bloomset::cli {
base::Span whole(std::uint32_t source, const std::string& text) { return {source, 1, 1, static_cast<std::uint32_t>(text.size())}; }

namespace {

// `70J/K`: the one unit that documents of a formula never write.
std::optional<double> read_joule_per_kelvin(const std::string& text, base::Span origin, text::Faults& faults) {
  text::Cursor cursor{text, origin};
  const auto number = text::read_number(cursor, faults);
  if (!number) return std::nullopt;
  std::string_view unit = cursor.rest();
  while (!unit.empty() && unit.front() == ' ') unit.remove_prefix(1);
  while (!unit.empty() && unit.back() == ' ') unit.remove_suffix(1);
  if (unit == "J/K") return number->nominal();
  faults.push_back({base::Severity::error, "unknown_unit", "a heat capacity is written in J/K", cursor.span(cursor.at, cursor.rest().size()), std::nullopt,
                    "for instance `70 J/K`"});
  return std::nullopt;
}

}  // namespace

units::Temperature QuantityReader::temperature(const char* option, const std::string& written) {
  const auto read = text::read_temperature_c(written, whole(sources_.add(option, written), written), faults);
  return units::celsius(read ? read->nominal() : 0.0);
}

std::optional<text::Amount> QuantityReader::amount(const char* option, const std::string& written, text::AmountKind kind, const char* code, const char* message,
                                                   const char* hint) {
  text::Cursor cursor{written, whole(sources_.add(option, written), written)};
  auto read = text::read_amount(cursor, text::Measures::metric, faults);
  if (!read) return std::nullopt;
  if (read->kind != kind)
    faults.push_back({base::Severity::error, code, message, read->span, std::nullopt, hint});
  else if (cursor.at < written.size())
    faults.push_back({base::Severity::error, "unexpected_text", "nothing may stand behind the amount", cursor.span(cursor.at, written.size() - cursor.at),
                      std::nullopt, ""});
  return read;
}

units::Mass QuantityReader::mass(const char* option, const std::string& written) {
  const auto read = amount(option, written, text::AmountKind::mass, "mass_needed", "this must be a mass", "for instance `200 g`");
  return units::kilograms(read ? read->value.nominal() : 0.0);
}

units::Volume QuantityReader::volume(const char* option, const std::string& written) {
  const auto read = amount(option, written, text::AmountKind::volume, "volume_needed", "this must be a volume", "for instance `0.75 L`");
  return {read ? read->value.nominal() : 0.0};
}

units::Pressure QuantityReader::pressure(const char* option, const std::string& written) {
  constexpr double most_bar = 100.0;  // above any table-top vessel: a typing slip
  text::Cursor cursor{written, whole(sources_.add(option, written), written)};
  const auto number = text::read_number(cursor, faults);
  if (!number) return {};
  std::string_view unit = cursor.rest();
  while (!unit.empty() && unit.back() == ' ') unit.remove_suffix(1);
  const bool absolute = unit == "bar abs";
  const double bar = number->nominal();
  if (!absolute && unit != "bar" && unit != "bar gauge")
    faults.push_back({base::Severity::error, "unknown_unit", "a pressure is written in bar", cursor.span(cursor.at, cursor.rest().size()), std::nullopt,
                      "`2 bar` as a gauge shows it, or `3 bar abs`"});
  else if (const units::Pressure p = absolute ? units::bar_absolute(bar) : units::bar_gauge(bar); !(bar <= most_bar) || !(units::in_bar_gauge(p) > 0.0))
    faults.push_back({base::Severity::error, "bad_pressure", "this is no pressure of a bottle", cursor.span(0, written.size()), std::nullopt,
                      "above that of the room, and at most 100 bar"});
  return absolute ? units::bar_absolute(bar) : units::bar_gauge(bar);
}

sheet::GelatinAmount QuantityReader::gelatin(const char* option, const std::string& written) {
  const base::Span span = whole(sources_.add(option, written), written);
  text::Cursor cursor{written, span};
  text::Faults unread;
  sheet::GelatinAmount out;
  out.span = span;
  const auto number = text::read_number(cursor, unread);
  std::string_view word = cursor.rest();
  while (!word.empty() && word.back() == ' ') word.remove_suffix(1);
  if (number && (word == "leaf" || word == "leaves" || word == "sheet" || word == "sheets" || word == "piece" || word == "pieces")) {
    out.pieces = number->nominal();
    return out;
  }
  const auto read = amount(option, written, text::AmountKind::mass, "mass_needed", "gelatin is weighed or counted in leaves: a spoon of it may err by a third",
                           "for instance `4 g` or `3 leaves`");
  out.mass = units::kilograms(read ? read->value.nominal() : 0.0);
  return out;
}

units::Duration QuantityReader::duration(const char* option, const std::string& written) {
  const auto read = text::read_duration_s(written, whole(sources_.add(option, written), written), faults);
  return units::seconds(read ? read->nominal() : 0.0);
}

units::HeatCapacity QuantityReader::heat_capacity(const char* option, const std::string& written) {
  return {read_joule_per_kelvin(written, whole(sources_.add(option, written), written), faults).value_or(0.0)};
}

void QuantityReader::fault(const char* option, const std::string& written, std::string code, std::string message, std::string hint) {
  const base::Span span = whole(sources_.add(option, written), written);
  faults.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
}

}  // namespace bloomset::cli
