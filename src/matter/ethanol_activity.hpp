// matter/ethanol_activity.hpp - what ethanol does to the activity of water. Called by freezing.cpp alone.
#pragma once

namespace bloomset::matter {

/// ln(a_w / x_w) at 25 C and its change with g = 1000 (1/T - 1/298.15 K): ln gamma_w = at_25 + slope g.
template <class Real>
struct EthanolActivity {
  Real at_25, slope;
};
/// mole_fraction of ethanol in ethanol + water, 0 to 1. Ice to 68 mass % (-49.5 C) and 25 C are held; beyond, smooth to pure ethanol.
template <class Real>
EthanolActivity<Real> ethanol_activity(const Real& mole_fraction);

}  // namespace bloomset::matter
