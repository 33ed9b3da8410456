// matter/viscosity.hpp - how thick a drink pours.
//
//   ln mu = ln mu(ethanol + water at their own ratio, t) + sum over solutes of share_i f_i(w, t) + floating matter,
// w = all dissolved / all liquid, share_i = solute i / all dissolved, so that one solute in water, and ethanol with water,
// are exact and two solutes that behave alike may be exchanged. Checked: single solutes at 20 C (sucrose 0-30 C, to 70 mass %) and
// ethanol-water -20 to 20 C, 5 % (10 % above 50 mass %). Mixtures, and other temperatures, are a sum without data.
// A thickener makes a liquid whose viscosity depends on how fast it is stirred: then there is no answer.
#pragma once

#include "matter/composition.hpp"
#include "matter/solute.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// True if any agent is in it that thickens or sets: all but lecithin, sucrose ester and caseinate.
bool has_thickener(const Composition&);
/// Dynamic viscosity of what pours, thickeners not counted. NaN above 100 Pa s, where no row of the tables lies.
units::Viscosity viscosity(const Solutes&, units::Temperature);
/// The same from a composition; NaN with any thickener.
units::Viscosity viscosity(const Composition&, units::Temperature);
/// Pure water, -30 to 100 C (Kestin, Sokolov & Wakeham 1978; below -8 C extrapolated).
units::Viscosity water_viscosity(units::Temperature);

}  // namespace bloomset::matter
