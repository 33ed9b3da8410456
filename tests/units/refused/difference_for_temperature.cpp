// A difference of temperatures is no temperature.
#include "units/quantity.hpp"
using namespace bloomset::units;

double shown(Temperature t) { return in_celsius(t); }

#ifdef REFUSED
const double read = shown(celsius(20.0) - celsius(4.0));
#else
const double read = shown(celsius(20.0) - kelvins_difference(4.0));
#endif
