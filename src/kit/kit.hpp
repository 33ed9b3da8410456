// kit/kit.hpp - equipment: vessels, places with a temperature, hands and burners.
//
// The built-in kit's figures are invented and say so. `--kit FILE` adds and overrides (TOML; docs/kit.md).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "units/quantity.hpp"

namespace bloomset::kit {

enum class VesselKind : std::uint8_t { glass, shaker, mixing_glass, blender, siphon, bottle, pan, tray };
/// Its word in documents: `mixing_glass`.
std::string_view name(VesselKind);

/// Inside outline from the bottom up: radius at height. Straight between points.
struct Outline {
  units::Length height, radius;
};

struct Vessel {
  std::string name;
  VesselKind kind = VesselKind::glass;
  units::Volume brim;                      // full to the brim (a siphon's gross volume)
  std::vector<Outline> inside;             // glasses: for the picture and headroom
  units::HeatCapacity heat;                // [J/K]; 0: not known, left out with a note
  std::optional<double> film_w_m2_k;       // glass: heat that its wall lets in from a still room; none: a plain glass
  std::optional<double> holds_serves;      // shaker, mixing glass: serves a round
  std::optional<units::Volume> fill_line;  // siphon
  std::optional<int> most_charges;         // siphon
  std::optional<units::Pressure> most_pressure;
  bool hot_rated = true;
  bool pressure_rated = false;
  std::string source;
  std::string from;  // the document that brought it; empty: the built-in kit
};

enum class PlaceKind : std::uint8_t { still_fridge, fan_fridge, freezer, ice_bath, water_bath, room };
std::string_view name(PlaceKind);
struct Place {
  std::string name;
  PlaceKind kind = PlaceKind::still_fridge;
  units::Temperature temperature;
  std::string source;
  std::string from;  // as of a vessel
};

class Kit {
 public:
  static base::Result<Kit> built_in();
  base::Result<void> add(std::string name, std::string text, base::Sources&);

  const Vessel* vessel(std::string_view name) const;  // nullptr: not in the kit
  const Place* place(std::string_view name) const;
  const Place* first_place(PlaceKind) const;
  const Vessel* first_vessel(VesselKind) const;
  /// A plain cylinder from `NAME, N mL` (serve only; flow adds a note). Nothing if it does not read so.
  static std::optional<Vessel> plain_cylinder(std::string_view text);

  units::Temperature room = units::celsius(20.0);
  double room_humidity = 0.5;  // relative, 0 to 1
  int hands = 2, burners = 1;
  const std::vector<Vessel>& vessels() const { return vessels_; }
  const std::vector<Place>& places() const { return places_; }
  std::vector<std::string> vessel_names() const, place_names() const;
  std::string fingerprint() const;

 private:
  std::vector<Vessel> vessels_;
  std::vector<Place> places_;
};

}  // namespace bloomset::kit
