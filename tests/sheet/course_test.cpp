// A make, part by part: what is at hand at once, how near is good enough, which end of a window holds.
#include "sheet/course.hpp"

#include <cmath>
#include <set>

#include "made.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {
namespace {

using sheet_test::house;
using sheet_test::text_of;

const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";

Counter counter(const std::string& text, std::optional<int> serves = std::nullopt) {
  base::Sources sources;
  auto formula = formula::read("f.toml", text, sources, [](const std::string& file) { return std::optional(text_of(demo / file)); });
  EXPECT_TRUE(formula) << (formula ? "" : base::render(formula.error().diagnostics, sources));
  if (!formula) return {};
  auto made = make_counter({*formula, house().larder, house().kit, serves, text});
  EXPECT_TRUE(made) << (made ? "" : made.error().message + base::render(made.error().diagnostics, sources));
  return made ? std::move(*made) : Counter{};
}
const Counter& harbour_light() {
  static const Counter made = counter(text_of(demo / "08-harbour-light.toml"));
  return made;
}
const CourseTake& take(const Course& course, std::size_t step, std::size_t number) { return course.steps.at(step - 1).takes.at(number - 1); }

TEST(Course, stands_behind_what_it_is_made_of) {
  ASSERT_EQ(harbour_light().courses.size(), 4U);
  std::vector<std::size_t> order;
  for (const Course& course : harbour_light().courses) order.push_back(course.index);
  // The cloud, then the borrowed syrup, which the shaken part takes, then that, then the serve.
  EXPECT_EQ(order, (std::vector<std::size_t>{0, 2, 1, 3}));
  EXPECT_TRUE(harbour_light().courses.back().serve);
}

TEST(Course, gives_amounts_for_a_batch_a_round_or_a_serve) {
  const Course &cloud = harbour_light().courses[0], &shaken = harbour_light().courses[2], &serve = harbour_light().courses[3];
  EXPECT_EQ(cloud.stands_for, "one batch");
  EXPECT_DOUBLE_EQ(take(cloud, 1, 1).mass_g, 230.0);
  // Six serves, and the kit's shaker holds two (docs/kit.md): three rounds of two.
  EXPECT_EQ(shaken.stands_for, "one round of 2");
  EXPECT_EQ(shaken.rounds, 3);
  EXPECT_NEAR(take(shaken, 1, 1).volume_ml, 90.0, 1e-9);
  EXPECT_NEAR(take(shaken, 1, 5).mass_g, 400.0, 1e-9);
  EXPECT_EQ(serve.stands_for, "one serve");
  EXPECT_NEAR(take(serve, 1, 1).mass_g, 100.0, 1e-9);
  EXPECT_EQ(counter(text_of(demo / "08-harbour-light.toml"), 1).courses[2].stands_for, "one round of 1");
  EXPECT_EQ(counter(text_of(demo / "08-harbour-light.toml"), 5).courses[2].stands_for, "one round of 2");
}

TEST(Course, counts_how_often_a_thing_goes_in_and_says_what_it_looks_like) {
  const Course& cloud = harbour_light().courses[0];
  EXPECT_EQ(take(cloud, 1, 1).first_of, 1);
  EXPECT_EQ(take(cloud, 5, 1).first_of, 2);
  EXPECT_EQ(take(cloud, 1, 1).look, "juice");
  const Course& shaken = harbour_light().courses[2];
  EXPECT_EQ(take(shaken, 1, 1).look, "spirit");
  EXPECT_EQ(take(shaken, 1, 4).look, "sweetener");
  EXPECT_TRUE(take(shaken, 1, 4).made);
  EXPECT_EQ(take(shaken, 1, 5).look, "ice");
  // The water that gelatin drinks is nothing to weigh.
  EXPECT_EQ(cloud.steps[2].takes.size(), 1U);
}

TEST(Course, calls_two_deviations_of_scale_and_jigger_good_enough) {
  const Course &cloud = harbour_light().courses[0], &shaken = harbour_light().courses[2];
  // A scale of 1 g and the hand that stops: 0.5 g one deviation (practice).
  EXPECT_NEAR(*take(cloud, 1, 1).good_low_g, 229.0, 1e-9);
  EXPECT_NEAR(*take(cloud, 1, 1).good_high_g, 231.0, 1e-9);
  // Directive 2014/32/EU, Annex X: a line measure below 100 mL errs by at most 2 mL, taken as two deviations; for the round, not for each serve of it.
  const CourseTake& spirit = take(shaken, 1, 1);
  EXPECT_NEAR((*spirit.good_high_g - spirit.mass_g) / spirit.mass_g * spirit.volume_ml, 2.0, 1e-9);
  EXPECT_NEAR((spirit.mass_g - *spirit.good_low_g) / spirit.mass_g * spirit.volume_ml, 2.0, 1e-9);
  EXPECT_TRUE(spirit.good_source.starts_with("memory: Directive 2014/32/EU"));
  // Leaves and pods are counted.
  EXPECT_FALSE(take(cloud, 3, 1).good_low_g);
  EXPECT_DOUBLE_EQ(*take(cloud, 3, 1).pieces, 2.0);
  // All there is goes in.
  EXPECT_FALSE(take(harbour_light().courses[3], 1, 2).good_low_g);
  const Counter band = counter(sheet_test::document(sheet_test::ahead("p", "{ do = \"combine\", take = [\"20-24 g honey\"] }"), "{ take = [\"5 g 'p'\"] }"));
  EXPECT_NEAR(*take(band.courses[0], 1, 1).good_low_g, 20.0, 1e-9);
  EXPECT_NEAR(*take(band.courses[0], 1, 1).good_high_g, 24.0, 1e-9);
  EXPECT_EQ(take(band.courses[0], 1, 1).good_source, "the document");
}

TEST(Course, holds_the_end_of_a_window_that_the_act_asks_for_unless_the_document_says_another) {
  const Course &cloud = harbour_light().courses[0], &shaken = harbour_light().courses[2];
  const CourseWindow& bloom = *cloud.steps[2].window;
  EXPECT_DOUBLE_EQ(bloom.low_s, 300.0);
  EXPECT_DOUBLE_EQ(bloom.high_s, 1800.0);
  EXPECT_TRUE(bloom.low_hard);
  EXPECT_FALSE(bloom.high_hard);
  EXPECT_FALSE(bloom.why.empty());
  const CourseWindow& shake = *shaken.steps[0].window;
  EXPECT_FALSE(shake.low_hard || shake.high_hard);
  EXPECT_TRUE(shake.why.empty());
  EXPECT_FALSE(cloud.steps[1].window);
  const Counter both = counter(sheet_test::document(sheet_test::ahead("p", "{ do = \"combine\", take = [\"90 g water\"], time = \"2 min\", hard = \"both\" }"),
                                                    "{ take = [\"5 g 'p'\"] }"));
  const CourseWindow& own = *both.courses[0].steps[0].window;
  EXPECT_TRUE(own.low_hard && own.high_hard);
  EXPECT_DOUBLE_EQ(own.low_s, own.high_s);
  EXPECT_TRUE(own.why.empty());
}

TEST(Course, names_findings_of_its_steps_and_leaves_maybe_takes_without_a_mass) {
  const auto codes = [](const CourseStep& step) {
    std::multiset<std::string_view> out;
    for (const std::size_t f : step.cautions) out.insert(base::name(harbour_light().sheet->findings.at(f).code));
    return out;
  };
  for (const Course& course : harbour_light().courses)
    for (const CourseStep& step : course.steps)
      for (const std::size_t f : step.findings) {
        const std::uint16_t at = harbour_light().sheet->findings.at(f).where.step;
        EXPECT_TRUE(at == step.number || (at == 0 && step.number == course.steps.size()));
      }
  // The usual cautions stand where the bottle is charged, those of the whole glass where it is served; how the model reads honey is said nowhere.
  EXPECT_EQ(codes(harbour_light().courses[0].steps[7]), (std::multiset<std::string_view>{"gas_caution", "gas_caution", "pressure_if_warm"}));
  EXPECT_EQ(codes(harbour_light().courses[3].steps[3]).count("alcohol"), 1U);
  EXPECT_TRUE(codes(harbour_light().courses[0].steps[0]).empty());
  const CourseTake& mint = take(harbour_light().courses[3], 4, 1);
  EXPECT_TRUE(mint.maybe);
  EXPECT_TRUE(std::isnan(mint.mass_g));
  EXPECT_EQ(harbour_light().courses[3].steps[3].line, nullptr);
}

TEST(Course, weighs_in_what_the_sheet_counts_in_every_demo) {
  for (const auto& entry : std::filesystem::directory_iterator(demo)) {
    if (entry.path().extension() != ".toml" || entry.path().stem() == "syrups") continue;
    const Counter made = counter(text_of(entry.path()));
    for (const Course& course : made.courses) {
      const std::vector<TakeLine>& lines = course.serve ? made.sheet->serve->takes : made.sheet->parts[course.index].takes;
      for (const CourseStep& step : course.steps) {
        // What an act brings with it (water, gas) stands behind the takes of its step, and nobody weighs it.
        std::multiset<double> weighed, counted;
        for (const TakeLine& line : lines)
          if (line.step == step.number && counted.size() < step.takes.size()) counted.insert(line.maybe ? -1.0 : line.mass_g * course.per);
        for (const CourseTake& one : step.takes) weighed.insert(one.maybe ? -1.0 : one.mass_g);
        EXPECT_EQ(weighed, counted) << entry.path() << " " << course.index << " " << step.number;
      }
      for (const CourseStep& step : course.steps)
        for (const CourseTake& one : step.takes)
          if (one.good_low_g) {
            EXPECT_LE(*one.good_low_g, one.mass_g);
            EXPECT_GE(*one.good_high_g, one.mass_g);
          }
    }
  }
}

TEST(Course, has_a_row_of_windows_only_for_acts_and_every_row_has_a_source) {
  for (const auto& row : text::table_rows(text_of(BLOOMSET_SOURCE_DIR "/data/sheet/windows.csv"))) {
    EXPECT_TRUE(formula::act_named(row[0])) << row[0];
    EXPECT_TRUE(row[1] == "both" || row[1] == "shorter" || row[1] == "longer") << row[0];
    EXPECT_FALSE(row[2].empty());
    EXPECT_TRUE(row[3] == "practice" || row[3].starts_with("memory: ")) << row[0];
  }
  EXPECT_EQ(hard_end(formula::Act::bloom), "shorter");
  EXPECT_EQ(hard_end(formula::Act::shake), "neither");
}

}  // namespace
}  // namespace bloomset::sheet
