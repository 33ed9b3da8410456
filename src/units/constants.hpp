// units/constants.hpp - the physical constants, once. Defined or measured; derived ones are computed where used.
#pragma once

namespace bloomset::units {
inline constexpr double molar_gas_constant_j_mol_k = 8.31446261815324;  // N_A k, exact (CODATA 2018, SI Brochure 9th ed.)
}  // namespace bloomset::units
