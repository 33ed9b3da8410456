#include "flow/vary.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "flow/modes.hpp"
#include "flow/variation.hpp"

namespace bloomset::flow {
namespace {

constexpr double no_end = std::numeric_limits<double>::infinity();
constexpr double band_deviations = 4.0;  // as in data/larder/variability.csv
constexpr double jigger_m3 = 1e-4;       // from here on a jug: the source's own limit
constexpr double room_from_c = 15.0;     // what is stored warmer stands in the room

/// The larder's properties: as the larder calls them, the word of a bracket that states them, the row for a stated one, the cause.
struct Trait {
  std::string_view property, said, said_row;
  const char* what;
  const char* cause;
};
constexpr std::array<Trait, 6> traits = {{{"brix", "brix", "said brix", "departure in Brix", "sugar of the {thing}"},
                                          {"acid", "% acid", "said acid", "departure in acid", "acid of the {thing}"},
                                          {"ph", "pH", "said ph", "departure in pH", "pH of the {thing}"},
                                          {"strength", "", "", "departure in strength", "strength of the {thing}"},
                                          {"mass_a_piece", "", "", "", "size of the {thing}"},
                                          {"wet", "", "", "", "wetness of the {thing}"}}};

// `shake` → `shaking`, `stir` → `stirring`.
std::string gerund(std::string act) {
  for (const std::string_view doubles : {"stir", "set", "cut", "top", "rim", "degas"})
    if (act == doubles) return act + act.back() + "ing";
  if (act.ends_with('e')) act.pop_back();
  return act + "ing";
}

void fill(std::string& words, std::string_view blank, const std::string& with) {
  if (const auto at = words.find(blank); at != std::string::npos) words.replace(at, blank.size(), with);
}

const TakeInfo* take_of(const Flowsheet& sheet, Origin o) {
  for (const TakeInfo& take : sheet.takes)
    if (take.origin == o) return &take;
  return nullptr;
}

const StepInfo* step_of(const Flowsheet& sheet, Origin o) {
  for (const StepInfo& step : sheet.steps)
    if (step.origin.part == o.part && step.origin.step == o.step) return &step;
  return nullptr;
}

std::string amount_by(const Unit& unit, const TakeInfo& take, double nominal) {
  if (unit.op == Op::take_ice) return "amount of ice";
  const auto draw = static_cast<DrawMode>(unit.mode);
  if (unit.op == Op::draw && draw == DrawMode::foam_volume) return "amount as foam";
  const std::string& written = take.written.unit;
  switch (take.written.kind) {
    case text::AmountKind::mass:
      return take.agent ? "amount by fine scale" : "amount by scale";
    case text::AmountKind::volume:
      for (const char* word : {"dash", "drop"})
        if (written.starts_with(word)) return std::string("amount by ") + word;
      for (const char* word : {"tsp", "tbsp", "bar spoon", "cup"})
        if (written.starts_with(word)) return "amount by spoon";
      return nominal < jigger_m3 ? "amount by jigger" : "amount by jug";
    case text::AmountKind::pieces:
      return unit.op == Op::draw ? "amount all" : "amount by piece";
    case text::AmountKind::percent:
    case text::AmountKind::percent_total:
      return "amount by share";
    default:
      return "amount all";
  }
}

std::string temperature_by(const Flowsheet& sheet, const Unit& unit, Origin origin, const Knob& knob, double nominal_c) {
  if (unit.op == Op::take) {
    const std::string_view source = knob.source;
    if (source.empty()) return "temperature as said";
    if (source == "practice") return "temperature of tap water";
    return nominal_c >= room_from_c ? "temperature of the room" : nominal_c >= 0.0 ? "temperature of the fridge" : "temperature of the freezer";
  }
  if (nominal_c >= until_it_boils_c) return "temperature of boiling";
  const StepInfo* step = step_of(sheet, origin);
  return step != nullptr && !step->place.empty() ? "temperature of a place" : "temperature by thermometer";
}

class Varying {
 public:
  Varying(Flowsheet& sheet, const larder::Larder& larder) : sheet_(sheet), larder_(larder) {}

  void all() {
    for (std::size_t u = 0; u < sheet_.units.size(); ++u) {
      const Unit unit = sheet_.units[u];
      const Origin origin = sheet_.unit_origin[u];
      const TakeInfo* take = unit.op == Op::take || unit.op == Op::take_ice || unit.op == Op::draw ? take_of(sheet_, origin) : nullptr;
      if (take != nullptr && take->thing) bought(unit, *take);
      for (std::uint32_t k = unit.knobs.first; k < unit.knobs.first + unit.knobs.count; ++k) number(unit, origin, take, k);
    }
    sheet_.draws_a_run = draws_;
  }

 private:
  // Draws: by what they say where they are shared, else a new one.
  std::uint32_t draw_of(const std::string& key, bool once) {
    if (!once) return draws_++;
    const auto [at, is_new] = shared_.emplace(key, draws_);
    if (is_new) ++draws_;
    return at->second;
  }

  void add(Variation v, bool once) {
    const double nominal = sheet_.nominal[v.knob];
    if (!(v.law == Law::lognormal ? nominal * v.width > 0.0 : v.width > 0.0)) return;
    v.draw = draw_of(v.cause, once);
    sheet_.variation.push_back(std::move(v));
  }

  // Ends that a number cannot pass: no negative amounts, no share over the whole, no ice above 0 C.
  void bound(Variation& v) const {
    const Knob& knob = sheet_.knobs[v.knob];
    v.low = knob.kind == KnobKind::celsius || knob.kind == KnobKind::deviations ? -no_end : 0.0;
    v.high = no_end;
    if (knob.kind == KnobKind::share && sheet_.nominal[v.knob] <= 1.0) v.high = 1.0;
    if (std::string_view(knob.what) == "temperature of the ice") v.high = 0.0;
  }

  void number(const Unit& unit, Origin origin, const TakeInfo* take, std::uint32_t k) {
    if (known(k)) return;
    const Knob& knob = sheet_.knobs[k];
    const double nominal = sheet_.nominal[k];
    const VariationRow* row = variation_row(measured_how(sheet_, unit, origin, k));
    if (row == nullptr || (row->fixed && !knob.range)) return;
    Variation v;
    v.knob = k;
    v.law = row->law;
    v.width = row->relative && row->law == Law::normal ? row->width * std::abs(nominal) : row->width;
    v.ground = row->ground;
    v.source = row->source;
    v.cause = row->cause;
    if (knob.range) {
      v.law = Law::normal;
      v.width = (knob.range->high - knob.range->low) / band_deviations;
      v.ground = Ground::document;
      v.source = "the document";
    }
    if (std::string_view(knob.what) == "CO2 kept" && (unit.outs & outs::gas) == 0) return;  // there is none, or it stays
    if (std::string_view(knob.what) == "end" && static_cast<HeatEnd>(unit.mode) == HeatEnd::temperature) return;
    name(v.cause, origin, take);
    bound(v);
    add(std::move(v), row->once && !knob.range);
  }

  bool known(std::uint32_t k) const {
    return std::any_of(sheet_.variation.begin(), sheet_.variation.end(), [&](const Variation& v) { return v.knob == k; });
  }

  void name(std::string& cause, Origin origin, const TakeInfo* take) const {
    if (take != nullptr) fill(cause, "{thing}", take->made ? "'" + take->label + "'" : take->label);
    const StepInfo* step = step_of(sheet_, origin);
    if (step == nullptr) return;  // a cause of the glass itself, without blanks
    fill(cause, "{act}", gerund(std::string(formula::name(step->act))));
    fill(cause, "{place}", step->place);
    fill(cause, "{vessel}", step->vessel);
  }

  // What the larder says of a thing: matter gets a knob of its own; the mass of a piece and the water on ice have one already.
  void bought(const Unit& unit, const TakeInfo& take) {
    const larder::Thing& thing = sheet_.things[*take.thing];
    std::vector<Departure> departures;
    for (const larder::Deviation& of : larder_.deviations(thing)) {
      const auto trait = std::find_if(traits.begin(), traits.end(), [&](const Trait& t) { return t.property == of.property; });
      if (trait == traits.end()) continue;  // Bloom is no matter: no number of a run moves with it
      Variation v;
      v.width = of.width;
      v.ground = ground_of(of.source);
      v.source = of.source;
      v.cause = trait->cause;
      fill(v.cause, "{thing}", take.label);
      if (of.property == "mass_a_piece" && take.written.kind != text::AmountKind::pieces) continue;
      if (of.property == "mass_a_piece") {  // the mean of several pieces scatters less
        v.knob = unit.knobs.first + take_knob::amount;
        v.width *= sheet_.nominal[v.knob] / of.value / std::sqrt(std::max(1.0, take.written.value.nominal()));
      } else if (of.property == "wet") {
        v.knob = unit.knobs.first + take_knob::wet;
        v.width *= 1e-2;
      } else {
        const double told = as_said(thing, *trait, of, v);
        v.knob = departure_knob(take, *trait);
        v.width = 1.0;
        departures.push_back(departure(thing, of, told, v.knob));
      }
      bound(v);
      if (!known(v.knob)) add(std::move(v), of.property != "mass_a_piece");
    }
    Slice& slice = sheet_.stuffs[unit.stuff].departures;
    slice = {static_cast<std::uint32_t>(sheet_.departures.size()), static_cast<std::uint32_t>(departures.size())};
    sheet_.departures.insert(sheet_.departures.end(), departures.begin(), departures.end());
  }

  // A cook who measured a property and wrote it down has its instrument's width, if that is the smaller: the share of the larder's that is left.
  static double as_said(const larder::Thing& thing, const Trait& trait, const larder::Deviation& of, Variation& v) {
    const bool said = !trait.said.empty() && std::any_of(thing.said.begin(), thing.said.end(),
                                                         [&](const larder::Qualifier& q) { return std::string_view(q.name).starts_with(trait.said); });
    const VariationRow* row = said ? variation_row(trait.said_row) : nullptr;
    if (row == nullptr) return 1.0;
    const double width = row->relative ? row->width * of.value : row->width;
    if (width >= of.width) return 1.0;
    v.ground = row->ground;
    v.source = row->source;
    return width / of.width;
  }

  // One bottle, one knob.
  std::uint32_t departure_knob(const TakeInfo& take, const Trait& trait) {
    const auto [at, is_new] = bottles_.emplace(std::pair{take.label, trait.what}, static_cast<std::uint32_t>(sheet_.nominal.size()));
    if (is_new) {
      sheet_.nominal.push_back(0.0);
      sheet_.knobs.push_back({KnobKind::deviations, take.origin, trait.what, "larder", std::nullopt});
    }
    return at->second;
  }

  static Departure departure(const larder::Thing& thing, const larder::Deviation& of, double told, std::uint32_t knob) {
    Departure out;
    out.knob = knob;
    out.per_kg = of.per_kg * told;
    out.density_20c_kg_m3 = of.density_20c * told;
    const matter::HeatCurve above = matter::heat_curve(thing.per_kg + out.per_kg), below = matter::heat_curve(thing.per_kg - out.per_kg);
    for (std::size_t i = 0; i < out.curve.coefficient.size(); ++i) out.curve.coefficient[i] = 0.5 * (above.coefficient[i] - below.coefficient[i]);
    return out;
  }

  Flowsheet& sheet_;
  const larder::Larder& larder_;
  std::uint32_t draws_ = 0;
  std::map<std::string, std::uint32_t> shared_;
  std::map<std::pair<std::string, const char*>, std::uint32_t> bottles_;
};

}  // namespace

std::string measured_how(const Flowsheet& sheet, const Unit& unit, Origin origin, std::uint32_t k) {
  const Knob& knob = sheet.knobs[k];
  const std::string_view what = knob.what;
  if (what == "amount")
    if (const TakeInfo* take = take_of(sheet, origin)) return amount_by(unit, *take, sheet.nominal[k]);
  if (what == "temperature") return temperature_by(sheet, unit, origin, knob, sheet.nominal[k]);
  if (what == "temperature of the ice" && sheet.nominal[k] >= 0.0) return "temperature of wet ice";
  if (what == "time") return std::string_view(knob.source).empty() ? "time as written" : "time by habit";
  if (what == "end") return knob.kind == KnobKind::brix ? "end in brix" : knob.kind == KnobKind::mass_kg ? "end in grams" : "end as a share";
  return std::string(what);
}

void vary(Flowsheet& sheet, const larder::Larder& larder) { Varying(sheet, larder).all(); }

}  // namespace bloomset::flow
