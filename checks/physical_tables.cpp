#include "physical_tables.hpp"

#include <charconv>
#include <limits>

namespace bloomset::checks {
namespace {

using matter::Component;
using matter::Composition;

std::vector<std::string> fields(std::string_view line) {
  std::vector<std::string> found(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      found.emplace_back();
    else if (c != '\r')
      found.back() += c;
  }
  return found;
}

std::vector<std::string_view> lines(std::string_view text) {
  std::vector<std::string_view> found;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    if (end != 0) found.push_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  }
  return found;
}

// A salt as its ions: a chloride as metal and chloride; a salt of an acid as the acid, the metal and the hydrogen that left.
Composition salt(Component metal, double metal_count, std::optional<Component> acid, double kg) {
  const auto molar = [](Component c) { return matter::info(c).molar_mass_g_mol; };
  Composition mole;
  mole[metal] = metal_count * molar(metal);
  const double charge = metal_count * (metal == Component::calcium || metal == Component::magnesium ? 2.0 : 1.0);
  if (acid) {
    mole[*acid] = molar(*acid);
    mole[Component::salt_hydrogen] = -charge * molar(Component::salt_hydrogen);
  } else {
    mole[Component::chloride] = charge * molar(Component::chloride);
  }
  return mole * (kg / mole.total_kg());
}

}  // namespace

double Inputs::number(std::string_view column) const {
  const std::string_view cell = text(column);
  double value = 0.0;
  const auto [end, fault] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  return fault == std::errc{} && end == cell.data() + cell.size() ? value : std::numeric_limits<double>::quiet_NaN();
}

std::string_view Inputs::text(std::string_view column) const {
  const auto found = cells.find(column);
  return found == cells.end() ? std::string_view{} : std::string_view{found->second};
}

std::vector<Row> rows(std::string_view csv, std::span<const std::string_view> columns) {
  std::vector<Row> found;
  std::vector<std::string> header;
  for (const std::string_view line : lines(csv)) {
    if (header.empty()) {
      header = fields(line);
      continue;
    }
    const auto cells = fields(line);
    Row row;
    for (std::size_t i = 0; i < header.size() && i < cells.size(); ++i) {
      if (header[i] == "row") row.id = cells[i];
      for (const std::string_view column : columns)
        if (header[i] == column) row.inputs.cells.emplace(header[i], cells[i]);
    }
    if (!row.id.empty()) found.push_back(std::move(row));
  }
  return found;
}

std::optional<Composition> substance(std::string_view name, double kg) {
  if (name == "sodium chloride") return salt(Component::sodium, 1.0, std::nullopt, kg);
  if (name == "potassium chloride") return salt(Component::potassium, 1.0, std::nullopt, kg);
  if (name == "calcium chloride") return salt(Component::calcium, 1.0, std::nullopt, kg);
  if (name == "magnesium chloride") return salt(Component::magnesium, 1.0, std::nullopt, kg);
  if (name == "sodium citrate" || name == "trisodium citrate") return salt(Component::sodium, 3.0, Component::citric_acid, kg);
  if (const auto component = matter::component_named(name)) return matter::pure(*component, {kg});
  return std::nullopt;
}

std::optional<Composition> solution(std::string_view solute, double mass_percent) {
  auto made = substance(solute, mass_percent / 100.0);
  if (made) (*made)[Component::water] += 1.0 - mass_percent / 100.0;
  return made;
}

}  // namespace bloomset::checks
