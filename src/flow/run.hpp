// flow/run.hpp - evaluates a flowsheet: (units, knobs) in, streams out.
//
// A pure function: no allocation, text, clock or globals; every inner solve takes a fixed number of passes, so one
// lane and eight lanes agree bit for bit and differences are smooth. A `Batch` is made once and used for many runs.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <type_traits>
#include <utility>
#include <vector>

#include "flow/flowsheet.hpp"
#include "matter/properties.hpp"

namespace bloomset::flow {

/// What happened in a unit besides moving matter.
enum class Event : std::uint8_t { none = 0, ice_gone = 1, end_not_reached = 2, more_than_there_is = 4 };

/// What a lane counts in: one drink by itself, or eight at once.
template <int Lanes>
using RealOf = std::conditional_t<Lanes == 1, double, matter::Lanes>;

/// Streams and accounts of one evaluation in each lane, 1 or 8.
template <int Lanes>
struct Batch {
  std::vector<StreamOf<RealOf<Lanes>>> ports;
  std::vector<RealOf<Lanes>> heat_j;  // per unit: heat taken from burner, room, cold place and vessel
  std::vector<std::uint8_t> events;   // per unit and lane: bits of Event; lane l of unit u at [u * Lanes + l]

  explicit Batch(const Flowsheet& sheet) : ports(sheet.port_count), heat_j(sheet.units.size(), 0.0), events(sheet.units.size() * Lanes) {}
  const Stream& port(Port p) const requires(Lanes == 1) { return ports[p]; }
  Stream port(Port p, int lane) const { return in_lane(ports[p], lane); }
};

/// How far: to the first sip, or through the drink's time in the glass (ports behind service are then as they were).
enum class Until : std::uint8_t { service, last_moment };

/// `knobs` holds one number a knob and lane: knob k of lane l is `knobs[k * Lanes + l]`.
template <int Lanes>
void run(const Flowsheet&, std::span<const double> knobs, Batch<Lanes>&, Until = Until::last_moment) noexcept;

extern template void run<1>(const Flowsheet&, std::span<const double>, Batch<1>&, Until) noexcept;
extern template void run<8>(const Flowsheet&, std::span<const double>, Batch<8>&, Until) noexcept;

/// Some units only, in rising order: the ports of the others are as the last run left them.
template <int Lanes>
void run_units(const Flowsheet&, std::span<const double> knobs, Batch<Lanes>&, std::span<const std::uint32_t> units) noexcept;
extern template void run_units<8>(const Flowsheet&, std::span<const double>, Batch<8>&, std::span<const std::uint32_t>) noexcept;

/// The units that what stands at these ports depends on, in rising order.
std::vector<std::uint32_t> units_before(const Flowsheet&, std::span<const Port>);
/// The units whose outcome these knobs change, in rising order.
std::vector<std::uint32_t> units_after(const Flowsheet&, std::span<const std::uint32_t> knobs);

/// The state to be read from a liquid port and the ice that lies in it (no_port: none).
template <int Lanes>
matter::StateOf<RealOf<Lanes>> state_at(const Batch<Lanes>& batch, Port liquid, Port ice) {
  matter::StateOf<RealOf<Lanes>> state;
  state.liquid = batch.ports[liquid].mass;
  state.enthalpy_j = batch.ports[liquid].enthalpy_j;
  if (ice != no_port) state.floating_ice_kg = std::as_const(batch.ports[ice].mass)[matter::Component::water];
  return state;
}

}  // namespace bloomset::flow
