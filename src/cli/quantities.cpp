#include "cli/quantities.hpp"

namespace bloomset::cli {
namespace {

base::Span whole(std::uint32_t source, const std::string& text) { return {source, 1, 1, static_cast<std::uint32_t>(text.size())}; }

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

units::Mass QuantityReader::mass(const char* option, const std::string& written) {
  text::Cursor cursor{written, whole(sources_.add(option, written), written)};
  const auto amount = text::read_amount(cursor, text::Measures::metric, faults);
  if (!amount) return {};
  if (amount->kind != text::AmountKind::mass)
    faults.push_back({base::Severity::error, "mass_needed", "this must be a mass", amount->span, std::nullopt, "for instance `200 g`"});
  else if (cursor.at < written.size())
    faults.push_back(
        {base::Severity::error, "unexpected_text", "nothing may stand behind the mass", cursor.span(cursor.at, written.size() - cursor.at), std::nullopt, ""});
  return units::kilograms(amount->value.nominal());
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
