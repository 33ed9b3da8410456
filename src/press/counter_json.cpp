// press/counter_json.cpp - a make as the counter shows it: headings short, sentences whole, amounts for what is at hand.
#include <cctype>

#include "press/figure.hpp"
#include "press/json.hpp"
#include "press/page_json.hpp"
#include "press/step_words.hpp"

namespace bloomset::press {
namespace {

using text::Json;

Json or_null(const std::string& words) { return words.empty() ? Json() : Json(words); }

std::string heading(const formula::Step& step) {
  std::string out(formula::name(step.act));
  out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
  if (step.to_c) out += " to " + temperature(*step.to_c);
  if (step.at_c) out += " at " + temperature(*step.at_c);
  return out;
}

// The step with the amounts that its sentence says, as large as what is at hand: of the ice and the bath; of takes where the sentence says those.
formula::Step at_hand(formula::Step step, double per) {
  const auto grow = [per](formula::Take& take) {
    if (take.amount.kind == text::AmountKind::mass || take.amount.kind == text::AmountKind::volume || take.amount.kind == text::AmountKind::pieces) {
      take.amount.value.low *= per;
      take.amount.value.high *= per;
    }
  };
  for (formula::Take& take : step.takes) grow(take);
  if (step.ice) grow(*step.ice);
  if (step.bath) grow(step.bath->in);
  return step;
}

Json course_take_json(const sheet::CourseTake& take) {
  Json out = Json::object();
  out.set("thing", take.thing).set("label", take.label).set("look", take.look).set("mass_g", take.mass_g).set("volume_ml", take.volume_ml);
  out.set("pieces", take.pieces).set("written", take.written).set("measure", or_null(take.measure));
  out.set("good_low_g", take.good_low_g).set("good_high_g", take.good_high_g).set("first_of", take.first_of);
  return out;
}

Json window_json(const std::optional<sheet::CourseWindow>& window) {
  if (!window) return {};
  Json out = Json::object();
  out.set("low_s", window->low_s).set("high_s", window->high_s).set("low_hard", window->low_hard).set("high_hard", window->high_hard);
  return out;
}

Json range_json(const std::optional<text::Range>& range) {
  if (!range) return {};
  Json out = Json::object();
  out.set("low", range->low).set("high", range->high);
  return out;
}

class CounterPrinter {
 public:
  CounterPrinter(const sheet::Counter& counter, const formula::Formula& formula) : counter_(counter), formula_(formula) {}

  Json course(const sheet::Course& of) const {
    const sheet::PartSheet* part = of.serve ? nullptr : &counter_.sheet->parts[of.index];
    Json out = Json::object();
    out.set("part", of.serve ? std::string("serve") : part->name).set("index", of.index + 1);
    out.set("made", part != nullptr && part->ahead ? "ahead" : "to order").set("batches", part != nullptr ? part->batches : 1.0).set("rounds", of.rounds);
    out.set("for", of.stands_for);
    const std::vector<formula::Step>& written = of.serve ? formula_.serve->pours : formula_.parts[of.index].steps;
    StepSetting setting;
    setting.amounts = of.serve;
    setting.measures = formula_.measures;
    Json steps = Json::array();
    for (const sheet::CourseStep& step : of.steps) {
      const formula::Step& source = written[step.number - 1U];
      setting.line = step.line;
      steps.push(step_json(step, source, at_hand(source, of.per), setting));
      setting.something_there = setting.something_there || !source.takes.empty();
    }
    out.set("steps", std::move(steps));
    out.set("ready_after_h", part != nullptr ? part->ready_after_h : counter_.sheet->serve->ready_after_h);
    out.set("keeps_h", part != nullptr ? Json(part->keeps_h) : Json());
    return out;
  }

 private:
  Json step_json(const sheet::CourseStep& step, const formula::Step& written, const formula::Step& said, const StepSetting& setting) const {
    Json after = Json::object(), out = Json::object();
    after.set("mass_g", step.mass_g).set("volume_ml", step.volume_ml);
    after.set("temperature_c", step.line != nullptr ? step.line->after[matter::Property::temperature_c] : matter::cannot_be_given);
    out.set("number", step.number).set("do", formula::name(written.act)).set("heading", heading(written)).set("says", step_words(said, setting));
    out.set("why_window", step.window ? or_null(step.window->why) : Json()).set("takes", Json::array_of(step.takes, course_take_json));
    out.set("window", window_json(step.window)).set("keeps_s", range_json(written.keeps_s));
    out.set("to_c", written.to_c ? Json(written.to_c->nominal()) : Json()).set("at_c", written.at_c ? Json(written.at_c->nominal()) : Json());
    out.set("after", std::move(after)).set("findings", Json::array_of(step.findings, [](std::size_t f) { return Json(f); }));
    out.set("cautions", Json::array_of(step.cautions, [this](std::size_t f) { return Json(counter_.sheet->findings[f].says); }));
    return out;
  }

  const sheet::Counter& counter_;
  const formula::Formula& formula_;
};

}  // namespace

Json counter_json(const sheet::Counter& counter, const formula::Formula& formula, const base::Sources& sources) {
  const CounterPrinter printer(counter, formula);
  Json out = document();
  out.set("title", counter.sheet->title).set("serves", counter.sheet->serves);
  out.set("courses", Json::array_of(counter.courses, [&](const sheet::Course& course) { return printer.course(course); }));
  out.set("findings", findings_json(counter.sheet->findings, sources));
  return out;
}

}  // namespace bloomset::press
