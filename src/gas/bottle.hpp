// gas/bottle.hpp - a siphon bottle: closed, charged, shaken, cooled, warmed.
//
// The bottle holds liquid, gas above and in it, and the air it was closed with (ideal, it does not dissolve):
//   n = c V_head + d(c) V_liquid,   pressure = p(c) + n_air R T / V_head
// with c the concentration of the gas in the head space and d that in the liquid (solubility.hpp). A charge is an event: at first all new
// gas is in the head space, and shaking or standing brings it nearer to equilibrium, dissolved += (wanted - dissolved)(1 - exp(-t/tau)).
// Left out: water vapour (0.01 bar at 4 C, 0.2 bar at 60 C), the swelling of the liquid, the cold of the expanding charge, the charger's own 10 mL.
// More gas than the head space can hold as gas is booked as liquefied, at the vapour pressure. Gross volume is the most sensitive input:
// fill the bottle with water and weigh it. All functions have fixed passes and no allocation: they run inside flow.
#pragma once

#include <optional>

#include "gas/solubility.hpp"

namespace bloomset::gas {

/// A bottle at a moment. `total` counts gas in the liquid and above it.
struct Bottle {
  Gas gas = Gas::nitrous_oxide;
  units::Volume gross;   // filled to the brim
  units::Volume liquid;  // below `gross`
  units::Temperature temperature = units::celsius(20.0);
  double relative_solubility = 1.0;  // of this liquid over water, by volume
  units::Amount total, dissolved, air;
  units::Pressure peak = units::pascals(units::standard_atmosphere_pa);          // highest so far, the moments after a charge counted
  units::Pressure settled_peak = units::pascals(units::standard_atmosphere_pa);  // highest so far in equilibrium
};

/// Closed with air at 20 C and 1 atm over the liquid; `purged` leaves the air out.
Bottle closed(Gas, units::Volume gross, units::Volume liquid, units::Temperature, double relative_solubility = 1.0, bool purged = false);

/// One charger let in. All of it is in the head space until the bottle is shaken.
void charge(Bottle&, units::Mass gas);
/// About one shake a second.
void shake(Bottle&, units::Duration);
/// Left to stand.
void stand(Bottle&, units::Duration);
/// Shaken until nothing changes any more.
void settle(Bottle&);
/// Cooled or warmed, in equilibrium at the end. On the way up the pressure stays below that end's, on the way down below the start's.
void bring_to(Bottle&, units::Temperature);

/// What stands in the bottle.
struct Reading {
  units::Pressure pressure;          // absolute, air counted
  units::Pressure gas_pressure;      // of the gas alone
  units::Mass dissolved, headspace;  // head space: all that is not dissolved
  units::Mass liquefied;             // of the head space's: more than can be there as gas
  double dissolved_share = 0.0;      // of the gas
  double gas_volumes = 0.0;          // dissolved gas, L at 0 C and 1 atm per L of liquid
};
Reading reading(const Bottle&);
/// As if it were left at a temperature until it is in equilibrium; the bottle itself stays as it is.
Reading reading_at(const Bottle&, units::Temperature);

/// Gas that gives another bottle, filled and tempered alike, the same dissolved gas per litre and the same gas pressure as this settled one.
units::Mass charge_for_same_gas(const Bottle& like, units::Volume gross, units::Volume liquid);

/// How full: the maker's line; without one the smaller of the nominal volume (if known) and three quarters of the gross volume.
units::Volume fill_limit(units::Volume gross, std::optional<units::Volume> nominal, std::optional<units::Volume> makers_line);

/// The balance of gas between head space and liquid at one temperature. SI inside: for bottle.cpp and emptying.cpp.
struct Partition {
  double c_mol_m3 = 0.0;  // in the head space, as gas
  double dissolved_mol = 0.0;
  double liquefied_mol = 0.0;
};
Partition partition(const Bottle&, const Solubility&);

}  // namespace bloomset::gas
