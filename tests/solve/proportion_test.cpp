// A drink told in parts, and how far a serve swings beside its sheet.
#include "solve/proportion.hpp"

#include <gtest/gtest.h>

#include "solve/asked.hpp"
#include "solve/code_holds.hpp"
#include "solve/scatter.hpp"
#include "solve/whiskers.hpp"

namespace bloomset::solve {
namespace {

ProportionSheet told(const std::vector<double>& parts, const std::vector<std::string>& things, std::optional<std::string> wish = std::nullopt,
                     double total_ml = 90.0) {
  ProportionAsked asked{sheet_test::house().larder, sheet_test::house().kit, parts, {}, units::millilitres(total_ml), std::move(wish), true};
  text::Faults faults;
  for (const std::string& thing : things) asked.things.push_back(*formula::read_thing(thing, {0, 1, 1, 1}, faults));
  auto made = proportion(asked);
  EXPECT_TRUE(made.has_value()) << (made ? "" : made.error().message);
  return made ? std::move(*made) : ProportionSheet{};
}

// 90 mL in 3.75 parts are 24 mL a part: 48, 24 and 18 mL. The document reads back as the same.
TEST(Proportion, SharesTheTotalOut) {
  const ProportionSheet found = told({2.0, 1.0, 0.75}, {"spirit (40 %vol)", "syrup (50 brix)", "lime juice"});
  ASSERT_EQ(found.drink.takes.size(), 3U);
  EXPECT_NEAR(found.drink.takes[0].volume_ml, 48.0, 1e-9);
  EXPECT_NEAR(found.drink.takes[1].volume_ml, 24.0, 1e-9);
  EXPECT_NEAR(found.drink.takes[2].volume_ml, 18.0, 1e-9);
  ASSERT_TRUE(found.drink.ratio.has_value());
  EXPECT_EQ(found.drink.ratio->parts, (std::vector<double>{2.0, 1.0, 0.75}));
  EXPECT_NEAR(sheet_test::made(found.formula).parts.at(0).values[matter::Property::mass_g], found.drink.values[matter::Property::mass_g], 1e-9);
}

// Worked by hand: six ounces (177.4 mL) at 3 : 2 : 1, both spirits at 40 %vol, take 61 % of melt to come to 20.7 %vol; the hand sum lets volumes add.
TEST(Proportion, WaterMeetsAWish) {
  const ProportionSheet found = told({3.0, 2.0, 1.0}, {"spirit (40 %vol)", "cane spirit (40 %vol)", "lime juice"}, "abv = 20.7 %", 177.4);
  EXPECT_TRUE(found.met);
  EXPECT_NEAR(found.drink.takes.back().mass_g, 0.61 * 177.4, 3.0);
  const ProportionSheet never = told({3.0, 1.0}, {"spirit (40 %vol)", "lime juice"}, "abv = 45 %");
  EXPECT_FALSE(never.met);
  EXPECT_NEAR(never.drink.takes.back().mass_g, 0.09, 0.02);  // a thousandth: nothing, as near as a document can say it
}

TEST(Proportion, RefusesAWishThatIsNone) {
  ProportionAsked asked{sheet_test::house().larder, sheet_test::house().kit, {1.0}, {}, units::millilitres(90.0), "stronger", true};
  text::Faults faults;
  asked.things.push_back(*formula::read_thing("spirit (40 %vol)", {0, 1, 1, 1}, faults));
  EXPECT_FALSE(proportion(asked).has_value());
}

// The second route: the same rows as the whole scatter of the same draws.
TEST(Whiskers, AreTheScattersOwnRows) {
  const auto question = solve_test::asked(sheet_test::text_of(BLOOMSET_SOURCE_DIR "/demo/01-quay-sour.toml"), {});
  Course course;
  course.draws = 512;
  const auto rows = whiskers(question->ask.in, course);
  const auto whole = scatter({question->ask.in, course});
  ASSERT_TRUE(rows.has_value() && whole.has_value() && whole->has_value());
  ASSERT_FALSE(rows->empty());
  for (std::size_t r = 0; r < rows->size(); ++r) {
    const PropertySpread &row = (*rows)[r], &same = (**whole).properties.at(r);
    EXPECT_EQ(row.where, "serve");
    EXPECT_EQ(row.property, same.property);
    EXPECT_EQ(row.spread.p05, same.spread.p05);
    EXPECT_EQ(row.spread.p95, same.spread.p95);
  }
}

// The second route: a glass runs over in just the draws in which there is no headroom, and that wish is judged by scatter itself.
TEST(CodeHolds, AGlassRunsOverWhereThereIsNoRoom) {
  const std::string text =
      "bloomset = 1\ntitle = \"Test\"\ntargets = [\"serve.headroom >= 0 mL\"]\n[serve]\nvessel = \"low glass, 300 mL\"\npour = [ { take = [\"299.5 g water\"] "
      "} ]\n";
  const auto question = solve_test::asked(text, {});
  Course course;
  course.draws = coded_draws;
  const auto codes = code_holds({question->ask.in, course});
  const auto whole = scatter({question->ask.in, course});
  ASSERT_TRUE(codes.has_value() && whole.has_value() && whole->has_value());
  const Hold& room = (**whole).holds.at(0);
  EXPECT_GT(room.share, 0.0);
  EXPECT_LT(room.share, 1.0);
  const auto over = std::find_if(codes->begin(), codes->end(), [](const Hold& hold) { return hold.code == "glass_over"; });
  ASSERT_NE(over, codes->end());
  EXPECT_EQ(over->share, room.share);
  EXPECT_EQ(over->draws, coded_draws);
  for (const Hold& hold : *codes) EXPECT_NE(hold.code, "target_unmet");
  course.threads = 3;
  const auto shared = code_holds({question->ask.in, course});
  ASSERT_EQ(shared->size(), codes->size());
  for (std::size_t h = 0; h < codes->size(); ++h) EXPECT_EQ((*shared)[h].share, (*codes)[h].share);
}

}  // namespace
}  // namespace bloomset::solve
