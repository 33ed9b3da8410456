// flow/foam.hpp - what a charged or frothed part gives: pressure in the bottle, gas in the liquid, foam in the glass.
//
// Read off a run: the composition of the part when it was charged, and the temperatures of that step and of those after it. A
// bottle is closed with air, charged one charger after the other and shaken each time, then brought to each later temperature.
#pragma once

#include "flow/flowsheet.hpp"
#include "flow/run.hpp"
#include "texture/foam.hpp"

namespace bloomset::flow {

inline constexpr double fullest_fill = 0.98;  // of a bottle's gross volume: fuller there is no head space to speak of (practice)

struct SiphonReading {
  units::Volume liquid;
  double fill_fraction = 0.0;        // of the fill line
  bool fits = true;                  // the liquid leaves room for gas; else all below is 0
  units::Pressure peak, at_service;  // absolute
  units::Pressure if_warm;           // left at 30 C
  units::Mass dissolved;
  double overrun_first = 0.0, overrun_mean = 0.0, overrun_last = 0.0;  // ratios, of the foam that stands
  double spurt = 0.0;                                                  // gas beyond it, over the liquid
};
/// Of a part that has a charge.
SiphonReading read_siphon(const Flowsheet&, const Batch<1>&, std::uint16_t part);

/// A part under carbon dioxide in its bottles, as many as the fill line asks for.
struct FizzReading {
  double bottles = 1.0;
  units::Pressure peak, if_warm;  // absolute, over the part's later temperatures; left at 30 C
};
/// Of a part that has a fizz.
FizzReading read_fizz(const Flowsheet&, const Batch<1>&, std::uint16_t part);

/// What holds the foam of a part (charged or frothed), at the temperature it is served at.
texture::FoamHold foam_hold(const Flowsheet&, const Batch<1>&, std::uint16_t part);

/// Gas over liquid of the foam that stands in the glass. Froth: an air of lecithin or the like holds about nine tenths of gas (practice).
double standing_overrun(const Flowsheet&, const Batch<1>&, std::uint16_t part);

}  // namespace bloomset::flow
