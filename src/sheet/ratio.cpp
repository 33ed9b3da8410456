#include "sheet/ratio.hpp"

#include <algorithm>
#include <cmath>

namespace bloomset::sheet {
namespace {

constexpr double within = 0.03;         // of a number, to stand for the quarter beside it
constexpr std::size_t most_things = 8;  // beyond that nobody counts in parts
constexpr std::string_view small[] = {"dash", "dashes", "drop", "drops"};

bool is_small(std::string_view unit) { return std::find(std::begin(small), std::end(small), unit) != std::end(small); }

}  // namespace

std::vector<double> ratio_of_volumes(const std::vector<double>& ml) {
  std::vector<double> best;
  double fewest = 0.0;
  for (const double one : ml) {
    std::vector<double> numbers;
    double cost = 0.0;
    for (const double volume : ml) {
      const double exact = volume / one, quarter = std::round(4.0 * exact) / 4.0;
      const bool near = quarter > 0.0 && std::abs(quarter / exact - 1.0) <= within;
      numbers.push_back(near ? quarter : std::round(100.0 * exact) / 100.0);
      cost += !near ? (exact < 1.0 ? 200.0 : 100.0) : numbers.back() == std::round(numbers.back()) ? 0.0 : 1.0;
    }
    cost += 1e-3 * *std::max_element(numbers.begin(), numbers.end());  // of two that are as whole, the smaller numbers
    if (best.empty() || cost < fewest) best = numbers, fewest = cost;
  }
  return best;
}

std::optional<Ratio> ratio_of(const Kitchen& k, std::size_t part, const std::vector<TakeLine>& lines) {
  Ratio ratio;
  std::vector<double> ml;
  for (const TakeLine& line : lines) {
    if (line.ice || line.maybe) continue;
    const auto info =
        std::find_if(k.flow.takes.begin(), k.flow.takes.end(), [&](const flow::TakeInfo& t) { return t.origin.part == part && t.span == line.span; });
    if (info == k.flow.takes.end()) return std::nullopt;
    if (info->written.kind == text::AmountKind::pieces || is_small(info->written.unit)) continue;
    const bool poured = info->made || (info->thing && is_poured(k.flow.things[*info->thing].family));
    if (info->written.kind != text::AmountKind::volume || !poured || !(line.volume_ml > 0.0)) return std::nullopt;
    ratio.things.push_back(line.thing);
    ml.push_back(line.volume_ml);
  }
  if (ml.size() < 2 || ml.size() > most_things) return std::nullopt;
  ratio.parts = ratio_of_volumes(ml);
  return ratio;
}

}  // namespace bloomset::sheet
