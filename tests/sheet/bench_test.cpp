// tests/sheet/bench_test.cpp - the commands of the bench: each finding they raise with a near miss, the siphon that is chosen, the grades that are asked for.
//
// The figures of bottles, doses and rules are held in tests/gas and tests/texture; that the commands give them is held in tests/end_to_end/bench_test.py.
#include <algorithm>
#include <set>

#include "made.hpp"
#include "sheet/charging.hpp"
#include "sheet/dosing.hpp"
#include "sheet/gelatin_swap.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using sheet_test::house;

Mixture mixture(const std::string& text) {
  base::Sources sources;
  auto read = read_mixture(sources.add("mixture", text), sources, house().larder);
  EXPECT_TRUE(read.has_value()) << text;
  return read ? std::move(*read) : Mixture{};
}

base::Result<AgentForm> try_agent(const std::string& text) {
  base::Sources sources;
  return read_agent(sources.add("--with", text), sources, house().larder);
}
AgentForm agent(const std::string& text) {
  auto read = try_agent(text);
  EXPECT_TRUE(read.has_value()) << text;
  return read ? std::move(*read) : AgentForm{};
}

base::Result<DoseSheet> try_dose(const std::string& base, const std::string& with, texture::Effect effect, const kit::Kit& kit = house().kit) {
  const Mixture into = mixture(base);
  const AgentForm form = agent(with);
  return dose({into, form, effect, units::grams(0.1), kit});
}
DoseSheet dosed(const std::string& base, const std::string& with, texture::Effect effect, const kit::Kit& kit = house().kit) {
  auto made = try_dose(base, with, effect, kit);
  EXPECT_TRUE(made.has_value()) << base << ", " << with;
  return made ? std::move(*made) : DoseSheet{};
}

Charging bottle(double gross_l, int charges, double at_c = 5.0) {
  Charging how;
  how.gross = units::litres(gross_l);
  how.charges = charges;
  how.at = units::celsius(at_c);
  how.most_charges = 4;
  return how;
}
ChargeSheet charged(const std::string& liquid, const Charging& how) {
  auto made = charge(mixture(liquid), how);
  EXPECT_TRUE(made.has_value()) << liquid << ": " << (made ? "" : made.error().message);
  return made ? std::move(*made) : ChargeSheet{};
}

const base::Finding* found(const std::vector<base::Finding>& findings, Code code) {
  const auto at = std::find_if(findings.begin(), findings.end(), [code](const base::Finding& f) { return f.code == code; });
  return at == findings.end() ? nullptr : &*at;
}

struct Case {
  Code code;
  base::Weight weight;
  std::vector<base::Finding> raises, near_miss;
};

std::vector<Case> cases() {
  using texture::Effect;
  const auto with_limit = [](double bar) {
    Charging how = bottle(0.75, 2);
    how.limit = units::bar_gauge(bar);
    return charged("450 g water", how).findings;
  };
  const auto most = [](std::optional<int> n) {
    Charging how = bottle(0.75, 2);
    how.most_charges = n;
    return charged("450 g water", how).findings;
  };
  const auto filled = [](const std::string& liquid) {
    Charging how = bottle(0.75, 1);
    how.fill_line = units::millilitres(500.0);
    return charged(liquid, how).findings;
  };
  const auto dose_of = [](const std::string& base, const std::string& with, Effect effect) { return dosed(base, with, effect).findings; };
  return {
      {Code::limit_unknown, base::Weight::mind, most(std::nullopt), most(2)},
      {Code::over_charges, base::Weight::stop, most(1), most(2)},
      {Code::over_fill_line, base::Weight::stop, filled("510 mL water"), filled("500 mL water")},
      {Code::over_pressure, base::Weight::stop, with_limit(10.0),
       with_limit(12.0)},  // a balance worked out elsewhere (tests/gas/bottle_test.cpp) has 10.6 bar for 375 g
      {Code::pressure_if_warm, base::Weight::note, charged("450 g water", bottle(0.75, 1)).findings, charged("450 g water", bottle(0.75, 1, 50.0)).findings},
      {Code::gas_caution, base::Weight::note, charged("450 g water", bottle(0.75, 1)).findings, dose_of("300 g water", "agar", Effect::soft_gel)},
      {Code::live_enzyme, base::Weight::stop, dose_of("300 g pineapple juice", "gelatin, gold leaf", Effect::cold_foam),
       dose_of("300 g pineapple juice (canned)", "gelatin, gold leaf", Effect::cold_foam)},
      {Code::live_enzyme, base::Weight::stop, dose_of("300 g pineapple juice", "gelatin, gold leaf", Effect::cold_foam),
       dose_of("300 g pineapple juice", "agar", Effect::soft_gel)},
      {Code::will_not_set, base::Weight::stop, dose_of("300 g orange juice", "high methoxyl pectin", Effect::firm_gel),
       dose_of("300 g orange juice", "agar", Effect::firm_gel)},
      {Code::sets_soft, base::Weight::mind, dose_of("300 g water", "low methoxyl pectin", Effect::soft_gel),
       dose_of("300 g orange juice", "low methoxyl pectin", Effect::soft_gel)},
      {Code::too_acid, base::Weight::stop, dose_of("300 g lemon juice", "alginate", Effect::sphere), dose_of("300 g water", "alginate", Effect::sphere)},
      {Code::too_strong, base::Weight::mind, dose_of("100 g spirit (40 %vol) + 100 g water", "gelatin, gold leaf", Effect::soft_gel),
       dose_of("30 g spirit (40 %vol) + 100 g water", "gelatin, gold leaf", Effect::soft_gel)},
      {Code::too_hard_water, base::Weight::mind, dose_of("300 g milk", "alginate", Effect::sphere), dose_of("300 g water", "alginate", Effect::sphere)},
      {Code::dose_below_scale, base::Weight::mind, dose_of("300 g water", "agar", Effect::clarify), dose_of("1100 g water", "agar", Effect::clarify)},
      {Code::choking, base::Weight::mind, dose_of("300 g water", "konjac", Effect::thickened), dose_of("300 g water", "xanthan", Effect::thickened)},
      {Code::over_legal_limit, base::Weight::mind, dose_of("300 g water", "agar", Effect::soft_gel), dose_of("300 g water", "agar", Effect::clarify)},
  };
}

TEST(Bench, EachFindingIsRaisedAndItsNearMissIsQuiet) {
  for (const Case& c : cases()) {
    const base::Finding* finding = found(c.raises, c.code);
    ASSERT_NE(finding, nullptr) << base::name(c.code);
    EXPECT_EQ(finding->weight, c.weight) << base::name(c.code) << ": " << finding->says;
    EXPECT_FALSE(finding->says.empty() || finding->why.empty() || finding->source.empty()) << base::name(c.code);
    EXPECT_EQ(finding->says.find('{'), std::string::npos) << finding->says;
    EXPECT_EQ(found(c.near_miss, c.code), nullptr) << base::name(c.code) << ": " << found(c.near_miss, c.code)->says;
  }
}

TEST(Bench, SourcesAreTitlesNotKeys) {
  const DoseSheet made = dosed("300 g water", "agar", texture::Effect::soft_gel);
  const base::Finding* law = found(made.findings, Code::over_legal_limit);
  ASSERT_NE(law, nullptr);
  EXPECT_NE(law->source.find("Code of Federal Regulations"), std::string::npos) << law->source;
  for (const base::Finding& one : made.findings) EXPECT_EQ(one.source.find("pages"), std::string::npos) << one.source;
}

// An absurd bottle is refused in words; nothing is computed for it.
TEST(Bench, AbsurdBottlesAreRefused) {
  const auto refused = [](const std::string& liquid, const Charging& how, const char* word) {
    const auto made = charge(mixture(liquid), how);
    ASSERT_FALSE(made.has_value()) << liquid;
    EXPECT_EQ(made.error().kind, base::ErrorKind::bad_input);
    EXPECT_NE(made.error().message.find(word), std::string::npos) << made.error().message;
  };
  refused("800 g water", bottle(0.75, 1), "do not go into");
  refused("450 g water", bottle(0.75, 1000), "1000 charges");
  refused("450 g water", bottle(0.75, 12), "a litre of bottle");
  refused("450 g water", bottle(0.75, 1, -5.0), "freezes");
  refused("450 g water", bottle(0.75, 1, 99.0), "boils");
  Charging nothing = bottle(0.75, 1);
  nothing.charge = units::grams(0.0);
  refused("450 g water", nothing, "no gas");
}

// What the maker states of a fill line is read no better than to a hundredth; a cook pours by volume, whatever a density model says.
TEST(Bench, ABottleFilledToTheLineIsNotOverIt) {
  for (const char* liquid : {"500 mL water", "500 mL orange juice", "500 mL cream", "500 mL spirit (40 %vol)"}) {
    Charging how = bottle(0.75, 1);
    how.fill_line = units::millilitres(500.0);
    EXPECT_EQ(found(charged(liquid, how).findings, Code::over_fill_line), nullptr) << liquid;
  }
}

TEST(Bench, ALineThatNobodyStatedIsMindedAndAStatedOneStops) {
  Charging guessed = bottle(0.75, 1), stated = guessed;
  stated.fill_line = units::millilitres(562.0);
  EXPECT_EQ(found(charged("600 mL water", guessed).findings, Code::over_fill_line)->weight, base::Weight::mind);
  EXPECT_EQ(found(charged("600 mL water", stated).findings, Code::over_fill_line)->weight, base::Weight::stop);
}

TEST(Bench, ABottleForColdUseIsStoppedWhenHot) {
  Charging how = bottle(0.75, 1, 55.0);
  EXPECT_EQ(found(charged("450 g water", how).findings, Code::unrated_vessel), nullptr);
  how.hot_rated = false;
  const ChargeSheet hot = charged("450 g water", how);
  ASSERT_NE(found(hot.findings, Code::unrated_vessel), nullptr);
  EXPECT_EQ(found(hot.findings, Code::unrated_vessel)->weight, base::Weight::stop);
  EXPECT_EQ(found(hot.findings, Code::unrated_vessel)->says, "the bottle is not rated for hot liquid, and this is at 55 C");
  how.at = units::celsius(20.0);
  EXPECT_EQ(found(charged("450 g water", how).findings, Code::unrated_vessel), nullptr);
}

TEST(Bench, TheSpanOfThePressureFollowsFromWhatTheLiquidMayHold) {
  const ChargeSheet water = charged("450 g water", bottle(0.75, 1)), cream = charged("450 g cream", bottle(0.75, 1));
  for (const ChargeSheet* one : {&water, &cream}) {
    EXPECT_LT(one->pressure_bar_gauge.low, one->pressure_bar_gauge.nominal);
    EXPECT_GT(one->pressure_bar_gauge.high, one->pressure_bar_gauge.nominal);
    EXPECT_NEAR(one->dissolved_g + one->headspace_g, 8.0, 1e-6);
  }
  EXPECT_GT(cream.pressure_bar_gauge.high - cream.pressure_bar_gauge.low, water.pressure_bar_gauge.high - water.pressure_bar_gauge.low);
}

// Fewest bottles by fill line, then the fullest one; the maker's count binds.
TEST(Bench, TheSiphonTakesTheBatchInFewestBottles) {
  const auto chosen = [](double litres, bool hot = false) { return choose_siphon(house().kit, units::litres(litres), hot).value(); };
  EXPECT_EQ(chosen(0.40).vessel, "siphon, half litre");
  EXPECT_EQ(chosen(0.40).bottles, 1);
  EXPECT_EQ(chosen(0.40).charges, 1);
  EXPECT_EQ(chosen(0.70).vessel, "siphon, one litre");
  EXPECT_EQ(chosen(0.70).charges, 2);
  EXPECT_EQ(chosen(1.00).bottles, 1);
  EXPECT_EQ(chosen(2.50).bottles, 3);
  EXPECT_EQ(chosen(2.50).charges, 2);
  EXPECT_NEAR(chosen(2.50).fill_fraction, 2.5 / 3.0, 1e-12);
  EXPECT_NE(chosen(0.40, true).vessel, "siphon, cold only");
}

TEST(Bench, OneChargerEachHalfLitreAndNeverMoreThanTheMakerAllows) {
  EXPECT_EQ(usual_charges(units::litres(0.2), 2), 1);
  EXPECT_EQ(usual_charges(units::litres(0.5), 2), 1);
  EXPECT_EQ(usual_charges(units::litres(0.52), 2), 1);
  EXPECT_EQ(usual_charges(units::litres(0.7), 4), 2);
  EXPECT_EQ(usual_charges(units::litres(1.0), 4), 2);
  EXPECT_EQ(usual_charges(units::litres(1.0), 1), 1);
  EXPECT_EQ(usual_charges(units::litres(3.0), std::nullopt), 6);
}

TEST(Bench, OnlyFoamsOfASiphonGetABottle) {
  EXPECT_TRUE(dosed("300 g orange juice", "gelatin, gold leaf", texture::Effect::cold_foam).siphon.has_value());
  EXPECT_TRUE(dosed("300 g tomato juice", "methylcellulose", texture::Effect::hot_foam).siphon.has_value());
  EXPECT_FALSE(dosed("300 g orange juice", "gelatin, gold leaf", texture::Effect::soft_gel).siphon.has_value());
  EXPECT_FALSE(dosed("300 g orange juice", "lecithin", texture::Effect::froth).siphon.has_value());
  const DoseSheet bare = dosed("300 g orange juice", "gelatin, gold leaf", texture::Effect::cold_foam, kit::Kit{});
  EXPECT_FALSE(bare.siphon.has_value());
  EXPECT_NE(found(bare.findings, Code::value_missing), nullptr);
}

// A recipe may say `gelatin leaf` and no more: then there is no one answer, and the fault names the grades.
TEST(Bench, ALeafWithoutGradeIsAskedFor) {
  const AgentForm bare = agent("gelatin leaf"), told = agent("gelatin leaf (2 g a piece, 200 bloom)"), gold = agent("gelatin, gold leaf");
  EXPECT_FALSE(bare.grade_known);
  EXPECT_FALSE(agent("gelatin").grade_known);
  EXPECT_FALSE(agent("leaf gelatin (2 g a piece)").grade_known) << "its Bloom is not said";
  EXPECT_TRUE(agent("gelatin (180 bloom)").grade_known);
  ASSERT_TRUE(told.grade_known);
  EXPECT_EQ(told.label, "gelatin leaf (2 g a piece, 200 bloom)");
  const GelatinAmount three{std::nullopt, 3.0, {}};
  const AgentForm powder = agent("gelatin, powder (225 bloom)");
  const auto refused = swap_gelatin(three, bare, {}, powder, {}), answered = swap_gelatin(three, told, {}, powder, {}),
             named = swap_gelatin(three, gold, {}, powder, {});
  ASSERT_FALSE(refused.has_value());
  ASSERT_EQ(refused.error().diagnostics.size(), 1U);
  for (const char* grade : {"bronze leaf", "silver leaf", "gold leaf", "platinum leaf"})
    EXPECT_NE(refused.error().diagnostics[0].hint.find(grade), std::string::npos) << refused.error().diagnostics[0].hint;
  ASSERT_TRUE(answered && named);
  EXPECT_DOUBLE_EQ(answered->chosen().mass->si, named->chosen().mass->si);
  EXPECT_TRUE(answered->findings.empty()) << "all was said: nothing is taken for granted";
  EXPECT_FALSE(try_dose("300 g orange juice", "gelatin leaf", texture::Effect::cold_foam).has_value());
}

// The leaf's own mass in the bracket is the one that counts.
TEST(Bench, AWeighedLeafIsUsed) {
  const DoseSheet made = dosed("360 g orange juice", "gelatin, gold leaf (1.8 g a piece)", texture::Effect::cold_foam);
  EXPECT_NEAR(made.dose.pieces->nominal, made.dose.mass_g.nominal / 1.8, 1e-12);
}

TEST(Bench, WhatWasNotSaidOfAGelatinIsTold) {
  EXPECT_EQ(agent("gelatin, gold leaf").assumptions.size(), 2U);
  EXPECT_EQ(agent("gelatin, gold leaf (1.8 g a piece)").assumptions.size(), 1U);
  EXPECT_TRUE(agent("gelatin, gold leaf (1.8 g a piece, 210 bloom)").assumptions.empty());
  EXPECT_EQ(agent("gelatin, powder").assumptions.size(), 1U);
  EXPECT_TRUE(agent("agar").assumptions.empty());
}

TEST(Bench, ThingsOfTheLarderAreAgentsByNameOrByWhatTheyAre) {
  using texture::Agent;
  for (const auto& [name, is] : {std::pair{"agar-agar", Agent::agar},
                                 {"HPMC", Agent::hpmc},
                                 {"sunflower lecithin", Agent::lecithin},
                                 {"egg white", Agent::egg_white},
                                 {"corn starch", Agent::starch},
                                 {"gelatin, titanium leaf", Agent::gelatin},
                                 {"fish gelatin", Agent::fish_gelatin},
                                 {"pectin", Agent::pectin_high_methoxyl}})
    EXPECT_EQ(agent(name).form.agent, is) << name;
  for (const char* none : {"orange juice", "unobtainium", "", "agar (", "'cloud'"}) EXPECT_FALSE(try_agent(none).has_value()) << none;
  EXPECT_NE(try_agent("agarr").error().diagnostics[0].hint.find("`agar`"), std::string::npos);
}

TEST(Bench, WhatAnAgentDoesNotGiveIsRefusedWithWhatDoes) {
  const auto made = try_dose("300 g orange juice", "xanthan", texture::Effect::hot_foam);
  ASSERT_FALSE(made.has_value());
  EXPECT_NE(made.error().message.find("methylcellulose"), std::string::npos) << made.error().message;
}

}  // namespace
}  // namespace bloomset::sheet
