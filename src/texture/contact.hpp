// texture/contact.hpp - what happens where two things meet: strings, melting, enzymes, curd, spheres, sinking.
//
// Landing: two liquids come to one temperature by their enthalpies; an agent that lands inside its setting zone gels as it is poured (gelatin 20 to 25 C;
// agar and others by their set temperatures). Curdling: milk protein comes out near its isoelectric point, from about pH 4.9 down (the model's pH leaves
// out what protein buffers, so that it errs to the sour side, by up to 0.5 where milk is most of the mix). What comes out is four fifths of the milk's
// protein, and it takes nearly all fat with it: the same numbers as for clarifying with milk. Limits of spheres and of floating are practice.
// Callers: flow, pairwise in the written order; sheet, between the parts of a serve.
#pragma once

#include <string>
#include <vector>

#include "texture/set.hpp"

namespace bloomset::texture {

/// A liquid with its temperature.
struct Warm {
  matter::Composition liquid;
  units::Temperature at;
};
/// Temperature at which two liquids end when mixed without loss. Heats of mixing of ethanol and water are counted.
units::Temperature landing_temperature(const Warm&, const Warm&);

struct Landing {
  units::Temperature lands;
  units::Temperature zone_low, zone_high;          // the agent's setting zone
  bool strings = false;                            // below the zone's upper end
  bool for_certain = false;                        // below its lower end
  units::Temperature base_for_low, base_for_high;  // the base's own temperature that lands at either end of the zone
  std::vector<std::string> remedies;
  std::optional<Cause> cause;
};
/// The agent dissolved in `hot`, poured into `base`.
Landing landing(Agent, const Warm& hot, const Warm& base);

/// A set foam or gel on a drink: melts where the drink is warmer than it melts.
std::optional<Cause> melts_on(Agent, units::MassFraction dose, double bloom, units::Temperature drink);

/// How long a cold dish of gelatin stands in a warm room before its core reaches the slump temperature (20 C, practice):
/// t = tau ln[(room - start)/(room - slump)]; tau about an hour for a cake of 60 g (a guess, +-30 %). Infinite in a room that is no warmer.
units::Duration stands_for(units::Temperature start, units::Temperature room, units::Duration time_constant);
units::Duration time_to_warm(units::Temperature start, units::Temperature end, units::Temperature room, units::Duration time_constant);

/// Gelatin (or caseinate) that touches raw fruit with protease: weeps and melts from the contact inwards.
std::optional<Cause> enzyme_contact(Agent, bool other_has_live_enzyme);

enum class Order : std::uint8_t { acid_into_milk, milk_into_acid };
struct Curd {
  bool curdles = false;
  double ph = 7.0, limit_ph = 4.9;
  units::Mass protein, fat;  // that leave the liquid with the curd
  units::Mass liquid_held;   // that the curd keeps after straining
  Order order = Order::acid_into_milk;
  std::vector<Note> notes;
  std::optional<Cause> cause;
};
/// `milk_protein`: of the mix, what comes from milk or cream. `mix`: after both are together. Nothing without milk protein.
Curd curdling(const matter::Composition& mix, units::Mass milk_protein, units::Temperature, Order);

/// Shares of a milk's whole protein and of the fat that the curd keeps: what clarifying with milk takes out.
struct CurdKeeps {
  double protein = 0.0, fat = 0.0;
};
CurdKeeps curd_keeps();

enum class SphereWay : std::uint8_t { direct, reverse };
struct Spheres {
  Verdict verdict = Verdict::sets;
  std::vector<Cause> causes;
  std::vector<std::string> advice;
  double bath_percent_low = 0.0, bath_percent = 0.0, bath_percent_high = 0.0;  // calcium chloride, or alginate for the reverse way
  double density_difference_kg_m3 = 0.0;                                       // drop less bath, at 20 C
};
/// `drop`: the liquid with its alginate (direct) or calcium (reverse); `bath`: the other.
Spheres spheres(SphereWay, const matter::Composition& drop, const matter::Composition& bath);

enum class Lying : std::uint8_t { floats, mixes, sinks };
struct Layer {
  Lying lying = Lying::mixes;
  double difference_kg_m3 = 0.0;  // upper less lower
  std::optional<Cause> cause;     // where it does not float
};
/// A liquid laid on another, each at its own temperature.
Layer layer(const Warm& upper, const Warm& lower);

}  // namespace bloomset::texture
