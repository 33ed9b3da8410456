// How a drink varies: against sums of independent errors worked out by hand, and what must hold for every drink.
#include "solve/scatter.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "solve/drink.hpp"
#include "solve/kitchen.hpp"

namespace bloomset::solve {
namespace {

using matter::Property;
using solve_test::demo;
using solve_test::one_step;
using solve_test::shelf;
using solve_test::tools;

ScatterSheet made(const formula::Formula& formula, std::uint64_t draws = 4096, std::uint64_t seed = 1, unsigned threads = 1) {
  ScatterAsked asked{{formula, shelf(), tools(), std::nullopt, {}}, {}};
  asked.course.draws = draws;
  asked.course.seed = seed;
  asked.course.threads = threads;
  auto sheet = scatter(asked);
  EXPECT_TRUE(sheet.has_value() && sheet->has_value());
  return std::move(**sheet);
}

const Spread& spread(const ScatterSheet& sheet, const std::string& where, Property p) {
  for (const PropertySpread& row : sheet.properties)
    if (row.where == where && row.property == p) return row.spread;
  ADD_FAILURE() << where << ' ' << matter::key(p);
  static const Spread none;
  return none;
}

const Cause* cause(const ScatterSheet& sheet, Property of, const std::string& words) {
  for (const Cause& c : sheet.causes)
    if (c.of == of && c.words == words) return &c;
  return nullptr;
}

// A normal law cut at four deviations keeps 0.99893 of its variance: 1 - 8 phi(4) / (2 Phi(4) - 1) (Johnson, Kotz and Balakrishnan 1994, eq. 13.134).
constexpr double cut = 0.99946;  // of its deviation

TEST(Scatter, OfTwoWeighingsIsTheRootOfTheSumOfTheirSquares) {
  // Two weighings, each of 0.5 g (the table's width of a 1 g scale): 0.5 sqrt(2) together; half the variance each.
  const auto sheet = made(solve_test::read(one_step("do = \"combine\"\ntake = [\"100 g water\", \"200 g white sugar\"]")));
  EXPECT_NEAR(spread(sheet, "'drink'", Property::mass_g).deviation, 0.5 * std::sqrt(2.0) * cut, 0.002);
  for (const char* words : {"weighing of the water", "weighing of the white sugar"}) {
    const Cause* one = cause(sheet, Property::mass_g, words);
    ASSERT_NE(one, nullptr) << words;
    EXPECT_NEAR(one->index.first, 0.5, one->index.first_error);
    EXPECT_NEAR(one->index.total, 0.5, one->index.total_error);
  }
}

TEST(Scatter, OfAMeasureIsThatOfTheJigger) {
  // 40 mL of water at 20 C: 1 mL (two deviations are the 2 mL that a measure below 100 mL may be off) is 0.998 g (Tanaka 2001).
  const auto sheet = made(solve_test::read(one_step("do = \"combine\"\ntake = [\"40 mL water\"]")));
  EXPECT_NEAR(spread(sheet, "'drink'", Property::mass_g).deviation, 0.9982 * cut, 0.003);
  EXPECT_NEAR(spread(sheet, "'drink'", Property::mass_g).p95 - spread(sheet, "'drink'", Property::mass_g).p50, 1.645 * 0.9982, 0.03);
}

TEST(Scatter, OfOneBottleAddsUp) {
  // Two takes of one crate of lime juice move together: the drink is lime juice, and its acid varies as the juice's does, by a tenth.
  const auto sheet = made(solve_test::read(one_step("do = \"combine\"\ntake = [\"500 g lime juice\", \"500 g lime juice\"]")));
  const Spread& acid = spread(sheet, "'drink'", Property::titratable_acidity_g_100g_citric);
  EXPECT_NEAR(acid.deviation / acid.mean, 0.10, 0.003);  // data/larder/variability.csv
  EXPECT_NEAR(spread(sheet, "'drink'", Property::ph_25c).deviation, 0.09, 0.005);
}

TEST(Scatter, FallsWhereTheCookHasMeasured) {
  const auto of = [](const std::string& juice) {
    const auto sheet = made(solve_test::read(one_step("do = \"combine\"\ntake = [\"100 g " + juice + "\", \"100 g water\"]")));
    return spread(sheet, "'drink'", Property::titratable_acidity_g_100g_citric).deviation;
  };
  const double measured = of("lime juice (6 % acid)"), not_measured = of("lime juice");
  EXPECT_LT(measured, 0.5 * not_measured);
  EXPECT_GT(measured, 0.1 * not_measured);
}

TEST(Scatter, IsNothingWhereNothingVaries) {
  for (const char* name : {"01-quay-sour.toml", "08-harbour-light.toml"}) {
    auto flow = solve_test::varied(demo(name));
    ASSERT_FALSE(flow.variation.empty());
    for (flow::Variation& v : flow.variation) v.width = 0.0;
    const Drink drink(flow);
    for (const Spread& s : spreads(drink, {.draws = 256})) {
      if (std::isnan(s.mean)) continue;
      EXPECT_EQ(s.deviation, 0.0) << name;
      EXPECT_EQ(s.p05, s.p95) << name;
    }
    for (const Index& i : indices(drink, {.draws = 64})) EXPECT_EQ(i.total, 0.0) << name;
  }
}

TEST(Scatter, OfOneCauseAloneIsAllItsOwn) {
  // All widths but one at nothing: what scatters, scatters by that one.
  auto flow = solve_test::varied(demo("01-quay-sour.toml"));
  for (flow::Variation& v : flow.variation)
    if (v.cause != "acid of the lemon juice") v.width = 0.0;
  const Drink drink(flow);
  const auto all = indices(drink, {.draws = 512});
  const std::size_t acid = 9;
  ASSERT_EQ(Drink::properties()[acid], Property::titratable_acidity_g_100g_citric);
  for (std::size_t g = 0; g < drink.causes(); ++g)
    EXPECT_NEAR(all[acid * drink.groups + g].total, drink.groups_of()[g].words == "acid of the lemon juice" ? 1.0 : 0.0, 0.02) << drink.groups_of()[g].words;
}

TEST(Scatter, SwapsAGroupAsIfAllHadBeenRunAnew) {
  // Only the units behind a cause are run again; the second route runs all of them.
  const auto flow = solve_test::varied(demo("08-harbour-light.toml"));
  const Drink drink(flow);
  const SobolPoints points(2 * drink.numbers, 5);
  std::vector<double> u(2 * drink.numbers * lanes), quick(drink.answers * lanes), slow(drink.answers * lanes), mixed(drink.numbers * lanes);
  points.draw(0, u);
  const std::span<const double> a = std::span(u).first(drink.numbers * lanes), b = std::span(u).last(drink.numbers * lanes);
  const auto hand = drink.worker(), other = drink.worker();
  hand->answer(0, a, true, quick);
  for (std::size_t g = 0; g < drink.groups; ++g) {
    hand->swap(g, b, quick);
    std::copy(a.begin(), a.end(), mixed.begin());
    for (const std::uint32_t v : drink.groups_of()[g].variations)
      for (std::size_t i = flow.variation[v].draw * lanes; i < (flow.variation[v].draw + 1) * lanes; ++i) mixed[i] = b[i];
    other->answer(0, mixed, false, slow);
    for (std::size_t i = 0; i < drink.brief * lanes; ++i) ASSERT_TRUE(quick[i] == slow[i] || std::isnan(slow[i])) << drink.groups_of()[g].words << ' ' << i;
  }
}

TEST(Scatter, JudgesATargetByItsOwnDraws) {
  // The mass of two even weighings lies above its middle in half of all cases, and within one deviation in 68.3 % (the normal law).
  const double deviation = 0.5 * std::sqrt(2.0);
  const auto text = one_step("do = \"combine\"\ntake = [\"100 g water\", \"200 g white sugar\"]",
                             "targets = [\"'drink'.mass >= 300 g\", \"'drink'.mass " + text::print_number(300.0 - deviation, 9) + "-" +
                                 text::print_number(300.0 + deviation, 9) + " g\", \"'drink'.mass <= 290 g\"]\n");
  const auto sheet = made(solve_test::read(text));
  ASSERT_EQ(sheet.holds.size(), 3U);
  EXPECT_NEAR(sheet.holds[0].share, 0.5, sheet.holds[0].error);
  EXPECT_NEAR(sheet.holds[1].share, 0.6827, sheet.holds[1].error);
  EXPECT_EQ(sheet.holds[2].share, 0.0);
  EXPECT_GT(sheet.holds[2].error, 0.0);
}

TEST(Scatter, SaysWhatToMeasureFirst) {
  const auto sheet = made(demo("08-harbour-light.toml"));
  const Cause* acid = cause(sheet, Property::titratable_acidity_g_100g_citric, "acid of the lime juice");
  ASSERT_NE(acid, nullptr);
  EXPECT_EQ(sheet.says.find("measure the acid of the lime juice: it causes "), 0U) << sheet.says;
  EXPECT_NE(sheet.says.find("% of the scatter in sourness"), std::string::npos) << sheet.says;
  for (const Rests& rests : sheet.rests) {
    double total = 0.0;
    for (const Index& ground : rests.on) total += ground.first;
    EXPECT_NEAR(total, 1.0, 0.1) << matter::key(rests.of);  // grounds are apart; only what needs two of them at once is missing
  }
}

TEST(Scatter, IsTheSameOnOneThreadAndOnThree) {
  const auto formula = demo("08-harbour-light.toml");
  const auto one = made(formula, 1000, 7, 1), three = made(formula, 1000, 7, 3);
  ASSERT_EQ(one.properties.size(), three.properties.size());
  for (std::size_t i = 0; i < one.properties.size(); ++i) {
    EXPECT_EQ(one.properties[i].spread.p05, three.properties[i].spread.p05);
    EXPECT_EQ(one.properties[i].spread.deviation, three.properties[i].spread.deviation);
  }
  ASSERT_EQ(one.causes.size(), three.causes.size());
  for (std::size_t i = 0; i < one.causes.size(); ++i) EXPECT_EQ(one.causes[i].index.first, three.causes[i].index.first);
  for (std::size_t i = 0; i < one.holds.size(); ++i) EXPECT_EQ(one.holds[i].share, three.holds[i].share);
}

TEST(Scatter, AgreesWithAnotherSeedWithinTheErrors) {
  const auto formula = demo("01-quay-sour.toml");
  const auto a = made(formula, 4096, 1), b = made(formula, 4096, 99);
  ASSERT_EQ(a.properties.size(), b.properties.size());
  for (std::size_t i = 0; i < a.properties.size(); ++i) {
    const Spread &x = a.properties[i].spread, &y = b.properties[i].spread;
    EXPECT_NEAR(x.p50, y.p50, x.error + y.error) << matter::key(a.properties[i].property);
    EXPECT_NEAR(x.p95, y.p95, x.error + y.error) << matter::key(a.properties[i].property);
  }
}

TEST(Scatter, RefusesNoDrawsAndTooMany) {
  const auto formula = demo("01-quay-sour.toml");
  for (const std::uint64_t draws : {std::uint64_t{0}, std::uint64_t{1'000'000'000'000}}) {
    ScatterAsked asked{{formula, shelf(), tools(), std::nullopt, {}}, {}};
    asked.course.draws = draws;
    const auto sheet = scatter(asked);
    ASSERT_FALSE(sheet.has_value());
    EXPECT_EQ(sheet.error().message, "the number of draws must be 1 to 100000000; read " + std::to_string(draws));
  }
}

}  // namespace
}  // namespace bloomset::solve
