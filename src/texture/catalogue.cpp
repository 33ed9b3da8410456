// texture/catalogue.cpp - the tables read into rows, once.
#include "texture/catalogue.hpp"

#include "texture/table.hpp"

namespace bloomset::texture {
namespace {

constexpr std::array<std::string_view, agent_count> agent_keys = {"gelatin",
                                                                  "fish_gelatin",
                                                                  "agar",
                                                                  "gellan_low_acyl",
                                                                  "gellan_high_acyl",
                                                                  "kappa_carrageenan",
                                                                  "iota_carrageenan",
                                                                  "lambda_carrageenan",
                                                                  "xanthan",
                                                                  "guar",
                                                                  "locust_bean",
                                                                  "alginate",
                                                                  "calcium",
                                                                  "pectin_high_methoxyl",
                                                                  "pectin_low_methoxyl",
                                                                  "methylcellulose",
                                                                  "hpmc",
                                                                  "starch",
                                                                  "modified_starch",
                                                                  "konjac",
                                                                  "egg_white",
                                                                  "lecithin",
                                                                  "sucrose_ester",
                                                                  "caseinate",
                                                                  "gum_arabic",
                                                                  "isomalt"};
constexpr std::array<std::string_view, 8> way_words = {"cooling", "heating", "coagulates", "calcium", "sugar_acid", "thickens", "foams", "melts"};
constexpr std::array<std::string_view, 3> answer_words = {"no", "yes", "ask"};
constexpr std::array<std::string_view, 3> bearing_words = {"stops", "weakens", "tells"};
constexpr std::array<std::string_view, 18> quantity_words = {"hydrate",          "hydrate_below", "hydrate_time", "set",     "melt", "gels_above",
                                                             "melt_above_set",   "overheat",      "ph",           "ph_hot",  "abv",  "solids",
                                                             "solids_hydrating", "hardness",      "salt",         "calcium", "fat",  "stock"};

template <class E, std::size_t N>
E one_of(const std::array<std::string_view, N>& words, const Fields& row, std::string_view column) {
  const std::string_view word = row.text(column);
  for (std::size_t i = 0; i < N; ++i)
    if (words[i] == word) return static_cast<E>(i);
  row.fault("`" + std::string(word) + "` is no word for `" + std::string(column) + "`");
  return E{};
}

std::vector<std::string_view> list(std::string_view words) {
  std::vector<std::string_view> out;
  while (!words.empty()) {
    const std::size_t end = words.find(';');
    if (end != 0) out.push_back(words.substr(0, end));
    words.remove_prefix(end == std::string_view::npos ? words.size() : end + 1);
  }
  return out;
}

struct Catalogue {
  std::array<AgentInfo, agent_count> agents{};
  std::vector<DoseBand> doses;
  std::vector<Limit> limits;
  std::vector<Partner> partners;
  std::vector<LegalRule> rules;
  std::vector<GelatinForm> forms;
  std::vector<std::string> faults;
};

template <class Read>
void each_row(std::string_view path, std::vector<std::string>& faults, Read read) {
  const Table table = read_table(path);
  faults.insert(faults.end(), table.faults.begin(), table.faults.end());
  for (const TableRow& row : table.rows) read(Fields(table, row, faults));
}

AgentInfo agent_row(const Fields& row) {
  AgentInfo a;
  a.agent = one_of<Agent>(agent_keys, row, "agent");
  a.name = row.text("name");
  if (const std::string_view component = row.text("component"); !component.empty()) {
    a.component = matter::component_named(component);
    if (!a.component) row.fault("no component `" + std::string(component) + "`");
  }
  a.e_number = row.text("e_number");
  a.way = one_of<Way>(way_words, row, "way");
  a.reversible = one_of<Answer>(answer_words, row, "reversible") == Answer::yes;
  a.vegan = one_of<Answer>(answer_words, row, "vegan");
  a.vegetarian = one_of<Answer>(answer_words, row, "vegetarian");
  a.allergens = list(row.text("allergens"));
  a.halal = row.text("halal");
  a.kosher = row.text("kosher");
  a.frozen = row.text("frozen");
  a.feel = row.text("feel");
  a.gives = list(row.text("gives"));
  a.takes = list(row.text("takes"));
  a.disperse = row.text("disperse");
  a.hydrate = row.text("hydrate");
  a.note = row.text("note");
  a.cited = row.cited();
  return a;
}

DoseBand dose_row(const Fields& row) {
  DoseBand d;
  d.agent = one_of<Agent>(agent_keys, row, "agent");
  const auto effect = effect_named(row.text("effect"));
  if (!effect) row.fault("no effect `" + std::string(row.text("effect")) + "`");
  d.effect = effect.value_or(Effect::soft_gel);
  if (row.text("base") != "any") {
    d.kind = base_kind_named(row.text("base"));
    if (!d.kind) row.fault("no base `" + std::string(row.text("base")) + "`");
  }
  d.low = row.number("low");
  d.nominal = row.number("nominal");
  d.high = row.number("high");
  d.note = row.text("note");
  d.cited = row.cited();
  return d;
}

Limit limit_row(const Fields& row) {
  Limit l;
  l.agent = one_of<Agent>(agent_keys, row, "agent");
  l.quantity = one_of<Quantity>(quantity_words, row, "quantity");
  l.low = row.maybe("low");
  l.nominal = row.maybe("nominal");
  l.high = row.maybe("high");
  l.unit = row.text("unit");
  l.beyond = one_of<Bearing>(bearing_words, row, "beyond");
  l.note = row.text("note");
  l.cited = row.cited();
  return l;
}

std::optional<units::Mass> leaf_mass(std::optional<double> g) {
  if (!g) return std::nullopt;
  return units::grams(*g);
}

Catalogue read_all() {
  Catalogue c;
  std::size_t next = 0;
  each_row("texture/agents.csv", c.faults, [&](const Fields& row) {
    const AgentInfo a = agent_row(row);
    if (index(a.agent) != next) row.fault("not in the order of texture::Agent, or missing");
    if (next < agent_count) c.agents[next] = a;
    ++next;
  });
  if (next != agent_count) c.faults.push_back("data/texture/agents.csv: " + std::to_string(next) + " agents");
  each_row("texture/doses.csv", c.faults, [&](const Fields& row) { c.doses.push_back(dose_row(row)); });
  each_row("texture/limits.csv", c.faults, [&](const Fields& row) { c.limits.push_back(limit_row(row)); });
  each_row("texture/partners.csv", c.faults, [&](const Fields& row) {
    c.partners.push_back({one_of<Agent>(agent_keys, row, "agent"), one_of<Agent>(agent_keys, row, "partner"), row.text("does"), row.maybe("total"),
                          row.maybe("share").value_or(0.5), row.maybe("heat"), row.cited()});
  });
  each_row("texture/rules.csv", c.faults, [&](const Fields& row) {
    c.rules.push_back({one_of<Agent>(agent_keys, row, "agent"), row.text("where"), row.text("food"), row.text("says"), row.maybe("limit"), row.cited()});
  });
  each_row("texture/gelatin_forms.csv", c.faults, [&](const Fields& row) {
    c.forms.push_back({row.text("name"), one_of<Agent>(agent_keys, row, "agent"), row.number("bloom_low"), row.number("bloom"), row.number("bloom_high"),
                       leaf_mass(row.maybe("leaf_low")), leaf_mass(row.maybe("leaf")), leaf_mass(row.maybe("leaf_high")), row.cited()});
  });
  return c;
}

const Catalogue& catalogue() {
  static const Catalogue c = read_all();
  return c;
}

}  // namespace

const AgentInfo& info(Agent a) { return catalogue().agents[index(a)]; }

std::optional<Agent> agent_named(std::string_view wanted) {
  for (const AgentInfo& a : catalogue().agents)
    if (a.name == wanted) return a.agent;
  const auto component = matter::component_named(wanted);
  return component ? agent_of(*component) : std::nullopt;
}

std::optional<Agent> agent_of(matter::Component c) {
  for (const AgentInfo& a : catalogue().agents)
    if (a.component == c) return a.agent;
  return std::nullopt;
}

const DoseBand* dose_band(Agent agent, Effect effect, BaseKind kind) {
  const DoseBand* any = nullptr;
  for (const DoseBand& d : catalogue().doses) {
    if (d.agent != agent || d.effect != effect) continue;
    if (d.kind == kind) return &d;
    if (!d.kind) any = &d;
  }
  return any;
}

std::span<const DoseBand> dose_bands() { return catalogue().doses; }

const Limit* limit(Agent agent, Quantity quantity) {
  for (const Limit& l : catalogue().limits)
    if (l.agent == agent && l.quantity == quantity) return &l;
  return nullptr;
}

std::span<const Limit> limits() { return catalogue().limits; }
std::span<const Partner> partners() { return catalogue().partners; }

std::vector<Partner> partners_of(Agent agent) {
  std::vector<Partner> out;
  for (const Partner& p : catalogue().partners)
    if (p.first == agent || p.second == agent) out.push_back(p);
  return out;
}

std::span<const LegalRule> legal_rules() { return catalogue().rules; }

std::vector<LegalRule> missed_rules(Agent agent, double percent, std::string_view food) {
  std::vector<LegalRule> out;
  for (const LegalRule& rule : catalogue().rules) {
    if (rule.agent != agent) continue;
    const bool own_row = !food.empty() && rule.food == food;
    bool named = own_row;
    for (const LegalRule& other : catalogue().rules)
      named = named || (!food.empty() && other.agent == agent && other.where == rule.where && other.food == food);
    const bool counts = own_row || (!named && rule.food == "all other");
    if (counts && (!rule.limit_percent || percent > *rule.limit_percent)) out.push_back(rule);
  }
  return out;
}

std::span<const GelatinForm> gelatin_forms() { return catalogue().forms; }

const GelatinForm* gelatin_form(std::string_view wanted) {
  for (const GelatinForm& f : catalogue().forms)
    if (f.name == wanted) return &f;
  return nullptr;
}

std::span<const std::string> catalogue_faults() { return catalogue().faults; }

}  // namespace bloomset::texture
