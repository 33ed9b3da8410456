#include "larder/larder.hpp"

#include <cmath>
#include <map>
#include <mutex>
#include <unordered_map>
#include <utility>

#include "larder/compose.hpp"
#include "larder/larder_file.hpp"
#include "larder/qualify.hpp"
#include "larder/row.hpp"
#include "matter/density.hpp"
#include "matter/refraction.hpp"
#include "text/document.hpp"
#include "text/fold.hpp"

namespace bloomset::larder {

struct Larder::Rows {
  std::vector<Row> rows;
  std::unordered_map<std::string, std::size_t> by_name;  // folded name or other name → row
  std::string fingerprint;

  // Making up a fruit repeats the charge balance some dozens of times: what was asked once is kept.
  mutable std::mutex made_lock;
  // Everything that was ever asked of a larder that lives long, as one does in a server, must not stay.
  static constexpr std::size_t most_made = 4096;
  mutable std::map<std::pair<std::size_t, std::string>, Composed> made;

  void name(const Row& row, std::size_t at) {
    by_name[text::fold(row.name)] = at;
    for (const std::string& other : row.also) by_name.emplace(text::fold(other), at);
  }
  void put(Row row) {
    const auto known = by_name.find(text::fold(row.name));
    // Overriding by another of a row's names overrides the row: formulas written with either name find the new one.
    const std::size_t at = known == by_name.end() ? rows.size() : known->second;
    name(row, at);
    if (at == rows.size()) {
      rows.push_back(std::move(row));
    } else {
      rows[at] = std::move(row);
    }
  }
  const Row* find(std::string_view name) const {
    const auto at = by_name.find(text::fold(name));
    return at == by_name.end() ? nullptr : &rows[at->second];
  }
  std::vector<std::string> all_names() const {
    std::vector<std::string> names;
    for (const Row& row : rows) {
      names.push_back(row.name);
      names.insert(names.end(), row.also.begin(), row.also.end());
    }
    return names;
  }
};

namespace {

using matter::Composition;

// The true Brix at which a refractometer would show what was read: reading and Brix differ by little, so each pass brings a digit or more.
Composed compose_as_read(Row row, double read) {
  row.brix = read;
  Composed made = compose(row);
  for (int pass = 0; pass < 60 && made.problem.empty(); ++pass) {
    const double miss = read - matter::brix_read_percent(matter::solutes(made.per_kg));
    if (!std::isfinite(miss)) return {{}, "a refractometer cannot show that"};
    if (std::abs(miss) < 1e-10) break;
    *row.brix += miss;
    if (!(*row.brix > 0.0 && *row.brix < 95.0)) return {{}, "a refractometer cannot show that"};
    made = compose(row);
  }
  return made;
}

Composed make_up(const Qualified& q) { return q.brix_read ? compose_as_read(q.row, *q.brix_read) : compose(q.row); }

double model_density(const Composition& per_kg) { return units::density(units::kilograms(1.0), matter::liquid_volume(per_kg, units::celsius(20.0))).si; }

// All that is dissolved becomes that much more, water gives way: for rows that are listed as they are, and so have no Brix to be made up to.
Composition with_more_dissolved(const Composition& per_kg, double share_more) {
  Composition moved = per_kg;
  for (std::size_t i = matter::index(matter::Component::sucrose); i <= matter::index(matter::last_agent); ++i) moved.kg[i] *= 1.0 + share_more;
  moved[matter::Component::water] += per_kg.total_kg() - moved.total_kg();
  return moved;
}

// The thing with one property moved.
Composed moved_by(Qualified q, const Composition& per_kg, const std::string& property, double value, double by) {
  if (property == "brix" && !(q.row.brix && (q.row.make == Make::fruit || q.row.make == Make::solids)) && !q.brix_read)
    return {with_more_dissolved(per_kg, by / value), {}};
  if (property == "brix" && q.brix_read) *q.brix_read += by;
  if (property == "brix" && !q.brix_read) q.row.brix = value + by;
  if (property == "acid") (q.row.acid_percent ? q.row.acid_percent : q.row.acid) = value + by;
  if (property == "ph") q.row.ph = value + by;
  if (property == "strength") q.row.strength = value + by;
  return make_up(q);
}

std::optional<Deviation> deviation(const Qualified& q, const Composition& per_kg, const Variability& varies) {
  const std::string& property = varies.property;
  std::optional<double> value;
  if (property == "brix") value = q.brix_read ? q.brix_read : q.row.brix ? q.row.brix : std::optional(100.0 * dissolved_share(per_kg));
  if (property == "acid") value = q.row.acid_percent ? q.row.acid_percent : q.row.acid;
  if (property == "ph") value = q.row.ph;
  if (property == "strength") value = q.row.strength;
  if (property == "mass_a_piece") value = q.row.piece;
  if (property == "wet") value = q.row.wet;
  if (property == "bloom") value = q.row.bloom;
  if (!value || !(*value > 0.0)) return std::nullopt;
  Deviation out{property, *value, varies.relative ? varies.width * *value : varies.width, {}, 0.0, varies.source};
  if (property == "mass_a_piece" || property == "wet" || property == "bloom") return out;
  const auto side = [&](double sign) {
    const Composed made = moved_by(q, per_kg, property, *value, sign * out.width);
    return made.problem.empty() ? std::optional(made.per_kg) : std::nullopt;
  };
  const std::optional<Composition> above = side(1.0), below = side(-1.0);
  if (!above && !below) return std::nullopt;
  const double span = above && below ? 2.0 : 1.0;  // where one side cannot be made up, the other tells the slope
  const Composition high = above.value_or(per_kg), low = below.value_or(per_kg);
  out.per_kg = (high - low) * (1.0 / span);
  out.density_20c = (model_density(high) - model_density(low)) / span;
  return out;
}

Thing thing_of(const Qualified& q, const Composition& per_kg) {
  const Row& row = q.row;
  Thing thing;
  thing.name = row.name;
  thing.label = q.label;
  thing.family = row.family;
  thing.per_kg = per_kg;
  thing.density_measured = row.density.has_value() && !q.matter_changed;
  thing.density_20c = thing.density_measured ? units::kilograms_per_cubic_metre(*row.density) : units::kilograms_per_cubic_metre(model_density(per_kg));
  if (row.piece) thing.piece = units::grams(*row.piece);
  if (row.bought_piece) thing.bought_piece = units::grams(*row.bought_piece);
  thing.yield_of_bought = row.yield;
  thing.storage_c = row.storage.value_or(20.0);
  thing.solid = row.solid;
  thing.holds_liquid = row.holds.value_or(0.0);
  const bool seen_heat = q.heated || (!row.fresh && !q.as_raw);
  thing.live_enzyme = row.enzyme && !seen_heat;
  thing.raw_egg = row.raw_egg && !seen_heat;
  thing.heat_treated = seen_heat;
  thing.carbonation_g_l = row.co2;
  if (row.wet) thing.ice_wet = *row.wet * 0.01;
  thing.ice_c = row.at.value_or(0.0);
  thing.bloom = row.bloom;
  thing.allergens = row.allergens;
  thing.allergens_known = row.allergens_known;
  if (row.pack || row.pack_volume || row.price) {
    Pack pack;
    if (row.pack) pack.mass = units::grams(*row.pack);
    if (row.pack_volume) pack.volume = units::millilitres(*row.pack_volume);
    pack.price = row.price.value_or(0.0);
    pack.currency = row.currency;
    thing.pack = pack;
  }
  thing.varies = row.varies;
  thing.source = row.source;
  thing.assumptions = row.assumes;
  return thing;
}

// What a bare name takes for granted beyond the row's own words.
void add_assumptions(Thing& thing, const Row& row, const std::vector<Qualifier>& said) {
  const auto told = [&](std::string_view a, std::string_view b = {}) {
    for (const Qualifier& q : said)
      if (q.name == a || q.name == b) return true;
    return false;
  };
  const auto assume = [&](double value, std::string_view unit) {
    thing.assumptions.push_back("\"" + row.name + "\" is taken as " + text::print_number(value) + ' ' + std::string(unit));
  };
  const bool sold_by_strength = row.family == Family::spirit || row.family == Family::liqueur || row.family == Family::wine || row.family == Family::bitters;
  if (sold_by_strength && row.strength && !told("%vol")) assume(*row.strength, "%vol");
  if (row.make == Make::solids && row.family == Family::syrup && row.source != "ifct2017" && row.brix && !told("brix", "brix read")) assume(*row.brix, "Brix");
  if ((row.make == Make::solution) && row.percent && !told("% acid")) assume(*row.percent, "% of the acid");
}

}  // namespace

Larder::Larder() : rows_(std::make_unique<Rows>()) {}
Larder::Larder(Larder&&) noexcept = default;
Larder& Larder::operator=(Larder&&) noexcept = default;
Larder::~Larder() = default;
Larder::Larder(const Larder& other) : rows_(std::make_unique<Rows>()) {
  rows_->rows = other.rows_->rows;
  rows_->by_name = other.rows_->by_name;
  rows_->fingerprint = other.rows_->fingerprint;
}
Larder& Larder::operator=(const Larder& other) {
  if (this != &other) *this = Larder(other);
  return *this;
}

base::Result<Larder> Larder::built_in() {
  auto catalogue = read_catalogue();
  if (!catalogue) return tl::unexpected<base::Error>(std::move(catalogue.error()));
  Larder larder;
  larder.rows_->rows = std::move(catalogue->rows);
  larder.rows_->by_name.reserve(2 * larder.rows_->rows.size());
  for (std::size_t i = 0; i < larder.rows_->rows.size(); ++i) larder.rows_->name(larder.rows_->rows[i], i);
  larder.rows_->fingerprint = std::move(catalogue->fingerprint);
  return larder;
}

base::Result<void> Larder::add(std::string name, std::string text, base::Sources& sources) {
  const std::string content = text, from = name;
  const std::uint32_t source = sources.add(std::move(name), std::move(text));
  auto tree = text::read_toml(source, sources);
  if (!tree) return tl::unexpected<base::Error>(std::move(tree.error()));
  text::Faults faults;
  auto read = read_larder(
      *tree, [&](std::string_view wanted) { return rows_->find(wanted); }, rows_->all_names(), faults);
  for (const FileRow& file : read) {
    const Composed made = compose(file.row);
    if (!made.problem.empty())
      faults.push_back(
          {base::Severity::error, "contradiction", "\"" + file.row.name + "\" cannot be made up: " + made.problem, file.name_span, std::nullopt, ""});
  }
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "the larder has faults", std::move(faults));
  for (FileRow& file : read) {
    file.row.from = from;
    rows_->put(std::move(file.row));
  }
  rows_->made.clear();
  rows_->fingerprint += content;
  return {};
}

base::Result<Thing> Larder::resolve(std::string_view name, const std::vector<Qualifier>& qualifiers, base::Span span) const {
  const Row* row = rows_->find(name);
  if (row == nullptr) {
    const std::string near = base::nearest(text::fold(name), rows_->all_names());
    base::Diagnostic unknown{
        base::Severity::error,
        "unknown_thing",
        "the larder has no \"" + std::string(name) + "\"",
        span,
        std::nullopt,
        near.empty() ? "things that are not in the larder can be added with --larder; parts stand in single quotes" : "did you mean `" + near + "`?"};
    return base::fail(base::ErrorKind::not_found, unknown.message, {unknown});
  }
  text::Faults faults;
  const Qualified qualified = qualify(*row, qualifiers, faults);
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "\"" + row->name + "\" cannot be told that", std::move(faults));

  const std::pair<std::size_t, std::string> key{static_cast<std::size_t>(row - rows_->rows.data()), qualified.label};
  Composed made;
  {
    const std::lock_guard<std::mutex> lock(rows_->made_lock);
    auto known = rows_->made.find(key);
    if (known == rows_->made.end()) {
      if (rows_->made.size() >= Rows::most_made) rows_->made.clear();
      known = rows_->made.emplace(key, make_up(qualified)).first;
    }
    made = known->second;
  }
  if (!made.problem.empty()) {
    base::Span where = span;
    std::string hint;
    for (const Qualifier& q : qualifiers) {
      if (q.span.known()) where = q.span;
      if (q.name == "% acid" && qualifiers.size() == 1) hint = "say its pH too, for example (" + text::print_number(*q.value) + " % acid, pH 3)";
    }
    return base::fail(
        base::ErrorKind::bad_input, "\"" + row->name + "\" cannot be that",
        {{base::Severity::error, "qualifier_contradiction", "\"" + qualified.label + "\" cannot be: " + made.problem, where, std::nullopt, hint}});
  }
  Thing thing = thing_of(qualified, made.per_kg);
  add_assumptions(thing, *row, qualifiers);
  thing.said = qualifiers;
  return thing;
}

std::vector<Deviation> Larder::deviations(const Thing& thing) const {
  const Row* row = rows_->find(thing.name);
  if (row == nullptr) return {};
  text::Faults faults;
  const Qualified qualified = qualify(*row, thing.said, faults);
  std::vector<Deviation> all;
  for (const Variability& varies : thing.varies)
    if (auto one = deviation(qualified, thing.per_kg, varies)) all.push_back(std::move(*one));
  return all;
}

std::vector<std::string> Larder::names() const {
  std::vector<std::string> names;
  for (const Row& row : rows_->rows) names.push_back(row.name);
  return names;
}

std::vector<Listing> Larder::listing() const {
  std::vector<Listing> all;
  for (const Row& row : rows_->rows) all.push_back({row.name, row.also, row.from, numbers_of(row), row.assumes});
  return all;
}

std::string Larder::fingerprint() const { return rows_->fingerprint; }

}  // namespace bloomset::larder
