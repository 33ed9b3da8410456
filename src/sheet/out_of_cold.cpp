#include "sheet/out_of_cold.hpp"

#include <algorithm>
#include <cstdlib>

#include "text/table.hpp"

namespace bloomset::sheet {

std::string_view embedded(std::string_view path);

namespace {

using base::Code;
using flow::no_port;
using formula::Act;

constexpr double cold_within_k = 1.0;  // what has come to its fridge is within that of it: cooling.cpp

// A stretch of steps that keep or rest what was cold in a warmer place.
class Table {
 public:
  Table(const Kitchen& k, std::size_t part, std::vector<base::Finding>& findings) : k_(k), part_(part), findings_(findings) {}

  void apply() {
    for (const flow::StepInfo& step : k_.flow.steps) {
      if (step.origin.part != part_ || step.liquid == no_port) continue;
      const double at_c = stream_celsius(k_.batch.port(step.liquid));
      if (was_cold_ && (step.act == Act::rest || step.act == Act::set)) stands(step, at_c);
      was_cold_ = was_cold_ || at_c <= coldest_clock_c_ + cold_within_k;
    }
  }

 private:
  void stands(const flow::StepInfo& step, double at_c) {
    const double hours = step_seconds(k_, step) / 3600.0;
    for (const ColdClock& clock : cold_clocks(at_c)) {
      if (!(at_c > clock.above_c + cold_within_k) || !(hours > clock.hours)) continue;
      base::Finding& said =
          findings_.emplace_back(say(Code::time_temperature_control, where(k_.flow, step.origin, step.span),
                                     "'" + k_.flow.parts[part_].name + "' stands out of the cold for " + shown(hours) + " h, at " + shown(at_c) +
                                         " C: the published limit of " + shown(clock.hours) + " h (" + clock.jurisdiction + ") is missed",
                                     hours, clock.hours));
      said.weight = base::Weight::mind;
      said.source = clock.source;
      said.remedies = {{"serve it from the fridge, a little at a time, and discard what has stood longer", std::nullopt}};
      return;  // the shortest says it
    }
  }

  const Kitchen& k_;
  std::size_t part_;
  std::vector<base::Finding>& findings_;
  double coldest_clock_c_ = cold_clocks(0.0).front().above_c;
  bool was_cold_ = false;
};

}  // namespace

std::vector<ColdClock> cold_clocks(double room_c) {
  std::vector<ColdClock> clocks;
  for (const auto& row : text::table_rows(embedded("sheet/out_of_cold.csv"))) {
    if (!row[2].empty() && !(room_c > std::strtod(row[2].c_str(), nullptr))) continue;
    const ColdClock clock{row[0], std::strtod(row[1].c_str(), nullptr), std::strtod(row[3].c_str(), nullptr), row[4]};
    const auto same = std::find_if(clocks.begin(), clocks.end(), [&](const ColdClock& one) { return one.jurisdiction == clock.jurisdiction; });
    if (same == clocks.end())
      clocks.push_back(clock);
    else if (clock.hours < same->hours)
      *same = clock;
  }
  std::stable_sort(clocks.begin(), clocks.end(), [](const ColdClock& a, const ColdClock& b) { return a.hours < b.hours; });
  return clocks;
}

std::string clock_words(double room_c) {
  std::string words;
  for (const ColdClock& clock : cold_clocks(room_c))
    words.append(words.empty() ? "" : " or ").append(shown(clock.hours)).append(" h (" + clock.jurisdiction + ")");
  return words;
}

void out_of_cold_rules(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) {
  for (std::size_t p = 0; p < sheet.parts.size(); ++p)
    if (k.book.parts[p].in_use && calls_for_control(sheet.parts[p])) Table(k, p, findings).apply();
}

}  // namespace bloomset::sheet
