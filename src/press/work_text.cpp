#include "press/work_text.hpp"

#include <cmath>

#include "press/figure.hpp"
#include "press/step_words.hpp"

namespace bloomset::press {
namespace {

using matter::Property;

// Columns of the two tables; both end at column 79.
constexpr std::size_t number_wide = 4, thing_wide = 30, grams_wide = 10, second_wide = 10, measure_wide = 11, percent_wide = 7;
constexpr std::size_t words_wide = 46, after_wide = 10;

std::string percent_cell(double percent, bool agent) {
  return std::isnan(percent) ? std::string() : figure(percent, agent ? Digits::agent : Digits::percent, "%");
}

void print_take(Page& page, const sheet::TakeLine& take, const std::string& number) {
  std::string thing = clean(take.thing);
  if (take.made && !thing.starts_with('\'')) thing = "'" + thing + "'";
  if (take.maybe) thing += ", if wanted";
  std::string second;
  if (take.pieces)
    second = figure(*take.pieces, std::fabs(*take.pieces - std::round(*take.pieces)) < 0.005 ? Digits::whole : Digits::one, "pc");
  else if (!std::isnan(take.volume_ml))
    second = figure(take.volume_ml, Digits::amount, "mL");
  const std::vector<std::string> name = wrap(thing, thing_wide);
  for (std::size_t i = 0; i < name.size(); ++i) {
    std::string row = (i == 0 ? right(number, number_wide - 2) + "  " : std::string(number_wide, ' ')) + name[i];
    if (i == 0) {
      row = left(row, number_wide + thing_wide);
      row += right(figure(take.mass_g, take.agent ? Digits::agent : Digits::amount, "g"), grams_wide) + right(second, second_wide);
      row += "  " + left(cut(take.measure, measure_wide), measure_wide) + right(percent_cell(take.percent_of_base, take.agent), percent_wide);
      row += " " + right(percent_cell(take.percent_of_total, take.agent), percent_wide);
    }
    page.line(row);
  }
}

std::string cell(const matter::Values& values, Property property) { return std::isnan(values[property]) ? std::string() : figure(values, property); }

void print_step(Page& page, const sheet::StepLine& step, const std::string& words) {
  const matter::Values& after = step.after;
  std::vector<std::string> lines = wrap(words, words_wide);
  const bool something = after[Property::mass_g] > 0.0;
  const bool ice = after[Property::ice_g] > 0.005;
  if (ice && lines.size() < 2) lines.emplace_back();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::string row = (i == 0 ? right(std::to_string(step.number), number_wide - 2) + "  " : std::string(number_wide, ' ')) + lines[i];
    if (i == 0 && something) {
      row = left(row, number_wide + words_wide) + right(cell(after, Property::temperature_c), after_wide - 1) + right(cell(after, Property::mass_g), after_wide) +
            right(cell(after, Property::volume_ml), after_wide);
    } else if (i == 1 && ice) {
      row = left(row, number_wide + words_wide) + right("ice", after_wide - 1) + right(figure(after[Property::ice_g], Digits::amount, "g"), after_wide);
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
  return kind;
}

}  // namespace

void print_takes(Page& page, FindingDesk& desk, const std::string& place, const std::vector<sheet::TakeLine>& takes) {
  page.line(std::string(number_wide + thing_wide + grams_wide + second_wide + 2 + measure_wide, ' ') + right("of base", percent_wide) + " " + right("of all", percent_wide));
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
  bool something_there = false;
  for (const sheet::StepLine& step : steps) {
    if (step.number == 0 || step.number > written.size()) continue;
    StepSetting setting;
    setting.line = &step;
    setting.something_there = something_there;
    setting.amounts = words.amounts;
    setting.measures = words.measures;
    print_step(page, step, step_words(written[step.number - 1U], setting));
    something_there = something_there || step.after[Property::mass_g] > 0.0 || !written[step.number - 1U].takes.empty();
    desk.say(page, number_wide, [&](const base::Finding& f) { return f.where.part == place && f.where.step == step.number; });
  }
}

void print_losses(Page& page, const std::vector<sheet::LossLine>& losses) {
  std::string words;
  for (const sheet::LossLine& loss : losses) {
    if (loss.mass_g < 0.005) continue;
    words += (words.empty() ? "" : "; ") + figure(loss.mass_g, Digits::amount, "g") + " " + std::string(loss_words(loss.kind)) + " at step\u00A0" + std::to_string(loss.step);
  }
  if (!words.empty()) page.paragraph(std::string(number_wide, ' ') + "Lost  ", words + ".");
}

}  // namespace bloomset::press
