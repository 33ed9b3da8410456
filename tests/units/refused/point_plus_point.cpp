// Two temperatures do not add: 4 C and 4 C are not 8 C. A point and a difference do.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const auto sum = celsius(4.0) + celsius(4.0);
#else
const auto sum = celsius(4.0) + kelvins_difference(4.0);
#endif
