#include "press/step_words.hpp"

#include <gtest/gtest.h>

#include "formula/formula.hpp"

namespace bloomset::press {
namespace {

// The steps of one part, read as a document would be.
std::vector<formula::Step> steps_of(const std::string& steps) {
  base::Sources sources;
  const std::string text = "bloomset = 1\ntitle = \"t\"\nserves = 1\n[[part]]\nname = \"p\"\nmade = \"to order\"\nstep = [" + steps + "]\n";
  auto formula = formula::read("t.toml", text, sources, {});
  if (!formula) {
    ADD_FAILURE() << base::render(formula.error().diagnostics, sources);
    return {};
  }
  return formula->parts.at(0).steps;
}

std::string words_of(const std::string& step, StepSetting setting = {}) {
  const auto steps = steps_of(step);
  std::string words = steps.empty() ? std::string() : step_words(steps[0], setting);
  for (std::size_t at = words.find("\u00A0"); at != std::string::npos; at = words.find("\u00A0", at)) words.replace(at, 2, " ");
  return words;
}

TEST(StepWords, AShakeNamesItsIceTimeAndWhatIsLeftBehind) {
  EXPECT_EQ(
      words_of(
          R"step({ do = "shake", take = ["22 mL lemon juice", "20 mL syrup (50 brix)"], ice = "180 g ice cubes", leave = ["ice"], time = "10-14 s" })step"),
      "Shake lemon juice and syrup hard with 180 g ice cubes for 10–14 s. Strain off the ice.");
}

TEST(StepWords, WhatEntersLaterIsAdded) {
  StepSetting later;
  later.something_there = true;
  EXPECT_EQ(words_of(R"step({ do = "combine", take = ["100 g orange juice"] })step", later), "Add orange juice.");
  EXPECT_EQ(words_of(R"step({ do = "combine", take = ["100 g orange juice", "5 g honey", "1 g salt"] })step"), "Combine orange juice, honey and salt.");
}

TEST(StepWords, AThingTakenTwiceIsNamedOnce) {
  EXPECT_EQ(words_of(R"step({ do = "combine", take = ["100 g orange juice", "5 g honey", "50 g orange juice"] })step"), "Combine orange juice and honey.");
}

TEST(StepWords, ConditionsStandAsWritten) {
  EXPECT_EQ(words_of(R"step({ do = "infuse", take = ["100 g orange juice", "4 piece cardamom pod"], at = "70 C", time = "10-12 min" })step"),
            "Let orange juice and cardamom pod infuse at 70 °C for 10–12 min.");
  EXPECT_EQ(words_of(R"step({ do = "chill", take = ["100 g orange juice"], in = "ice bath", to = "8 C", keeps = "2 d" })step"),
            "Chill orange juice to 8 °C in the ice bath. Keeps 2 d.");
  EXPECT_EQ(words_of(R"step({ do = "reduce", take = ["600 g apple juice"], until = "25 %" })step"), "Reduce apple juice until 25 % of it is left.");
  EXPECT_EQ(words_of(R"step({ do = "strain", take = ["600 g apple juice"], leave = ["cardamom pod", "orange peel"] })step"),
            "Strain apple juice. Leave the cardamom pod and the orange peel behind.");
}

TEST(StepWords, WhatTheTextLeftOpenIsSaidAsItWasSettled) {
  sheet::StepLine line;
  line.vessel = "shaker";
  line.seconds = 12.0;
  StepSetting setting;
  setting.line = &line;
  EXPECT_EQ(words_of(R"step({ do = "shake", take = ["22 mL lemon juice"], ice = "180 g ice cubes" })step", setting),
            "Shake lemon juice hard with 180 g ice cubes in the shaker for about 12 s.");
}

TEST(StepWords, APourCanSayItsAmounts) {
  StepSetting setting;
  setting.amounts = true;
  EXPECT_EQ(words_of(R"step({ do = "garnish", take = ["1 piece mint sprig", "3 piece cardamom pod"], maybe = true })step", setting),
            "Garnish with 1 mint sprig and 3 × cardamom pod, if wanted.");
  EXPECT_EQ(words_of(R"step({ do = "top", take = ["60 mL ginger soda"] })step", setting), "Top with 60 mL ginger soda.");
}

}  // namespace
}  // namespace bloomset::press
