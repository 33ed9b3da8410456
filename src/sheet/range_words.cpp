// sheet/range_words.cpp - in words: why a reading left the range that its model was checked in (matter::RangeNote).
#include <array>

#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

constexpr std::array<RangeWords, 7> rows = {{
    {"the pH stands for the same acids in water: above 10 %vol ethanol shifts it by an amount that is not known well", "ph_25c"},
    {"there is more than 70 % sugar: properties are extrapolated beyond their tables", "sugar_percent"},
    {"it is colder than the models of this liquid were checked", "temperature_c"},
    {"it is hotter than the models of this liquid were checked", "temperature_c"},
    {"there is more salt or acid than the model of activity covers, so the pH is rough", "ph_25c"},
    {"a thickener is in it: viscosity is not modelled", "viscosity_mpa_s"},
    {"an acid is in it whose share in water activity is not known", "water_activity"},
}};
static_assert(rows.size() == static_cast<std::size_t>(matter::RangeNote::acid_activity_unknown) + 1);

}  // namespace

std::span<const RangeWords> range_words() { return rows; }

}  // namespace bloomset::sheet
