#include "flow/compile.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "flow/compiler.hpp"
#include "gas/real_gas.hpp"
#include "text/fold.hpp"

namespace bloomset::flow {
namespace {

constexpr double serve_stands_s = 30.0;  // at service = 30 s after the last pour (the document's definition)
// Approach of a still drink to its ice, tau = C/(h A): 0.17 kg of drink over six cubes of 25 g at some 400 W/(m2 K) of
// natural convection, half of their faces wetted, gives about a minute. A prior, practice. A larger piece has less face
// to its mass, so tau grows with the cube root of the piece.
constexpr double ice_in_glass_time_s = 60.0, ice_in_glass_piece_kg = 0.025;
constexpr double glass_time_s = 60.0;  // approach of a glass to its drink: a prior, practice
// Heat from the room: still air and radiation some 10 W/(m2 K), about half of it through the air (memory: handbooks of heat transfer, free convection 5-25),
// over a closed cylinder as wide as high, 5.54 V^(2/3). Dew brings its own: what air carries as heat and as vapour goes by the psychrometric constant, 67.4
// Pa/K at 1 atm (memory: FAO Irrigation and Drainage Paper 56). An insulated glass gets its own film, and dew in proportion.
constexpr double room_film_w_m2_k = 10.0, through_air = 0.5, cylinder_area = 5.54, psychrometric_pa_k = 67.4;
// Fizz in an open glass: a third of the CO2 is gone in ten minutes or so: a prior, practice.
constexpr double co2_leaves_s = 1500.0;
constexpr double first_drop = 0.01;          // of a foam alone in its glass, that has run out as it lands: practice
constexpr double foam_half_time_s = 1200.0;  // until the first run has told what holds the foam (time_foams): practice
constexpr std::array<double, 4> minutes_shown = {2.0, 5.0, 10.0, 20.0};
constexpr double longest_step_s = 120.0;

}  // namespace

base::Result<Flowsheet> compile(const formula::Formula& formula, const larder::Larder& larder, const kit::Kit& kit, std::optional<int> serves) {
  return Compiler(formula, larder, kit, serves.value_or(formula.serves)).build();
}

base::Result<Flowsheet> Compiler::build() {
  find_parts();
  if (order_parts()) {
    for (const std::uint16_t part : order_) compile_part(part, is_serve(part) ? formula_.serve->pours : formula_.parts[part].steps);
    check_draws();
  }
  if (!faults_.empty()) {
    std::stable_sort(faults_.begin(), faults_.end(), [](const auto& a, const auto& b) {
      return std::tuple(a.span.source, a.span.line, a.span.column) < std::tuple(b.span.source, b.span.line, b.span.column);
    });
    const std::string count = std::to_string(faults_.size());
    return base::fail(base::ErrorKind::bad_input,
                      "the formula names or asks for " + count + (faults_.size() == 1 ? " thing" : " things") + " that cannot be done", std::move(faults_));
  }
  if (sheet_.moments.empty()) sheet_.units_to_service = static_cast<std::uint32_t>(sheet_.units.size());
  time_foams();
  return std::move(sheet_);
}

void Compiler::find_parts() {
  for (const formula::Part& part : formula_.parts) {
    PartInfo& info = sheet_.parts.emplace_back();
    info.name = part.name;
    info.made = part.made;
    info.batches = part.batches;
    info.times = part.made == formula::Made::ahead ? part.batches : sheet_.serves;
    info.makes = part.makes;
    info.span = part.name_span;
    info.source = part.source;
  }
  if (!formula_.serve) return;
  sheet_.has_serve = true;
  PartInfo serve;
  serve.name = "serve";
  serve.times = sheet_.serves;
  serve.span = formula_.serve->span;
  serve.source = formula_.source;
  sheet_.parts.push_back(std::move(serve));
}

// Users come after what they use. A part nobody uses stands where it is written.
bool Compiler::order_parts() {
  enum class Colour { white, grey, black };
  std::vector<Colour> colour(sheet_.parts.size(), Colour::white);
  bool sound = true;
  const std::function<void(std::uint16_t, base::Span)> visit = [&](std::uint16_t part, base::Span from) {
    if (colour[part] == Colour::black) return;
    if (colour[part] == Colour::grey) {
      fault("part_uses_itself", from, "the part '" + sheet_.parts[part].name + "' is used while it is being made",
            "take it from another part, or split it in two");
      sound = false;
      return;
    }
    colour[part] = Colour::grey;
    const auto& steps = is_serve(part) ? formula_.serve->pours : formula_.parts[part].steps;
    for (const formula::Step& step : steps)
      for (const formula::Take& take : step.takes)
        if (take.kind == formula::ThingKind::made)
          if (const auto used = part_named(take.thing)) visit(*used, take.thing_span);
    colour[part] = Colour::black;
    order_.push_back(part);
  };
  for (std::uint16_t part = 0; part < sheet_.parts.size(); ++part) visit(part, sheet_.parts[part].span);
  return sound;
}

void Compiler::compile_part(std::uint16_t part, const std::vector<formula::Step>& steps) {
  marks_by_name_.clear();
  const std::size_t faults_before = faults_.size();
  emit_takes(part, steps);
  Stock stock;
  for (std::uint16_t n = 0; n < steps.size(); ++n) emit_step(part, static_cast<std::uint16_t>(n + 1), steps[n], stock);
  join_arms(part, static_cast<std::uint16_t>(steps.size()), stock);
  if (is_serve(part)) finish_serve(stock);
  PartInfo& info = sheet_.parts[part];
  info.liquid = is_serve(part) ? sheet_.served_liquid : stock.liquid;
  info.ice = is_serve(part) ? sheet_.served_ice : stock.ice;
  for (const SolidPiece& solid : stock.solids) info.solids.push_back(solid.port);
  info.asides = stock.asides;
  info.fizzy = stock.fizzy;
  if (stock.liquid == no_port && info.solids.empty() && info.asides.empty() && stock.ice == no_port && faults_.size() == faults_before)
    fault("part_is_empty", info.span, "nothing goes into '" + info.name + "'", "give at least one step a take");
}

// The half minute in the glass: at service is 30 s after the last pour.
void Compiler::finish_serve(Stock& stock) {
  const Origin origin{static_cast<std::uint16_t>(sheet_.parts.size() - 1), static_cast<std::uint16_t>(formula_.serve->pours.size()), 0};
  const formula::Word& vessel = formula_.serve->vessel;
  if (const kit::Vessel* known = kit_.vessel(vessel.text)) {
    sheet_.glass = *known;
  } else if (auto plain = kit::Kit::plain_cylinder(vessel.text)) {
    sheet_.glass = std::move(*plain);
    mark(base::Code::assumption, origin, vessel.span, "\"" + vessel.text + "\" is not in the kit: taken as a plain cylinder of unknown heat capacity");
  } else {
    fault("unknown_vessel", vessel.span, "\"" + vessel.text + "\" is not in the kit and does not read as NAME, N mL",
          "a vessel of the kit, or for example \"tumbler, 300 mL\"; nearest known: " + base::nearest(vessel.text, kit_.vessel_names()));
    return;
  }
  for (const FoamPort& foam : stock.foams) sheet_.foams.push_back({foam.from, {}});
  if (stock.liquid == no_port && stock.foams.empty()) return;
  if (stock.liquid == no_port) {  // foam alone in the glass: what drains out of it is the drink
    Unit drain;
    drain.op = Op::split;
    const Port foam = stock.foams.front().port;
    drain.in = links({foam});
    drain.out = links({stock.liquid = port(), stock.foams.front().port = port()});
    drain.knobs = {knob(first_drop, KnobKind::share, origin, "already liquid", "practice"), 1};
    unit(drain, origin);
  }
  emit_moment(stock, origin, 0.0, serve_stands_s, 1);
  sheet_.served_liquid = stock.liquid;
  sheet_.served_ice = stock.ice;
  sheet_.units_to_service = static_cast<std::uint32_t>(sheet_.units.size());
  const auto remember = [&](double minute) {
    Moment& moment = sheet_.moments.emplace_back(Moment{minute, stock.liquid, stock.ice, {}});
    for (const FoamPort& foam : stock.foams) moment.foams.push_back(foam.port);
  };
  remember(0.0);
  std::vector<double> minutes(minutes_shown.begin(), minutes_shown.end());
  for (const formula::Target& target : formula_.targets)
    if (target.of_serve && target.at_minute && *target.at_minute > 0.0) minutes.push_back(*target.at_minute);
  std::sort(minutes.begin(), minutes.end());
  minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
  double before_s = serve_stands_s;
  for (const double minute : minutes) {
    const double at_s = serve_stands_s + 60.0 * minute;
    emit_moment(stock, origin, before_s, at_s, static_cast<int>(std::clamp(std::ceil((at_s - before_s) / longest_step_s), 1.0, 255.0)));
    remember(minute);
    before_s = at_s;
  }
  for (const SolidPiece& solid : stock.solids) stock.asides.push_back(solid.port);
  stock.solids.clear();
}

// One stretch of time in the glass, in equal steps.
void Compiler::emit_moment(Stock& stock, Origin origin, double from_s, double to_s, int steps) {
  Unit stand;
  stand.op = Op::stand;
  stand.mode = static_cast<std::uint8_t>(steps);
  std::vector<Port> in{stock.liquid}, out{port()};
  stand.liquids_in = 1;
  if (stock.ice != no_port) {
    in.push_back(stock.ice);
    out.push_back(port());
    stand.ices_in = 1;
    stand.outs |= outs::ice;
    stock.ice = out.back();
  }
  stock.liquid = out.front();
  if (stock.fizzy && from_s > 0.0) {  // until service the pours' own losses count
    out.push_back(port());
    stand.outs |= outs::gas;
  }
  const double piece = stock.ice_piece_kg > 0.0 ? stock.ice_piece_kg / ice_in_glass_piece_kg : 1.0;
  const std::uint32_t first = knob(to_s - from_s, KnobKind::seconds, origin, "time in the glass", "the document's definition of at service");
  knob(from_s, KnobKind::seconds, origin, "time in the glass so far", "the document's definition of at service");
  knob(ice_in_glass_time_s * std::cbrt(piece), KnobKind::seconds, origin, "time constant of ice in a still drink", "practice");
  knob(glass_time_s, KnobKind::seconds, origin, "time constant of the glass", "practice");
  knob(sheet_.glass->heat.si, KnobKind::joule_per_kelvin, origin, "heat capacity of the glass", "kit");
  knob(units::in_celsius(kit_.room), KnobKind::celsius, origin, "temperature of glass and room", "kit");
  const double area_m2 = cylinder_area * std::pow(sheet_.glass->brim.si, 2.0 / 3.0);
  const double film_w_k = sheet_.glass->film_w_m2_k.value_or(room_film_w_m2_k) * area_m2;
  knob(film_w_k, KnobKind::watt_per_kelvin, origin, "heat from the room a kelvin", sheet_.glass->film_w_m2_k ? "kit" : "practice");
  knob(through_air * film_w_k / psychrometric_pa_k, KnobKind::watt_per_pascal, origin, "heat of dew a pascal of vapour", "practice");
  knob(kit_.room_humidity * gas::water_vapour_pressure(kit_.room).si, KnobKind::pascal, origin, "vapour in the room", "kit");
  knob(co2_leaves_s, KnobKind::seconds, origin, "time constant of fizz in an open glass", "practice");
  for (std::size_t i = 0; i < stock.foams.size(); ++i) {
    in.push_back(stock.foams[i].port);
    out.push_back(stock.foams[i].port = port());
    sheet_.foams[i].half_time_knobs.push_back(knob(foam_half_time_s, KnobKind::seconds, origin, "half of the foam's liquid has drained", "practice"));
  }
  stand.in = links(in);
  stand.out = links(out);
  stand.knobs = {first, static_cast<std::uint32_t>(sheet_.nominal.size()) - first};
  unit(stand, origin);
}

// What was worked on apart comes back: a share split off, or what was bloomed, dispersed or hydrated at the last step.
void Compiler::join_arms(std::uint16_t part, std::uint16_t number, Stock& stock) {
  if (stock.arms.empty()) return;
  std::vector<Port> in, ices;
  if (stock.liquid != no_port) in.push_back(stock.liquid);
  if (stock.ice != no_port) ices.push_back(stock.ice);
  for (const Stock& arm : stock.arms) {
    if (arm.liquid != no_port) in.push_back(arm.liquid);
    if (arm.ice != no_port) ices.push_back(arm.ice);
    stock.solids.insert(stock.solids.end(), arm.solids.begin(), arm.solids.end());
    stock.fizzy = stock.fizzy || arm.fizzy;
  }
  stock.arms.clear();
  if (in.empty()) return;
  const Origin origin{part, number, 0};
  Unit mix;
  mix.op = Op::mix;
  mix.liquids_in = static_cast<std::uint16_t>(in.size());
  mix.ices_in = static_cast<std::uint16_t>(ices.size());
  std::vector<Port> out{stock.liquid = port()};
  if (!ices.empty()) {
    mix.outs = outs::ice;
    out.push_back(stock.ice = port());
  }
  in.insert(in.end(), ices.begin(), ices.end());
  mix.in = links(in);
  mix.out = links(out);
  mix.knobs = {knob(1.0, KnobKind::share, origin, "CO2 kept", "practice"), 2};
  knob(0.0, KnobKind::share, origin, "sticks", "practice");
  unit(mix, origin);
}

// All of a part may be given away once: `all` beside any other use, two halves and a bit, two rests.
void Compiler::check_draws() {
  struct Use {
    double shares = 0.0;
    int all_of_it = 0, by_amount = 0, rests = 0;
    base::Span last;
  };
  std::map<std::pair<std::uint16_t, std::uint16_t>, Use> uses;  // of a part's output
  for (const TakeInfo& take : sheet_.takes) {
    if (!take.made || take.maybe) continue;
    Use& use = uses[{*take.made, take.output}];
    switch (take.written.kind) {
      case text::AmountKind::all:
        use.shares += 1.0;
        ++use.all_of_it;
        break;
      case text::AmountKind::half:
        use.shares += 0.5;
        break;
      case text::AmountKind::rest:
        ++use.rests;
        break;
      default:
        ++use.by_amount;
        break;
    }
    use.last = take.span;
  }
  for (const auto& [from, use] : uses) {
    const auto [part, output] = from;
    const PartInfo& info = sheet_.parts[part];
    const std::string name = info.outputs.empty() ? info.name : info.name + "/" + info.outputs[output].name;
    const bool too_much = use.shares > 1.0 + 1e-9 || (use.all_of_it > 0 && use.by_amount + use.rests > 0);
    if (too_much)
      fault("more_than_all", use.last, "more than all of '" + name + "' is used", "let one user take `all`, or give each an amount, `half` or `rest`");
    else if (use.rests > 1)
      fault("more_than_all", use.last, "the rest of '" + name + "' is taken twice", "only one user can take `rest`");
  }
}

Slice Compiler::links(const std::vector<Port>& ports) {
  const Slice slice{static_cast<std::uint32_t>(sheet_.links.size()), static_cast<std::uint32_t>(ports.size())};
  sheet_.links.insert(sheet_.links.end(), ports.begin(), ports.end());
  return slice;
}

std::uint32_t Compiler::knob(double nominal, KnobKind kind, Origin origin, const char* what, const char* source, std::optional<text::Range> range) {
  sheet_.nominal.push_back(nominal);
  sheet_.knobs.push_back({kind, origin, what, source, range && range->is_band() ? range : std::nullopt});
  return static_cast<std::uint32_t>(sheet_.nominal.size() - 1);
}

void Compiler::unit(Unit unit, Origin origin) {
  sheet_.units.push_back(unit);
  sheet_.unit_origin.push_back(origin);
}

void Compiler::lose(Fate fate, Port port, Origin origin) { sheet_.losses.push_back({origin, fate, port}); }

void Compiler::fault(std::string code, base::Span span, std::string message, std::string hint) {
  faults_.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
}

void Compiler::mark(base::Code code, Origin origin, base::Span span, std::string about, double value, double limit) {
  sheet_.marks.push_back({code, origin, span, std::move(about), value, limit});
}

}  // namespace bloomset::flow
