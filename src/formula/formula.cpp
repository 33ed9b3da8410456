#include "formula/formula.hpp"

namespace bloomset::formula {

bool operator==(const Step& a, const Step& b) {
  return a.act == b.act && a.takes == b.takes && a.to_c == b.to_c && a.at_c == b.at_c && a.time_s == b.time_s && a.keeps_s == b.keeps_s && a.until == b.until &&
         a.in == b.in && a.vessel == b.vessel && a.hard == b.hard && a.with == b.with && a.by == b.by && a.gas == b.gas && a.leave == b.leave &&
         a.out == b.out && a.split == b.split && a.loss == b.loss && a.yield_ == b.yield_ && a.ice == b.ice && a.ice_at_c == b.ice_at_c && a.bath == b.bath &&
         a.size_m == b.size_m && a.charges == b.charges && a.pressure_pa == b.pressure_pa && a.purged == b.purged && a.maybe == b.maybe;
}

}  // namespace bloomset::formula
