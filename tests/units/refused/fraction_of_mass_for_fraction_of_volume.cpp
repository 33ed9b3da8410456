// 40 % by mass is not 40 % by volume.
#include "units/quantity.hpp"
using namespace bloomset::units;

double strength(VolumeFraction f) { return in_percent_vol(f); }

#ifdef REFUSED
const double read = strength(mass_percent(40.0));
#else
const double read = strength(percent_vol(40.0));
#endif
