// sheet/targets.cpp - is a wish met? Each target is judged by the reading its name stands for.
//
// A point (`serve.abv 14 %`) is met where the value prints as it at the digits written, or lies within 0.1 % of it. A
// value that cannot be given meets nothing, and is told twice: why it is not there, and that the target is missed.
#include <algorithm>
#include <cmath>

#include "sheet/probe.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

using formula::Target;
using formula::Wish;
using matter::cannot_be_given;

constexpr double point_share = 1e-3;  // a scale, and a document, show three digits: practice

const PartSheet* part_of(const Sheet& sheet, const Target& target) {
  for (const PartSheet& part : sheet.parts)
    if (text::fold(part.name) == text::fold(target.part)) return &part;
  return nullptr;
}

const matter::Values& glass_at(const ServeSheet& serve, double minute) {
  for (const GlassAt& at : serve.over_time)
    if (std::abs(at.minute - minute) < 1e-9) return at.values;
  return serve.at_service;
}

// Half of the last digit written: 14 → 0.5, 0.75 → 0.005.
double half_last_digit(double written) {
  const std::string text = text::print_number(written, 12);
  const auto point = text.find('.');
  const double decimals = point == std::string::npos ? 0.0 : static_cast<double>(text.size() - point - 1);
  return 0.5 * std::pow(10.0, -decimals);
}

double as_written(double value, const Target& target) { return value / target.one_unit + (target.fahrenheit ? 32.0 : 0.0); }

}  // namespace

std::optional<matter::Property> property_of(std::string_view key) {
  for (std::size_t i = 0; i < matter::property_count; ++i)
    if (matter::key(static_cast<matter::Property>(i)) == key) return static_cast<matter::Property>(i);
  return std::nullopt;
}

double value_of(const Sheet& sheet, const Target& target, double minute) {
  const std::string_view key = formula::target_key(target.property);
  const auto property = property_of(key);
  if (target.of_serve) {
    if (!sheet.serve) return cannot_be_given;
    const ServeSheet& serve = *sheet.serve;
    if (property) return minute > 0.0 ? glass_at(serve, minute)[*property] : serve.at_service[*property];
    if (key == "headroom_ml") return serve.brim_ml > 0.0 ? serve.headroom_ml : cannot_be_given;
    if (key == "cost") return serve.cost.value_or(cannot_be_given);
    if (key == "ready_after_h") return serve.ready_after_h;
    return cannot_be_given;
  }
  const PartSheet* part = part_of(sheet, target);
  if (part == nullptr) return cannot_be_given;
  if (property) return part->values[*property];
  if (part->siphon && key == "overrun_percent") return part->siphon->overrun_mean;
  if (part->siphon && key == "fill_fraction") return part->siphon->fill_fraction;
  if (part->siphon && key == "pressure_at_service_bar_gauge") return part->siphon->at_service_bar_gauge;
  return key == "ready_after_h" ? part->ready_after_h : cannot_be_given;
}

bool met(const Target& target, double value) {
  if (std::isnan(value)) return false;
  switch (target.wish) {
    case Wish::at_least:
      return value >= target.low;
    case Wish::at_most:
      return value <= target.high;
    case Wish::within:
      return value >= target.low && value <= target.high;
    case Wish::equal:
      return std::abs(value - target.low) <= std::max(half_last_digit(target.low), point_share * std::abs(target.low));
  }
  return false;
}

std::vector<base::Diagnostic> target_faults(const formula::Formula& formula) {
  std::vector<base::Diagnostic> faults;
  std::vector<std::string> names;
  for (const formula::Part& part : formula.parts) names.push_back(part.name);
  for (const Target& target : formula.targets) {
    if (target.of_serve) {
      if (!formula.serve)
        faults.push_back({base::Severity::error, "no_serve", "this target speaks of the serve, and the document has none", target.span, std::nullopt,
                          "add [serve], or name a part in single quotes"});
      continue;
    }
    const bool known = std::any_of(names.begin(), names.end(), [&](const std::string& name) { return text::fold(name) == text::fold(target.part); });
    if (known) continue;
    const std::string near = base::nearest(target.part, names);
    faults.push_back({base::Severity::error, "unknown_part", "no part is called '" + target.part + "'", target.span, std::nullopt,
                      near.empty() ? "" : "did you mean '" + near + "'?"});
  }
  return faults;
}

std::vector<TargetLine> judge_targets(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) {
  std::vector<TargetLine> lines;
  for (const Target& target : k.in.formula.targets) {
    TargetLine line;
    line.target = target.text;
    const double minute = target.at_minute.value_or(0.0);
    line.value = value_of(sheet, target, minute);
    line.value_as_written = as_written(line.value, target);
    line.unit = target.unit;
    line.met = met(target, line.value);
    if (line.met && minute == 0.0 && target.of_serve && property_of(formula::target_key(target.property)) && sheet.serve) {
      line.until_minute = 0.0;
      for (const GlassAt& at : sheet.serve->over_time) {
        if (!met(target, value_of(sheet, target, at.minute))) break;
        line.until_minute = at.minute;
      }
    }
    line.span = target.span;
    base::Where at;
    at.part = target.of_serve ? "serve" : target.part;
    at.property = std::string(formula::target_key(target.property));
    at.span = target.span;
    if (std::isnan(line.value)) {
      findings.push_back(because("its place has no such thing, or what gives it is not known or not computed in this version",
                                 say(base::Code::value_missing, at, "`" + target.property + "` cannot be given here")));
      findings.push_back(say(base::Code::target_unmet, at, "`" + target.text + "` counts as not met: it cannot be given"));
    } else if (!line.met) {
      findings.push_back(say(base::Code::target_unmet, at,
                             "`" + target.text + "` is not met: it is " + shown(line.value_as_written) + (line.unit.empty() ? "" : " " + line.unit)));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace bloomset::sheet
