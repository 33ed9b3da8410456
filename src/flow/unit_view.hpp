// flow/unit_view.hpp - what an act's function may touch: its own ports, knobs and account, in one lane or in eight.
#pragma once

#include <cstdint>
#include <type_traits>

#include "flow/flowsheet.hpp"
#include "flow/run.hpp"

namespace bloomset::flow {

// The words for what is asked of one lane or of eight.
using matter::all, matter::any, matter::select;

template <class Real>
class UnitView {
 public:
  using Stream = StreamOf<Real>;

  UnitView(const Flowsheet& sheet, const Unit& unit, Stream* ports, const double* knobs, Real& heat_j, std::uint8_t* events)
      : sheet_(sheet), unit_(unit), ports_(ports), knobs_(knobs), heat_j_(heat_j), events_(events) {}

  const Unit& unit() const { return unit_; }
  const Stuff& stuff() const { return sheet_.stuffs[unit_.stuff]; }
  Real knob(std::uint32_t i) const { return number(unit_.knobs.first + i); }
  std::span<const Departure> departures() const { return {sheet_.departures.data() + stuff().departures.first, stuff().departures.count}; }
  /// How many standard deviations a thing departs from its row.
  Real deviations(const Departure& of) const { return number(of.knob); }
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
  Real& booked_j() const { return heat_j_; }
  /// In the lanes where it is so.
  void say(Event event, const matter::Truth<Real>& where) const {
    if (!any(where)) return;
    for (int lane = 0; lane < lanes; ++lane)
      if (matter::in_lane(where, lane)) events_[lane] = static_cast<std::uint8_t>(events_[lane] | static_cast<std::uint8_t>(event));
  }

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
  static constexpr int lanes = std::is_same_v<Real, double> ? 1 : matter::lane_count;

  Real number(std::uint32_t knob) const {
    if constexpr (lanes == 1) {
      return knobs_[knob];
    } else {
      return Real::at(knobs_ + knob * lanes);
    }
  }
  Stream& port(std::uint32_t link) const { return ports_[sheet_.links[link]]; }
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
  Real& heat_j_;
  std::uint8_t* events_;  // one a lane
};

/// Moves the share of dissolved CO2 that an act lets go into the unit's gas port, if it has one.
template <class Real>
void let_gas_go(const UnitView<Real>&, StreamOf<Real>& liquid, const Real& kept) noexcept;
/// Moves a share of the liquid into the unit's sticks port, if it has one.
template <class Real>
void leave_on_wall(const UnitView<Real>&, StreamOf<Real>& liquid, const Real& share) noexcept;

/// What many acts begin with: liquids come together, ice passes, gas goes and some stays on the wall (knobs 0 and 1: mix_knob). The liquid.
template <class Real>
StreamOf<Real>& pass_through(const UnitView<Real>&) noexcept;

/// The CO2 that a regulator drives into the drink that a take refers to [kg].
template <class Real>
Real fizz_kg(const UnitView<Real>&) noexcept;

/// One function an op; the table stands in run.cpp, and each is there for one lane and for eight.
template <class Real>
void run_take(const UnitView<Real>&) noexcept;
template <class Real>
void run_take_ice(const UnitView<Real>&) noexcept;
template <class Real>
void run_draw(const UnitView<Real>&) noexcept;
template <class Real>
void run_mix(const UnitView<Real>&) noexcept;
template <class Real>
void run_heat(const UnitView<Real>&) noexcept;
template <class Real>
void run_cool(const UnitView<Real>&) noexcept;
template <class Real>
void run_contact(const UnitView<Real>&) noexcept;
template <class Real>
void run_infuse(const UnitView<Real>&) noexcept;
template <class Real>
void run_strain(const UnitView<Real>&) noexcept;
template <class Real>
void run_leave(const UnitView<Real>&) noexcept;
template <class Real>
void run_rinse(const UnitView<Real>&) noexcept;
template <class Real>
void run_split(const UnitView<Real>&) noexcept;
template <class Real>
void run_soak(const UnitView<Real>&) noexcept;
template <class Real>
void run_clarify(const UnitView<Real>&) noexcept;
template <class Real>
void run_fizz(const UnitView<Real>&) noexcept;
template <class Real>
void run_stand(const UnitView<Real>&) noexcept;

}  // namespace bloomset::flow
