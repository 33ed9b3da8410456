// flow/unit_view.hpp - what an act's function may touch: its own ports, knobs and account, in one lane.
#pragma once

#include <cstdint>

#include "flow/flowsheet.hpp"
#include "flow/run.hpp"

namespace bloomset::flow {

class UnitView {
 public:
  UnitView(const Flowsheet& sheet, const Unit& unit, Stream* ports, const double* knobs, double& heat_j, std::uint8_t& events, std::uint32_t lanes,
           std::uint32_t lane)
      : sheet_(sheet), unit_(unit), ports_(ports), knobs_(knobs), heat_j_(heat_j), events_(events), lanes_(lanes), lane_(lane) {}

  const Unit& unit() const { return unit_; }
  const Stuff& stuff() const { return sheet_.stuffs[unit_.stuff]; }
  double knob(std::uint32_t i) const { return knobs_[(unit_.knobs.first + i) * lanes_ + lane_]; }
  std::span<const Departure> departures() const { return {sheet_.departures.data() + stuff().departures.first, stuff().departures.count}; }
  /// How many standard deviations a thing departs from its row.
  double deviations(const Departure& of) const { return knobs_[of.knob * lanes_ + lane_]; }
  const Stream& in(std::uint32_t i) const { return port(unit_.in.first + i); }
  Stream& out(std::uint32_t i) const { return port(unit_.out.first + i); }
  /// An optional port behind the liquid (see outs); nullptr where this unit has none. Emptied here.
  Stream* optional_out(std::uint8_t which) const {
    if ((unit_.outs & which) == 0) return nullptr;
    std::uint32_t at = 1;
    for (std::uint8_t bit = 1; bit < which; bit = static_cast<std::uint8_t>(bit << 1))
      if ((unit_.outs & bit) != 0) ++at;
    Stream& found = out(at);
    found = {};
    return &found;
  }
  const Stream& ref(std::uint32_t i) const { return port(unit_.refs.first + i); }
  double& booked_j() const { return heat_j_; }
  void say(Event event) const { events_ = static_cast<std::uint8_t>(events_ | static_cast<std::uint8_t>(event)); }

  std::uint32_t solids_in() const { return unit_.in.count - unit_.liquids_in - unit_.ices_in; }
  const Stream& solid_in(std::uint32_t i) const { return in(static_cast<std::uint32_t>(unit_.liquids_in) + unit_.ices_in + i); }
  /// All liquids that enter, as one stream.
  void liquids_into(Stream& out) const { sum_into(out, 0, unit_.liquids_in); }
  /// All ice that enters, as one stream.
  void ices_into(Stream& out) const { sum_into(out, unit_.liquids_in, unit_.ices_in); }
  /// Ice that melts into a batch: its water comes with its enthalpy.
  void add_ices(Stream& to) const {
    for (std::uint32_t i = 0; i < unit_.ices_in; ++i) to += in(unit_.liquids_in + i);
  }

 private:
  Stream& port(std::uint32_t link) const { return ports_[sheet_.links[link] * lanes_ + lane_]; }
  void sum_into(Stream& out, std::uint32_t from, std::uint32_t count) const {
    if (count == 0) {
      out = {};
      return;
    }
    out = in(from);
    for (std::uint32_t i = 1; i < count; ++i) out += in(from + i);
  }

  const Flowsheet& sheet_;
  const Unit& unit_;
  Stream* ports_;
  const double* knobs_;
  double& heat_j_;
  std::uint8_t& events_;
  std::uint32_t lanes_, lane_;
};

/// Moves the share of dissolved CO2 that an act lets go into the unit's gas port, if it has one.
void let_gas_go(const UnitView&, Stream& liquid, double kept) noexcept;
/// Moves a share of the liquid into the unit's sticks port, if it has one.
void leave_on_wall(const UnitView&, Stream& liquid, double share) noexcept;

/// What many acts begin with: liquids come together, ice passes, gas goes and some stays on the wall (knobs 0 and 1: mix_knob). The liquid.
Stream& pass_through(const UnitView&) noexcept;

/// The CO2 that a regulator drives into the drink that a take refers to [kg].
double fizz_kg(const UnitView&) noexcept;

/// One function an op; the table stands in run.cpp.
void run_take(const UnitView&) noexcept;
void run_take_ice(const UnitView&) noexcept;
void run_draw(const UnitView&) noexcept;
void run_mix(const UnitView&) noexcept;
void run_heat(const UnitView&) noexcept;
void run_cool(const UnitView&) noexcept;
void run_contact(const UnitView&) noexcept;
void run_infuse(const UnitView&) noexcept;
void run_strain(const UnitView&) noexcept;
void run_leave(const UnitView&) noexcept;
void run_rinse(const UnitView&) noexcept;
void run_split(const UnitView&) noexcept;
void run_soak(const UnitView&) noexcept;
void run_clarify(const UnitView&) noexcept;
void run_fizz(const UnitView&) noexcept;
void run_stand(const UnitView&) noexcept;

}  // namespace bloomset::flow
