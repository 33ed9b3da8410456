// gas/emptying.cpp - a fixed number of steps along the bottle.
#include "gas/emptying.hpp"

#include <algorithm>
#include <cmath>

#include "units/constants.hpp"

namespace bloomset::gas {
namespace {

constexpr int steps = 40;

// One bottle at one temperature, as a function of the liquid that is left.
struct Path {
  Solubility s;
  double gross_m3, air_j;          // air_j = n R T: its pressure times its volume
  double gas_at_atmosphere, kept;  // mol/m3 in gas and liquid under 1 atm of the gas

  double slope(double ln_c, double left_m3) const { return -1.0 / (gross_m3 - left_m3 + s.slope(std::exp(ln_c)) * left_m3); }
  double overrun(double c) const { return std::max(s.dissolved(c) - kept, 0.0) / gas_at_atmosphere; }
  double gauge_pa(double c, double left_m3) const { return s.gas.pressure_pa(c) + air_j / (gross_m3 - left_m3) - units::standard_atmosphere_pa; }
};

struct Point {
  double left_m3, ln_c;
};

Point step(const Path& path, Point at, double h) {
  const double middle = at.left_m3 - 0.5 * h, end = at.left_m3 - h;
  const double k1 = path.slope(at.ln_c, at.left_m3), k2 = path.slope(at.ln_c + 0.5 * h * k1, middle);
  const double k3 = path.slope(at.ln_c + 0.5 * h * k2, middle), k4 = path.slope(at.ln_c + h * k3, end);
  return {end, at.ln_c + h / 6.0 * (k1 + 2.0 * (k2 + k3) + k4)};
}

// ln c half way, from the values and slopes at both ends.
double halfway(const Path& path, Point a, Point b) {
  const double h = a.left_m3 - b.left_m3;
  return 0.5 * (a.ln_c + b.ln_c) + h / 8.0 * (path.slope(a.ln_c, a.left_m3) - path.slope(b.ln_c, b.left_m3));
}

Path path_of(const Bottle& b) {
  const Solubility s = solubility(b.gas, b.temperature, b.relative_solubility);
  const double one = s.gas.concentration_mol_m3(units::standard_atmosphere_pa);
  return {s, b.gross.si, b.air.si * units::molar_gas_constant_j_mol_k * b.temperature.si, one, s.dissolved(one)};
}

}  // namespace

Dispensed dispense(Bottle& b, units::Volume liquid) {
  settle(b);
  const double wanted_m3 = std::min(liquid.si, b.liquid.si);
  if (!(wanted_m3 > 0.0)) return {};
  const Path path = path_of(b);
  const Partition full = partition(b, path.s);
  const double c_first = full.c_mol_m3;
  if (!(c_first > 0.0)) return {};

  const double start_m3 = b.liquid.si, h = wanted_m3 / steps;
  Point at{start_m3, std::log(c_first)};
  double sum = 0.0, pushed = path.gauge_pa(c_first, start_m3), overrun = path.overrun(c_first);
  Dispensed out;
  out.first = overrun;
  for (int i = 0; i < steps && pushed > 0.0; ++i) {
    Point next = step(path, at, h);
    const double pushed_next = path.gauge_pa(std::exp(next.ln_c), next.left_m3);
    if (pushed_next <= 0.0) next = step(path, at, h * pushed / (pushed - pushed_next));
    const double overrun_next = path.overrun(std::exp(next.ln_c)), middle = path.overrun(std::exp(halfway(path, at, next)));
    sum += (at.left_m3 - next.left_m3) / 6.0 * (overrun + 4.0 * middle + overrun_next);
    at = next;
    overrun = overrun_next;
    pushed = pushed_next;
  }

  // All of it went: no rounding may leave a drop behind.
  const double left_m3 = pushed > 0.0 ? start_m3 - wanted_m3 : at.left_m3, c = std::exp(at.ln_c), left_dissolved = path.s.dissolved(c) * left_m3;
  const double before_mol = b.total.si;
  b.liquid.si = left_m3;
  b.dissolved.si = left_dissolved;
  b.total.si = c * (b.gross.si - left_m3) + left_dissolved + full.liquefied_mol;
  out.liquid.si = start_m3 - left_m3;
  out.gas = mass(b.gas, {before_mol - b.total.si});
  out.last = overrun;
  if (out.liquid.si > 0.0) out.mean = sum / out.liquid.si;
  return out;
}

Dispensed dispense(Bottle& b, units::Mass liquid, units::Density density) { return dispense(b, units::volume(liquid, density)); }

Dispensed emptying(const Bottle& b) {
  Bottle there = b;
  return dispense(there, there.liquid);
}

}  // namespace bloomset::gas
