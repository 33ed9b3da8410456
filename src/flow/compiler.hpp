// flow/compiler.hpp - the workbench of compile: what is known while a flowsheet is being built.
//
// compile.cpp orders the parts and leads through them; compile_take.cpp makes takes into units; compile_step.cpp
// makes steps into units. Private to flow.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "flow/compile.hpp"
#include "flow/modes.hpp"

namespace bloomset::flow {

inline constexpr double charger_kg = 0.008;  // of gas in the usual small charger: practice

/// A solid on its way through a part: a pod, a leaf, a peel, which a later step may leave behind.
struct SolidPiece {
  Port port = no_port;
  std::string name;       // folded thing name, for `leave`
  double holds = 0.0;     // kg of liquid a kg keeps when strained out
  double extracts = 0.0;  // share of what can dissolve in it that one infusion draws out
};

/// Foam on a drink, before its place in the flowsheet's list is known.
struct FoamPort {
  Port port = no_port;
  std::uint16_t from = 0;
};

/// What is in the vessel at a point of a part.
struct Stock {
  Port liquid = no_port, ice = no_port;
  std::vector<SolidPiece> solids;
  std::vector<Port> asides;
  std::vector<Stock> arms;      // bloomed, dispersed or hydrated apart: they join at the next step
  std::vector<FoamPort> foams;  // on the drink
  double ice_piece_kg = 0.0;    // of the last ice that went in
  bool fizzy = false;           // something with dissolved CO2 has gone in: only then can any leave
  bool closed = false;          // under gas in its bottle, so that none leaves
};

/// One take already made into a unit.
struct MadeTake {
  Port liquid = no_port, ice = no_port;
  std::vector<SolidPiece> solids;
  bool emitted = false, fizzy = false;
  std::optional<std::uint16_t> foam_of;  // of a part that foams
  double ice_piece_kg = 0.0;             // of ice: the mass of one piece, if known
};

/// Gas of a charger or a regulator, on its way into the flowsheet.
struct GasTake {
  const char* label = "";
  matter::Component component = matter::Component::carbon_dioxide;
  TakeMode mode = TakeMode::mass;
  double amount = 0.0;  // kg, or Pa absolute
  KnobKind kind = KnobKind::mass_kg;
  const char *what = "", *source = "";
  double piece_kg = 0.0;  // of one charger
  std::vector<Port> refs;
};

/// Bloomed, dispersed or hydrated on its own takes: what is in the vessel waits.
inline bool is_arm(const formula::Step& step) {
  return !step.takes.empty() && (step.act == formula::Act::bloom || step.act == formula::Act::disperse || step.act == formula::Act::hydrate);
}

class Compiler {
 public:
  Compiler(const formula::Formula& formula, const larder::Larder& larder, const kit::Kit& kit, int serves) : formula_(formula), larder_(larder), kit_(kit) {
    sheet_.serves = serves;
  }
  base::Result<Flowsheet> build();

 private:
  // compile.cpp
  void find_parts();
  bool order_parts();
  void check_draws();
  void compile_part(std::uint16_t part, const std::vector<formula::Step>& steps);
  void finish_serve(Stock& stock);
  void emit_moment(Stock& stock, Origin, double from_s, double to_s, int steps);
  void join_arms(std::uint16_t part, std::uint16_t number, Stock& stock);

  // compile_charge.cpp
  void emit_charge(std::uint16_t part, Origin, const formula::Step&, StepInfo&);
  std::optional<Port> emit_blooming_water(std::uint16_t part, std::uint16_t number, const formula::Step&);
  void time_foams();

  // compile_fizz.cpp
  void emit_fizz(std::uint16_t part, Origin, const formula::Step&, StepInfo&, Stock&);
  Port emit_gas(Origin act, const formula::Step&, GasTake);

  // compile_split.cpp
  void emit_split(std::uint16_t part, std::uint16_t number, const formula::Step&, const ActRow&, Stock&);
  static std::uint16_t bath_line(const formula::Step&);
  std::optional<Port> emit_bath(std::uint16_t part, Origin, const formula::Step&);
  void emit_filter(std::uint16_t part, Origin, const formula::Step&, Port curd);
  std::optional<std::uint16_t> output_of(const PartInfo& from, const formula::Take&);

  // compile_take.cpp
  void emit_takes(std::uint16_t part, const std::vector<formula::Step>& steps);
  void emit_bought(const formula::Take&, TakeInfo&, MadeTake&, const std::vector<Port>& refs, double factor);
  void emit_draw(const formula::Take&, TakeInfo&, MadeTake&, const std::vector<Port>& vessel);
  void emit_ice(const formula::Take&, TakeInfo&, MadeTake&, const std::optional<text::Range>& at_c, double times);
  std::uint16_t stuff_of(const larder::Thing&);
  std::vector<Port> base_of(std::uint16_t part) const;
  std::optional<std::uint32_t> thing_of(const formula::Take&);
  std::optional<std::uint16_t> part_named(const std::string& name) const;
  bool is_left_later(const std::vector<formula::Step>& steps, std::size_t step, const std::string& thing) const;

  // compile_step.cpp
  void emit_step(std::uint16_t part, std::uint16_t number, const formula::Step&, Stock&);
  void emit_act(std::uint16_t part, std::uint16_t number, const formula::Step&, const ActRow&, Stock&);
  void emit_vessel_shares(std::uint16_t part, std::uint16_t number, const formula::Step&, const Stock&);
  std::optional<double> end_temperature(const ActRow&, const formula::Step&, Origin, StepInfo&);
  void emit_leave(const formula::Step&, const ActRow&, Origin, Stock&);

  // Building blocks.
  Port port() { return sheet_.port_count++; }
  Slice links(const std::vector<Port>& ports);
  std::uint32_t knob(double nominal, KnobKind, Origin, const char* what, const char* source = "", std::optional<text::Range> range = std::nullopt);
  void unit(Unit, Origin);
  void lose(Fate, Port, Origin);
  void fault(std::string code, base::Span span, std::string message, std::string hint = "");
  void mark(base::Code code, Origin origin, base::Span span, std::string about, double value = 0.0, double limit = 0.0);
  bool is_serve(std::uint16_t part) const { return sheet_.has_serve && part + 1U == sheet_.parts.size(); }
  TakeInfo* take_info(Origin);

  const formula::Formula& formula_;
  const larder::Larder& larder_;
  const kit::Kit& kit_;
  Flowsheet sheet_;
  std::vector<base::Diagnostic> faults_;
  std::vector<std::uint16_t> order_;                                  // parts, users after what they use
  std::map<std::pair<std::uint16_t, std::uint32_t>, MadeTake> made_;  // (part, step << 16 | take) → ports
  std::map<std::uint64_t, std::size_t> take_at_;                      // origin of a take → its place in sheet_.takes
  std::map<std::string, Port> marks_by_name_;                         // of the part at hand: mark → port
  std::vector<std::pair<std::uint32_t, std::uint16_t>> foam_ratios_;  // knob of a draw by volume of foam, and the part it draws from
};

}  // namespace bloomset::flow
