// What is said about a faulty target, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Target, begins_with_where_and_a_property) {
  EXPECT_EQ(said(with_target("abv 8 %")), R"~(f.toml:3:13: error: a target begins with `serve.` or with a part in single quotes and a point [bad_target]
  targets = ["abv 8 %"]
              ^~~
  hint: for instance `serve.abv 8-11 %` or `'orange cloud'.volume <= 500 mL`
)~");
  EXPECT_EQ(said(with_target("serve abv 8 %")), R"~(f.toml:3:18: error: a point and a property must follow [bad_target]
  targets = ["serve abv 8 %"]
                   ^
  hint: for instance `serve.abv 8-11 %`
)~");
  EXPECT_EQ(said(with_target("serve.abw 8 %")), R"~(f.toml:3:19: error: `abw` is not a property of a target [unknown_property]
  targets = ["serve.abw 8 %"]
                    ^~~
  hint: did you mean `abv`?
)~");
  EXPECT_EQ(said(with_target("'p.abv 8 %")), R"~(f.toml:3:13: error: this single quote is not closed [open_quote]
  targets = ["'p.abv 8 %"]
              ^~~~~~~~~~
)~");
  EXPECT_EQ(said(with_target("serve.sourness 8 %")), R"~(f.toml:3:19: error: `sourness` is not a property of a target [unknown_property]
  targets = ["serve.sourness 8 %"]
                    ^~~~~~~~
  hint: properties: abv, abv_all_melted, ethanol, sugar, sugars, brix, brix_read, sweetness, acidity, acidity_g_l, ph, temperature, freezing_point, water_activity, density, viscosity, co2, mass, volume, ice, foam, overrun, headroom, energy, cost, fill, pressure, ready_after
)~");
}

TEST(Target, has_one_wish) {
  EXPECT_EQ(said(with_target("serve.abv")), R"~(f.toml:3:22: error: a number is missing at the end [bad_number]
  targets = ["serve.abv"]
                       ^
)~");
  EXPECT_EQ(said(with_target("serve.abv > 8 %")), R"~(f.toml:3:23: error: the signs of a target are >=, <= and = [bad_target]
  targets = ["serve.abv > 8 %"]
                        ^
)~");
  EXPECT_EQ(said(with_target("serve.abv >= 8-11 %")), R"~(f.toml:3:26: error: behind >=, <= or = stands one number [bad_target]
  targets = ["serve.abv >= 8-11 %"]
                           ^~~~
  hint: a band is written without a sign: `8-11 %`
)~");
  EXPECT_EQ(said(with_target("serve.abv 11-8 %")), R"~(f.toml:3:23: error: this range runs backwards [backwards_range]
  targets = ["serve.abv 11-8 %"]
                        ^~~~
  hint: write the smaller number first
)~");
}

TEST(Target, is_written_in_the_units_of_its_property) {
  EXPECT_EQ(said(with_target("serve.abv 8")), R"~(f.toml:3:24: error: `abv` is written in % [unknown_unit]
  targets = ["serve.abv 8"]
                         ^
)~");
  EXPECT_EQ(said(with_target("serve.abv 8 mL")), R"~(f.toml:3:25: error: `abv` is written in % [unknown_unit]
  targets = ["serve.abv 8 mL"]
                          ^~
)~");
  EXPECT_EQ(said(with_target("serve.ph 3 %")), R"~(f.toml:3:24: error: `%` must not stand behind a target [unexpected_text]
  targets = ["serve.ph 3 %"]
                         ^
  hint: `ph` is written in no unit
)~");
  EXPECT_EQ(said(with_target("serve.volume 6 fl oz")), R"~(f.toml:3:28: error: `volume` is written in mL, or another volume [unknown_unit]
  targets = ["serve.volume 6 fl oz"]
                             ^~~~~
)~");
  EXPECT_EQ(said(with_target("serve.cost <= 2 EUR")), R"~(f.toml:3:29: error: `EUR` must not stand behind a target [unexpected_text]
  targets = ["serve.cost <= 2 EUR"]
                              ^~~
  hint: `cost` is written in no unit
)~");
  EXPECT_EQ(said(with_target("serve.fill <= 1")), R"~(f.toml:3:28: error: `fill` is written in % [unknown_unit]
  targets = ["serve.fill <= 1"]
                             ^
)~");
  EXPECT_EQ(said(with_target("serve.abv 8 % vol")), R"~(f.toml:3:27: error: `vol` must not stand behind a target [unexpected_text]
  targets = ["serve.abv 8 % vol"]
                            ^~~
  hint: `abv` is written in %
)~");
}

TEST(Target, has_its_moment_in_minutes_behind_the_last_pour) {
  EXPECT_EQ(said(with_target("serve.abv at 10 >= 8 %")),
            R"~(f.toml:3:25: error: a moment is one number of minutes behind the last pour, at most 1440 [bad_target]
  targets = ["serve.abv at 10 >= 8 %"]
                          ^~~~
  hint: for instance `serve.abv at 10 min >= 8 %`
)~");
  EXPECT_EQ(said(with_target("'p'.abv at 10 min 8 %")), R"~(f.toml:3:23: error: only the serve has a course over time [bad_target]
  targets = ["'p'.abv at 10 min 8 %"]
                        ^~~~~~~
  hint: leave `at … min` out for a part
)~");
}

TEST(Target, can_be_met) {
  EXPECT_EQ(said(with_target("serve.temperature -300 C")), R"~(f.toml:3:31: error: no `temperature` can be so [out_of_range]
  targets = ["serve.temperature -300 C"]
                                ^~~~
)~");
  EXPECT_EQ(said(with_target("serve.mass -5 g")), R"~(f.toml:3:24: error: no `mass` can be so [out_of_range]
  targets = ["serve.mass -5 g"]
                         ^~
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
