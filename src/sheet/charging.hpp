// sheet/charging.hpp - a bottle with a liquid, charged: pressure, gas in the liquid and above it, and the most foam it can give.
//
// Each charger is let in and shaken out (gas/bottle.hpp); the bottle was closed with air at 20 C unless purged. How much gas this liquid holds over
// what water holds is weak ground (gas/solubility.hpp), so the pressure comes with the span that follows from it. Overrun is the upper bound: what comes
// out of solution; a foam keeps a share of it (gas/foam.hpp). Carbon dioxide without chargers stands under a regulator (gas/carbonation.hpp).
// Checked are the maker's count, the fill line and a stated pressure; what nobody stated is said. Called by the commands `charge` and `dose`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "base/result.hpp"
#include "gas/emptying.hpp"
#include "sheet/mixture.hpp"

namespace bloomset::sheet {

struct Charging {
  gas::Gas gas = gas::Gas::nitrous_oxide;
  std::string bottle = "the bottle";       // its name, for findings
  units::Volume gross;                     // to the brim
  std::optional<units::Volume> fill_line;  // the maker's; none: three quarters of the gross volume
  std::optional<int> most_charges;         // the maker's
  std::optional<units::Pressure> limit;    // that the bottle is stated for
  bool hot_rated = true;                   // false: its maker says cold only
  units::Temperature at = units::celsius(5.0);
  int charges = 0;
  units::Mass charge = units::grams(8.0);
  bool purged = false;
  std::optional<units::Pressure> regulator;  // in place of charges, carbon dioxide only
};

/// A number with the span that the liquid's solubility leaves open.
struct Spanned {
  double nominal = 0.0, low = 0.0, high = 0.0;
};
struct ChargeSheet {
  Mixture liquid;
  Charging how;
  double liquid_ml = 0.0, head_ml = 0.0, fill_limit_ml = 0.0;
  double relative_solubility = 1.0, relative_solubility_uncertainty = 0.0;  // over water's, and its relative half width
  Spanned pressure_bar_gauge;
  double pressure_bar_abs = 0.0;
  double unshaken_bar_gauge = 0.0;  // when the last charger has emptied and nothing has dissolved of it; not a number under a regulator
  double dissolved_g = 0.0, headspace_g = 0.0, liquefied_g = 0.0;
  double gas_volumes = 0.0;  // dissolved, L at 0 C and 1 atm a litre of liquid
  struct Overrun {
    double first = 0.0, mean = 0.0, last = 0.0;
  };
  std::optional<Overrun> overrun_percent;  // upper bound; none under a regulator
  double stays_ml = 0.0;                   // liquid left when the pressure is gone
  std::optional<double> warm_bar_gauge;    // left until it is at warm_c
  std::vector<base::Finding> findings;
};

/// A fill line is read no better than to this share of it; densities of models and larder differ by as much (practice).
inline constexpr double line_read_within = 0.01;

/// A warm day's temperature, by which bottles are judged that stand about [C]; practice.
inline constexpr double warm_c = 30.0;

/// Errors: bad_input, in words, where the liquid does not go into the bottle, would freeze or boil in it, or the gas is absurdly much.
base::Result<ChargeSheet> charge(const Mixture&, const Charging&);

/// What always holds of a bottle under that gas.
std::vector<base::Finding> gas_cautions(gas::Gas);

/// Chargers that a bottle usually gets: one each half litre of liquid, at least one, never more than its maker allows. A tenth of a charger more does not
/// count.
int usual_charges(units::Volume liquid, std::optional<int> most_charges);

}  // namespace bloomset::sheet
