// flow/compile_split.cpp - steps that part a stream: a share worked on apart, spheres in their bath, clarifying and its outputs.
#include <algorithm>

#include "flow/compiler.hpp"
#include "text/fold.hpp"
#include "texture/contact.hpp"

namespace bloomset::flow {
namespace {

using formula::Act;
using matter::Component;

constexpr const char* practice = "practice";
constexpr double spheres_take_up = 0.04;  // of their own weight, of the bath's liquid: practice

// What each way of clarifying keeps back, and how much of the mass runs clear where the text is silent: practice, but milk's protein and fat
// (texture/contact.hpp). A raft of agar or gelatin holds on to its agent, and to about half of what protein there is.
struct Filter {
  const char* by;
  double clear, solids, protein, fat, agents;
};
Filter filter_by(std::string_view by) {
  const texture::CurdKeeps milk = texture::curd_keeps();
  if (by == "agar") return {"agar", 0.78, 0.95, 0.50, 0.95, 0.95};
  if (by == "gelatin") return {"gelatin", 0.70, 0.98, 0.50, 0.98, 0.95};
  if (by == "milk") return {"milk", 0.80, 0.95, milk.protein, milk.fat, 0.50};
  return {"spin", 0.85, 0.98, 0.20, 0.50, 0.00};
}

}  // namespace

// The step works on a share; the rest waits, and both come together again when it is done.
void Compiler::emit_split(std::uint16_t part, std::uint16_t number, const formula::Step& step, const ActRow& row, Stock& stock) {
  const Origin origin{part, number, 0};
  const bool parts_gas = row.act == Act::charge || row.act == Act::dispense || row.act == Act::carbonate;
  if (parts_gas || is_arm(step)) {
    fault("nothing_to_split", step.act_span, "`" + std::string(formula::name(row.act)) + "` does not work on a share of the part",
          "take `split` out, or make that share a part of its own");
    return;
  }
  if (stock.liquid == no_port) {
    fault("nothing_to_split", step.act_span, "there is nothing in the part yet that could be split", "take `split` out, or put something in first");
    return;
  }
  Unit split;
  split.op = Op::split;
  std::vector<Port> in{stock.liquid};
  split.liquids_in = 1;
  if (stock.ice != no_port) {
    in.push_back(stock.ice);
    split.ices_in = 1;
  }
  for (const SolidPiece& solid : stock.solids) in.push_back(solid.port);
  std::vector<Port> worked, waits;
  for (std::size_t i = 0; i < in.size(); ++i) worked.push_back(port());
  for (std::size_t i = 0; i < in.size(); ++i) waits.push_back(port());
  std::vector<Port> out = worked;
  out.insert(out.end(), waits.begin(), waits.end());
  split.in = links(in);
  split.out = links(out);
  split.knobs = {knob(step.split->nominal(), KnobKind::share, origin, "share worked on", "", step.split), 1};
  unit(split, origin);

  Stock arm = stock;
  arm.arms.clear();
  arm.asides.clear();
  arm.foams.clear();
  const auto hand_over = [](Stock& to, const std::vector<Port>& ports) {
    std::size_t at = 0;
    to.liquid = ports[at++];
    if (to.ice != no_port) to.ice = ports[at++];
    for (SolidPiece& solid : to.solids) solid.port = ports[at++];
  };
  hand_over(arm, worked);
  hand_over(stock, waits);
  const std::size_t steps_before = sheet_.steps.size();
  emit_act(part, number, step, row, arm);
  stock.arms.push_back(std::move(arm));
  join_arms(part, number, stock);
  if (sheet_.steps.size() == steps_before) return;  // a fault is said
  sheet_.steps.back().liquid = stock.liquid;
  sheet_.steps.back().ice = stock.ice;
}

// Takes of a bath stand behind all written ones and the ice.
std::uint16_t Compiler::bath_line(const formula::Step& step) { return static_cast<std::uint16_t>(step.takes.size() + 2); }

// The bath's port and how much of it goes with the spheres; nothing if the bath is missing (a fault is said).
std::optional<Port> Compiler::emit_bath(std::uint16_t part, Origin origin, const formula::Step& step) {
  if (!step.bath) {
    fault("no_bath", step.act_span, "`sphere` needs a bath", "for instance bath = { in = \"1 kg 'alginate bath'\", takes_up = \"3-5 %\" }");
    return std::nullopt;
  }
  const auto found = made_.find({part, static_cast<std::uint32_t>(static_cast<std::uint32_t>(origin.step) << 16U | bath_line(step))});
  if (found == made_.end() || found->second.liquid == no_port) return std::nullopt;
  knob(step.bath->takes_up ? step.bath->takes_up->nominal() : spheres_take_up, KnobKind::share, origin, "of their own weight that spheres take up",
       step.bath->takes_up ? "" : practice, step.bath->takes_up);
  return found->second.liquid;
}

// Knobs of the clarifying unit, and the outputs it gives the part. `curd` is the port of what is kept back.
void Compiler::emit_filter(std::uint16_t part, Origin origin, const formula::Step& step, Port curd) {
  PartInfo& made = sheet_.parts[part];
  std::string by = step.by ? text::fold(step.by->text) : "";
  if (by.empty()) {
    by = "spin";
    for (const TakeInfo& take : sheet_.takes) {
      if (take.origin.part != part || take.origin.step > origin.step || !take.thing) continue;
      const larder::Thing& thing = sheet_.things[*take.thing];
      if (thing.per_kg[Component::agar] > 0.0) by = "agar";
      if (thing.per_kg[Component::gelatin] > 0.0) by = "gelatin";
      if (thing.family == larder::Family::dairy) by = "milk";
    }
    mark(base::Code::assumption, origin, step.span, "how it is clarified is not said: taken as by " + by);
  }
  const Filter filter = filter_by(by);
  if (step.out.size() > 2)
    fault("too_many_outputs", step.out[2].span, "clarifying gives two outputs: what runs clear and what is kept back", "name two at most");
  if (!made.outputs.empty() && !step.out.empty())
    fault("too_many_outputs", step.span, "'" + made.name + "' has outputs already", "let one step of a part name outputs");
  // What runs clear is the output called so, else the first.
  std::size_t clear_at = 0;
  for (std::size_t i = 0; i < step.out.size(); ++i)
    if (text::fold(step.out[i].name) == "clear") clear_at = i;
  std::optional<text::Range> clear;
  if (!step.out.empty()) {
    clear = step.out[clear_at].share;
    if (!clear && step.out.size() == 2) {
      const text::Range other = *step.out[1 - clear_at].share;
      clear = text::Range{1.0 - other.high, 1.0 - other.low};
    }
  }
  if (!clear)
    mark(base::Code::assumption, origin, step.span,
         "how much runs clear is not said: taken as " + text::print_number(100.0 * filter.clear) + " % of what goes in");
  knob(clear ? clear->nominal() : filter.clear, KnobKind::share, origin, "runs clear", clear ? "" : practice, clear);
  knob(filter.solids, KnobKind::share, origin, "pulp and starch kept back", practice);
  knob(filter.protein, KnobKind::share, origin, "protein kept back", practice);
  knob(filter.fat, KnobKind::share, origin, "fat kept back", practice);
  knob(filter.agents, KnobKind::share, origin, "agents kept back", practice);
  if (step.out.empty() || step.out.size() > 2) return;
  made.outputs.push_back({step.out[clear_at].name, no_port, origin.step});  // goes on: ends where the part ends
  if (step.out.size() == 2) made.outputs.push_back({step.out[1 - clear_at].name, curd, origin.step});
}

// Which output of a part a take means: 0 is what goes on. Nothing if it names none or a wrong one (a fault is said).
std::optional<std::uint16_t> Compiler::output_of(const PartInfo& from, const formula::Take& take) {
  std::string known;
  for (const OutputInfo& output : from.outputs) known.append(known.empty() ? "" : ", ").append("'" + from.name + "/" + output.name + "'");
  if (from.outputs.empty()) {
    if (take.output.empty()) return 0;
    fault("unknown_output", take.thing_span, "'" + from.name + "' has no outputs",
          "take '" + from.name + "', or name outputs with `out` where it is clarified");
    return std::nullopt;
  }
  for (std::size_t i = 0; i < from.outputs.size(); ++i)
    if (text::fold(from.outputs[i].name) == text::fold(take.output)) return static_cast<std::uint16_t>(i);
  fault("unknown_output", take.thing_span,
        take.output.empty() ? "'" + from.name + "' has outputs: say which is meant" : "'" + from.name + "' has no output '" + take.output + "'", known);
  return std::nullopt;
}

}  // namespace bloomset::flow
