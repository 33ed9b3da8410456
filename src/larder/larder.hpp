// larder/larder.hpp - things one buys or keeps: what they are made of, how they vary, how they are bought.
//
// The catalogue is data (data/larder/*.csv), one row a thing, each number with its source. A take's bracket
// (`40 %vol`, `50 brix`, `raw`) changes the row's composition within the row's own list of qualifiers. A fruit's
// measured pH and titratable acidity fix its unknown cations: they are booked as potassium with the hydrogen the
// acids have lost, so that charge balance gives back the measured pH.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/finding.hpp"
#include "base/result.hpp"
#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::larder {

/// One word of a take's bracket, already read: `%vol` 40, `brix` 50, `raw`.
struct Qualifier {
  std::string name;
  std::optional<double> value;
  base::Span span;
};

enum class Family : std::uint8_t {
  water,
  juice,
  puree,
  sweetener,
  syrup,
  spirit,
  liqueur,
  wine,
  bitters,
  dairy,
  egg,
  plant_milk,
  acid,
  acid_solution,
  salt,
  saline,
  soda,
  tea_coffee,
  spice,
  herb,
  fruit,
  ice,
  agent,
  chemical,
  other
};
/// Its word in the tables and in documents: `plant_milk`.
std::string_view name(Family);

/// How one property of a thing varies from buy to buy: a normal law of that relative or absolute width (one standard deviation).
struct Variability {
  std::string property;  // "brix", "acid", "ph", "strength", "mass_a_piece", "wet", "bloom"
  double width = 0.0;    // a share of the value, or (relative = false) in the property's unit
  bool relative = true;
  std::string source;
};

/// What one standard deviation of a property does to a thing: its matter moves in a straight line, by half of what lies between
/// the thing made up one deviation above and one below.
struct Deviation {
  std::string property;        // as in Variability
  double value = 0.0;          // of the property, in the unit of data/larder/numbers.csv
  double width = 0.0;          // one standard deviation, in the same unit
  matter::Composition per_kg;  // [kg/kg], sums to 0; nothing for "mass_a_piece", "wet" and "bloom", which change no matter
  double density_20c = 0.0;    // [kg/m3]
  std::string source;
};

struct Pack {
  std::optional<units::Mass> mass;
  std::optional<units::Volume> volume;
  double price = 0.0;  // 0: not known
  std::string currency;
};

/// A thing as it enters a formula: the row with the take's bracket applied.
struct Thing {
  std::string name;   // the row's name
  std::string label;  // as printed: name with its bracket
  Family family = Family::other;
  matter::Composition per_kg;  // [kg/kg], sums to 1
  units::Density density_20c;  // measured where the row has one, else from the model of matter
  bool density_measured = false;
  std::optional<units::Mass> piece;         // mass of one piece as used
  std::optional<units::Mass> bought_piece;  // mass of one fruit as bought, for the order list
  std::optional<double> yield_of_bought;    // juice or flesh per bought mass
  double storage_c = 20.0;
  bool solid = false;         // a piece that can be strained out whole (pods, peel, leaves)
  double holds_liquid = 0.0;  // kg of liquid a kg of it keeps when strained out
  bool live_enzyme = false;   // protease that has seen no heat
  bool raw_egg = false;
  bool heat_treated = true;
  std::optional<double> carbonation_g_l;  // dissolved CO2, g/L, in a closed bottle; its mass stands in per_kg as carbon dioxide
  std::optional<double> ice_wet;          // ice: surface water as a share of its mass; makes the thing ice
  double ice_c = 0.0;                     // ice: its own temperature
  std::optional<double> bloom;            // gelatin: Bloom strength [g]
  std::vector<std::string> allergens;     // codes of data/larder/allergens.csv; "?code": ask
  bool allergens_known = true;
  std::optional<Pack> pack;
  std::vector<Variability> varies;
  std::vector<Qualifier> said;           // the take's bracket
  std::string source;                    // key into data/sources.bib, `practice`, or `memory: …`
  std::vector<std::string> assumptions;  // what was taken for granted to get here: printed as notes
  bool is_ice() const { return ice_wet.has_value(); }
};

/// A row as it stands, for those who list the larder; what it is made up to is `resolve`'s.
struct Listing {
  std::string name;
  std::vector<std::string> also;                             // other names
  std::string from;                                          // the document that brought it; empty: the catalogue
  std::vector<std::pair<std::string_view, double>> numbers;  // keys and units of a larder document (docs/larder.md): brix, acid_g_l, ph …
  std::vector<std::string> assumes;                          // the row's own words
};
/// The numbers that a larder document may give of a thing.
std::vector<std::string_view> number_keys();

class Larder {
 public:
  /// The catalogue embedded in the program. Checked by tests; a fault in it is an internal error.
  static base::Result<Larder> built_in();
  /// Adds or overrides rows from a `--larder` document (TOML; docs/larder.md). All faults at once; on a fault nothing is added.
  base::Result<void> add(std::string name, std::string text, base::Sources&);

  /// The thing by name (case and accents folded) with its bracket applied. Unknown name: not_found with the nearest name as hint.
  /// A qualifier that the row does not allow, or that contradicts it (juice of 95 brix), is a fault at its span.
  base::Result<Thing> resolve(std::string_view name, const std::vector<Qualifier>&, base::Span) const;

  /// How a resolved thing varies from buy to buy, in the order of its `varies`. A property that the thing has no number for is left
  /// out. Properties are moved one at a time, the others held (acid at the same pH): how they go together is not known here.
  std::vector<Deviation> deviations(const Thing&) const;

  std::vector<std::string> names() const;
  /// Every row, in the order of `names`.
  std::vector<Listing> listing() const;
  /// Text that stands for the whole content, for the sheet's digest.
  std::string fingerprint() const;

  Larder();
  Larder(Larder&&) noexcept;
  Larder& operator=(Larder&&) noexcept;
  Larder(const Larder&);
  Larder& operator=(const Larder&);
  ~Larder();

 private:
  struct Rows;
  std::unique_ptr<Rows> rows_;
};

}  // namespace bloomset::larder
