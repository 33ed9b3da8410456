// matter/acidity.hpp - pH by charge balance with activity, titratable acidity, and the cations a fruit must hold.
//
// Known: total moles of each acid (free + salt), metal ions, chloride, in the volume the model calls for (mol/L of
// solution at 25 C as the reference tables state). Unknown: pH. Davies activity (A = 0.509), the ion pair NaCit2-
// (log K 1.03) and no other, OH- from Kw = 10^-13.995. Valid to ionic strength 0.5 mol/L; above, activity coefficients stay as they are there.
// Ethanol shifts both pH and pKa: above 10 %vol the number stands for the same acids in water, and a finding says so.
// Proteins and amino acids are not counted, though they hold some acid in milk, egg and nuts.
#pragma once

#include <array>

#include "matter/composition.hpp"
#include "units/quantity.hpp"

namespace bloomset::matter {

inline constexpr std::size_t acid_count = index(last_acid) - index(first_acid) + 1;

/// What the charge balance sees [mol/L of solution at 25 C].
template <class Real>
struct MolaritiesOf {
  std::array<Real, acid_count> acid{};  // free and salt together, from `first_acid`
  Real sodium = 0.0, potassium = 0.0, calcium = 0.0, magnesium = 0.0, chloride = 0.0;

  Real& of(Component a) { return acid[index(a) - index(first_acid)]; }
};
using Molarities = MolaritiesOf<double>;
/// Of a liquid that has a volume; zero otherwise.
Molarities molarities(const Composition&);
/// For a caller who has the volume at 25 C.
template <class Real>
MolaritiesOf<Real> molarities(const CompositionOf<Real>&, const Real& litres_25c);

/// pH at 25 C. Fixed passes; 7.0 for nothing at all.
template <class Real>
Real ph_25c(const MolaritiesOf<Real>&);
/// pH at 25 C; NaN for a composition without water.
double ph_25c(const Composition&);
/// Ionic strength at that pH [mol/L].
double ionic_strength_mol_l(const Molarities&);
double ionic_strength_mol_l(const Composition&);
/// Strong base, counted as potassium, that brings a solution to `ph` [mol/L]; negative if acid would be needed.
template <class Real>
Real base_mol_l(const MolaritiesOf<Real>&, double ph);

/// Equivalents of strong base per kg of liquid that bring it to pH 8.2 (phenolphthalein), from the same charge balance [mol/kg].
/// Negative for a liquid above pH 8.2; 0 for one without water.
double titratable_mol_kg(const Composition&);
/// For a caller who has the molarities: equivalents per litre of solution at 25 C.
template <class Real>
Real titratable_mol_l(const MolaritiesOf<Real>&);
/// Equivalents as g of citric acid.
template <class Real>
Real citric_equivalent_g(const Real& mol);
/// The same as g of citric acid (192.123 / 3 g per equivalent) per 100 g, and per litre at 20 C.
double titratable_acidity_g_100g_citric(const Composition&);
double titratable_acidity_g_l_citric(const Composition&);

/// Potassium [kg] to book, with the hydrogen it displaces, so that a composition's pH becomes `ph` (its unknown cations).
/// NaN if even without any the pH is higher than asked: then the acids are too few for that pH. NaN without water.
double potassium_for_ph_kg(const Composition&, double ph);
/// The composition with that potassium and its salt_hydrogen booked.
Composition with_potassium(Composition, double potassium_kg);

}  // namespace bloomset::matter
