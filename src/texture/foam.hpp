// texture/foam.hpp - what holds a siphon foam of this liquid, cold or hot, and how long.
//
// Gas makes bubbles; something must hold their walls: gelatin (cold), cream's fat (cold, 28 %), egg white (cold, and hot to 62 C), milk protein,
// methylcellulose (hot), starch or a fluid gel (hot). Shares add up: half of what two stabilisers need each is enough. Xanthan and the other gums thicken
// the walls and slow the draining, and hold nothing by themselves; lecithin gives a froth and no siphon foam. All bands and times are practice, without
// source: a judgement, no measurement. Retention of gas is the guess of gas/foam.hpp (0.6, span 0.4 to 1). Callers: flow, sheet.
#pragma once

#include <string>
#include <vector>

#include "texture/set.hpp"

namespace bloomset::texture {

struct FoamBase {
  matter::Composition liquid;  // with its agents; without the egg white
  units::Mass egg_white{0.0};  // as weighed: its protein is not told apart from others
  double bloom = 200.0;
  units::Temperature at = units::celsius(5.0);
  bool live_enzyme = false;
  std::optional<BaseKind> kind;
  bool froth = false;  // beaten, not charged: lecithin holds it
};

/// One thing that carries a part of the foam.
struct Stabiliser {
  std::string what;  // "gelatin", "fat of cream", "egg white"
  std::optional<Agent> agent;
  double percent = 0.0, low_percent = 0.0, full_percent = 0.0;
  double share = 0.0;  // 0 to 1 of what holds a foam alone, at the asked temperature
  units::Temperature holds_from, holds_to;
  double drain_minutes = 0.0;
  std::string says;
  Cited cited;
};
struct FoamHold {
  bool holds = false, holds_cold = false, holds_hot = false;  // at the asked temperature; at 5 C; at 55 C
  double strength = 0.0;                                      // sum of shares at the asked temperature; holds from 1 on
  std::vector<Stabiliser> by;                                 // strongest first; those out of their temperatures have share 0
  std::vector<Cause> causes;                                  // why it does not hold, or holds badly
  double drain_minutes = 0.0;                                 // half of the liquid has run out; order of magnitude
  double retention = 0.0, retention_least = 0.0, retention_most = 0.0;
};
FoamHold foam_hold(const FoamBase&);

/// Time after which half of a standing foam's liquid has run out [min], by what holds it; order of magnitude (practice).
double drain_minutes(const std::vector<Stabiliser>&, double xanthan_percent);

}  // namespace bloomset::texture
