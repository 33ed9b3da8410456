// tests/texture/contact_test.cpp - beads in a cold base, melting, curd, spheres, layers: cooks' cases and what must hold.
#include "texture/contact.hpp"

#include <rapidcheck.h>

#include <cmath>

#include "pantry.hpp"

namespace bloomset::texture {
namespace {

using namespace units;
using base::Code;
using matter::Component;

TEST(Landing, RubberBeadsInAColdCheesecake) {
  // 10 g gelatin in 50 g water at 60 C (4.0 kJ/(kg K)) into 800 g of cheese mix at 5 C (3.1): lands at 10 C (+-1); base 22 C to land at 25, 16 C for 20.
  const matter::Composition cheese = water(440.0) + of(Component::fat, 200.0) + of(Component::sucrose, 80.0) + of(Component::protein, 80.0);
  const Landing l = landing(Agent::gelatin, {water(50.0) + of(Component::gelatin, 10.0), celsius(60.0)}, {cheese, celsius(5.0)});
  EXPECT_NEAR(in_celsius(l.lands), 10.0, 1.0);
  EXPECT_TRUE(l.strings);
  EXPECT_TRUE(l.for_certain);
  EXPECT_NEAR(in_celsius(l.base_for_high), 22.0, 1.0);
  EXPECT_NEAR(in_celsius(l.base_for_low), 16.0, 1.0);
  ASSERT_TRUE(l.cause.has_value());
  EXPECT_EQ(l.cause->code, Code::strings_on_landing);
  EXPECT_EQ(l.remedies.size(), 3U);
}

TEST(Landing, AgarWaterIntoLimeJuice) {
  // A write-up's arithmetic, which counts juice as water: 100 g at 98 C into 200 g at 20 C lands at 46 C: fine; into 400 g at 35.6 C it sets too soon; 400 g
  // at 32 C land at 45. Real juice holds less heat and lands up to 1.5 K warmer.
  const Warm agar{water(99.4) + of(Component::agar, 0.6), celsius(98.0)};
  EXPECT_NEAR(in_celsius(landing_temperature(agar, {water(200.0), celsius(20.0)})), 46.0, 0.5);
  const Landing by_water = landing(Agent::agar, agar, {water(400.0), celsius(20.0)});
  EXPECT_NEAR(in_celsius(by_water.lands), 35.6, 0.5);
  EXPECT_NEAR(in_celsius(by_water.base_for_high), 32.0, 0.5);
  const Landing good = landing(Agent::agar, agar, {of("lime juice", 200.0), celsius(20.0)}),
                cold = landing(Agent::agar, agar, {of("lime juice", 400.0), celsius(20.0)});
  EXPECT_TRUE(in_celsius(good.lands) > 46.0 && in_celsius(good.lands) < 47.5);
  EXPECT_FALSE(good.strings);
  EXPECT_TRUE(cold.strings);
  EXPECT_EQ(cold.cause->code, Code::strings_on_landing);
}

TEST(Landing, ThickenersHaveNoZone) { EXPECT_FALSE(landing(Agent::xanthan, {water(50.0), celsius(60.0)}, {water(500.0), celsius(2.0)}).strings); }

TEST(LandingProperties, LiesBetweenAndTheAdviceLandsWhereItSays) {
  EXPECT_TRUE(rc::check([] {
    const double hot = *rc::gen::inRange(40, 99), cold = *rc::gen::inRange(0, 30);
    const Warm agent{water(1.0 * *rc::gen::inRange(10, 300)), celsius(hot)};
    Warm base{of("orange juice", 1.0 * *rc::gen::inRange(100, 1000)), celsius(cold)};
    const Landing l = landing(Agent::gelatin, agent, base);
    RC_ASSERT(in_celsius(l.lands) >= cold - 1e-6 && in_celsius(l.lands) <= hot + 1e-6);
    base.at = l.base_for_high;
    RC_ASSERT(std::abs(landing_temperature(agent, base).si - l.zone_high.si) < 1e-3);
  }));
}

TEST(OnAHotDrink, GelatinMeltsAndAgarDoesNot) {
  EXPECT_TRUE(melts_on(Agent::gelatin, mass_percent(1.1), 200.0, celsius(60.0)).has_value());
  EXPECT_FALSE(melts_on(Agent::gelatin, mass_percent(1.1), 200.0, celsius(5.0)).has_value());
  EXPECT_FALSE(melts_on(Agent::agar, mass_percent(0.8), 200.0, celsius(60.0)).has_value());
  EXPECT_FALSE(melts_on(Agent::methylcellulose, mass_percent(1.1), 200.0, celsius(60.0)).has_value());
}

TEST(OnTheTable, MousseCakesInAWarmRoom) {
  // 28.3 C (83 F), from 4 C, slump at 20 C, time constant 60 min: 1.07 time constants, 60 min (40 to 80); to 15 C 36 min.
  EXPECT_NEAR(in_seconds(stands_for(celsius(4.0), celsius(28.3), minutes(60.0))) / 60.0, 64.0, 2.0);
  EXPECT_NEAR(in_seconds(time_to_warm(celsius(4.0), celsius(15.0), celsius(28.3), minutes(60.0))) / 60.0, 36.0, 1.0);
  EXPECT_TRUE(std::isinf(stands_for(celsius(4.0), celsius(18.0), minutes(60.0)).si));
}

TEST(RawFruitBeside, EatsGelatinWhereTheyTouch) {
  ASSERT_TRUE(enzyme_contact(Agent::gelatin, true).has_value());
  EXPECT_EQ(enzyme_contact(Agent::gelatin, true)->code, Code::enzyme_contact);
  EXPECT_FALSE(enzyme_contact(Agent::agar, true).has_value());
  EXPECT_FALSE(enzyme_contact(Agent::gelatin, false).has_value());
}

TEST(Curdling, MilkWithLemonAndSpirit) {
  // 300 tea, 150 spirit 40 %, 60 lemon, 60 syrup into 150 milk curdles; milk in tea alone does not.
  const matter::Composition milk = of("milk", 150.0);
  const Mass protein{milk[Component::protein]};
  const matter::Composition mix = milk + water(300.0) + spirit(150.0, 40.0) + of("lemon juice", 60.0) + of(Component::sucrose, 40.0) + water(20.0);
  const Curd c = curdling(mix, protein, celsius(20.0), Order::acid_into_milk);
  EXPECT_TRUE(c.curdles);
  // Casein is 76 to 82 % of milk protein (milk protein handbooks).
  EXPECT_TRUE(c.protein / protein >= 0.70 && c.protein / protein <= 0.85) << c.protein / protein;
  EXPECT_GT(c.fat.si, 0.9 * mix[Component::fat]);
  EXPECT_EQ(c.cause->code, Code::curdles);
  EXPECT_FALSE(curdling(milk + water(300.0), protein, celsius(20.0), Order::milk_into_acid).curdles);
  EXPECT_FALSE(curdling(of("lemon juice", 60.0), Mass{0.0}, celsius(20.0), Order::milk_into_acid).curdles) << "no milk";
}

TEST(Curdling, NeverGivesMoreThanThereIs) {
  EXPECT_TRUE(rc::check([] {
    const matter::Composition milk = of("milk", 1.0 * *rc::gen::inRange(1, 500)), mix = milk + of("lemon juice", 1.0 * *rc::gen::inRange(0, 300));
    const Mass protein{milk[Component::protein]};
    const Curd c = curdling(mix, protein, celsius(20.0), Order::acid_into_milk);
    RC_ASSERT(c.protein <= protein && c.fat.si <= mix[Component::fat] + 1e-12);
    RC_ASSERT(c.curdles == (c.ph <= c.limit_ph));
  }));
}

matter::Composition brine(double total_g, double salt_percent) {
  const double salt = 0.01 * salt_percent * total_g;
  return water(total_g - salt) + of(Component::sodium, 0.3934 * salt) + of(Component::chloride, 0.6066 * salt);
}

TEST(Spheres, SoySauceBecomesWormsAndGhosts) {
  // About 15 % salt, alginate 0.5 % and calcium chloride 0.5 %: sodium competes with calcium; take the reverse way or agar pearls in oil.
  const matter::Composition bath = water(995.0) + of(Component::calcium, 1.8) + of(Component::chloride, 3.2);
  const Spheres s = spheres(SphereWay::direct, brine(99.5, 15.0) + of(Component::alginate, 0.5), bath);
  EXPECT_EQ(s.verdict, Verdict::will_not_set);
  EXPECT_NEAR(s.causes.front().value, 15.0, 0.5);
  ASSERT_FALSE(s.advice.empty());
  EXPECT_NE(s.advice.front().find("reverse"), std::string::npos);
  EXPECT_NE(s.advice.front().find("agar"), std::string::npos);
  EXPECT_GT(s.density_difference_kg_m3, 0.0);
}

TEST(Spheres, SourLiquidsNeedABufferOrTheReverseWay) {
  // Practice: at pH 3.2 direct spheres fail; the reverse way does not mind.
  const matter::Composition sour = of("lemon juice", 30.0) + water(170.0) + of(Component::sucrose, 20.0);
  const matter::Composition calcium_bath = water(995.0) + of(Component::calcium, 2.2) + of(Component::chloride, 3.8);
  const Spheres direct = spheres(SphereWay::direct, sour + of(Component::alginate, 1.3), calcium_bath);
  EXPECT_EQ(direct.verdict, Verdict::will_not_set);
  EXPECT_EQ(direct.causes.front().code, Code::too_acid);
  matter::Composition with_calcium = sour + of("calcium lactate gluconate", 4.0);
  const Spheres reverse = spheres(SphereWay::reverse, with_calcium, of("low-mineral water", 995.0) + of(Component::alginate, 5.0));
  EXPECT_EQ(reverse.verdict, Verdict::sets);
}

TEST(Spheres, LightDropsFloat) {
  const Spheres s =
      spheres(SphereWay::reverse, spirit(200.0, 40.0) + of("calcium lactate gluconate", 4.0), of("low-mineral water", 995.0) + of(Component::alginate, 5.0));
  EXPECT_LT(s.density_difference_kg_m3, 0.0);
  EXPECT_EQ(s.causes.back().code, Code::sinks_or_floats);
}

TEST(Layers, SpiritOnSyrupFloatsAndSyrupOnSpiritSinks) {
  const Warm light{spirit(30.0, 40.0), celsius(20.0)}, heavy{water(50.0) + of(Component::sucrose, 50.0), celsius(20.0)};
  EXPECT_EQ(layer(light, heavy).lying, Lying::floats);
  EXPECT_FALSE(layer(light, heavy).cause.has_value());
  EXPECT_EQ(layer(heavy, light).lying, Lying::sinks);
  EXPECT_EQ(layer(heavy, light).cause->code, Code::sinks_or_floats);
  EXPECT_EQ(layer(light, light).lying, Lying::mixes);
}

}  // namespace
}  // namespace bloomset::texture
