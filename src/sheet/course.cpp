#include "sheet/course.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "flow/compile.hpp"
#include "flow/run.hpp"
#include "flow/variation.hpp"
#include "flow/vary.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"
#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

constexpr double good_deviations = 2.0;
constexpr double least_counted = 0.25;             // less of a piece than that is no way to say an amount: practice
constexpr std::uint16_t first_of_an_act = 0xFFFE;  // takes that an act brings with it: nobody weighs them

struct HardRow {
  std::string hard, why;
};
const HardRow* hard_row(formula::Act act) {
  static const std::map<std::string, HardRow, std::less<>> rows = [] {
    std::map<std::string, HardRow, std::less<>> all;
    for (const auto& row : text::table_rows(embedded("sheet/windows.csv"))) all[row[0]] = {row[1], row[2]};
    return all;
  }();
  const auto at = rows.find(formula::name(act));
  return at == rows.end() ? nullptr : &at->second;
}

std::optional<CourseWindow> window_of(const formula::Step& step) {
  if (!step.time_s) return std::nullopt;
  const HardRow* row = hard_row(step.act);
  const std::string hard = step.hard ? step.hard->text : row != nullptr ? row->hard : "neither";
  CourseWindow window{step.time_s->low, step.time_s->high, hard == "both" || hard == "shorter", hard == "both" || hard == "longer", {}};
  if (row != nullptr && (!step.hard || step.hard->text == row->hard)) window.why = row->why;
  return window;
}

bool is_round_act(formula::Act act) {
  return act == formula::Act::shake || act == formula::Act::dry_shake || act == formula::Act::stir || act == formula::Act::blend;
}

// What a part's liquid mostly came from, by mass; water and ice only where there is nothing else.
std::string look_of_part(const Kitchen& k, std::size_t part, int depth = 0) {
  std::map<larder::Family, double> kg;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    if (take.origin.part == part && take.thing) kg[k.flow.things[*take.thing].family] += k.book.takes[t].kg;
  }
  const auto plain = [](larder::Family f) { return f == larder::Family::water || f == larder::Family::ice; };
  const auto heaviest = std::max_element(
      kg.begin(), kg.end(), [&](const auto& a, const auto& b) { return std::pair(!plain(a.first), a.second) < std::pair(!plain(b.first), b.second); });
  if (heaviest != kg.end()) return std::string(larder::name(heaviest->first));
  for (const flow::TakeInfo& take : k.flow.takes)
    if (take.origin.part == part && take.made && depth < 64) return look_of_part(k, *take.made, depth + 1);
  return std::string(larder::name(larder::Family::other));
}

// How the model reads a thing, and what will be left: for the bench, not for who stands at the stove.
bool is_for_the_cook(const base::Finding& finding) {
  switch (finding.code) {
    case base::Code::range_left:
    case base::Code::assumption:
    case base::Code::value_missing:
    case base::Code::left_over:
    case base::Code::target_unmet:
      return false;
    default:
      return true;
  }
}

class Cooking {
 public:
  Cooking(const Kitchen& kitchen, const Sheet& sheet) : k_(kitchen), sheet_(sheet) {}

  std::vector<Course> courses() {
    std::vector<Course> out;
    for (const std::size_t part : order()) out.push_back(course(part));
    return out;
  }

 private:
  // Behind what it is made of, else as in the document.
  std::vector<std::size_t> order() const {
    std::vector<std::size_t> out;
    std::vector<bool> there(k_.flow.parts.size(), false);
    const std::function<void(std::size_t)> put = [&](std::size_t part) {
      if (there[part]) return;
      there[part] = true;
      for (const flow::DrawInfo& draw : k_.flow.draws)
        if (draw.by == part) put(draw.from);
      out.push_back(part);
    };
    for (std::size_t p = 0; p < k_.flow.parts.size(); ++p) put(p);
    return out;
  }

  Course course(std::size_t part) const {
    const flow::PartInfo& info = k_.flow.parts[part];
    Course out;
    out.index = part;
    out.serve = k_.is_serve(part);
    const std::vector<formula::Step>& steps = out.serve ? k_.in.formula.serve->pours : k_.in.formula.parts[part].steps;
    const bool ahead = !out.serve && info.made == formula::Made::ahead;
    const bool in_rounds = !ahead && std::any_of(steps.begin(), steps.end(), [](const formula::Step& s) { return is_round_act(s.act); });
    out.rounds = in_rounds ? info.rounds : 1;
    if (in_rounds) out.per = std::ceil(static_cast<double>(k_.flow.serves) / info.rounds);
    out.stands_for = ahead ? "one batch" : in_rounds ? "one round of " + std::to_string(static_cast<int>(out.per)) : "one serve";
    const std::vector<TakeLine> amounts = take_lines(k_, part);
    std::map<std::string, int> times;
    for (std::size_t s = 0; s < steps.size(); ++s)
      out.steps.push_back(step(out, steps[s], static_cast<std::uint16_t>(s + 1), s + 1 == steps.size(), amounts, times));
    return out;
  }

  CourseStep step(const Course& of, const formula::Step& written, std::uint16_t number, bool is_last, const std::vector<TakeLine>& amounts,
                  std::map<std::string, int>& times) const {
    CourseStep out;
    out.number = number;
    out.window = window_of(written);
    const std::vector<StepLine>& lines = of.serve ? sheet_.serve->steps : sheet_.parts[of.index].steps;
    const auto line = std::find_if(lines.begin(), lines.end(), [&](const StepLine& l) { return l.number == number; });
    if (line != lines.end()) out.line = &*line;
    out.mass_g = out.line != nullptr ? out.line->after[matter::Property::mass_g] * of.per : matter::cannot_be_given;
    out.volume_ml = out.line != nullptr ? out.line->after[matter::Property::volume_ml] * of.per : matter::cannot_be_given;
    std::size_t amount = 0;  // within a step both stand in the order of the flowsheet
    for (std::size_t t = 0; t < k_.flow.takes.size(); ++t) {
      const flow::TakeInfo& take = k_.flow.takes[t];
      if (take.origin.part != of.index || take.origin.step != number) continue;
      while (amount < amounts.size() && amounts[amount].step != number) ++amount;
      if (amount == amounts.size()) break;
      const TakeLine& said = amounts[amount++];
      if (take.origin.take >= first_of_an_act) continue;
      out.takes.push_back(take_of(of, t, said));
      out.takes.back().first_of = ++times[text::fold(out.takes.back().label)];
    }
    std::stable_sort(out.takes.begin(), out.takes.end(), [](const CourseTake& a, const CourseTake& b) { return a.number < b.number; });
    find(of, is_last, out);
    return out;
  }

  void find(const Course& of, bool is_last, CourseStep& out) const {
    const std::vector<base::Finding>& all = sheet_.findings;
    for (std::size_t f = 0; f < all.size(); ++f) {
      if (all[f].where.part != k_.flow.parts[of.index].name) continue;
      if (all[f].where.step != out.number && !(is_last && all[f].where.step == 0)) continue;
      out.findings.push_back(f);
      if (is_for_the_cook(all[f])) out.cautions.push_back(f);
    }
    std::stable_sort(out.cautions.begin(), out.cautions.end(), [&](std::size_t a, std::size_t b) { return all[a].weight < all[b].weight; });
  }

  CourseTake take_of(const Course& of, std::size_t t, const TakeLine& said) const {
    const flow::TakeInfo& take = k_.flow.takes[t];
    CourseTake out;
    out.number = take.origin.take;
    out.label = take.label;
    out.thing = take.made ? k_.flow.parts[*take.made].name : take.thing ? k_.flow.things[*take.thing].name : take.label;
    out.look = take.made ? look_of_part(k_, *take.made) : take.thing ? std::string(larder::name(k_.flow.things[*take.thing].family)) : "other";
    out.made = take.made.has_value();
    out.maybe = take.maybe;
    out.written = said.written;
    const bool there = k_.book.takes[t].there;
    out.mass_g = there ? said.mass_g * of.per : matter::cannot_be_given;
    out.volume_ml = there ? said.volume_ml * of.per : matter::cannot_be_given;
    const bool counted = take.written.kind == text::AmountKind::pieces;
    if (there && said.pieces && (counted || (std::isnan(said.volume_ml) && *said.pieces >= least_counted))) out.pieces = *said.pieces * of.per;
    if (there && !said.measure.empty() && !std::isnan(out.volume_ml))
      out.measure = text::kitchen_measure(units::millilitres(out.volume_ml), k_.in.formula.measures);
    if (there && !counted && out.mass_g > 0.0) set_good(take, out);
    return out;
  }

  // By the knob of the amount: a scale errs by so many grams whatever it weighs, a jug by a share.
  void set_good(const flow::TakeInfo& take, CourseTake& out) const {
    for (std::size_t u = 0; u < k_.flow.units.size(); ++u) {
      const flow::Unit& unit = k_.flow.units[u];
      if (!(k_.flow.unit_origin[u] == take.origin)) continue;
      if (unit.op != flow::Op::take && unit.op != flow::Op::take_ice && unit.op != flow::Op::draw) continue;
      for (std::uint32_t n = unit.knobs.first; n < unit.knobs.first + unit.knobs.count; ++n) {
        const flow::Knob& knob = k_.flow.knobs[n];
        if (std::string_view(knob.what) != "amount" || !(k_.flow.nominal[n] > 0.0)) continue;
        const flow::VariationRow* row = flow::variation_row(flow::measured_how(k_.flow, unit, take.origin, n));
        if (knob.range && knob.range->is_band()) {
          const double one_g = out.mass_g / knob.range->nominal();
          out.good_low_g = knob.range->low * one_g;
          out.good_high_g = knob.range->high * one_g;
          out.good_source = "the document";
        } else if (row != nullptr && !row->fixed) {
          out.good_source = row->source;
          spread(*row, knob, out);
        }
        return;
      }
    }
  }

  static void spread(const flow::VariationRow& row, const flow::Knob& knob, CourseTake& out) {
    if (row.law == flow::Law::lognormal) {
      out.good_low_g = out.mass_g * std::exp(-good_deviations * row.width);
      out.good_high_g = out.mass_g * std::exp(good_deviations * row.width);
      return;
    }
    // Grams of one deviation: of a width in mL by what a mL of it weighs here.
    double one_g = row.width * out.mass_g;
    if (!row.relative) one_g = knob.kind == flow::KnobKind::volume_m3 ? row.width * 1e6 * out.mass_g / out.volume_ml : row.width * 1e3;
    if (std::isnan(one_g)) return;
    out.good_low_g = std::max(out.mass_g - good_deviations * one_g, 0.0);
    out.good_high_g = out.mass_g + good_deviations * one_g;
  }

  const Kitchen& k_;
  const Sheet& sheet_;
};

}  // namespace

std::string_view hard_end(formula::Act act) {
  const HardRow* row = hard_row(act);
  return row == nullptr ? std::string_view("neither") : std::string_view(row->hard);
}

base::Result<Counter> make_counter(const Inputs& in) {
  auto made = make_sheet(in);
  if (!made) return tl::unexpected<base::Error>(std::move(made.error()));
  auto flow = flow::compile(in.formula, in.larder, in.kit, in.serves);
  if (!flow) return tl::unexpected<base::Error>(std::move(flow.error()));
  flow::Batch<1> batch(*flow);
  flow::run<1>(*flow, flow->nominal, batch);
  const Ledger book = ledger_of(*flow, batch);
  const Kitchen kitchen{in, *flow, batch, book};
  Counter out{std::make_unique<Sheet>(std::move(*made)), {}};
  out.courses = Cooking(kitchen, *out.sheet).courses();
  return out;
}

}  // namespace bloomset::sheet
