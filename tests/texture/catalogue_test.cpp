// tests/texture/catalogue_test.cpp - the tables: every row has a source that exists, bands rise, names are the larder's, figures of the trade.
#include "texture/catalogue.hpp"

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "pantry.hpp"
#include "texture/table.hpp"

namespace bloomset::texture {
namespace {

using matter::Component;

std::set<std::string> bibliography() {
  std::set<std::string> keys;
  std::ifstream file(BLOOMSET_SOURCE_DIR "/data/sources.bib");
  for (std::string line; std::getline(file, line);)
    if (line.starts_with("@")) keys.insert(line.substr(line.find('{') + 1, line.find(',') - line.find('{') - 1));
  return keys;
}

::testing::AssertionResult exists(std::string_view source) {
  static const std::set<std::string> keys = bibliography();
  if (source == "practice" || (source.starts_with("memory: ") && source.size() > 12)) return ::testing::AssertionSuccess();
  if (source.empty()) return ::testing::AssertionFailure() << "no source";
  std::istringstream words{std::string(source)};
  for (std::string key; words >> key;)
    if (!keys.contains(key)) return ::testing::AssertionFailure() << key << " is not in the bibliography";
  return ::testing::AssertionSuccess();
}

TEST(TextureTables, AreReadWithoutFault) {
  for (const auto& fault : catalogue_faults()) ADD_FAILURE() << fault;
  for (const char* name : {"agents", "doses", "limits", "partners", "rules", "gelatin_forms", "stabilisers"}) {
    const Table table = read_table("texture/" + std::string(name) + ".csv");
    EXPECT_TRUE(table.faults.empty()) << (table.faults.empty() ? "" : table.faults.front());
  }
}

TEST(TextureTables, EveryRowHasASourceThatExistsAndAConfidence) {
  for (const char* name : {"agents", "doses", "limits", "partners", "rules", "gelatin_forms", "stabilisers"}) {
    const std::string path = "texture/" + std::string(name) + ".csv";
    const Table table = read_table(path);
    std::vector<std::string> faults;
    for (const TableRow& row : table.rows) {
      const Fields fields(table, row, faults);
      EXPECT_TRUE(exists(fields.text("source"))) << path << ':' << row.line;
      fields.confidence();
    }
    EXPECT_TRUE(faults.empty()) << (faults.empty() ? "" : faults.front());
  }
}

TEST(TextureTables, WhatIsFromMemoryIsNeverOfHighConfidenceForADoseOrALegalLimit) {
  for (const DoseBand& d : dose_bands()) EXPECT_FALSE(d.cited.from_memory() && d.cited.confidence == Confidence::high) << info(d.agent).name;
  for (const LegalRule& r : legal_rules()) EXPECT_FALSE(r.cited.from_memory() && r.cited.confidence == Confidence::high) << info(r.agent).name;
}

TEST(TextureTables, DoseBandsRiseAndStandOnce) {
  std::set<std::tuple<Agent, Effect, int>> seen;
  for (const DoseBand& d : dose_bands()) {
    EXPECT_GT(d.low, 0.0) << info(d.agent).name;
    EXPECT_LT(d.low, d.nominal) << info(d.agent).name << ' ' << name(d.effect);
    EXPECT_LT(d.nominal, d.high) << info(d.agent).name << ' ' << name(d.effect);
    EXPECT_TRUE(seen.insert({d.agent, d.effect, d.kind ? static_cast<int>(*d.kind) : -1}).second) << info(d.agent).name << ' ' << name(d.effect);
  }
}

TEST(TextureTables, LimitsAreInOrderAndStandOnce) {
  std::set<std::pair<Agent, Quantity>> seen;
  for (const Limit& l : limits()) {
    const std::string at = std::string(info(l.agent).name) + ", quantity " + std::to_string(static_cast<int>(l.quantity));
    EXPECT_TRUE(l.low || l.nominal || l.high) << at;
    EXPECT_TRUE(!l.low || !l.nominal || *l.low <= *l.nominal) << at;
    EXPECT_TRUE(!l.nominal || !l.high || *l.nominal <= *l.high) << at;
    EXPECT_TRUE(!l.low || !l.high || *l.low <= *l.high) << at;
    EXPECT_FALSE(l.unit.empty()) << at;
    EXPECT_TRUE(seen.insert({l.agent, l.quantity}).second) << at;
  }
}

TEST(TextureCatalogue, EveryComponentOfMatterThatIsAnAgentIsKnown) {
  for (std::size_t i = matter::index(matter::first_agent); i <= matter::index(matter::last_agent); ++i) {
    const auto component = static_cast<Component>(i);
    const auto agent = agent_of(component);
    ASSERT_TRUE(agent) << matter::info(component).name;
    EXPECT_EQ(info(*agent).component, component);
    EXPECT_EQ(agent_named(matter::info(component).name), agent);
  }
}

TEST(TextureCatalogue, NamesAreTheLarders) {
  for (std::size_t i = 0; i < agent_count; ++i) {
    const AgentInfo& a = info(static_cast<Agent>(i));
    const auto thing = larder_of_the_house().resolve(a.agent == Agent::gelatin ? "gelatin, powder" : a.name, {}, {});
    EXPECT_TRUE(thing.has_value()) << a.name;
    EXPECT_EQ(agent_named(a.name), a.agent);
  }
}

TEST(TextureCatalogue, GelatinFormsAgreeWithTheLarder) {
  EXPECT_EQ(gelatin_forms().size(), 7U);
  for (const GelatinForm& form : gelatin_forms()) {
    const auto thing = larder_of_the_house().resolve(form.name, {}, {});
    ASSERT_TRUE(thing.has_value()) << form.name;
    EXPECT_EQ(thing->bloom, form.bloom) << form.name;
    EXPECT_EQ(thing->piece.has_value(), form.leaf.has_value()) << form.name;
    EXPECT_TRUE(!form.leaf || std::abs(*thing->piece / *form.leaf - 1.0) < 1e-9) << form.name;
    EXPECT_LE(form.bloom_low, form.bloom);
    EXPECT_LE(form.bloom, form.bloom_high);
  }
}

TEST(TextureCatalogue, MakersSizeLeavesSoThatMassTimesBloomStaysNear) {
  // Trade: 400 to 490 for bronze to platinum; titanium (5 g of 100 to 120) does not fit.
  for (const GelatinForm& form : gelatin_forms()) {
    if (!form.leaf) continue;
    const double product = units::in_grams(*form.leaf) * form.bloom;
    EXPECT_EQ(product >= 399.9 && product <= 490.0, form.name != "gelatin, titanium leaf") << form.name << ' ' << product;
  }
}

TEST(TextureCatalogue, DietsAndAllergens) {
  // Regulation (EU) 1169/2011 Annex II and FALCPA: gelatin of pork or beef is no listed allergen, fish gelatin is fish, caseinate milk, egg white eggs.
  EXPECT_TRUE(info(Agent::gelatin).allergens.empty());
  EXPECT_EQ(info(Agent::fish_gelatin).allergens, std::vector<std::string_view>{"fish"});
  EXPECT_EQ(info(Agent::caseinate).allergens, std::vector<std::string_view>{"milk"});
  EXPECT_EQ(info(Agent::egg_white).allergens, std::vector<std::string_view>{"eggs"});
  EXPECT_EQ(info(Agent::gelatin).vegetarian, Answer::no);
  EXPECT_EQ(info(Agent::agar).vegan, Answer::yes);
  EXPECT_EQ(info(Agent::egg_white).vegetarian, Answer::yes);
  EXPECT_EQ(info(Agent::sucrose_ester).vegan, Answer::ask);
}

TEST(TextureCatalogue, PublishedLimitsAreKeptApartFromPractice) {
  // 21 CFR 184.1115: agar 0.25 % in all other foods, 2.0 % in confections; a cold garnish with 0.6 % misses the first.
  const auto garnish = missed_rules(Agent::agar, 0.6);
  ASSERT_EQ(garnish.size(), 1U);
  EXPECT_DOUBLE_EQ(garnish[0].limit_percent.value(), 0.25);
  EXPECT_TRUE(missed_rules(Agent::agar, 0.6, "confections and frostings").empty());
  EXPECT_TRUE(missed_rules(Agent::agar, 0.25).empty());
  // Konjac: no EU jelly sweet at any dose.
  const auto sweet = missed_rules(Agent::konjac, 0.5, "jelly confectionery");
  ASSERT_EQ(sweet.size(), 1U);
  EXPECT_FALSE(sweet[0].limit_percent.has_value());
  EXPECT_TRUE(missed_rules(Agent::konjac, 0.5).empty());
  // 21 CFR 184.1724: alginate 4 % in gelatins and puddings.
  EXPECT_TRUE(missed_rules(Agent::alginate, 3.9, "gelatins and puddings").empty());
  EXPECT_FALSE(missed_rules(Agent::alginate, 4.1, "gelatins and puddings").empty());
}

TEST(TextureCatalogue, TemperaturesOfTheTrade) {
  // Hydrocolloid comparison: agar dissolves above 90 C, sets at 35 to 45, melts at 80 to 95; kappa melts 10 to 20 K above its setting, iota 5 to 10.
  EXPECT_GE(*limit(Agent::agar, Quantity::hydrate)->low, 90.0);
  EXPECT_DOUBLE_EQ(*limit(Agent::agar, Quantity::set)->low, 35.0);
  EXPECT_DOUBLE_EQ(*limit(Agent::agar, Quantity::melt)->low, 80.0);
  EXPECT_DOUBLE_EQ(*limit(Agent::kappa_carrageenan, Quantity::melt_above_set)->high, 20.0);
  EXPECT_DOUBLE_EQ(*limit(Agent::iota_carrageenan, Quantity::melt_above_set)->high, 10.0);
  EXPECT_EQ(limit(Agent::xanthan, Quantity::melt), nullptr);
}

TEST(TextureWords, EffectsAndBasesReadBack) {
  for (std::size_t i = 0; i < effect_count; ++i) EXPECT_EQ(effect_named(name(static_cast<Effect>(i))), static_cast<Effect>(i));
  for (std::size_t i = 0; i < base_kind_count; ++i) EXPECT_EQ(base_kind_named(name(static_cast<BaseKind>(i))), static_cast<BaseKind>(i));
  EXPECT_FALSE(effect_named("cold  foam").has_value());
}

TEST(TextureWords, TheKindOfABaseIsReadOffItsMatter) {
  EXPECT_EQ(base_kind(read(of("orange juice", 300.0))).kind, BaseKind::juice);
  EXPECT_EQ(base_kind(read(of("lemon juice", 300.0))).kind, BaseKind::acid);
  EXPECT_EQ(base_kind(read(of("cream", 300.0))).kind, BaseKind::cream);
  EXPECT_EQ(base_kind(read(spirit(300.0, 20.0))).kind, BaseKind::spirit);
  // Fat goes before acid, acid before spirit.
  EXPECT_EQ(base_kind(read(of("cream", 300.0) + of("lemon juice", 100.0))).kind, BaseKind::cream);
  EXPECT_EQ(base_kind(read(of("lemon juice", 200.0) + spirit(200.0, 40.0))).kind, BaseKind::acid);
}

}  // namespace
}  // namespace bloomset::texture
