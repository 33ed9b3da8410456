// sheet/standard_drinks.hpp - how many standard drinks an amount of ethanol is, by the definitions of four regions.
//
// Ice and dilution change the strength of a drink, never this. Definitions: data/sheet/standard_drinks.csv; where one
// is a volume, ethanol weighs 789.24 kg/m3 at 20 C (OIML R 22). Called by serve.cpp.
#pragma once

#include "sheet/sheet.hpp"

namespace bloomset::sheet {

/// Standard drinks in this mass of ethanol [g], at least 0.
StandardDrinks standard_drinks(double ethanol_g);

}  // namespace bloomset::sheet
