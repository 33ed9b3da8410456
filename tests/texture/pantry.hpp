// tests/texture/pantry.hpp - liquids for the tests: things of the larder by weight, and a formula's base put together.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "larder/larder.hpp"
#include "matter/density.hpp"
#include "texture/texture.hpp"

namespace bloomset::texture {

inline const larder::Larder& larder_of_the_house() {
  static const larder::Larder shelf = larder::Larder::built_in().value();
  return shelf;
}

/// A thing of the larder, in grams.
inline matter::Composition of(const std::string& thing, double g) {
  const auto found = larder_of_the_house().resolve(thing, {}, {});
  EXPECT_TRUE(found.has_value()) << thing;
  return found ? found->per_kg * (1e-3 * g) : matter::Composition{};
}

inline matter::Composition of(matter::Component c, double g) { return matter::pure(c, units::grams(g)); }
inline matter::Composition water(double g) { return of(matter::Component::water, g); }

/// Spirit of a strength, in millilitres at 20 C.
inline matter::Composition spirit(double ml, double abv_percent) {
  const double w = matter::ethanol_mass_fraction(units::percent_vol(abv_percent)).si;
  const double g = units::in_grams(units::mass(units::millilitres(ml), matter::ethanol_water_density({w}, units::celsius(20.0))));
  return of(matter::Component::ethanol, g * w) + water(g * (1.0 - w));
}

}  // namespace bloomset::texture
