// gas/bottle.cpp - the balance of gas in a closed bottle and its history.
#include "gas/bottle.hpp"

#include <algorithm>
#include <cmath>

#include "gas/bottle_table.hpp"
#include "units/constants.hpp"

namespace bloomset::gas {
namespace {

constexpr int newton_passes = 12;

double head_m3(const Bottle& b) { return b.gross.si - b.liquid.si; }

Solubility solubility_in(const Bottle& b) { return solubility(b.gas, b.temperature, b.relative_solubility); }

double air_pa(const Bottle& b) { return b.air.si * units::molar_gas_constant_j_mol_k * b.temperature.si / head_m3(b); }

// The head space as it is now, in equilibrium or not.
Partition as_it_is(const Bottle& b) {
  Partition now;
  now.dissolved_mol = b.dissolved.si;
  const double above_mol = b.total.si - b.dissolved.si, most_mol = densest(b.gas, b.temperature).si * head_m3(b);
  now.liquefied_mol = std::max(above_mol - most_mol, 0.0);
  now.c_mol_m3 = std::min(above_mol, most_mol) / head_m3(b);
  return now;
}

double gas_pa(const Bottle& b, const Partition& now) { return real_gas(b.gas, b.temperature).pressure_pa(now.c_mol_m3); }

void note_peak(Bottle& b) {
  const double now_pa = gas_pa(b, as_it_is(b)) + air_pa(b);
  b.peak.si = std::max(b.peak.si, now_pa);
}

void note_settled(Bottle& b) {
  const double now_pa = gas_pa(b, as_it_is(b)) + air_pa(b);
  b.settled_peak.si = std::max(b.settled_peak.si, now_pa);
  b.peak.si = std::max(b.peak.si, now_pa);
}

// Towards equilibrium: the dissolved gas covers a share of the way.
void approach(Bottle& b, double share) {
  const double wanted_mol = partition(b, solubility_in(b)).dissolved_mol;
  b.dissolved.si += share * (wanted_mol - b.dissolved.si);
}

}  // namespace

Partition partition(const Bottle& b, const Solubility& s) {
  const double head = head_m3(b), liquid = b.liquid.si, n = b.total.si;
  const double most_c = densest(b.gas, b.temperature).si, most_mol = most_c * head + s.dissolved(most_c) * liquid;
  if (n >= most_mol) return {most_c, s.dissolved(most_c) * liquid, n - most_mol};
  // c V_head + d(c) V_liquid bends downwards: from the left Newton's method climbs to the root without passing it.
  double c = 0.0;
  for (int pass = 0; pass < newton_passes; ++pass) {
    const double have = c > 0.0 ? c * head + s.dissolved(c) * liquid : 0.0;
    c = std::min(c + (n - have) / (head + s.slope(c) * liquid), most_c);
  }
  // Head space from the root, liquid from the balance: the sum is exact.
  return {c, n - c * head, 0.0};
}

Bottle closed(Gas gas, units::Volume gross, units::Volume liquid, units::Temperature t, double relative_solubility, bool purged) {
  Bottle b;
  b.gas = gas;
  b.gross = gross;
  b.liquid = liquid;
  b.temperature = t;
  b.relative_solubility = relative_solubility;
  const double closing_k = table::closing_temperature + units::zero_celsius_k;
  if (!purged) b.air.si = table::closing_pressure * head_m3(b) / (units::molar_gas_constant_j_mol_k * closing_k);
  note_settled(b);
  return b;
}

void charge(Bottle& b, units::Mass gas) {
  b.total += amount(b.gas, gas);
  note_peak(b);
}

void shake(Bottle& b, units::Duration time) { approach(b, -std::expm1(-time.si / table::shaking_time)); }

void stand(Bottle& b, units::Duration time) { approach(b, -std::expm1(-time.si / table::standing_time)); }

void settle(Bottle& b) {
  approach(b, 1.0);
  note_settled(b);
}

void bring_to(Bottle& b, units::Temperature t) {
  b.temperature = t;
  settle(b);
}

Reading reading(const Bottle& b) {
  const Partition now = as_it_is(b);
  Reading r;
  r.gas_pressure = {gas_pa(b, now)};
  r.pressure = r.gas_pressure + units::pascals(air_pa(b));
  r.dissolved = mass(b.gas, b.dissolved);
  r.headspace = mass(b.gas, b.total - b.dissolved);
  r.liquefied = mass(b.gas, {now.liquefied_mol});
  if (b.total.si > 0.0) r.dissolved_share = b.dissolved / b.total;
  if (b.liquid.si > 0.0) r.gas_volumes = gas_volumes(b.gas, {b.dissolved.si / b.liquid.si});
  return r;
}

Reading reading_at(const Bottle& b, units::Temperature t) {
  Bottle there = b;
  bring_to(there, t);
  return reading(there);
}

units::Mass charge_for_same_gas(const Bottle& like, units::Volume gross, units::Volume liquid) {
  const Partition p = partition(like, solubility_in(like));
  const double d_mol_m3 = p.dissolved_mol / like.liquid.si;
  return mass(like.gas, {p.c_mol_m3 * (gross.si - liquid.si) + d_mol_m3 * liquid.si});
}

units::Volume fill_limit(units::Volume gross, std::optional<units::Volume> nominal, std::optional<units::Volume> makers_line) {
  if (makers_line) return *makers_line;
  const units::Volume share = gross * table::fill_share;
  return nominal ? std::min(*nominal, share) : share;
}

}  // namespace bloomset::gas
