// tests/flow/random_plant.hpp - random formulas that a kitchen could make: every act, ice, losses, a part with two
// users, a borrowed part. Made as documents, so that the reader and writer are tested on the way.
#pragma once

#include <array>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "formula/formula.hpp"
#include "text/amount.hpp"

namespace bloomset::flow_test {

using formula::Act;
using formula::Made;
using formula::Part;
using formula::Step;
using formula::Take;
using text::Amount;
using text::AmountKind;
using text::Range;

class PlantMaker {
 public:
  explicit PlantMaker(std::uint64_t seed) : random_(seed) {}

  struct Plant {
    formula::Formula formula;  // without the borrowed part's steps: what is written
    std::string borrowed;      // text of the file it borrows from; empty: borrows nothing
  };

  Plant make() {
    with_outputs_.clear();
    Plant plant;
    formula::Formula& f = plant.formula;
    f.title = "Random plant";
    f.serves = pick(1, 12);
    formula::Formula lender;
    const bool borrows = chance(0.3);
    if (borrows) {
      lender.title = "Lender";
      lender.serves = 1;
      lender.parts.push_back(part("house base", Made::ahead, {}));
      plant.borrowed = formula::write(lender);
      f.borrow.push_back({"house base", "lender.toml", {}});
    }
    std::vector<std::string> ahead;
    if (borrows) ahead.push_back("house base");
    const int aheads = pick(1, 3);
    for (int i = 0; i < aheads; ++i) {
      const std::string name = "batch " + std::string(1, static_cast<char>('a' + i));
      f.parts.push_back(part(name, Made::ahead, ahead));
      ahead.push_back(name);
    }
    std::vector<std::string> to_order;
    if (chance(0.8)) {
      f.parts.push_back(part("drink", Made::to_order, ahead));
      to_order.push_back("drink");
    }
    formula::Serve serve;
    serve.vessel.text = "tall glass, 400 mL";
    if (chance(0.3)) serve.pours.push_back(rim());
    Step first;
    first.act = Act::pour;
    if (chance(0.6)) first.takes.push_back(ice(60.0, 140.0));
    for (const std::string& name : to_order) first.takes.push_back(made(name, whole(AmountKind::all)));
    // Two users of one part: the serve takes of a batch that the drink takes of too.
    first.takes.push_back(made(ahead.back(), grams(real(5.0, 40.0))));
    serve.pours.push_back(first);
    if (chance(0.5)) serve.pours.push_back(simple(Act::top, {"ginger soda"}));
    if (chance(0.3)) serve.pours.push_back(simple(Act::float_on, {"spirit"}));
    if (chance(0.3)) {
      Step garnish;
      garnish.act = Act::garnish;
      garnish.takes.push_back(pieces("mint sprig", 1));
      garnish.maybe = chance(0.3);
      serve.pours.push_back(garnish);
    }
    f.serve = serve;
    return plant;
  }

 private:
  int pick(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  double real(double low, double high) {
    // Amounts as a cook writes them: three digits.
    const double x = std::uniform_real_distribution<double>(low, high)(random_);
    return std::round(x * 10.0) / 10.0;
  }
  bool chance(double p) { return std::uniform_real_distribution<double>(0.0, 1.0)(random_) < p; }

  static Amount grams(double g) { return {AmountKind::mass, {g / 1e3, g / 1e3}, "g", {}}; }
  static Amount millilitres(double ml) { return {AmountKind::volume, {ml / 1e6, ml / 1e6}, "mL", {}}; }
  static Amount whole(AmountKind kind) { return {kind, {}, "", {}}; }
  static Take bought(std::string thing, Amount amount) {
    Take take;
    take.amount = std::move(amount);
    take.thing = std::move(thing);
    if (take.thing == "spirit") take.qualifiers.push_back({"%vol", 40.0, {}});
    if (take.thing == "syrup") take.qualifiers.push_back({"brix", 50.0, {}});
    return take;
  }
  Take made(std::string part, Amount amount) {
    Take take;
    take.amount = std::move(amount);
    take.kind = formula::ThingKind::made;
    if (with_outputs_.contains(part)) take.output = amount_of_curd(take.amount) ? "curd" : "clear";
    take.thing = std::move(part);
    return take;
  }
  // A little of the curd goes somewhere now and then, never all of it.
  bool amount_of_curd(const Amount& amount) { return amount.kind == AmountKind::mass && chance(0.5); }
  static Take pieces(std::string thing, int n) { return bought(std::move(thing), {AmountKind::pieces, {double(n), double(n)}, "piece", {}}); }
  Take ice(double low, double high) { return bought("ice cubes", grams(real(low, high))); }
  Take liquid() {
    static const std::array<const char*, 9> names = {"orange juice", "lemon juice", "lime juice",       "water",  "syrup",
                                                     "spirit",       "honey",       "grapefruit juice", "sucrose"};
    const std::string name = names[static_cast<std::size_t>(pick(0, static_cast<int>(names.size()) - 1))];
    return chance(0.5) ? bought(name, grams(real(10.0, 120.0))) : bought(name, name == "sucrose" ? grams(real(5.0, 40.0)) : millilitres(real(10.0, 120.0)));
  }
  Step simple(Act act, std::vector<std::string> things = {}) {
    Step step;
    step.act = act;
    for (const std::string& thing : things) step.takes.push_back(bought(thing, grams(real(5.0, 60.0))));
    return step;
  }
  Step rim() {
    Step step = simple(Act::rim);
    step.takes.push_back(bought("sucrose", grams(real(1.0, 3.0))));
    return step;
  }

  Part part(const std::string& name, Made how, const std::vector<std::string>& sources) {
    Part p;
    p.name = name;
    p.made = how;
    if (how == Made::ahead && chance(0.2)) p.batches = 2.0;
    Step first = simple(Act::combine);
    first.takes.push_back(bought("water", grams(real(100.0, 400.0))));
    const int more = pick(1, 3);
    for (int i = 0; i < more; ++i) first.takes.push_back(liquid());
    for (const std::string& source : sources)
      if (chance(0.5)) first.takes.push_back(made(source, chance(0.5) ? grams(real(5.0, 50.0)) : millilitres(real(5.0, 50.0))));
    p.steps.push_back(first);
    const int steps = pick(1, 5);
    bool steeped = false;
    carbonated_ = false;
    clarified_ = false;
    for (int i = 0; i < steps; ++i) p.steps.push_back(any_step(steeped));
    if (steeped) {
      Step strain = simple(Act::strain);
      strain.leave.push_back({"cardamom pod", {}});
      p.steps.push_back(strain);
    }
    if (clarified_) with_outputs_.insert(p.name);
    return p;
  }

  Step any_step(bool& steeped) {
    static const std::array<Act, 32> acts = {Act::sphere, Act::clarify,  Act::carbonate, Act::degas, Act::torch, Act::bloom,   Act::disperse,  Act::hydrate,
                                             Act::set,    Act::unmould,  Act::cut,       Act::blitz, Act::froth, Act::combine, Act::dissolve,  Act::dilute,
                                             Act::pour,   Act::float_on, Act::top,       Act::warm,  Act::boil,  Act::reduce,  Act::chill,     Act::freeze,
                                             Act::rest,   Act::infuse,   Act::strain,    Act::shake, Act::stir,  Act::blend,   Act::dry_shake, Act::layer};
    Step step = simple(acts[static_cast<std::size_t>(pick(0, static_cast<int>(acts.size()) - 1))]);
    const auto celsius = [](double t) { return Range{t, t}; };
    switch (step.act) {
      case Act::combine:
      case Act::dissolve:
      case Act::dilute:
      case Act::pour:
      case Act::float_on:
      case Act::top:
      case Act::layer:
        step.takes.push_back(step.act == Act::top ? bought("ginger soda", grams(real(10.0, 80.0))) : liquid());
        break;
      case Act::sphere:
        step.bath = formula::Bath{bought("water", grams(real(300.0, 900.0))), Range{0.03, 0.05}};
        break;
      case Act::clarify:
        step.by = formula::Word{chance(0.5) ? "milk" : "agar", {}};
        if (!clarified_ && chance(0.6)) {
          step.out = {{"clear", Range{0.74, 0.80}, {}}, {"curd", std::nullopt, {}}};
          clarified_ = true;
        }
        break;
      case Act::carbonate:
        if (carbonated_) {
          step.act = Act::degas;
        } else {
          step.vessel = formula::Word{"bottle, 1 L", {}};
          if (chance(0.5))
            step.pressure_pa = 250000.0;
          else
            step.charges = pick(1, 2);
          carbonated_ = true;
        }
        break;
      case Act::bloom:
        step.in = formula::Word{"cold water", {}};
        step.takes.push_back(bought("gelatin, gold leaf", grams(real(1.0, 4.0))));
        break;
      case Act::disperse:
        step.takes.push_back(liquid());
        step.takes.push_back(bought("xanthan", grams(real(0.1, 0.5))));
        break;
      case Act::hydrate:
        step.takes.push_back(liquid());
        step.at_c = celsius(real(4.0, 60.0));
        step.time_s = Range{3600.0, 7200.0};
        break;
      case Act::warm:
        step.to_c = celsius(real(40.0, 85.0));
        break;
      case Act::boil:
        step.time_s = Range{60.0, 180.0};
        break;
      case Act::reduce: {
        formula::Until until;
        until.what = formula::Until::What::share_of_start;
        until.value = pick(50, 90) / 100.0;
        step.until = until;
        break;
      }
      case Act::chill:
        step.to_c = celsius(real(-4.0, 10.0));
        break;
      case Act::freeze:
        step.to_c = celsius(real(-18.0, -6.0));
        break;
      case Act::rest:
        step.at_c = celsius(real(2.0, 21.0));
        step.time_s = Range{3600.0, 7200.0};
        break;
      case Act::infuse:
        step.takes.push_back(pieces("cardamom pod", pick(1, 5)));
        step.at_c = celsius(real(60.0, 85.0));
        step.time_s = Range{600.0, 720.0};
        steeped = true;
        break;
      case Act::strain:
        steeped = false;
        break;  // keeps back every solid
      case Act::shake:
      case Act::stir:
      case Act::blend:
        step.ice = ice(80.0, 260.0);
        step.time_s = Range{10.0, 20.0};
        if (chance(0.7)) step.leave.push_back({"ice", {}});
        if (chance(0.3)) step.ice_at_c = celsius(-10.0);
        break;
      default:
        break;
    }
    const bool may_split = step.act != Act::carbonate && step.act != Act::bloom && step.act != Act::disperse && step.act != Act::hydrate;
    if (may_split && chance(0.15)) step.split = Range{0.25, 0.25};
    if (chance(0.2) && step.act != Act::infuse) step.loss = Range{0.01, 0.02};
    return step;
  }

  std::mt19937_64 random_;
  std::set<std::string> with_outputs_;
  bool carbonated_ = false, clarified_ = false;  // of the part at hand
};

}  // namespace bloomset::flow_test
