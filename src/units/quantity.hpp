// units/quantity.hpp - kinds of quantity: typed at the door, plain inside.
//
// `Quantity<Kind>` holds one SI value in `.si`. Same kinds add, subtract and compare; a number scales; kind over
// kind is a plain ratio. There is no dimension algebra: what crosses kinds is a named function (`density(m, v)`).
// A temperature is a point, a difference of two is another kind. Percent exists on paper only: fractions are 0 to 1.
#pragma once

#include <compare>

namespace bloomset::units {

template <class Kind>
struct Quantity {
  double si = 0.0;
  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) requires(!Kind::point) { return {a.si + b.si}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) requires(!Kind::point) { return {a.si - b.si}; }
  friend constexpr Quantity operator-(Quantity a) requires(!Kind::point) { return {-a.si}; }
  friend constexpr Quantity operator*(Quantity a, double k) requires(!Kind::point) { return {a.si * k}; }
  friend constexpr Quantity operator*(double k, Quantity a) requires(!Kind::point) { return {k * a.si}; }
  friend constexpr Quantity operator/(Quantity a, double k) requires(!Kind::point) { return {a.si / k}; }
  friend constexpr double operator/(Quantity a, Quantity b) requires(!Kind::point) { return a.si / b.si; }
  constexpr Quantity& operator+=(Quantity b) requires(!Kind::point) {
    si += b.si;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) requires(!Kind::point) {
    si -= b.si;
    return *this;
  }
};

namespace kind {
struct Amountlike {
  static constexpr bool point = false;
};
struct Mass : Amountlike {};
struct Volume : Amountlike {};
struct Density : Amountlike {};
struct Temperature {
  static constexpr bool point = true;
};
struct TemperatureDifference : Amountlike {};
struct Pressure : Amountlike {};
struct Amount : Amountlike {};
struct Energy : Amountlike {};
struct SpecificEnthalpy : Amountlike {};
struct SpecificHeat : Amountlike {};
struct HeatCapacity : Amountlike {};
struct Viscosity : Amountlike {};
struct Duration : Amountlike {};
struct Length : Amountlike {};
struct MassFraction : Amountlike {};
struct MoleFraction : Amountlike {};
struct VolumeFraction : Amountlike {};
struct MassPerVolume : Amountlike {};
struct Molality : Amountlike {};
struct Molarity : Amountlike {};
struct Ph : Amountlike {};
}  // namespace kind

using Mass = Quantity<kind::Mass>;                                    // kg
using Volume = Quantity<kind::Volume>;                                // m3
using Density = Quantity<kind::Density>;                              // kg/m3
using Temperature = Quantity<kind::Temperature>;                      // K, a point
using TemperatureDifference = Quantity<kind::TemperatureDifference>;  // K
using Pressure = Quantity<kind::Pressure>;                            // Pa, absolute
using Amount = Quantity<kind::Amount>;                                // mol
using Energy = Quantity<kind::Energy>;                                // J
using SpecificEnthalpy = Quantity<kind::SpecificEnthalpy>;            // J/kg
using SpecificHeat = Quantity<kind::SpecificHeat>;                    // J/(kg K)
using HeatCapacity = Quantity<kind::HeatCapacity>;                    // J/K, of a vessel
using Viscosity = Quantity<kind::Viscosity>;                          // Pa s
using Duration = Quantity<kind::Duration>;                            // s
using Length = Quantity<kind::Length>;                                // m
using MassFraction = Quantity<kind::MassFraction>;                    // kg/kg
using MoleFraction = Quantity<kind::MoleFraction>;                    // mol/mol
using VolumeFraction = Quantity<kind::VolumeFraction>;                // m3/m3 at 20 C
using MassPerVolume = Quantity<kind::MassPerVolume>;                  // kg/m3 (g/L)
using Molality = Quantity<kind::Molality>;                            // mol/kg water
using Molarity = Quantity<kind::Molarity>;                            // mol/m3
using Ph = Quantity<kind::Ph>;

inline constexpr double zero_celsius_k = 273.15;            // SI Brochure 9th ed., 2.3.1: t/C = T/K - 273.15, exact
inline constexpr double standard_atmosphere_pa = 101325.0;  // ISO 80000-4, exact

// Makers and readers name the unit at the call.
constexpr Mass grams(double g) { return {g * 1e-3}; }
constexpr double in_grams(Mass m) { return m.si * 1e3; }
constexpr Mass kilograms(double kg) { return {kg}; }
constexpr Volume millilitres(double ml) { return {ml * 1e-6}; }
constexpr double in_millilitres(Volume v) { return v.si * 1e6; }
constexpr Volume litres(double l) { return {l * 1e-3}; }
constexpr double in_litres(Volume v) { return v.si * 1e3; }
constexpr Temperature celsius(double c) { return {c + zero_celsius_k}; }
constexpr double in_celsius(Temperature t) { return t.si - zero_celsius_k; }
constexpr Temperature kelvin(double k) { return {k}; }
constexpr TemperatureDifference operator-(Temperature a, Temperature b) { return {a.si - b.si}; }
constexpr Temperature operator+(Temperature a, TemperatureDifference d) { return {a.si + d.si}; }
constexpr Temperature operator-(Temperature a, TemperatureDifference d) { return {a.si - d.si}; }
constexpr TemperatureDifference kelvins_difference(double k) { return {k}; }
constexpr Pressure pascals(double pa) { return {pa}; }
constexpr Pressure bar_absolute(double bar) { return {bar * 1e5}; }
constexpr Pressure bar_gauge(double bar) { return {bar * 1e5 + standard_atmosphere_pa}; }
constexpr double in_bar_absolute(Pressure p) { return p.si * 1e-5; }
constexpr double in_bar_gauge(Pressure p) { return (p.si - standard_atmosphere_pa) * 1e-5; }
constexpr Energy joules(double j) { return {j}; }
constexpr Duration seconds(double s) { return {s}; }
constexpr double in_seconds(Duration d) { return d.si; }
constexpr Duration minutes(double m) { return {m * 60.0}; }
constexpr Duration hours(double h) { return {h * 3600.0}; }
constexpr double in_hours(Duration d) { return d.si / 3600.0; }
constexpr Length millimetres(double mm) { return {mm * 1e-3}; }
constexpr MassFraction mass_percent(double p) { return {p * 1e-2}; }
constexpr double in_percent(MassFraction f) { return f.si * 1e2; }
constexpr VolumeFraction percent_vol(double p) { return {p * 1e-2}; }
constexpr double in_percent_vol(VolumeFraction f) { return f.si * 1e2; }
constexpr MassPerVolume grams_per_litre(double g) { return {g}; }
constexpr double in_grams_per_litre(MassPerVolume c) { return c.si; }
constexpr Density kilograms_per_cubic_metre(double d) { return {d}; }

// What crosses kinds.
constexpr Density density(Mass m, Volume v) { return {m.si / v.si}; }
constexpr Mass mass(Volume v, Density d) { return {v.si * d.si}; }
constexpr Volume volume(Mass m, Density d) { return {m.si / d.si}; }

}  // namespace bloomset::units
