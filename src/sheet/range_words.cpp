// sheet/range_words.cpp - in words: properties, and why a reading left the range that its model was checked in (matter::RangeNote).
#include <array>

#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

constexpr std::array<RangeWords, 7> rows = {{
    {"the pH stands for the same acids in water: above 10 %vol ethanol shifts it by an amount that is not known well", "ph_25c",
     "constants of acids are tabulated for water, and rise with ethanol"},
    {"there is more than 70 % sugar: properties are extrapolated beyond their tables", "sugar_percent", "the tables of sugar solutions end there"},
    {"it is colder than the models of this liquid were checked", "temperature_c", "the tables that the models rest on begin above that"},
    {"it is hotter than the models of this liquid were checked", "temperature_c", "the tables that the models rest on end below that"},
    {"there is more salt or acid than the model of activity covers, so the pH is rough", "ph_25c",
     "activities are by the equation of Davies, which holds to an ionic strength of 0.5 mol/L"},
    {"a thickener is in it: viscosity is not modelled", "viscosity_mpa_s", "what a thickener does depends on grade, salt, acid and shear"},
    {"an acid is in it whose share in water activity is not known", "water_activity", "no published data at hand: it is taken as ideal"},
}};
static_assert(rows.size() == static_cast<std::size_t>(matter::RangeNote::acid_activity_unknown) + 1);

// In the order of matter::Property.
constexpr std::array<std::string_view, matter::property_count> labels = {"mass",
                                                                         "volume",
                                                                         "volume at 20 C",
                                                                         "ice",
                                                                         "foam",
                                                                         "density",
                                                                         "temperature",
                                                                         "strength",
                                                                         "strength with the ice melted",
                                                                         "ethanol",
                                                                         "Brix",
                                                                         "Brix of a refractometer",
                                                                         "sugars",
                                                                         "sugar percent",
                                                                         "sweetness",
                                                                         "pH",
                                                                         "acid in 100 g",
                                                                         "acid in a litre",
                                                                         "freezing point",
                                                                         "water activity",
                                                                         "heat capacity",
                                                                         "viscosity",
                                                                         "refractive index",
                                                                         "CO2",
                                                                         "energy"};
static_assert(!labels.back().empty());

}  // namespace

std::span<const RangeWords> range_words() { return rows; }

std::string_view label(matter::Property property) { return labels[static_cast<std::size_t>(property)]; }

}  // namespace bloomset::sheet
