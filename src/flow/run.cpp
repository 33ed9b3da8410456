#include "flow/run.hpp"

#include <algorithm>

#include "flow/unit_view.hpp"

namespace bloomset::flow {
namespace {

template <class Real>
using UnitFunction = void (*)(const UnitView<Real>&) noexcept;
// In the order of Op.
template <class Real>
constexpr std::array<UnitFunction<Real>, op_count> functions = {run_take,   run_take_ice, run_draw,  run_mix,   run_heat, run_cool,    run_contact, run_infuse,
                                                                run_strain, run_leave,    run_rinse, run_split, run_soak, run_clarify, run_fizz,    run_stand};

template <int Lanes>
void run_unit(const Flowsheet& sheet, std::size_t u, const double* knobs, Batch<Lanes>& batch) noexcept {
  const Unit& unit = sheet.units[u];
  batch.heat_j[u] = 0.0;
  std::uint8_t* events = &batch.events[u * Lanes];
  std::fill_n(events, Lanes, std::uint8_t{0});
  functions<RealOf<Lanes>>[static_cast<std::size_t>(unit.op)](UnitView<RealOf<Lanes>>(sheet, unit, batch.ports.data(), knobs, batch.heat_j[u], events));
}

template <class Do>
void for_links(const Flowsheet& sheet, Slice slice, Do&& what) {
  for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) what(sheet.links[i]);
}

}  // namespace

template <int Lanes>
void run(const Flowsheet& sheet, std::span<const double> knobs, Batch<Lanes>& batch, Until until) noexcept {
  const std::size_t units = until == Until::service ? sheet.units_to_service : sheet.units.size();
  for (std::size_t u = 0; u < units; ++u) run_unit(sheet, u, knobs.data(), batch);
}

template <int Lanes>
void run_units(const Flowsheet& sheet, std::span<const double> knobs, Batch<Lanes>& batch, std::span<const std::uint32_t> units) noexcept {
  for (const std::uint32_t u : units) run_unit(sheet, u, knobs.data(), batch);
}

std::vector<std::uint32_t> units_before(const Flowsheet& sheet, std::span<const Port> ports) {
  std::vector<bool> wanted(sheet.port_count, false);
  for (const Port p : ports)
    if (p != no_port) wanted[p] = true;
  std::vector<std::uint32_t> units;
  for (std::size_t u = sheet.units.size(); u-- > 0;) {
    const Unit& unit = sheet.units[u];
    bool makes = false;
    for_links(sheet, unit.out, [&](Port p) { makes = makes || wanted[p]; });
    if (!makes) continue;
    units.insert(units.begin(), static_cast<std::uint32_t>(u));
    for_links(sheet, unit.in, [&](Port p) { wanted[p] = true; });
    for_links(sheet, unit.refs, [&](Port p) { wanted[p] = true; });
  }
  return units;
}

std::vector<std::uint32_t> units_after(const Flowsheet& sheet, std::span<const std::uint32_t> knobs) {
  std::vector<bool> turned(sheet.nominal.size(), false), moved(sheet.port_count, false);
  for (const std::uint32_t k : knobs) turned[k] = true;
  std::vector<std::uint32_t> units;
  for (std::uint32_t u = 0; u < sheet.units.size(); ++u) {
    const Unit& unit = sheet.units[u];
    bool changes = false;
    for (std::uint32_t k = unit.knobs.first; k < unit.knobs.first + unit.knobs.count; ++k) changes = changes || turned[k];
    if (unit.op == Op::take) {
      const Slice of = sheet.stuffs[unit.stuff].departures;
      for (std::uint32_t d = of.first; d < of.first + of.count; ++d) changes = changes || turned[sheet.departures[d].knob];
    }
    for_links(sheet, unit.in, [&](Port p) { changes = changes || moved[p]; });
    for_links(sheet, unit.refs, [&](Port p) { changes = changes || moved[p]; });
    if (!changes) continue;
    units.push_back(u);
    for_links(sheet, unit.out, [&](Port p) { moved[p] = true; });
  }
  return units;
}

template void run<1>(const Flowsheet&, std::span<const double>, Batch<1>&, Until) noexcept;
template void run<8>(const Flowsheet&, std::span<const double>, Batch<8>&, Until) noexcept;
template void run_units<8>(const Flowsheet&, std::span<const double>, Batch<8>&, std::span<const std::uint32_t>) noexcept;

}  // namespace bloomset::flow
