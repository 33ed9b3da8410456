#include "kit/outline.hpp"

namespace bloomset::kit {

units::Volume volume_inside(const std::vector<Outline>& outline) {
  constexpr double pi = 3.14159265358979323846;
  double m3 = 0.0;
  for (std::size_t i = 1; i < outline.size(); ++i) {
    const double h = outline[i].height.si - outline[i - 1].height.si, r1 = outline[i - 1].radius.si, r2 = outline[i].radius.si;
    m3 += pi * h / 3.0 * (r1 * r1 + r1 * r2 + r2 * r2);
  }
  return {m3};
}

}  // namespace bloomset::kit
