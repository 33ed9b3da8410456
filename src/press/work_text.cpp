#include "press/work_text.hpp"

#include <algorithm>
#include <cmath>

#include "press/figure.hpp"
#include "press/step_words.hpp"

namespace bloomset::press {
namespace {

using matter::Property;

// Columns of the two tables; both end at column 79. Between any two stands a blank: a cell that fills its column pushes the rest on.
constexpr std::size_t number_wide = 4, thing_wide = 28, grams_wide = 9, second_wide = 9, measure_wide = 10, percent_wide = 8;
constexpr std::size_t words_wide = 46, after_wide = 10;

// Less of a piece than that is no way to say an amount: practice.
constexpr double least_pieces = 0.25;

std::string percent_cell(double percent, bool agent) {
  return std::isnan(percent) ? std::string() : figure(percent, agent ? Digits::agent : Digits::percent, "%");
}

void print_take(Page& page, const sheet::TakeLine& take, const std::string& number) {
  std::string thing = clean(take.thing);
  if (take.made && !thing.starts_with('\'')) thing = "'" + thing + "'";
  if (take.maybe) thing += ", if wanted";
  const bool counted = take.written.find("piece") != std::string::npos;
  std::string second;
  if (take.maybe)
    second = clean(take.written);  // it may go in, but it is in no balance: no grams
  else if (take.pieces && (counted || (std::isnan(take.volume_ml) && *take.pieces >= least_pieces)))
    second = figure(*take.pieces, std::fabs(*take.pieces - std::round(*take.pieces)) < 0.005 ? Digits::whole : Digits::one, "pc");
  else if (!std::isnan(take.volume_ml))
    second = figure(take.volume_ml, Digits::amount, "mL");
  const bool in_base = !take.ice && !take.maybe;
  const std::vector<std::string> name = wrap(thing, thing_wide);
  for (std::size_t i = 0; i < name.size(); ++i) {
    std::string row = (i == 0 ? right(number, number_wide - 2) + "  " : std::string(number_wide, ' ')) + name[i];
    if (i == 0) {
      row = left(row, number_wide + thing_wide);
      row += " " + right(take.maybe ? std::string() : figure(take.mass_g, take.agent ? Digits::agent : Digits::amount, "g"), grams_wide - 1);
      row += " " + right(second, second_wide - 1);
      row += "  " + left(cut(take.measure, measure_wide), measure_wide);
      if (in_base)
        row += right(percent_cell(take.percent_of_base, take.agent), percent_wide) + " " + right(percent_cell(take.percent_of_total, take.agent), percent_wide);
    }
    page.line(row);
  }
}

std::string cell(const matter::Values& values, Property property) { return std::isnan(values[property]) ? std::string() : figure(values, property); }

// `step` is nothing where a step has no state of its own.
void print_step(Page& page, std::uint16_t number, const sheet::StepLine* step, const std::string& words) {
  std::vector<std::string> lines = wrap(words, words_wide);
  const bool something = step != nullptr && step->after[Property::mass_g] > 0.0;
  const bool ice = something && step->after[Property::ice_g] > 0.005;
  if (ice && lines.size() < 2) lines.emplace_back();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::string row = (i == 0 ? right(std::to_string(number), number_wide - 2) + "  " : std::string(number_wide, ' ')) + lines[i];
    if (i == 0 && something) {
      row = left(row, number_wide + words_wide);
      for (const Property property : {Property::temperature_c, Property::mass_g, Property::volume_ml})
        row += right(cell(step->after, property), property == Property::temperature_c ? after_wide - 1 : after_wide);
    } else if (i == 1 && ice) {
      row = left(row, number_wide + words_wide) + right("ice", after_wide - 1) + right(figure(step->after, Property::ice_g), after_wide);
    }
    page.line(row);
  }
}

std::string_view loss_words(std::string_view kind) {
  if (kind == "evaporates") return "evaporates";
  if (kind == "sticks") return "sticks to the vessel";
  if (kind == "pulp") return "is strained out";
  if (kind == "stays") return "stays behind";
  if (kind == "gas") return "leaves as gas";
  if (kind == "aside") return "lies on the glass";
  return kind;
}

}  // namespace

void print_takes(Page& page, FindingDesk& desk, const std::string& place, const std::vector<sheet::TakeLine>& takes) {
  page.line(std::string(number_wide + thing_wide + grams_wide + second_wide + 2 + measure_wide, ' ') + right("of base", percent_wide) +
            right("of total", percent_wide + 1));
  std::uint16_t step = 0, take_of_step = 0;
  for (const sheet::TakeLine& take : takes) {
    const bool first_of_step = take.step != step;
    take_of_step = first_of_step ? 1 : static_cast<std::uint16_t>(take_of_step + 1);
    step = take.step;
    print_take(page, take, first_of_step ? std::to_string(take.step) : std::string());
    const std::uint16_t number = take_of_step;
    desk.say(page, number_wide, [&](const base::Finding& f) { return f.where.part == place && f.where.step == step && f.where.take == number; });
  }
}

void print_steps(Page& page, FindingDesk& desk, const std::string& place, const std::vector<sheet::StepLine>& steps, const std::vector<formula::Step>& written,
                 WorkWords words) {
  page.line(std::string(number_wide + words_wide, ' ') + right("then in the vessel", 3 * after_wide - 1));
  StepSetting setting;
  setting.amounts = words.amounts;
  setting.measures = words.measures;
  for (std::size_t i = 0; i < written.size(); ++i) {
    const std::uint16_t number = static_cast<std::uint16_t>(i + 1);
    // A step that is only `if wanted` is in no balance: it is said, and nothing is known of the vessel after it.
    const auto line = std::find_if(steps.begin(), steps.end(), [&](const sheet::StepLine& step) { return step.number == number; });
    setting.line = line == steps.end() ? nullptr : &*line;
    print_step(page, number, setting.line, step_words(written[i], setting));
    setting.something_there = setting.something_there || !written[i].takes.empty();
    desk.say(page, number_wide, [&](const base::Finding& f) { return f.where.part == place && f.where.step == number; });
  }
}

void print_ratio(Page& page, const std::optional<sheet::Ratio>& ratio) {
  if (!ratio) return;
  std::string parts, things;
  for (std::size_t i = 0; i < ratio->parts.size(); ++i) {
    parts += (i == 0 ? "" : " : ") + text::print_number(ratio->parts[i], 4);
    things += (i == 0 ? "" : " : ") + clean(ratio->things[i]);
  }
  page.paragraph(std::string(number_wide, ' ') + "By volume  ", parts + " (" + things + ")");
}

void print_losses(Page& page, const std::vector<sheet::LossLine>& losses) {
  // What stays in the kitchen, ice and pods, was never meant to go on: it is no loss.
  std::string lost, left_behind;
  for (const sheet::LossLine& loss : losses) {
    if (loss.mass_g < 0.005) continue;
    std::string& words = loss.kind == "stays" || loss.kind == "aside" ? left_behind : lost;
    words.append(words.empty() ? "" : "; ").append(figure(loss.mass_g, Digits::amount, "g")).append(" ").append(loss_words(loss.kind));
    words.append(" at step\u00A0").append(std::to_string(loss.step));
  }
  const std::string blank(number_wide, ' ');
  if (!left_behind.empty()) page.paragraph(blank + "Left  ", left_behind + ".");
  if (!lost.empty()) page.paragraph(blank + "Lost  ", lost + ".");
}

}  // namespace bloomset::press
