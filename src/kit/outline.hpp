// kit/outline.hpp - the volume inside a glass, from its outline. Called by the reader of kits and by whoever draws a glass.
#pragma once

#include <vector>

#include "kit/kit.hpp"

namespace bloomset::kit {

/// Volume of the body of revolution: truncated cones between the points, V = pi h / 3 (r1^2 + r1 r2 + r2^2). Exact for straight sides.
units::Volume volume_inside(const std::vector<Outline>&);

}  // namespace bloomset::kit
