#include "solve/proportion.hpp"

#include <numeric>

#include "solve/measures.hpp"

namespace bloomset::solve {
namespace {

constexpr double most_water = 9.0, least_water = 1e-3;  // of the total: thinner is no drink; a document takes no amount of nothing (practice)

formula::Take poured(const formula::Take& thing, double m3, bool exact) {
  const text::Amount one{text::AmountKind::volume, {m3, m3}, "mL", {}};
  formula::Take take = thing;
  take.amount = exact ? scaled(one, 1.0, text::Measures::metric) : practical(one, 1.0, fineness_levels - 1, text::Measures::metric);
  return take;
}

formula::Take water() {
  formula::Take take;
  take.thing = "water";
  return take;
}

std::string title_of(const std::vector<double>& parts) {
  std::string title;
  for (const double part : parts) title.append(title.empty() ? "" : " : ").append(text::print_number(part));
  return title;
}

}  // namespace

base::Result<ProportionSheet> proportion(const ProportionAsked& asked) {
  formula::Formula formula;
  formula.title = title_of(asked.parts);
  formula::Part part;
  part.name = proportion_part;
  formula::Step combine;
  const double sum = std::accumulate(asked.parts.begin(), asked.parts.end(), 0.0);
  for (std::size_t i = 0; i < asked.parts.size(); ++i) combine.takes.push_back(poured(asked.things[i], asked.total.si * asked.parts[i] / sum, asked.exact));
  if (asked.wish) combine.takes.push_back(poured(water(), 0.5 * asked.total.si, asked.exact));
  part.steps.push_back(std::move(combine));
  formula.parts.push_back(std::move(part));

  ProportionSheet out;
  out.formula = formula::write(formula);
  const auto read = [&](base::Sources& sources) { return formula::read("ratio", out.formula, sources, {}); };
  base::Sources sources;
  auto made = read(sources);
  if (!made) return tl::unexpected(std::move(made.error()));
  if (asked.wish) {
    const std::string written = std::string("'") + proportion_part + "'." + *asked.wish;
    text::Faults faults;
    auto target = formula::read_target_text({written, {0, 1, 1, static_cast<std::uint32_t>(written.size())}}, text::Measures::metric, faults);
    if (!target) return base::fail(base::ErrorKind::bad_input, "--target: " + faults.front().message + ": `" + written + "`", {});
    Vary vary;
    vary.thing = water();
    vary.written = "water";
    vary.within = text::Amount{text::AmountKind::volume, {least_water * asked.total.si, most_water * asked.total.si}, "mL", {}};
    auto found = balance({.in = {*made, asked.larder, asked.kit, {}, {}}, .document = out.formula, .targets = {*target}, .vary = {vary}, .exact = asked.exact});
    if (!found) return tl::unexpected(std::move(found.error()));
    out.met = found->met;
    out.targets = std::move(found->targets);
    out.formula = std::move(found->formula);
  }
  base::Sources final_sources;
  made = read(final_sources);
  if (!made) return tl::unexpected(std::move(made.error()));
  auto sheet = sheet::make_sheet({*made, asked.larder, asked.kit, {}, out.formula});
  if (!sheet) return tl::unexpected(std::move(sheet.error()));
  out.drink = std::move(sheet->parts.front());
  out.findings = std::move(sheet->findings);
  return out;
}

}  // namespace bloomset::solve
