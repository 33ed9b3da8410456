// matter/refraction.hpp - refractive index, and what a refractometer makes of it.
//
// Lorentz-Lorenz: (n^2-1)/(n^2+2) = sum m_i r_i / V at 20 C and 589 nm, with specific refractions r(w) that depend on the
// strength. A refractometer knows sucrose only: its Brix is the mass percent of sucrose whose n is the liquid's, which
// for a spirit is not sugar at all. Fat, starch and fibre cloud the prism but do not bend: they are left out.
// Checked to 0.0003 in n for single solutes in water; mixtures are a sum without data.
#pragma once

#include "matter/solute.hpp"

namespace bloomset::matter {

/// (n^2-1)/(n^2+2) of a liquid at 20 C, sodium D line; NaN for nothing. The two readings below start from it.
struct Bending {
  double value;
};
Bending bending(const Solutes&);
/// For a caller who has the volume [m3] at 20 C of all but fat, starch and fibre.
Bending bending(const Solutes&, double clear_20c_m3);
/// Refractive index at 20 C, sodium D line. 1.333 for water.
double refractive_index_20c(Bending);
double refractive_index_20c(const Solutes&);
/// What a refractometer reads [degree Brix] at 20 C. Below 0 for a liquid that bends less than water. Fixed passes.
double brix_read_percent(Bending);
double brix_read_percent(const Solutes&);

}  // namespace bloomset::matter
