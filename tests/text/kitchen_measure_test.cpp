// Kitchen measures: steps of 21 CFR 101.9(b)(5) with the FDA inspection guide's attachment 6 (5, 15 and 240 mL), ties to the larger.
#include <gtest/gtest.h>

#include "text/amount.hpp"

namespace bloomset::text {
namespace {

std::string us(double ml) { return kitchen_measure(units::millilitres(ml), Measures::us); }

TEST(KitchenMeasure, takes_the_nearest_step_and_at_a_tie_the_larger) {
  // Values worked by hand from the steps.
  EXPECT_EQ(us(2.5), "1/2 tsp");
  EXPECT_EQ(us(3.8), "3/4 tsp");
  EXPECT_EQ(us(5.2), "1 tsp");
  EXPECT_EQ(us(10.4), "2 tsp");
  EXPECT_EQ(us(15.0), "1 tbsp");
  EXPECT_EQ(us(20.5), "1 1/3 tbsp");
  EXPECT_EQ(us(22.0), "1 1/2 tbsp");
  EXPECT_EQ(us(26.0), "1 2/3 tbsp");
  EXPECT_EQ(us(28.7), "2 tbsp");
  EXPECT_EQ(us(44.0), "3 tbsp");
  EXPECT_EQ(us(60.0), "1/4 cup");
  EXPECT_EQ(us(82.0), "1/3 cup");
  EXPECT_EQ(us(117.0), "1/2 cup");
  EXPECT_EQ(us(182.0), "3/4 cup");
  EXPECT_EQ(us(250.0), "1 cup");
  EXPECT_EQ(us(310.0), "1 1/3 cup");  // a tie between 300 and 320
  EXPECT_EQ(us(473.0), "2 cup");
}

TEST(KitchenMeasure, says_nothing_where_a_step_is_over_a_twentieth_off) {
  EXPECT_EQ(us(0.7), "");    // 1/4 tsp would be 79 % more
  EXPECT_EQ(us(3.1), "");    // 1/2 tsp would be 19 % less
  EXPECT_EQ(us(12.0), "");   // between 2 tsp and 1 tbsp
  EXPECT_EQ(us(37.5), "");   // between 2 and 3 tbsp
  EXPECT_EQ(us(170.0), "");  // 3/4 cup would be 5.9 % more, 2/3 cup as much less
  EXPECT_EQ(us(0.0), "");
  EXPECT_EQ(us(-5.0), "");
  EXPECT_EQ(us(1.25), "1/4 tsp");
}

TEST(KitchenMeasure, uses_the_spoons_and_cups_of_the_system) {
  EXPECT_EQ(kitchen_measure(units::millilitres(250.0), Measures::metric), "1 cup");
  EXPECT_EQ(kitchen_measure(units::millilitres(20.0), Measures::au), "1 tbsp");
  EXPECT_EQ(kitchen_measure(units::millilitres(15.0), Measures::au), "3 tsp");
  EXPECT_EQ(kitchen_measure(units::millilitres(15.0), Measures::imperial), "");
}

}  // namespace
}  // namespace bloomset::text
