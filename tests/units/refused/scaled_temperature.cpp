// Twice a temperature means nothing that a kitchen measures; twice a difference does.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const auto twice = 2.0 * celsius(20.0);
#else
const auto twice = 2.0 * kelvins_difference(20.0);
#endif
