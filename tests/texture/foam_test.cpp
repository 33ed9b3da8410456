// tests/texture/foam_test.cpp - what holds a siphon foam, cold and hot.
#include "texture/foam.hpp"

#include <rapidcheck.h>

#include <algorithm>

#include "pantry.hpp"

namespace bloomset::texture {
namespace {

using namespace units;
using matter::Component;

FoamBase foam(matter::Composition liquid, double at_c, double egg_white_g = 0.0) {
  FoamBase f;
  f.liquid = liquid;
  f.at = celsius(at_c);
  f.egg_white = grams(egg_white_g);
  return f;
}
// A pepper sauce: water with sugar and fibre.
matter::Composition sauce(double g) { return water(0.9 * g) + of(Component::sucrose, 0.06 * g) + of(Component::fibre, 0.04 * g); }

TEST(HotFoam, XanthanAloneHoldsNone) {
  // A cook's case: 0.9 % xanthan, two charges, 50 C, coarse bubbles break in seconds; xanthan thickens and makes no wall.
  const FoamHold h = foam_hold(foam(sauce(495.0) + of(Component::xanthan, 4.5), 50.0));
  EXPECT_FALSE(h.holds);
  EXPECT_FALSE(h.holds_cold);
  EXPECT_FALSE(h.holds_hot);
  ASSERT_FALSE(h.causes.empty());
  EXPECT_EQ(h.causes.front().agent, Agent::xanthan);
  EXPECT_TRUE(std::any_of(h.causes.begin(), h.causes.end(), [](const Cause& c) { return c.says.find("methylcellulose") != std::string::npos; }));
  EXPECT_LT(h.drain_minutes, 3.0);
}

TEST(HotFoam, EggWhiteMethylcelluloseAndCreamHoldIt) {
  // Practice: pasteurised egg white 15 to 25 % held below 62 C, methylcellulose about 1 %.
  EXPECT_TRUE(foam_hold(foam(sauce(400.0), 50.0, 100.0)).holds);
  EXPECT_TRUE(foam_hold(foam(sauce(495.0) + of(Component::methylcellulose, 5.0), 55.0)).holds);
  // Practice: cream or butter of 20 % fat or more.
  EXPECT_TRUE(foam_hold(foam(sauce(150.0) + of("cream", 350.0), 50.0)).holds);
  EXPECT_TRUE(foam_hold(foam(sauce(150.0) + of("cream", 350.0), 50.0)).causes.empty());
  EXPECT_FALSE(foam_hold(foam(sauce(400.0), 66.0, 100.0)).holds) << "egg white has set above 62 C";
}

TEST(HotFoam, GelatinIsOutAboveItsMelting) {
  const FoamHold h = foam_hold(foam(of("orange juice", 490.0) + of(Component::gelatin, 6.0), 50.0));
  EXPECT_FALSE(h.holds);
  EXPECT_TRUE(h.holds_cold);
  EXPECT_TRUE(std::any_of(h.causes.begin(), h.causes.end(), [](const Cause& c) { return c.code == base::Code::melts_on_hot; }));
}

TEST(ColdFoam, GelatinOrCream) {
  EXPECT_TRUE(foam_hold(foam(of("orange juice", 366.0) + of(Component::gelatin, 4.0), 5.0)).holds);
  EXPECT_FALSE(foam_hold(foam(of("orange juice", 366.0), 5.0)).holds);
  EXPECT_TRUE(foam_hold(foam(of("cream", 500.0), 5.0)).holds);
  EXPECT_FALSE(foam_hold(foam(of("cream", 500.0), 25.0)).holds) << "warm cream does not whip";
}

TEST(ColdFoam, LiveEnzymeEndsGelatins) {
  FoamBase f = foam(of("pineapple juice", 350.0) + of(Component::gelatin, 6.0), 5.0);
  EXPECT_TRUE(foam_hold(f).holds);
  f.live_enzyme = true;
  const FoamHold h = foam_hold(f);
  EXPECT_FALSE(h.holds);
  EXPECT_EQ(h.causes.front().code, base::Code::live_enzyme);
}

TEST(ColdFoam, LecithinGivesAFrothOnly) {
  const FoamHold h = foam_hold(foam(water(240.0) + of(Component::lecithin, 1.2), 10.0));
  EXPECT_FALSE(h.holds);
  EXPECT_TRUE(std::any_of(h.causes.begin(), h.causes.end(), [](const Cause& c) { return c.agent == Agent::lecithin; }));
}

TEST(Foam, RetentionIsTheGuessWithItsSpan) {
  const FoamHold h = foam_hold(foam(of("cream", 500.0), 5.0));
  EXPECT_DOUBLE_EQ(h.retention, 0.6);
  EXPECT_DOUBLE_EQ(h.retention_least, 0.4);
  EXPECT_DOUBLE_EQ(h.retention_most, 1.0);
}

TEST(Foam, EveryStabiliserSaysItIsPractice) {
  const FoamHold h = foam_hold(foam(of("cream", 300.0) + of(Component::gelatin, 3.0) + of(Component::methylcellulose, 3.0), 5.0, 100.0));
  EXPECT_GE(h.by.size(), 4U);
  for (const Stabiliser& s : h.by) EXPECT_TRUE(s.cited.practice()) << s.what;
}

TEST(FoamProperties, MoreOfWhatHoldsNeverHoldsLess) {
  EXPECT_TRUE(rc::check([] {
    const int a = *rc::gen::inRange(0, 60), b = *rc::gen::inRange(a, 61);
    const double at = *rc::gen::inRange(2, 12);
    const auto hold = [at](int tenths) { return foam_hold(foam(of("orange juice", 300.0) + of(Component::gelatin, 0.1 * tenths), at)); };
    RC_ASSERT(hold(b).strength >= hold(a).strength);
  }));
}

TEST(FoamProperties, XanthanSlowsDrainingAndAddsNoHold) {
  EXPECT_TRUE(rc::check([] {
    const double xanthan = 0.1 * *rc::gen::inRange(1, 15);
    const FoamHold plain = foam_hold(foam(sauce(300.0), 5.0, 60.0)), thick = foam_hold(foam(sauce(300.0) + of(Component::xanthan, xanthan), 5.0, 60.0));
    RC_ASSERT(thick.drain_minutes > plain.drain_minutes);
    RC_ASSERT(thick.strength <= plain.strength);
  }));
}

}  // namespace
}  // namespace bloomset::texture
