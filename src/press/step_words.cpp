#include "press/step_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "press/figure.hpp"
#include "press/page.hpp"
#include "text/fold.hpp"

namespace bloomset::press {
namespace {

using formula::Act;

// `{}` is what enters. `first`: into an empty vessel; `adding`: to what is there; `alone`: nothing enters.
struct ActWords {
  Act act;
  std::string_view alone, first, adding;
  bool says_time = false;  // a time that the text left open matters to the cook
};
constexpr std::array<ActWords, 38> act_words = {{
    {Act::combine, "Mix", "Combine {}", "Add {}"},
    {Act::dissolve, "Stir until dissolved", "Stir {} until dissolved", "Add {} and stir until dissolved"},
    {Act::dilute, "Dilute", "Dilute {}", "Dilute with {}"},
    {Act::pour, "Pour", "Pour {}", "Pour in {}"},
    {Act::float_on, "Float", "Float {}", "Float {} on top"},
    {Act::layer, "Layer", "Layer {}", "Layer {} on top"},
    {Act::top, "Top", "Top with {}", "Top with {}"},
    {Act::garnish, "Garnish", "Garnish with {}", "Garnish with {}"},
    {Act::rim, "Rim the glass", "Rim the glass with {}", "Rim the glass with {}"},
    {Act::roll, "Roll", "Roll {}", "Roll in {}"},
    {Act::rinse, "Rinse", "Rinse the glass with {} and tip it out", "Rinse with {} and let it run off"},
    {Act::warm, "Warm", "Warm {}", "Add {} and warm"},
    {Act::boil, "Boil", "Boil {}", "Add {} and boil", true},
    {Act::reduce, "Reduce", "Reduce {}", "Add {} and reduce"},
    {Act::chill, "Chill", "Chill {}", "Add {} and chill"},
    {Act::freeze, "Freeze", "Freeze {}", "Add {} and freeze"},
    {Act::rest, "Let rest", "Let {} rest", "Add {} and let rest", true},
    {Act::degas, "Let the gas or air out", "Let the gas or air out of {}", "Add {} and let the gas or air out"},
    {Act::infuse, "Let infuse", "Let {} infuse", "Add {} and let infuse", true},
    {Act::strain, "Strain", "Strain {}", "Add {} and strain"},
    {Act::dry_shake, "Dry shake", "Dry shake {}", "Add {} and dry shake", true},
    {Act::shake, "Shake hard", "Shake {} hard", "Add {} and shake hard", true},
    {Act::stir, "Stir", "Stir {}", "Add {} and stir", true},
    {Act::blend, "Blend", "Blend {}", "Add {} and blend", true},
    {Act::torch, "Torch the top", "Torch {}", "Add {} and torch the top"},
    {Act::bloom, "Bloom", "Bloom {}", "Apart, bloom {}", true},
    {Act::disperse, "Disperse", "Disperse {}", "Apart, disperse {}"},
    {Act::hydrate, "Hydrate", "Hydrate {}", "Apart, hydrate {}", true},
    {Act::set, "Let set", "Let {} set", "Add {} and let set", true},
    {Act::unmould, "Unmould", "Unmould {}", "Add {} and unmould"},
    {Act::cut, "Cut", "Cut {}", "Add {} and cut"},
    {Act::blitz, "Blitz smooth", "Blitz {} smooth", "Add {} and blitz smooth"},
    {Act::froth, "Froth", "Froth {}", "Add {} and froth"},
    {Act::sphere, "Drop", "Drop {}", "Add {} and drop", true},
    {Act::clarify, "Clarify", "Clarify {}", "Add {} and clarify"},
    {Act::charge, "Charge", "Charge {}", "Add {} and charge"},
    {Act::dispense, "Dispense", "Dispense {}", "Dispense {}"},
    {Act::carbonate, "Carbonate", "Carbonate {}", "Add {} and carbonate", true},
}};

// An act without a row of its own is said by its name.
ActWords words_of(Act act) {
  for (const ActWords& words : act_words)
    if (words.act == act) return words;
  return {act, formula::name(act), "{}", "add {}"};
}

std::string amount_and_thing(const formula::Take& take, text::Measures measures) {
  const std::string thing = clean(take.thing);
  switch (take.amount.kind) {
    case text::AmountKind::all:
      return "all the " + thing;
    case text::AmountKind::rest:
      return "the rest of the " + thing;
    case text::AmountKind::half:
      return "half the " + thing;
    case text::AmountKind::pieces:
      if (take.amount.unit.starts_with("piece"))
        return figure(take.amount.value.nominal(), Digits::whole) + (take.amount.value == text::Range{1.0, 1.0} ? "\u00A0" : "\u00A0×\u00A0") + thing;
      break;
    default:
      break;
  }
  std::string amount = text::print(take.amount, measures);
  for (std::size_t at = amount.find(' '); at != std::string::npos; at = amount.find(' ', at)) amount.replace(at, 1, "\u00A0");
  return amount + " " + thing;
}

std::string in_the(std::string_view place) {
  const std::string folded = text::fold(place);
  if (folded == "room") return " at room temperature";
  if (folded.starts_with("cold ") || folded.starts_with("hot ") || folded.starts_with("warm ")) return " in " + clean(place);
  return " in the " + clean(place);
}

std::string until_words(const formula::Until& until) {
  switch (until.what) {
    case formula::Until::What::brix:
      return " until it stands at " + figure(until.value, Digits::one) + "\u00A0Brix";
    case formula::Until::What::ph:
      return " until pH\u00A0" + figure(until.value, Digits::one);
    case formula::Until::What::mass:
      return " until it weighs " + figure(until.value * 1000.0, Digits::amount, "g");
    case formula::Until::What::share_of_start:
      return " until " + figure(until.value * 100.0, Digits::whole, "%") + " of it is left";
  }
  return {};
}

std::string size_words(const text::Range& metres) {
  const std::string low = figure(metres.low * 1e3, Digits::whole);
  return (metres.low < metres.high ? low + " to " + figure(metres.high * 1e3, Digits::whole) : low) + "\u00A0mm";
}

std::string pressure_words(const formula::Step& step) {
  std::string out;
  if (step.pressure_pa) out += " at " + figure(units::in_bar_gauge(units::pascals(*step.pressure_pa)), Digits::one) + "\u00A0bar on the gauge";
  if (step.charges)
    out += " with " + std::to_string(*step.charges) + (*step.charges == 1 ? " charger" : " chargers") + (step.gas ? " of " + step.gas->text : "");
  return out;
}

std::string conditions(const formula::Step& step, const StepSetting& setting, bool says_time) {
  std::string out;
  if (step.bath) out += " into " + amount_and_thing(step.bath->in, setting.measures);
  if (step.by) out += step.by->text == "spin" ? " by spinning" : " with " + clean(step.by->text);
  if (step.size_m) out += ", " + size_words(*step.size_m) + " in size,";
  if (step.ice) out += " with " + amount_and_thing(*step.ice, setting.measures) + (step.ice_at_c ? " at " + temperature(*step.ice_at_c) : "");
  out += pressure_words(step);
  if (step.to_c) out += " to " + temperature(*step.to_c);
  if (step.at_c) out += " at " + temperature(*step.at_c);
  if (step.until) out += until_words(*step.until);
  if (step.in)
    out += in_the(step.in->text);
  else if (setting.line != nullptr && !setting.line->place.empty() && !step.to_c && !step.at_c)
    out += in_the(setting.line->place);
  if (step.vessel)
    out += in_the(step.vessel->text);
  else if (setting.line != nullptr && !setting.line->vessel.empty())
    out += in_the(setting.line->vessel);
  if (step.time_s)
    out += " for " + duration(*step.time_s);
  else if (says_time && setting.line != nullptr && setting.line->seconds > 0.0)
    out += " for about " + duration(setting.line->seconds);
  return out;
}

std::string leave_words(const formula::Step& step) {
  std::vector<std::string> solids;
  bool ice = false;
  for (const formula::Word& word : step.leave) {
    if (text::fold(word.text) == "ice")
      ice = true;
    else
      solids.push_back("the " + clean(word.text));
  }
  std::string out;
  if (ice) out += " Strain off the ice.";
  if (!solids.empty()) out += " Leave " + listed(solids) + " behind.";
  return out;
}

}  // namespace

std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? " and " : ", ";
    out += items[i];
  }
  return out;
}

std::string step_words(const formula::Step& step, const StepSetting& setting) {
  const ActWords words = words_of(step.act);
  std::vector<std::string> entering;
  for (const formula::Take& take : step.takes) {
    std::string said = setting.amounts ? amount_and_thing(take, setting.measures) : clean(take.thing);
    if (std::find(entering.begin(), entering.end(), said) == entering.end() || setting.amounts) entering.push_back(std::move(said));
  }
  std::string out(entering.empty() ? words.alone : setting.something_there ? words.adding : words.first);
  if (const auto slot = out.find("{}"); slot != std::string::npos) out.replace(slot, 2, listed(entering));
  if (step.split) out = "on " + figure(step.split->nominal() * 100.0, Digits::whole, "%") + " of it: " + out;
  if (!out.empty()) out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  out += conditions(step, setting, words.says_time) + (step.maybe ? ", if wanted." : ".") + leave_words(step);
  if (step.keeps_s) out += " Keeps " + duration(*step.keeps_s) + ".";
  return out;
}

}  // namespace bloomset::press
