// tests/press/bench_text_test.cpp - doses, gelatins, bottles and substitutes on paper: no line too long, nothing that cannot be read, JSON the same facts.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "press/page.hpp"
#include "press/press.hpp"

namespace bloomset::press {
namespace {

using nlohmann::ordered_json;

struct House {
  larder::Larder larder = larder::Larder::built_in().value();
  kit::Kit kit = kit::Kit::built_in().value();
};
const House& house() {
  static const House one;
  return one;
}

sheet::Mixture mixture(const std::string& text) {
  base::Sources sources;
  return sheet::read_mixture(sources.add("mixture", text), sources, house().larder).value();
}
sheet::AgentForm agent(const std::string& text) {
  base::Sources sources;
  return sheet::read_agent(sources.add("--with", text), sources, house().larder).value();
}

sheet::DoseSheet dose_of(const std::string& base, const std::string& with, std::optional<texture::Effect> effect) {
  const sheet::Mixture into = mixture(base);
  const sheet::AgentForm form = agent(with);
  return sheet::dose({into, form, effect, units::grams(0.1), house().kit}).value();
}
sheet::GelatinSheet gelatin_of(double pieces, const std::string& from, const std::string& to) {
  return sheet::swap_gelatin({std::nullopt, pieces, {}}, agent(from), {}, agent(to), {}).value();
}
sheet::ChargeSheet bottle_of(const std::string& liquid, gas::Gas gas, int charges, std::optional<double> regulator_bar) {
  sheet::Charging how;
  how.gas = gas;
  how.gross = units::litres(0.75);
  how.charges = charges;
  if (regulator_bar) how.regulator = units::bar_gauge(*regulator_bar);
  return sheet::charge(mixture(liquid), how).value();
}
sheet::ReplaceSheet replacement() {
  const std::string text =
      "bloomset = 1\ntitle = \"Jelly\"\nserves = 1\n[[part]]\nname = \"a part with a name that is rather long for a jelly\"\nmade = \"ahead\"\nstep = [ { do = "
      "\"combine\", "
      "take = [\"300 g orange juice\", \"4.5 g gelatin, gold leaf (1.8 g a piece, 200 bloom)\"] } ]\n";
  base::Sources sources;
  const auto formula = formula::read("test.toml", text, sources, [](const std::string&) { return std::nullopt; }).value();
  const sheet::Inputs in{formula, house().larder, house().kit, std::nullopt, {}};
  return sheet::replace_agent({in, texture::Agent::gelatin, std::nullopt, false, false, std::nullopt, false}).value();
}

std::vector<std::string> texts() {
  using texture::Effect;
  return {dose_text(dose_of("730 g orange juice", "gelatin, gold leaf", Effect::cold_foam)),
          dose_text(dose_of("366 g orange juice", "gelatin, gold leaf (1.8 g a piece, 210 bloom)", std::nullopt)),
          dose_text(dose_of("12 kg tomato juice", "hydroxypropyl methylcellulose", Effect::hot_foam)),
          dose_text(dose_of("200 g lime juice + 100 g water", "agar", Effect::clarify)),
          dose_text(dose_of("500 g cream", "gelatin, powder", Effect::soft_gel)),
          gelatin_text(gelatin_of(4.0, "gelatin, gold leaf", "gelatin, bronze leaf")),
          gelatin_text(gelatin_of(3000.0, "gelatin, platinum leaf", "gelatin, powder (225 bloom)")),
          gelatin_text(gelatin_of(3.0, "gelatin, titanium leaf", "fish gelatin")),
          charge_text(bottle_of("450 g cream", gas::Gas::nitrous_oxide, 2, std::nullopt)),
          charge_text(bottle_of("600 mL water", gas::Gas::nitrous_oxide, 8, std::nullopt)),
          charge_text(bottle_of("450 g water", gas::Gas::carbon_dioxide, 0, 2.0)),
          substitute_text(replacement())};
}

TEST(BenchText, NoLineIsWiderThanThePageAndNoneEndsInBlanks) {
  for (const std::string& text : texts()) {
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = text.find('\n', at);
      ASSERT_NE(end, std::string::npos);
      const std::string line = text.substr(at, end - at);
      EXPECT_LE(width(line), page_width) << line;
      EXPECT_FALSE(line.ends_with(' ')) << line;
      at = end + 1;
    }
  }
}

TEST(BenchText, NothingReadsAsNoNumberOrAsSafe) {
  for (const std::string& text : texts())
    for (const char* word : {" nan", " inf", " safe", "{", "  .", ".. "}) EXPECT_EQ(text.find(word), std::string::npos) << word << "\n" << text;
}

TEST(BenchText, SaysGramsFirstAndWhatIsExact) {
  const std::string text = texts()[0];
  EXPECT_NE(text.find("gelatin, gold leaf"), std::string::npos);
  EXPECT_LT(text.find(" g "), text.find("leaves of"));
  EXPECT_NE(text.find("g of base"), std::string::npos) << text;
  EXPECT_NE(text.find("siphon, one litre"), std::string::npos) << text;
}

TEST(BenchText, TheChosenRuleIsMarkedAndOneThatDoesNotApplySaysSo) {
  const std::string counted = texts()[5], powder = texts()[6];
  EXPECT_NE(counted.find("→ leaf for leaf"), std::string::npos) << counted;
  EXPECT_NE(powder.find("→ equal firmness"), std::string::npos) << powder;
  EXPECT_NE(powder.find("does not apply"), std::string::npos) << powder;
}

// The contract's keys (docs/program.md), with the same numbers as the sheet.
TEST(BenchJson, HasTheKeysOfTheContract) {
  const auto has = [](const ordered_json& object, const std::vector<std::string>& keys) {
    for (const std::string& key : keys) EXPECT_TRUE(object.contains(key)) << key;
  };
  const sheet::DoseSheet made = dose_of("730 g orange juice", "gelatin, gold leaf", texture::Effect::cold_foam);
  const auto dose = ordered_json::parse(dose_json(made));
  has(dose, {"schema", "mass_g", "percent_of_base", "pieces", "method", "vessel", "charges", "findings"});
  has(dose["mass_g"], {"low", "nominal", "high"});
  EXPECT_EQ(dose["mass_g"]["nominal"].get<double>(), made.dose.mass_g.nominal);
  EXPECT_EQ(dose["charges"].get<int>(), made.siphon->charges);
  EXPECT_TRUE(ordered_json::parse(dose_json(dose_of("300 g water", "agar", texture::Effect::soft_gel)))["vessel"].is_null());

  const auto gelatin = ordered_json::parse(gelatin_json(gelatin_of(3.0, "gelatin, gold leaf", "gelatin, powder")));
  has(gelatin, {"schema", "rules", "chosen", "findings"});
  ASSERT_EQ(gelatin["rules"].size(), 3U);
  for (const auto& rule : gelatin["rules"]) has(rule, {"rule", "mass_g", "pieces"});
  EXPECT_TRUE(gelatin["rules"][0]["mass_g"].is_null());
  EXPECT_EQ(gelatin["chosen"], "root_bloom");

  const auto charged = ordered_json::parse(charge_json(bottle_of("450 g water", gas::Gas::nitrous_oxide, 1, std::nullopt)));
  has(charged, {"schema", "pressure_bar_abs", "pressure_bar_gauge", "dissolved_g", "headspace_g", "gas_volumes", "overrun_percent", "findings"});
  has(charged["overrun_percent"], {"first", "mean", "last"});
  const auto fizz = ordered_json::parse(charge_json(bottle_of("450 g water", gas::Gas::carbon_dioxide, 0, 2.0)));
  EXPECT_TRUE(fizz["overrun_percent"]["first"].is_null());
  EXPECT_TRUE(std::any_of(fizz["findings"].begin(), fizz["findings"].end(), [](const auto& f) { return f["where"]["property"] == "overrun_percent"; }));

  const auto other = ordered_json::parse(substitute_json(replacement(), {}));
  has(other, {"schema", "candidates", "refused", "findings"});
  for (const auto& candidate : other["candidates"]) has(candidate, {"agent", "mass_g", "method", "differs", "gained", "lost"});
  for (const auto& refused : other["refused"]) has(refused, {"agent", "why"});
  EXPECT_FALSE(other["candidates"].empty());
}

}  // namespace
}  // namespace bloomset::press
