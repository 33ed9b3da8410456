// tests/texture/substitute_test.cpp - other agents for the same effect, and who is refused.
#include "texture/substitute.hpp"

#include <rapidcheck.h>

#include <algorithm>

#include "pantry.hpp"

namespace bloomset::texture {
namespace {

using namespace units;

const Candidate* candidate(const Substitutes& s, Agent agent) {
  const auto at = std::find_if(s.candidates.begin(), s.candidates.end(), [agent](const Candidate& c) { return c.agent == agent; });
  return at == s.candidates.end() ? nullptr : &*at;
}
std::string refusal(const Substitutes& s, Agent agent) {
  const auto at = std::find_if(s.refused.begin(), s.refused.end(), [agent](const Refused& r) { return r.agent == agent; });
  return at == s.refused.end() ? "" : at->why;
}

SubstituteAsked jelly() {
  SubstituteAsked a;
  a.base = water(600.0);
  a.agent = Agent::gelatin;
  a.mass = grams(9.0);
  a.effect = Effect::soft_gel;
  return a;
}

TEST(Substitute, AgarForGelatinIsOneToThree) {
  // Accepted answer on a cooks' site: 600 g, ordinary jelly: 9 g of gelatin, 3.0 g of agar (+-0.5); boil it, sets at 35 to 45 C, melts near 85, brittle, weeps.
  const auto s = substitutes(jelly());
  ASSERT_TRUE(s.has_value());
  const Candidate* agar = candidate(*s, Agent::agar);
  ASSERT_NE(agar, nullptr);
  EXPECT_NEAR(agar->mass_g.nominal, 3.0, 0.5);
  const auto says = [](const std::vector<std::string>& lines, const char* word) {
    return std::any_of(lines.begin(), lines.end(), [word](const std::string& l) { return l.find(word) != std::string::npos; });
  };
  EXPECT_TRUE(says(agar->differs, "sets at 35 to 45 C"));
  EXPECT_TRUE(says(agar->differs, "melts at 80 to 95 C"));
  EXPECT_TRUE(says(agar->differs, "brittle"));
  EXPECT_TRUE(says(agar->lost, "melting in the mouth"));
  EXPECT_TRUE(says(agar->gained, "vegan"));
  EXPECT_TRUE(says(agar->method, "Boil"));
}

TEST(Substitute, EveryAgentIsEitherOfferedOrRefusedWithAReason) {
  const auto s = substitutes(jelly());
  EXPECT_EQ(s->candidates.size() + s->refused.size(), agent_count - 1);
  for (const Refused& r : s->refused) EXPECT_FALSE(r.why.empty());
}

TEST(Substitute, RawPineappleRefusesProteins) {
  // Cooks' case: agar sets raw pineapple at 0.5 to 0.9 %; no gelatin does.
  SubstituteAsked a = jelly();
  a.base = of("pineapple juice", 500.0) + water(150.0);
  a.mass = grams(0.0);
  a.live_enzyme = true;
  const auto s = substitutes(a);
  EXPECT_EQ(refusal(*s, Agent::fish_gelatin), "raw fruit with protease cuts it");
  const Candidate* agar = candidate(*s, Agent::agar);
  ASSERT_NE(agar, nullptr);
  EXPECT_TRUE(agar->mass_g.nominal >= 3.2 && agar->mass_g.nominal <= 5.9) << agar->mass_g.nominal;
}

TEST(Substitute, AHotFoamForVegans) {
  // Practice: methylcellulose about 1 % for a vegan hot foam; gelatin melts, egg white is not vegan.
  SubstituteAsked a;
  a.base = of("apple juice", 400.0);
  a.agent = Agent::egg_white;
  a.effect = Effect::hot_foam;
  a.vegan = true;
  a.served_at = celsius(58.0);
  const auto s = substitutes(a);
  ASSERT_TRUE(s.has_value());
  ASSERT_NE(candidate(*s, Agent::methylcellulose), nullptr);
  EXPECT_NEAR(candidate(*s, Agent::methylcellulose)->mass_g.nominal, 4.4, 0.5);
  EXPECT_EQ(refusal(*s, Agent::caseinate), "not vegan");
  EXPECT_EQ(refusal(*s, Agent::gelatin), "no agent for a hot foam");
}

TEST(Substitute, WhatMeltsWhereItIsServedIsRefused) {
  SubstituteAsked a = jelly();
  a.agent = Agent::agar;
  a.mass = grams(3.0);
  a.served_at = celsius(50.0);
  EXPECT_NE(refusal(*substitutes(a), Agent::gelatin).find("melts near"), std::string::npos);
}

TEST(Substitute, TheEffectItselfIsNeverLost) {
  SubstituteAsked foam = jelly();
  foam.effect = Effect::cold_foam;
  foam.mass = grams(6.6);
  const auto s = substitutes(foam);
  ASSERT_TRUE(s && !s->candidates.empty());
  for (const Candidate& c : s->candidates)
    for (const std::string& lost : c.lost) EXPECT_EQ(lost.find("cold foam"), std::string::npos) << info(c.agent).name << ": " << lost;
}

TEST(Substitute, HighMethoxylPectinIsRefusedWithoutSugar) { EXPECT_NE(refusal(*substitutes(jelly()), Agent::pectin_high_methoxyl), ""); }

TEST(Substitute, LowMethoxylPectinComesWithItsCalcium) {
  // Makers' handbooks from memory: 10 to 60 mg of calcium a gram of pectin.
  SubstituteAsked a = jelly();
  a.base = of("apple juice", 600.0);
  const Substitutes s = *substitutes(a);
  const Candidate* pectin = candidate(s, Agent::pectin_low_methoxyl);
  ASSERT_NE(pectin, nullptr) << refusal(s, Agent::pectin_low_methoxyl);
  EXPECT_TRUE(std::any_of(pectin->method.begin(), pectin->method.end(), [](const std::string& l) { return l.find("calcium") != std::string::npos; }));
}

TEST(SubstituteProperties, DosesStayInTheirBandsAndRiseWithTheOldOne) {
  EXPECT_TRUE(rc::check([] {
    const int x = *rc::gen::inRange(1, 400), y = *rc::gen::inRange(x, 401);
    SubstituteAsked a = jelly(), b = jelly();
    a.mass = grams(0.1 * x);
    b.mass = grams(0.1 * y);
    const auto less = substitutes(a), more = substitutes(b);
    for (const Candidate& c : less->candidates) {
      RC_ASSERT(c.mass_g.nominal >= c.mass_g.low - 1e-9 && c.mass_g.nominal <= c.mass_g.high + 1e-9);
      const Candidate* same = candidate(*more, c.agent);
      RC_ASSERT(same == nullptr || same->mass_g.nominal >= c.mass_g.nominal - 1e-9);
    }
  }));
}

}  // namespace
}  // namespace bloomset::texture
