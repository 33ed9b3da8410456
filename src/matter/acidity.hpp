// matter/acidity.hpp - pH by charge balance with activity, titratable acidity, and the cations a fruit must hold.
//
// Known: total moles of each acid (free + salt), metal ions, chloride, in the volume the model calls for (mol/L of
// solution at 25 C as the reference tables state). Unknown: pH. Davies activity (A = 0.509), the ion pair NaCit2-
// (log K 1.03) and no other, OH- from Kw = 10^-13.995. Valid to ionic strength 0.5 mol/L.
// Ethanol shifts both pH and pKa: above 10 %vol the number stands for the same acids in water, and a finding says so.
#pragma once

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

/// pH at 25 C; NaN for a composition without water. Fixed passes.
double ph_25c(const Composition&);
/// Ionic strength at that pH [mol/L].
double ionic_strength_mol_l(const Composition&);
/// Equivalents of strong base per kg of liquid that bring it to pH 8.2 (phenolphthalein), from the same charge balance [mol/kg].
double titratable_mol_kg(const Composition&);
/// The same as g of citric acid (192.124 / 3 g per equivalent) per 100 g, and per litre at 20 C.
double titratable_acidity_g_100g_citric(const Composition&);
double titratable_acidity_g_l_citric(const Composition&);

/// Potassium [kg] to book, with the hydrogen it displaces, so that a composition's pH becomes `ph` (its unknown cations).
/// NaN if even without any the pH is higher than asked: then the acids are too few for that pH.
double potassium_for_ph_kg(const Composition&, double ph);
/// The composition with that potassium and its salt_hydrogen booked.
Composition with_potassium(Composition, double potassium_kg);

}  // namespace bloomset::matter
