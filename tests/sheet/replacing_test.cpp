// tests/sheet/replacing_test.cpp - another agent in a whole formula: which part, which effect, how much of what is there, and what raw fruit forbids.
#include "sheet/replacing.hpp"

#include <algorithm>

#include "made.hpp"

namespace bloomset::sheet {
namespace {

using sheet_test::ahead;
using sheet_test::document;
using texture::Agent;
using texture::Effect;

struct Asked {
  Agent agent = Agent::gelatin;
  std::optional<Agent> wanted = std::nullopt;
  bool vegan = false;
  std::optional<std::string> part = std::nullopt;
  bool first_only = false;
};

base::Result<ReplaceSheet> ask(const std::string& text, const Asked& asked = {}) {
  base::Sources sources;
  const auto formula = formula::read("test.toml", text, sources, [](const std::string&) { return std::nullopt; });
  EXPECT_TRUE(formula.has_value()) << text;
  const Inputs in{*formula, sheet_test::house().larder, sheet_test::house().kit, std::nullopt, {}};
  return replace_agent({in, asked.agent, asked.wanted, asked.vegan, false, asked.part, asked.first_only});
}

// A part of combined things that ends in the fridge, and all of it in the glass.
std::string chilled(const std::string& name, const std::string& takes) {
  return ahead(name, "{ do = \"combine\", take = [" + takes + "] }, { do = \"chill\", in = \"still fridge\", to = \"5 C\" }");
}
std::string jelly(const std::string& takes) { return document(chilled("jelly", takes), "{ take = [\"50 g 'jelly'\"] }"); }

const texture::Candidate* candidate(const Replacement& part, Agent agent) {
  const auto at = std::find_if(part.answer.candidates.begin(), part.answer.candidates.end(), [agent](const texture::Candidate& c) { return c.agent == agent; });
  return at == part.answer.candidates.end() ? nullptr : &*at;
}
std::string refusal(const Replacement& part, Agent agent) {
  const auto at = std::find_if(part.answer.refused.begin(), part.answer.refused.end(), [agent](const texture::Refused& r) { return r.agent == agent; });
  return at == part.answer.refused.end() ? "" : at->why;
}

// Accepted answer on a cooks' site: 600 g, ordinary jelly, 9 g of gelatin: 3.0 g of agar (+-0.5).
TEST(Replacing, AgarForGelatinInAJelly) {
  const auto made = ask(jelly("\"600 g water\", \"9 g gelatin, powder (200 bloom)\""));
  ASSERT_TRUE(made.has_value());
  ASSERT_EQ(made->parts.size(), 1U);
  const Replacement& part = made->parts[0];
  EXPECT_EQ(part.part, "jelly");
  EXPECT_TRUE(part.ahead);
  EXPECT_NEAR(part.agent_g, 9.0, 1e-9);
  EXPECT_NEAR(part.base_g, 600.0, 1e-6);
  EXPECT_NEAR(part.percent_of_base, 1.5, 1e-6);
  EXPECT_NEAR(part.served_c, 5.0, 0.01);
  EXPECT_EQ(part.effect, Effect::soft_gel);
  ASSERT_NE(candidate(part, Agent::agar), nullptr);
  EXPECT_NEAR(candidate(part, Agent::agar)->mass_g.nominal, 3.0, 0.5);
  EXPECT_EQ(part.answer.candidates.size() + part.answer.refused.size(), texture::agent_count - 1);
}

TEST(Replacing, TheEffectWithoutAnActFollowsFromTheDose) {
  const auto effect = [](const std::string& agent, Agent is) {
    const auto made = ask(jelly("\"600 g water\", \"" + agent + "\""), {.agent = is});
    EXPECT_TRUE(made.has_value()) << agent;
    return made ? made->parts[0].effect : Effect::sphere;
  };
  EXPECT_EQ(effect("9 g gelatin, powder (200 bloom)", Agent::gelatin), Effect::soft_gel);
  EXPECT_EQ(effect("18 g gelatin, powder (200 bloom)", Agent::gelatin), Effect::firm_gel);
  EXPECT_EQ(effect("2.4 g gelatin, powder (200 bloom)", Agent::gelatin), Effect::thickened);
  EXPECT_EQ(effect("1.2 g xanthan", Agent::xanthan), Effect::thickened);
  EXPECT_EQ(effect("3 g lecithin", Agent::lecithin), Effect::froth);
  EXPECT_EQ(effect("12 g methylcellulose", Agent::methylcellulose), Effect::hot_gel);
}

TEST(Replacing, TheActsOfThePartShowTheEffect) {
  const auto effect = [](const std::string& agent, Agent is, const std::string& at) {
    const std::string steps = "{ do = \"combine\", take = [\"400 g tomato juice\", \"" + agent +
                              "\"] }, { do = \"warm\", to = \"50 C\" }, { do = \"strain\" }, " +
                              "{ do = \"chill\", in = \"ice bath\", to = \"8 C\" }, { do = \"charge\", vessel = \"siphon, half litre\", charges = 1 }, " +
                              "{ do = \"rest\", at = \"" + at + "\", time = \"3 h\" }";
    const auto made = ask(document(ahead("cloud", steps), "{ do = \"dispense\", take = [\"12 g 'cloud'\"] }"), {.agent = is});
    EXPECT_TRUE(made.has_value()) << agent;
    return made ? made->parts[0].effect : Effect::sphere;
  };
  EXPECT_EQ(effect("4.4 g gelatin, powder (200 bloom)", Agent::gelatin, "4 C"), Effect::cold_foam) << "warmed before it was charged";
  EXPECT_EQ(effect("4.4 g methylcellulose", Agent::methylcellulose, "60 C"), Effect::hot_foam);
  EXPECT_EQ(effect("0.8 g xanthan", Agent::xanthan, "4 C"), Effect::thickened) << "xanthan holds no foam, it thickens one";
}

// Bronze, 140 Bloom: the root rule makes 10.76 g of it 9 g of 200.
TEST(Replacing, AnotherBloomIsCountedByItsFirmness) {
  const auto strong = ask(jelly("\"600 g water\", \"9 g gelatin, powder (200 bloom)\"")),
             weak = ask(jelly("\"600 g water\", \"10.757 g gelatin, bronze leaf (140 bloom)\""));
  ASSERT_TRUE(strong && weak);
  EXPECT_NEAR(candidate(weak->parts[0], Agent::agar)->mass_g.nominal, candidate(strong->parts[0], Agent::agar)->mass_g.nominal, 0.01);
}

TEST(Replacing, RawFruitRefusesProteinsUntilItIsHeated) {
  const auto raw = ask(jelly("\"500 g pineapple juice\", \"2.5 g agar\""), {.agent = Agent::agar});
  ASSERT_TRUE(raw.has_value());
  EXPECT_NE(refusal(raw->parts[0], Agent::gelatin).find("protease"), std::string::npos) << refusal(raw->parts[0], Agent::gelatin);
  const std::string heated =
      document(ahead("jelly",
                     "{ do = \"warm\", take = [\"500 g pineapple juice\"], to = \"86 C\", time = \"6 min\" }, { do = \"combine\", take = [\"2.5 g agar\"] }, "
                     "{ do = \"chill\", in = \"still fridge\", to = \"5 C\" }"),
               "{ take = [\"50 g 'jelly'\"] }");
  const auto cooked = ask(heated, {.agent = Agent::agar});
  ASSERT_TRUE(cooked.has_value());
  EXPECT_NE(candidate(cooked->parts[0], Agent::gelatin), nullptr) << refusal(cooked->parts[0], Agent::gelatin);
}

// A part that draws from raw juice is as raw as the juice.
TEST(Replacing, EnzymesComeThroughAPart) {
  const std::string text =
      document(ahead("juice", "{ do = \"combine\", take = [\"500 g pineapple juice\"] }") + chilled("jelly", "\"400 g 'juice'\", \"2 g agar\""),
               "{ take = [\"50 g 'jelly'\"] }");
  const auto made = ask(text, {.agent = Agent::agar});
  ASSERT_TRUE(made.has_value());
  EXPECT_NE(refusal(made->parts[0], Agent::gelatin).find("protease"), std::string::npos);
}

TEST(Replacing, VegansAreOfferedNoAnimal) {
  const auto made = ask(jelly("\"600 g water\", \"9 g gelatin, powder (200 bloom)\""), {.vegan = true});
  ASSERT_TRUE(made.has_value());
  EXPECT_FALSE(made->parts[0].answer.candidates.empty());
  for (const texture::Candidate& c : made->parts[0].answer.candidates)
    EXPECT_EQ(texture::info(c.agent).vegan, texture::Answer::yes) << texture::info(c.agent).name;
  EXPECT_EQ(refusal(made->parts[0], Agent::fish_gelatin), "not vegan");
}

TEST(Replacing, OneThatIsWantedIsOfferedOrRefusedAlone) {
  const std::string text = jelly("\"600 g water\", \"9 g gelatin, powder (200 bloom)\"");
  const auto agar = ask(text, {.wanted = Agent::agar}), lecithin = ask(text, {.wanted = Agent::lecithin});
  ASSERT_TRUE(agar && lecithin);
  EXPECT_EQ(agar->parts[0].answer.candidates.size(), 1U);
  EXPECT_TRUE(agar->parts[0].answer.refused.empty());
  EXPECT_TRUE(lecithin->parts[0].answer.candidates.empty());
  ASSERT_EQ(lecithin->parts[0].answer.refused.size(), 1U);
  EXPECT_FALSE(lecithin->parts[0].answer.refused[0].why.empty());
}

TEST(Replacing, SeveralPartsAreEachAnsweredOrNamed) {
  const std::string text = document(
      chilled("pale", "\"600 g water\", \"9 g gelatin, powder (200 bloom)\"") + chilled("dark", "\"500 g coffee\", \"6 g gelatin, powder (200 bloom)\""),
      "{ take = [\"50 g 'pale'\", \"50 g 'dark'\"] }");
  const auto both = ask(text), first = ask(text, {.first_only = true}), second = ask(text, {.part = "Dark"}), none = ask(text, {.part = "grey"});
  ASSERT_TRUE(both && first && second);
  EXPECT_EQ(both->parts.size(), 2U);
  ASSERT_EQ(first->parts.size(), 1U);
  EXPECT_EQ(first->parts[0].part, "pale");
  EXPECT_TRUE(std::any_of(first->findings.begin(), first->findings.end(), [](const base::Finding& f) { return f.says.find("'dark'") != std::string::npos; }));
  ASSERT_EQ(second->parts.size(), 1U);
  EXPECT_EQ(second->parts[0].part, "dark");
  ASSERT_FALSE(none.has_value());
  EXPECT_NE(none.error().message.find("'pale' and 'dark' do"), std::string::npos) << none.error().message;
}

TEST(Replacing, AnAgentThatIsNotThereIsToldWithThoseThatAre) {
  const auto made = ask(jelly("\"600 g water\", \"9 g gelatin, powder (200 bloom)\""), {.agent = Agent::agar});
  ASSERT_FALSE(made.has_value());
  EXPECT_EQ(made.error().kind, base::ErrorKind::not_found);
  EXPECT_NE(made.error().message.find("gelatin in 'jelly'"), std::string::npos) << made.error().message;
}

// Egg white is no component of matter: it goes out with all that it brought.
TEST(Replacing, AFoodIsTakenOutWithAllItBrought) {
  const auto made = ask(jelly("\"300 g lemon juice\", \"100 g egg white (pasteurised)\""), {.agent = Agent::egg_white});
  ASSERT_TRUE(made.has_value());
  EXPECT_NEAR(made->parts[0].base_g, 300.0, 0.1);
  EXPECT_NEAR(made->parts[0].agent_g, 100.0, 1e-9);
  EXPECT_EQ(made->parts[0].effect, Effect::froth);
}

}  // namespace
}  // namespace bloomset::sheet
