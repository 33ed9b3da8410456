// Grams and millilitres cannot be compared, however often one stands for the other.
#include "units/quantity.hpp"
using namespace bloomset::units;

#ifdef REFUSED
const bool less = grams(10.0) < millilitres(20.0);
#else
const bool less = grams(10.0) < grams(20.0);
#endif
