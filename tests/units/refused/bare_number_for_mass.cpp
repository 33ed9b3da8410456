// A bare number has no unit, so it is no mass.
#include "units/quantity.hpp"
using namespace bloomset::units;

double shown(Mass m) { return in_grams(m); }

#ifdef REFUSED
const double read = shown(250.0);
#else
const double read = shown(grams(250.0));
#endif
