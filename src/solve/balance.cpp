#include "solve/balance.hpp"

#include <algorithm>
#include <cmath>

#include "solve/measures.hpp"
#include "solve/problem.hpp"

namespace bloomset::solve {
namespace {

using Multiples = std::vector<double>;

constexpr std::size_t most_whole = 4;  // whole things whose neighbours are all tried: sixteen answers
constexpr double at_edge = 1e-6;       // of a wish's scale, or of an amount

// Floors and ceilings of the whole things, each with the others free: best first.
std::vector<Found> whole_neighbours(Problem& problem, const Search& ask, const Found& found) {
  std::vector<std::size_t> whole;
  for (std::size_t i = 0; i < problem.free().size(); ++i)
    if (problem.free()[i].whole && whole.size() < most_whole) whole.push_back(i);
  if (whole.empty()) return {found};
  std::vector<Found> all;
  for (std::size_t choice = 0; choice < std::size_t{1} << whole.size(); ++choice) {
    Search held = ask;
    bool new_one = true;
    for (std::size_t w = 0; w < whole.size(); ++w) {
      const text::Amount& written = problem.flow().takes[problem.free()[whole[w]].take].written;
      const double one = one_of(written);
      const double count = found.x[whole[w]] * one;
      const double below = std::max(std::floor(count + 1e-9), std::ceil(ask.low[whole[w]] * one - 1e-9));
      const double to = (choice >> w & 1U) != 0 ? std::max(std::ceil(count - 1e-9), below) : below;
      new_one = new_one && !((choice >> w & 1U) != 0 && to == below);
      held.start[whole[w]] = held.low[whole[w]] = held.high[whole[w]] = to / one;
    }
    if (!new_one) continue;
    Found here = search(held, 4);
    here.moved = 0.0;  // from the author's amounts, the whole ones too
    for (std::size_t i = 0; i < here.x.size(); ++i) here.moved += (here.x[i] - ask.start[i]) * (here.x[i] - ask.start[i]);
    all.push_back(std::move(here));
  }
  std::stable_sort(all.begin(), all.end(), [](const Found& a, const Found& b) {
    if (a.met() != b.met()) return a.met();
    return a.met() ? a.moved < b.moved : a.miss < b.miss;
  });
  return all;
}

class Answer {
 public:
  Answer(const BalanceAsked& asked, Problem& problem) : asked_(asked), problem_(problem), ask_(problem.search()) {}

  BalanceSheet make() {
    const Multiples as_written(problem_.free().size(), 1.0);
    before_ = values_at(as_written);
    BalanceSheet out;
    out.glass_before = glass_at(as_written);
    Found found = search(ask_);
    if (!found.met()) {
      for (const std::size_t w : conflict(ask_)) out.conflict.push_back(problem_.targets()[w].text);
      mark_bounds(found.x);
    }
    const std::vector<Found> whole = whole_neighbours(problem_, ask_, found);
    found = whole.front();
    std::vector<text::Amount> amounts = written_amounts(found.x);
    const Multiples final = multiples_of(amounts);
    const std::vector<double> values = values_at(final);
    out.met = true;
    for (std::size_t t = 0; t < problem_.targets().size(); ++t) {
      out.targets.push_back(wish_line(t, values[t], found.x));
      out.met = out.met && out.targets.back().target.met;
    }
    amount_lines(out, as_written, final, amounts, whole);
    exchange_lines(out, found.x, values);
    out.formula = rewritten(amounts);
    out.glass_after = glass_at(final);
    return out;
  }

 private:
  std::vector<double> values_at(const Multiples& x) {
    std::vector<double> values(problem_.targets().size());
    problem_.values(x, values);
    return values;
  }

  std::optional<matter::Values> glass_at(const Multiples& x) {
    const flow::Flowsheet& flow = problem_.flow();
    if (flow.served_liquid == flow::no_port) return std::nullopt;
    return matter::read_all(flow::state_at(problem_.run(x), flow.served_liquid, flow.served_ice));
  }

  const text::Amount& written(std::size_t free) const { return problem_.flow().takes[problem_.free()[free].take].written; }
  text::Measures measures() const { return asked_.in.formula.measures; }

  Multiples multiples_of(const std::vector<text::Amount>& amounts) const {
    Multiples x;
    for (std::size_t i = 0; i < amounts.size(); ++i) x.push_back(amounts[i].value.nominal() / written(i).value.nominal());
    return x;
  }

  bool all_met(const std::vector<text::Amount>& amounts) {
    const std::vector<double> values = values_at(multiples_of(amounts));
    for (std::size_t t = 0; t < values.size(); ++t)
      if (!sheet::met(problem_.targets()[t], values[t])) return false;
    return true;
  }

  // As coarse as the targets allow. An amount that did not move stays as it is written.
  std::vector<text::Amount> written_amounts(const Multiples& x) {
    std::vector<text::Amount> amounts;
    const int levels = asked_.exact ? 1 : fineness_levels;
    for (int fineness = 0; fineness < levels; ++fineness) {
      amounts.clear();
      for (std::size_t i = 0; i < x.size(); ++i) {
        const bool unmoved = std::abs(x[i] - 1.0) < 1e-12;
        amounts.push_back(unmoved                                     ? written(i)
                          : asked_.exact && !problem_.free()[i].whole ? scaled(written(i), x[i], measures())
                                                                      : practical(written(i), x[i], fineness, measures()));
      }
      if (all_met(amounts)) break;
    }
    return amounts;
  }

  std::string thing(std::size_t free) const { return problem_.flow().takes[problem_.free()[free].take].label; }

  void mark_bounds(const Multiples& x) {
    for (std::size_t i = 0; i < x.size(); ++i) {
      if (x[i] <= ask_.low[i] + at_edge) bounds_.push_back(thing(i) + (ask_.low[i] > 0.0 ? " at its least" : " at nothing"));
      if (x[i] >= ask_.high[i] - at_edge) bounds_.push_back(thing(i) + " at its most");
    }
  }

  WishLine wish_line(std::size_t t, double value, const Multiples& x) {
    const formula::Target& target = problem_.targets()[t];
    WishLine line;
    line.target.target = target.text;
    line.target.value = value;
    line.target.value_as_written = value / target.one_unit + (target.fahrenheit ? 32.0 : 0.0);
    line.target.unit = target.unit;
    line.target.met = sheet::met(target, value);
    line.target.span = target.span;
    line.before = before_[t];
    const Wish& wish = ask_.wishes[t];
    const bool edge = std::abs(value - wish.low) < 1e-2 * wish.scale || std::abs(value - wish.high) < 1e-2 * wish.scale;
    if (!line.target.met) {
      for (const std::string& bound : bounds_) line.held_by += (line.held_by.empty() ? "" : ", ") + bound;
      if (line.held_by.empty()) line.held_by = problem_.targets().size() > 1 ? "the other targets" : "rounding";
    } else if (edge) {
      const auto rows = slopes(ask_, x);
      std::size_t most = 0;
      for (std::size_t i = 1; i < x.size(); ++i)
        if (std::abs(rows[t][i]) > std::abs(rows[t][most])) most = i;
      if (!x.empty()) line.held_by = thing(most);
    }
    return line;
  }

  void amount_lines(BalanceSheet& out, const Multiples& before, const Multiples& after, const std::vector<text::Amount>& amounts,
                    const std::vector<Found>& whole) {
    const auto grams = [&](std::size_t free) {
      const flow::TakeInfo& take = problem_.flow().takes[problem_.free()[free].take];
      double kg = 0.0;
      for (const flow::Port port : {take.liquid, take.ice, take.solid})
        if (port != flow::no_port) kg += problem_.run(free_now_).port(port).mass.total_kg();
      return 1e3 * kg;
    };
    for (std::size_t i = 0; i < amounts.size(); ++i) {
      const flow::TakeInfo& take = problem_.flow().takes[problem_.free()[i].take];
      AmountLine line;
      line.thing = take.label;
      line.part = problem_.flow().parts[take.origin.part].name;
      line.step = take.origin.step;
      free_now_ = before;
      line.before_g = grams(i);
      free_now_ = after;
      line.after_g = grams(i);
      line.before = text::print(take.written, measures());
      line.after = text::print(amounts[i], measures());
      line.whole = problem_.free()[i].whole;
      if (line.whole && whole.size() > 1) line.runner = practical(take.written, whole[1].x[i], 0, measures()).value.nominal();
      out.amounts.push_back(std::move(line));
    }
  }

  void exchange_lines(BalanceSheet& out, const Multiples& x, const std::vector<double>& values) {
    std::vector<std::size_t> edges;
    for (std::size_t t = 0; t < values.size(); ++t)
      if (out.targets[t].target.met && !out.targets[t].held_by.empty()) edges.push_back(t);
    if (edges.empty()) return;
    const auto changes = exchange(ask_, x, edges);
    for (std::size_t e = 0; e < edges.size(); ++e) {
      const double one = problem_.targets()[edges[e]].one_unit;
      for (std::size_t i = 0; i < x.size(); ++i) {
        const double grams = changes[e][i] * one * out.amounts[i].before_g;
        if (std::abs(grams) > 1e-3) out.exchange.push_back({problem_.targets()[edges[e]].text, out.amounts[i].thing, grams});
      }
    }
  }

  // The document with the new amounts in their places: all else is the author's.
  std::string rewritten(const std::vector<text::Amount>& amounts) const {
    std::vector<base::Edit> edits;
    for (std::size_t i = 0; i < amounts.size(); ++i)
      if (!(amounts[i] == written(i))) edits.push_back({written(i).span, text::print(amounts[i], measures())});
    return base::edited(asked_.document, std::move(edits));
  }

  const BalanceAsked& asked_;
  Problem& problem_;
  Search ask_;
  std::vector<double> before_;
  std::vector<std::string> bounds_;
  Multiples free_now_;
};

}  // namespace

std::optional<Vary> read_vary(const std::string& written, base::Span span, text::Measures measures, text::Faults& faults) {
  Vary vary;
  vary.written = written;
  vary.span = span;
  const bool bounded = written.find_first_of("0123456789") == 0;  // `20-60 mL lime juice`
  auto thing = bounded ? formula::read_take(written, span, measures, faults) : formula::read_named(written, span, faults);
  if (!thing) return std::nullopt;
  if (bounded) vary.within = thing->amount;
  vary.thing = std::move(*thing);
  return vary;
}

base::Result<BalanceSheet> balance(const BalanceAsked& asked) {
  auto problem = Problem::of(asked, asked.targets.empty() ? asked.in.formula.targets : asked.targets);
  if (!problem) return tl::unexpected(std::move(problem.error()));
  return Answer(asked, **problem).make();
}

}  // namespace bloomset::solve
