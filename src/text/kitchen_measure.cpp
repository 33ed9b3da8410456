// text/kitchen_measure.cpp - the household measure beside a weight: `2 tbsp`, `1 1/4 cup`.
//
// Steps: those in which serving sizes are declared in the US (21 CFR 101.9(b)(5) and the inspection guide to it): below
// one teaspoon by quarters, then whole teaspoons, 1, 1 1/3, 1 1/2, 1 2/3 and 2 tablespoons, whole tablespoons below a
// quarter cup, above that cups by quarters or thirds. The nearest step, at a tie the larger. Spoons and cups are those
// of the same rule (5, 15, 240 mL) for `us`; metric and Australian ones by data/text/units.csv. The imperial system has
// no spoon here. Steps can be a third apart; one that is more than 5 % off the amount is not given at all.
#include <array>
#include <cmath>

#include "text/amount.hpp"
#include "text/number.hpp"

namespace bloomset::text {
namespace {

struct Spoons {
  double tsp_ml, tbsp_ml, cup_ml;
};
constexpr double most_off = 0.05;  // as near as a level spoon or a line on a cup comes: practice

// `1 1/4`, from a count of quarters or thirds.
std::string mixed(int parts, int of) {
  const int whole = parts / of;
  int above = parts % of, below = of;
  if (above == 0) return std::to_string(whole);
  if (above == 2 && below == 4) above = 1, below = 2;
  const std::string fraction = std::to_string(above) + "/" + std::to_string(below);
  return whole == 0 ? fraction : std::to_string(whole) + " " + fraction;
}

}  // namespace

std::string kitchen_measure(units::Volume volume, Measures measures) {
  if (measures == Measures::imperial) return {};
  const Spoons spoons = measures == Measures::us       ? Spoons{5.0, 15.0, 240.0}
                        : measures == Measures::metric ? Spoons{5.0, 15.0, 250.0}
                                                       : Spoons{5.0, 20.0, 250.0};
  const double ml = std::round(units::in_millilitres(volume) * 1e9) * 1e-9;  // 170 mL is an exact tie, whatever its last bit in m3
  if (!(ml > 0.0)) return {};
  double best_ml = 0.0;
  std::string best;
  const auto offer = [&](double step_ml, const std::string& text) {
    const double off = std::abs(step_ml - ml), best_off = std::abs(best_ml - ml);
    const double same = 1e-9 * ml;
    if (best.empty() || off < best_off - same || (off <= best_off + same && step_ml > best_ml)) best_ml = step_ml, best = text;
  };
  for (int quarter = 1; quarter < 4; ++quarter) offer(spoons.tsp_ml * quarter / 4.0, mixed(quarter, 4) + " tsp");
  for (int n = 1; n * spoons.tsp_ml < spoons.tbsp_ml; ++n) offer(n * spoons.tsp_ml, std::to_string(n) + " tsp");
  offer(spoons.tbsp_ml, "1 tbsp");
  offer(spoons.tbsp_ml * 4.0 / 3.0, "1 1/3 tbsp");
  offer(spoons.tbsp_ml * 1.5, "1 1/2 tbsp");
  offer(spoons.tbsp_ml * 5.0 / 3.0, "1 2/3 tbsp");
  for (int n = 2; n * spoons.tbsp_ml < spoons.cup_ml / 4.0; ++n) offer(n * spoons.tbsp_ml, std::to_string(n) + " tbsp");
  for (const int of : {4, 3}) {
    const int near = static_cast<int>(std::min(ml / spoons.cup_ml, 1e6) * of);
    for (int parts = std::max(near, 1); parts <= near + 1; ++parts) offer(spoons.cup_ml * parts / of, mixed(parts, of) + " cup");
  }
  return std::abs(best_ml - ml) > most_off * ml * (1.0 + 1e-9) ? std::string{} : best;
}

}  // namespace bloomset::text
