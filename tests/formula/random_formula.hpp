// tests/formula/random_formula.hpp - random documents that follow every rule of the grammar, for properties of any module.
//
// `random_formula(choices)` is a rapidcheck generator of whole Formulas: names once each, marks that exist, keys that the
// act allows, made parts taken only from parts before them (so no cycle). `Choices` narrows it: the acts and things to
// draw from, how much, and `plain` for a formula of masses and volumes only, as a test of balances wants it.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <vector>

#include "formula/acts.hpp"
#include "formula/formula.hpp"
#include "text/units.hpp"

namespace bloomset::formula::test {

struct Choices {
  std::vector<Act> acts;       // of a part's steps; empty: every act
  std::vector<Act> pour_acts;  // of the serve's pours; empty: every act
  std::vector<std::string> things = {"orange juice", "gelatin, gold leaf", "baker's yeast", "crème fraîche", "x", "sugar, \"caster\""};
  std::vector<std::string> vessels = {"siphon, half litre", "tall glass, 400 mL", "back\\slash \"cup\""};
  std::vector<std::string> places = {"cold water", "ice bath", "fan fridge"};
  int most_parts = 4, most_steps = 4, most_takes = 3;
  bool plain = false;  // only masses and volumes; no marks, percents, brackets, conditions, targets
  bool with_serve = true;
};

/// A number that a cook might write, or any odd double near it.
inline double random_number(double low, double high) {
  const double share = *rc::gen::inRange(0, 1001) / 1000.0;
  const double odd = *rc::gen::inRange(0, 4) == 0 ? *rc::gen::inRange(0, 1000003) * 1e-9 : 0.0;
  return low + (high - low) * share * (1.0 - odd);
}

inline text::Range random_range(double low, double high) {
  const double a = random_number(low, high);
  if (*rc::gen::inRange(0, 3) != 0) return {a, a};
  return {a, a + (high - a) * 0.5};
}

inline text::Amount random_amount(text::Measures measures, bool plain) {
  text::Amount amount;
  const int kind = plain ? 2 : *rc::gen::inRange(0, 8);
  if (kind < 2) {
    amount.kind = kind == 0 ? text::AmountKind::percent : text::AmountKind::percent_total;
    amount.unit = kind == 0 ? "%" : "% total";
    amount.value = random_range(0.0, 0.9);
    return amount;
  }
  std::vector<const text::Unit*> units;
  for (const text::Unit& unit : text::units())
    if ((!unit.measures || *unit.measures == measures) && !(plain && unit.kind == text::UnitKind::pieces)) units.push_back(&unit);
  const text::Unit& unit = **rc::gen::elementOf(units);
  amount.kind = unit.kind == text::UnitKind::mass     ? text::AmountKind::mass
                : unit.kind == text::UnitKind::volume ? text::AmountKind::volume
                                                      : text::AmountKind::pieces;
  amount.unit = !unit.plural.empty() && *rc::gen::arbitrary<bool>() ? unit.plural : unit.spelling;
  amount.value = unit.kind == text::UnitKind::pieces ? random_range(0.0, 60.0) : random_range(0.001, 0.5);
  if (unit.kind == text::UnitKind::volume) amount.value = {amount.value.low * 1e-3, amount.value.high * 1e-3};
  return amount;
}

inline std::vector<Qualifier> random_qualifiers() {
  const std::vector<std::pair<std::string, double>> with_number = {{"%vol", 100.0},      {"brix", 85.0}, {"brix read", 85.0},     {"g/L sugar", 500.0},
                                                                   {"% acid", 50.0},     {"pH", 14.0},   {"ppm hardness", 600.0}, {"bloom", 300.0},
                                                                   {"g a piece", 500.0}, {"% wet", 20.0}};
  std::vector<Qualifier> all;
  if (*rc::gen::inRange(0, 2) == 0) {
    const auto& [name, most] = *rc::gen::elementOf(with_number);
    all.push_back({name, random_number(0.0, most), {}});
  }
  if (*rc::gen::inRange(0, 4) == 0) all.push_back({*rc::gen::element<std::string>("raw", "pasteurised", "canned"), std::nullopt, {}});
  return all;
}

/// A bought thing, or one of `made` (parts that stand before).
inline Take random_take(const Choices& choices, text::Measures measures, const std::vector<std::string>& made) {
  Take take;
  take.amount = random_amount(measures, choices.plain);
  if (!made.empty() && *rc::gen::inRange(0, 3) == 0) {
    take.kind = ThingKind::made;
    take.thing = *rc::gen::elementOf(made);
    const int whole = choices.plain ? 0 : *rc::gen::inRange(0, 5);
    if (whole > 1) {
      take.amount = {};
      take.amount.kind = whole == 2 ? text::AmountKind::all : whole == 3 ? text::AmountKind::rest : text::AmountKind::half;
    }
    if (whole == 1) take.output = "clear";
    if (!choices.plain && take.amount.kind == text::AmountKind::volume)
      take.charged_as = *rc::gen::element(ChargedAs::unsaid, ChargedAs::foam, ChargedAs::base);
  } else {
    take.thing = *rc::gen::elementOf(choices.things);
    if (!choices.plain) take.qualifiers = random_qualifiers();
  }
  if (!choices.plain && *rc::gen::inRange(0, 5) == 0) take.at_c = random_range(-100.0, 200.0);
  return take;
}

/// Sets conditions that `step.act` allows.
inline void add_conditions(Step& step, const Choices& choices, text::Measures measures) {
  const KeySet keys = keys_of(step.act);
  const auto now = [&](Key key) { return has(keys, key) && *rc::gen::inRange(0, 4) == 0; };
  const auto word = [](const std::vector<std::string>& from) { return Word{*rc::gen::elementOf(from), {}}; };
  if (now(Key::to)) {
    step.to_c = random_range(-30.0, 120.0);
  } else {
    if (now(Key::at)) step.at_c = random_range(-30.0, 120.0);
    if (now(Key::until)) {
      const auto what = static_cast<Until::What>(*rc::gen::inRange(0, 4));
      const double most = what == Until::What::brix ? 90.0 : what == Until::What::ph ? 14.0 : what == Until::What::mass ? 2.0 : 1.0;
      step.until = Until{what, random_number(0.0, most), {}};
    }
  }
  if (now(Key::time))
    step.time_s = *rc::gen::arbitrary<bool>() ? random_range(0.0, 1e6) : text::Range{60.0 * *rc::gen::inRange(1, 9), 3600.0 * *rc::gen::inRange(1, 50)};
  if (now(Key::keeps)) step.keeps_s = text::Range{86400.0, 172800.0};
  if (now(Key::in)) step.in = word(choices.places);
  if (now(Key::vessel)) step.vessel = word(choices.vessels);
  if (now(Key::hard)) step.hard = word({"both", "shorter", "longer", "neither"});
  if (now(Key::with)) step.with = word({"gas torch"});
  if (now(Key::by)) step.by = word({"agar", "gelatin", "milk", "spin"});
  if (now(Key::gas)) step.gas = word({"N2O", "CO2"});
  if (now(Key::leave)) step.leave = {word(choices.things), Word{"ice", {}}};
  if (now(Key::out)) step.out = {{"clear", random_range(0.0, 0.9), {}}, {"curd", std::nullopt, {}}};
  if (now(Key::split)) step.split = *rc::gen::arbitrary<bool>() ? text::Range{1.0 / 3.0, 1.0 / 3.0} : random_range(0.0, 1.0);
  if (now(Key::loss)) step.loss = random_range(0.0, 1.0);
  if (now(Key::yield)) step.yield_ = random_range(0.0, 1.0);
  if (now(Key::ice)) {
    step.ice = Take{};
    step.ice->amount = random_amount(measures, true);
    step.ice->thing = "ice cubes";
    if (now(Key::ice_at)) step.ice_at_c = random_range(-20.0, 0.0);
  }
  if (now(Key::bath)) {
    step.bath = Bath{random_take(choices, measures, {}), std::nullopt};
    step.bath->in.at_c.reset();  // a bath's take is a text only
    if (*rc::gen::arbitrary<bool>()) step.bath->takes_up = text::Range{0.03, 0.05};
  }
  if (now(Key::size)) step.size_m = random_range(0.001, 0.05);
  if (now(Key::charges)) step.charges = *rc::gen::inRange(0, 5);
  if (now(Key::pressure)) step.pressure_pa = *rc::gen::arbitrary<bool>() ? 101325.0 + 1e5 * *rc::gen::inRange(0, 20) / 4.0 : random_number(1e5, 1e6);
  if (now(Key::purged)) step.purged = true;
  if (now(Key::maybe)) step.maybe = true;
}

inline Step random_step(const Choices& choices, const std::vector<Act>& acts, text::Measures measures, const std::vector<std::string>& made) {
  Step step;
  step.act = acts.empty() ? static_cast<Act>(*rc::gen::inRange<int>(0, static_cast<int>(act_count))) : *rc::gen::elementOf(acts);
  const int takes = *rc::gen::inRange(choices.plain ? 1 : 0, choices.most_takes + 1);
  for (int i = 0; i < takes; ++i) step.takes.push_back(random_take(choices, measures, made));
  if (!choices.plain) add_conditions(step, choices, measures);
  return step;
}

/// Marks a line of the steps and makes another a percent of it.
inline void add_mark(std::vector<Step>& steps) {
  Take* marked = nullptr;
  for (Step& step : steps)
    for (Take& take : step.takes) {
      if (!marked) {
        take.mark = "the marked line";
        marked = &take;
      } else if (take.amount.kind == text::AmountKind::percent && take.charged_as == ChargedAs::unsaid) {
        take.of_mark = "the marked line";
      }
    }
}

inline Target random_target(const std::vector<std::string>& parts) {
  Target target;
  target.property = *rc::gen::elementOf(target_names());
  target.of_serve = parts.empty() || *rc::gen::arbitrary<bool>();
  if (!target.of_serve) target.part = *rc::gen::elementOf(parts);
  if (target.of_serve && *rc::gen::inRange(0, 3) == 0) target.at_minute = *rc::gen::inRange(0, 30);
  target.wish = static_cast<Wish>(*rc::gen::inRange(0, 4));
  const bool may_be_negative = target.property == "temperature" || target.property == "freezing_point" || target.property == "headroom";
  const double low = random_number(may_be_negative ? -20.0 : 0.0, 10.0), high = low + random_number(0.1, 10.0);
  if (target.wish != Wish::at_most) target.low = low;
  if (target.wish != Wish::at_least) target.high = target.wish == Wish::equal ? low : high;
  return target;
}

inline rc::Gen<Formula> random_formula(Choices choices) {
  return rc::gen::exec([choices] {
    Formula formula;
    formula.title = *rc::gen::element<std::string>("Harbour Light", "Crème \"brûlée\"", "back\\slash", "#1 'quoted'");
    formula.measures = choices.plain ? text::Measures::metric : static_cast<text::Measures>(*rc::gen::inRange(0, 4));
    formula.serves = *rc::gen::inRange(1, 10001);
    std::vector<std::string> made;
    const int parts = *rc::gen::inRange(1, choices.most_parts + 1);
    for (int p = 0; p < parts; ++p) {
      Part part;
      part.name = "part " + std::to_string(p) + *rc::gen::element<std::string>("", ", clear", " é");
      part.made = *rc::gen::element(Made::ahead, Made::to_order);
      const int steps = *rc::gen::inRange(1, choices.most_steps + 1);
      for (int s = 0; s < steps; ++s) part.steps.push_back(random_step(choices, choices.acts, formula.measures, made));
      if (!choices.plain) {
        add_mark(part.steps);
        if (*rc::gen::inRange(0, 3) == 0) part.makes = random_amount(formula.measures, true);
        if (part.made == Made::ahead && *rc::gen::inRange(0, 3) == 0) part.batches = random_number(0.5, 10.0);
      }
      made.push_back(part.name);
      formula.parts.push_back(std::move(part));
    }
    if (choices.with_serve) {
      formula.serve = Serve{Word{*rc::gen::elementOf(choices.vessels), {}}, {}, {}};
      const int pours = *rc::gen::inRange(1, choices.most_steps + 1);
      for (int s = 0; s < pours; ++s) formula.serve->pours.push_back(random_step(choices, choices.pour_acts, formula.measures, made));
    }
    if (!choices.plain)
      for (int t = *rc::gen::inRange(0, 4); t > 0; --t) formula.targets.push_back(random_target(made));
    return formula;
  });
}

}  // namespace bloomset::formula::test
