#include "flow/run.hpp"

#include "flow/unit_view.hpp"

namespace bloomset::flow {
namespace {

using UnitFunction = void (*)(const UnitView&) noexcept;
// In the order of Op.
constexpr std::array<UnitFunction, op_count> functions = {run_take,   run_take_ice, run_draw,  run_mix,   run_heat, run_cool,    run_contact, run_infuse,
                                                          run_strain, run_leave,    run_rinse, run_split, run_soak, run_clarify, run_fizz,    run_stand};

}  // namespace

template <int Lanes>
void run(const Flowsheet& sheet, std::span<const double> knobs, Batch<Lanes>& batch, Until until) noexcept {
  const std::size_t units = until == Until::service ? sheet.units_to_service : sheet.units.size();
  for (std::size_t u = 0; u < units; ++u) {
    const Unit& unit = sheet.units[u];
    const UnitFunction function = functions[static_cast<std::size_t>(unit.op)];
    for (std::uint32_t lane = 0; lane < Lanes; ++lane) {
      double& heat = batch.heat_j[u * Lanes + lane];
      std::uint8_t& events = batch.events[u * Lanes + lane];
      heat = 0.0;
      events = 0;
      function(UnitView(sheet, unit, batch.ports.data(), knobs.data(), heat, events, Lanes, lane));
    }
  }
}

template void run<1>(const Flowsheet&, std::span<const double>, Batch<1>&, Until) noexcept;
template void run<8>(const Flowsheet&, std::span<const double>, Batch<8>&, Until) noexcept;

}  // namespace bloomset::flow
