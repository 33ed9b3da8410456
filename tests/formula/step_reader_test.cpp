// What is said about a faulty step, in full and with the caret.
#include <gtest/gtest.h>

#include "formula/reading.hpp"

namespace bloomset::formula::test {
namespace {

TEST(Step, must_name_a_known_act) {
  EXPECT_EQ(said(with_step(R"~(take = ["1 g x"])~")), R"~(f.toml:6:10: error: a step must have `do` [missing_key]
  step = [ { take = ["1 g x"] } ]
           ^~~~~~~~~~~~~~~~~~~~
  hint: for instance do = "combine"
)~");
  EXPECT_EQ(said(with_step(R"~(do = "shaek")~")), R"~(f.toml:6:18: error: `shaek` is not an act [unknown_act]
  step = [ { do = "shaek" } ]
                   ^~~~~
  hint: did you mean `shake`?
)~");
  EXPECT_EQ(said(with_step(R"~(do = "levitate")~")), R"~(f.toml:6:18: error: `levitate` is not an act [unknown_act]
  step = [ { do = "levitate" } ]
                   ^~~~~~~~
  hint: acts: combine, dissolve, dilute, pour, float, layer, top, garnish, rim, roll, rinse, warm, boil, reduce, chill, freeze, rest, degas, infuse, strain, torch, shake, dry shake, stir, blend, bloom, disperse, hydrate, set, unmould, cut, blitz, froth, sphere, clarify, charge, dispense, carbonate
)~");
  EXPECT_EQ(said(with_step("do = 5")), R"~(f.toml:6:17: error: `do` must be a text, not a whole number [wrong_type]
  step = [ { do = 5 } ]
                  ^
  hint: write it in quotes, a quantity with its unit
)~");
}

TEST(Step, refuses_keys_that_are_none_or_not_of_the_act) {
  EXPECT_EQ(said(with_step(R"~(do = "combine", tiem = "5 min")~")), R"~(f.toml:6:28: error: `tiem` is not a key of a step [unknown_key]
  step = [ { do = "combine", tiem = "5 min" } ]
                             ^~~~
  hint: did you mean `time`?
)~");
  EXPECT_EQ(said(with_step(R"~(do = "combine", until = "65 brix")~")), R"~(f.toml:6:28: error: `combine` takes no `until` [key_not_of_act]
  step = [ { do = "combine", until = "65 brix" } ]
                             ^~~~~
  hint: keys of `combine`: take, in, vessel, to, at, time, split, leave, loss, keeps, hard, maybe
)~");
  EXPECT_EQ(said(with_step(R"~(do = "stir", charges = 1)~")), R"~(f.toml:6:25: error: `stir` takes no `charges` [key_not_of_act]
  step = [ { do = "stir", charges = 1 } ]
                          ^~~~~~~
  hint: keys of `stir`: take, ice, ice_at, in, vessel, to, at, time, split, leave, loss, keeps, hard, maybe
)~");
}

TEST(Step, has_one_end) {
  EXPECT_EQ(said(with_step(R"~(do = "reduce", to = "70 C", until = "65 brix")~")), R"~(f.toml:6:40: error: a step has one end: `to` or `until` [two_ends]
  step = [ { do = "reduce", to = "70 C", until = "65 brix" } ]
                                         ^~~~~
f.toml:6:27: the other place
  step = [ { do = "reduce", to = "70 C", until = "65 brix" } ]
                            ^~
  hint: take one of them out, or write two steps
)~");
  EXPECT_EQ(said(with_step(R"~(do = "warm", at = "70 C", to = "80 C")~")),
            R"~(f.toml:6:38: error: `at` (held at) and `to` (ends at) do not go together [two_ends]
  step = [ { do = "warm", at = "70 C", to = "80 C" } ]
                                       ^~
f.toml:6:25: the other place
  step = [ { do = "warm", at = "70 C", to = "80 C" } ]
                          ^~
  hint: write two steps: first `to`, then `at` with `time`
)~");
}

TEST(Step, reads_until_as_brix_ph_mass_or_share) {
  EXPECT_EQ(said(with_step(R"~(do = "reduce", until = "thick")~")), R"~(f.toml:6:36: error: a number must stand here, not `thick` [bad_number]
  step = [ { do = "reduce", until = "thick" } ]
                                     ^~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "reduce", until = "65 C")~")),
            R"~(f.toml:6:39: error: `until` is written in brix, pH, a mass or % of the step's start [unknown_unit]
  step = [ { do = "reduce", until = "65 C" } ]
                                        ^
  hint: for instance `65 brix`, `pH 4`, `606 g` or `25 %`
)~");
  EXPECT_EQ(said(with_step(R"~(do = "reduce", until = "60-65 brix")~")), R"~(f.toml:6:36: error: `until` takes one number, not a range [bad_number]
  step = [ { do = "reduce", until = "60-65 brix" } ]
                                     ^~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "warm", until = "pH 15")~")), R"~(f.toml:6:37: error: `until` may be at most 100 brix, pH 14, 10,000 kg or 100 % [too_large]
  step = [ { do = "warm", until = "pH 15" } ]
                                      ^~
)~");
}

TEST(Step, keeps_temperatures_and_shares_possible) {
  EXPECT_EQ(said(with_step(R"~(do = "chill", to = "-300 C")~")), R"~(f.toml:6:32: error: this is below absolute zero (-273.15 C) [too_cold]
  step = [ { do = "chill", to = "-300 C" } ]
                                 ^~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "warm", split = "120 %", loss = "2")~")), R"~(f.toml:6:34: error: a share may not be above 100 % [too_large]
  step = [ { do = "warm", split = "120 %", loss = "2" } ]
                                   ^~~
f.toml:6:51: error: a unit is missing behind the number: a share is written in % [unit_missing]
  step = [ { do = "warm", split = "120 %", loss = "2" } ]
                                                    ^
  hint: for instance `25 %`, `74-80 %`, `half`, `third` or `quarter`
)~");
}

TEST(Step, keeps_charges_gas_and_pressure_in_bounds) {
  EXPECT_EQ(said(with_step(R"~(do = "charge", charges = 99, pressure = "30 psi", gas = "helium", purged = "yes")~")),
            R"~(f.toml:6:37: error: `charges` must be from 0 to 20 [out_of_range]
  step = [ { do = "charge", charges = 99, pressure = "30 psi", gas = "helium", purged = "yes" } ]
                                      ^~
f.toml:6:56: error: a pressure is written in bar [unknown_unit]
  step = [ { do = "charge", charges = 99, pressure = "30 psi", gas = "helium", purged = "yes" } ]
                                                         ^~~
  hint: `1.5 bar` as a gauge shows it, or `2.5 bar abs`
f.toml:6:69: error: `helium` is not a value of `gas`: N2O, CO2 [unknown_word]
  step = [ { do = "charge", charges = 99, pressure = "30 psi", gas = "helium", purged = "yes" } ]
                                                                      ^~~~~~
f.toml:6:87: error: `purged` must be true or false, not a text [wrong_type]
  step = [ { do = "charge", charges = 99, pressure = "30 psi", gas = "helium", purged = "yes" } ]
                                                                                        ^~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "carbonate", pressure = "300 bar")~")), R"~(f.toml:6:42: error: more than 100 bar is refused [too_large]
  step = [ { do = "carbonate", pressure = "300 bar" } ]
                                           ^~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "carbonate", pressure = "1-2 bar")~")), R"~(f.toml:6:42: error: `pressure` takes one number, not a range [bad_number]
  step = [ { do = "carbonate", pressure = "1-2 bar" } ]
                                           ^~~
)~");
}

TEST(Step, keeps_outputs_whole) {
  EXPECT_EQ(said(with_step(R"~(do = "clarify", by = "agra", out = { clear = "80 %", curd = "30 %" })~")),
            R"~(f.toml:6:34: error: `agra` is not a value of `by`: agar, gelatin, milk, spin [unknown_word]
  step = [ { do = "clarify", by = "agra", out = { clear = "80 %", curd = "30 %" } } ]
                                   ^~~~
  hint: did you mean `agar`?
f.toml:6:47: error: the outputs sum to more than 100 % [too_large]
  step = [ { do = "clarify", by = "agra", out = { clear = "80 %", curd = "30 %" } } ]
                                                ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "clarify", out = { clear = "rest", curd = "rest", x = 5 })~")),
            R"~(f.toml:6:59: error: only one output may be the `rest` [duplicate]
  step = [ { do = "clarify", out = { clear = "rest", curd = "rest", x = 5 } } ]
                                                            ^~~~~~
f.toml:6:44: the other place
  step = [ { do = "clarify", out = { clear = "rest", curd = "rest", x = 5 } } ]
                                             ^~~~~~
f.toml:6:71: error: `x` must be a share as text, not a whole number [wrong_type]
  step = [ { do = "clarify", out = { clear = "rest", curd = "rest", x = 5 } } ]
                                                                        ^
  hint: for instance "74-80 %" or "rest"
)~");
  EXPECT_EQ(said(with_step(R"~(do = "clarify", out = {})~")), R"~(f.toml:6:34: error: `out` must name at least one output [empty]
  step = [ { do = "clarify", out = {} } ]
                                   ^~
)~");
}

TEST(Step, keeps_ice_a_measured_amount) {
  EXPECT_EQ(said(with_step(R"~(do = "shake", ice = "10 % ice")~")), R"~(f.toml:6:33: error: ice is a mass, a volume or pieces, per serve [bad_amount]
  step = [ { do = "shake", ice = "10 % ice" } ]
                                  ^~~~
  hint: for instance `200 g ice cubes`
)~");
  EXPECT_EQ(said(with_step(R"~(do = "shake", ice = ["10 g ice"])~")), R"~(f.toml:6:32: error: `ice` must be a text, not a list [wrong_type]
  step = [ { do = "shake", ice = ["10 g ice"] } ]
                                 ^~~~~~~~~~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "shake", ice_at = "0 C")~")), R"~(f.toml:6:26: error: `ice_at` goes with `ice` [missing_key]
  step = [ { do = "shake", ice_at = "0 C" } ]
                           ^~~~~~
)~");
}

TEST(Step, reads_bath_size_hard_and_leave) {
  EXPECT_EQ(said(with_step(R"~(do = "sphere", bath = { takes_up = "3 %", inn = "1 kg x" })~")), R"~(f.toml:6:34: error: a bath must have `in` [missing_key]
  step = [ { do = "sphere", bath = { takes_up = "3 %", inn = "1 kg x" } } ]
                                   ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
  hint: for instance in = "1 kg 'alginate bath'"
f.toml:6:54: error: `inn` is not a key of a bath [unknown_key]
  step = [ { do = "sphere", bath = { takes_up = "3 %", inn = "1 kg x" } } ]
                                                       ^~~
  hint: did you mean `in`?
)~");
  EXPECT_EQ(said(with_step(R"~(do = "cut", size = "15")~")), R"~(f.toml:6:34: error: a size is written in mm or cm [unknown_unit]
  step = [ { do = "cut", size = "15" } ]
                                   ^
  hint: for instance `15 mm`
)~");
  EXPECT_EQ(said(with_step(R"~(do = "cut", size = "0 mm")~")), R"~(f.toml:6:32: error: a size must be above 0 and at most 1 m [too_large]
  step = [ { do = "cut", size = "0 mm" } ]
                                 ^
)~");
  EXPECT_EQ(said(with_step(R"~(do = "rest", hard = "soft")~")),
            R"~(f.toml:6:33: error: `soft` is not a value of `hard`: both, shorter, longer, neither [unknown_word]
  step = [ { do = "rest", hard = "soft" } ]
                                  ^~~~
)~");
  EXPECT_EQ(said(with_step(R"~(do = "strain", leave = [1, ""])~")),
            R"~(f.toml:6:36: error: this must be the name of a take, as text, not a whole number [wrong_type]
  step = [ { do = "strain", leave = [1, ""] } ]
                                     ^
f.toml:6:39: error: a thing may not be empty [bad_name]
  step = [ { do = "strain", leave = [1, ""] } ]
                                        ^~
)~");
}

TEST(Step, tells_every_fault_at_once) {
  EXPECT_EQ(said(with_step(R"~(do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5)~")),
            R"~(f.toml:6:18: error: `shaek` is not an act [unknown_act]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                   ^~~~~
  hint: did you mean `shake`?
f.toml:6:38: error: `grams` is not a unit [unknown_unit]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                                       ^~~~~
  hint: write `g`
f.toml:6:60: error: `y` is not a word for a bracket [unknown_qualifier]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                                                             ^
  hint: a bracket holds: 40 %vol, 50 brix, 50 brix read, 150 g/L sugar, 6 % acid, pH 3.4, 280 ppm hardness, 225 bloom, 2 g a piece, 6 % wet, raw, pasteurised, canned
f.toml:6:72: error: a number must stand here, not `hot` [bad_number]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                                                                         ^~~
f.toml:6:78: error: `tme` is not a key of a step [unknown_key]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                                                                               ^~~
  hint: did you mean `time`?
f.toml:6:100: error: `time` must be a text, not a whole number [wrong_type]
  step = [ { do = "shaek", take = ["60 grams water", "1 g x (y)"], to = "hot", tme = "5 min", time = 5 } ]
                                                                                                     ^
  hint: write it in quotes, a quantity with its unit
)~");
}

}  // namespace
}  // namespace bloomset::formula::test
