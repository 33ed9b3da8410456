// sheet/standard_drinks.hpp - how many standard drinks an amount of ethanol is, by the definitions of regions.
//
// Ice and dilution change the strength of a drink, never this. Definitions: data/sheet/standard_drinks.csv; where one
// is a volume, ethanol weighs 789.24 kg/m3 at 20 C (OIML R 22). Called by serve.cpp.
#pragma once

#include <optional>
#include <string_view>

#include "sheet/sheet.hpp"

namespace bloomset::sheet {

/// Standard drinks in this mass of ethanol [g], at least 0.
StandardDrinks standard_drinks(double ethanol_g);
/// Grams of ethanol in one standard drink of a region: "us", "uk", "jp", "who" …; nothing where the table has no row.
std::optional<double> standard_drink_g(std::string_view region);

}  // namespace bloomset::sheet
