#include "solve/scatter.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "flow/compile.hpp"
#include "flow/vary.hpp"
#include "sheet/probe.hpp"
#include "solve/drink.hpp"
#include "solve/tally.hpp"

namespace bloomset::solve {
namespace {

using matter::Property;

constexpr double too_little = 0.01;     // of a property's scatter, to be listed
constexpr double share_of_work = 0.25;  // that properties take of the whole, for progress: about

// Targets are judged as a sheet judges them, on the first draws of the same sequence.
std::optional<std::vector<Hold>> judge(const ScatterAsked& asked, const flow::Flowsheet& flow) {
  const std::vector<formula::Target>& targets = asked.in.formula.targets;
  std::vector<Hold> holds;
  if (targets.empty()) return holds;
  const std::uint64_t draws = std::min(asked.course.draws, judged_draws);
  const sheet::Probe probe(asked.in, flow, targets);
  const bool later = std::any_of(targets.begin(), targets.end(), [](const formula::Target& t) { return t.at_minute.value_or(0.0) > 0.0; });
  std::vector<std::vector<double>> values(threads_of(asked.course), std::vector<double>(targets.size()));
  const auto met = tally(flow, asked.course, draws, later ? flow::Until::last_moment : flow::Until::service, targets.size(),
                         [&](unsigned thread, const flow::Batch<1>& batch, std::span<std::uint64_t> yes) {
                           probe.read(batch, values[thread]);
                           for (std::size_t t = 0; t < targets.size(); ++t) yes[t] += sheet::met(targets[t], values[thread][t]) ? 1U : 0U;
                         });
  if (!met) return std::nullopt;
  for (std::size_t t = 0; t < targets.size(); ++t) {
    holds.push_back(hold_of((*met)[t], draws));
    holds.back().target = targets[t].text;
  }
  return holds;
}

void add_causes(ScatterSheet& sheet, const Drink& drink, const std::vector<Index>& indices) {
  const auto properties = Drink::properties();
  for (std::size_t p = 0; p < properties.size(); ++p) {
    const Index* of = &indices[p * drink.groups];
    std::vector<Cause> causes;
    for (std::size_t g = 0; g < drink.causes(); ++g)
      if (of[g].total >= too_little) causes.push_back({drink.groups_of()[g].words, properties[p], of[g]});
    std::stable_sort(causes.begin(), causes.end(), [](const Cause& a, const Cause& b) { return a.index.total > b.index.total; });
    if (causes.empty()) continue;
    sheet.causes.insert(sheet.causes.end(), causes.begin(), causes.end());
    Rests rests{properties[p], {}};
    std::copy_n(of + drink.causes(), flow::ground_count, rests.on.begin());
    sheet.rests.push_back(rests);
  }
}

// Of strength, sweetness and sourness the one that scatters most for its size: its largest cause.
const Cause* first_to_mend(const ScatterSheet& sheet) {
  const Cause* found = nullptr;
  double most = 0.0;
  for (const Property p : {Property::abv_percent, Property::sugar_percent, Property::titratable_acidity_g_100g_citric}) {
    const auto row =
        std::find_if(sheet.properties.begin(), sheet.properties.end(), [&](const PropertySpread& s) { return s.where == sheet.place && s.property == p; });
    const auto cause = std::find_if(sheet.causes.begin(), sheet.causes.end(), [&](const Cause& c) { return c.of == p; });
    if (row == sheet.properties.end() || cause == sheet.causes.end()) continue;
    const double relative = row->spread.deviation / std::abs(row->spread.mean);
    if (relative > most) found = &*cause, most = relative;
  }
  return found;
}

// What the answer leans on: how much of the advised property's scatter comes from widths without a published source.
base::Finding grounds_of(const ScatterSheet& sheet, const Cause& cause) {
  const auto rests = std::find_if(sheet.rests.begin(), sheet.rests.end(), [&](const Rests& r) { return r.of == cause.of; });
  const auto percent = [&](flow::Ground ground) {
    return text::print_number(std::round(100.0 * std::clamp(rests->on[static_cast<std::size_t>(ground)].first, 0.0, 1.0))) + " %";
  };
  base::Finding finding;
  finding.code = base::Code::assumption;
  finding.where = {"", 0, 0, std::string(matter::key(cause.of)), {}};
  finding.says = "of this scatter " + percent(flow::Ground::practice) + " rests on widths of common practice and " + percent(flow::Ground::memory) +
                 " on publications named from memory";
  finding.why = "fruit, hands and tools of another kitchen vary otherwise: bands in the document (`10-14 s`) and measured values in brackets take their place";
  finding.source = "data/flow/variation.csv, data/larder/variability.csv";
  return finding;
}

std::string_view sense_of(Property p) {
  return p == Property::abv_percent                        ? "strength"
         : p == Property::sugar_percent                    ? "sweetness"
         : p == Property::titratable_acidity_g_100g_citric ? "sourness"
                                                           : matter::key(p);
}

bool can_be_measured(std::string_view cause) {
  for (const std::string_view word : {"acid of", "sugar of", "pH of", "strength of", "size of", "wetness of", "temperature of", "amount of"})
    if (cause.starts_with(word)) return true;
  return false;
}

}  // namespace

std::vector<PropertySpread> property_rows(const Drink& drink, std::size_t places, const std::vector<Spread>& of) {
  const auto is_nothing = [](const Spread& s) { return std::isnan(s.p50) || (s.p05 == 0.0 && s.p95 == 0.0); };
  std::vector<PropertySpread> rows;
  const auto properties = Drink::properties();
  for (std::size_t place = 0; place < places; ++place)
    for (std::size_t p = 0; p < properties.size(); ++p)
      if (const Spread& s = of[place * properties.size() + p]; !is_nothing(s)) rows.push_back({drink.places()[place].where, properties[p], s});
  return rows;
}

std::string advice(const Cause& cause) {
  return (can_be_measured(cause.words) ? "measure the " : "mind the ") + cause.words + ": it causes " +
         text::print_number(std::round(100.0 * std::clamp(cause.index.first, 0.0, 1.0))) + " % of the scatter in " + std::string(sense_of(cause.of));
}

base::Result<std::optional<ScatterSheet>> scatter(const ScatterAsked& asked) {
  if (asked.course.draws < 1 || asked.course.draws > most_draws)
    return base::fail(base::ErrorKind::bad_input,
                      "the number of draws must be 1 to " + std::to_string(most_draws) + "; read " + std::to_string(asked.course.draws));
  auto flow = flow::compile(asked.in.formula, asked.in.larder, asked.in.kit, asked.in.serves);
  std::vector<base::Diagnostic> faults = sheet::target_faults(asked.in.formula);
  if (!flow) {
    base::Error error = std::move(flow.error());
    error.diagnostics.insert(error.diagnostics.end(), faults.begin(), faults.end());
    return tl::unexpected<base::Error>(std::move(error));
  }
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "a target speaks of what the document does not have", std::move(faults));
  flow::vary(*flow, asked.in.larder);
  const Drink drink(*flow);
  if (drink.places().empty()) return base::fail(base::ErrorKind::bad_input, "the document makes nothing liquid, so nothing can be read", {});
  if (2 * drink.numbers > SobolPoints::most_dimensions())
    return base::fail(base::ErrorKind::bad_input,
                      std::to_string(drink.numbers) + " numbers vary here; at most " + std::to_string(SobolPoints::most_dimensions() / 2) + " can be drawn",
                      {});

  ScatterSheet sheet;
  sheet.title = asked.in.formula.title;
  sheet.place = drink.places().front().where;
  sheet.draws = asked.course.draws;
  sheet.seed = asked.course.seed;
  sheet.pairs = std::clamp(std::bit_floor(asked.course.draws), std::uint64_t{lanes}, most_pairs);
  const auto stretch = [&](double from, double to) {
    Course course = asked.course;
    if (asked.course.progress) course.progress = [&asked, from, to](double share) { asked.course.progress(from + share * (to - from)); };
    return course;
  };
  const std::vector<Spread> spread = spreads(drink, stretch(0.0, share_of_work));
  auto holds = judge(asked, *flow);
  Course pairs = stretch(share_of_work, 1.0);
  pairs.draws = sheet.pairs;
  const std::vector<Index> of = indices(drink, pairs);
  if (asked.course.stop.stop_requested() || spread.empty() || !holds) return std::nullopt;
  sheet.properties = property_rows(drink, drink.places().size(), spread);
  sheet.holds = std::move(*holds);
  add_causes(sheet, drink, of);
  sheet.variation = std::move(flow->variation);
  if (const Cause* cause = first_to_mend(sheet)) {
    sheet.says = advice(*cause);
    sheet.findings.push_back(grounds_of(sheet, *cause));
  }
  return sheet;
}

}  // namespace bloomset::solve
