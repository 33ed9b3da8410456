// There is no dimension algebra: mass over volume is the named function `density`.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const auto rho = grams(95.0) / millilitres(100.0);
#else
const auto rho = density(grams(95.0), millilitres(100.0));
#endif
