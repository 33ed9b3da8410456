// Arguments of different kinds cannot change places.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const auto rho = density(millilitres(100.0), grams(95.0));
#else
const auto rho = density(grams(95.0), millilitres(100.0));
#endif
