// A mass and a volume do not add: how much a litre weighs depends on what is in it.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const auto sum = grams(250.0) + litres(0.25);
#else
const auto sum = grams(250.0) + mass(litres(0.25), kilograms_per_cubic_metre(1000.0));
#endif
