#include "sheet/batching.hpp"

#include <algorithm>
#include <cmath>

#include "flow/compile.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "sheet/readings.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::sheet {
namespace {

using formula::Act;
using matter::Component;
using text::AmountKind;

constexpr double hold_s = 12.0 * 3600.0;  // over night, so that all of it is cold: practice

base::Error refused(std::string code, base::Span span, std::string message, std::string hint) {
  return {base::ErrorKind::bad_input,
          "the part cannot be bottled like that",
          {{base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)}}};
}

bool can_be_bottled(Act act) {
  for (const Act one : {Act::combine, Act::dissolve, Act::dilute, Act::pour, Act::shake, Act::dry_shake, Act::stir, Act::strain, Act::roll})
    if (act == one) return true;
  return false;
}

double but_water(const matter::Composition& mass) { return mass.total_kg() - mass[Component::water]; }

// By its text, so that the amount computed with is the one that will be read.
text::Amount measured(double number, int digits, const std::string& unit, text::Measures measures) {
  const std::string written = text::print_number(number, digits) + " " + unit;
  text::Faults faults;
  text::Cursor cursor{written, {}};
  return text::read_amount(cursor, measures, faults).value_or(text::Amount{});
}

text::Amount grams(double kg) { return measured(std::round(kg * 1e4) / 10.0, 9, "g", text::Measures::metric); }

// An amount of one serve, for all of them; what is no measure of its own becomes grams.
text::Amount for_all(const text::Amount& written, double kg, int serves, text::Measures measures) {
  if (written.kind == AmountKind::pieces) return measured(written.value.nominal() * serves, 9, written.unit, measures);
  const text::Unit* unit = text::unit_named(written.unit, measures);
  if (unit == nullptr || (written.kind != AmountKind::mass && written.kind != AmountKind::volume)) return grams(kg * serves);
  return measured(written.value.nominal() * serves * static_cast<double>(unit->denominator) / static_cast<double>(unit->numerator), 9, written.unit, measures);
}

base::Result<std::size_t> part_asked(const BatchAsked& asked) {
  std::vector<std::string> names;
  for (std::size_t p = 0; p < asked.in.formula.parts.size(); ++p) {
    const formula::Part& part = asked.in.formula.parts[p];
    if (text::fold(part.name) != text::fold(asked.part)) {
      names.push_back(part.name);
      continue;
    }
    if (part.made == formula::Made::ahead)
      return tl::unexpected(
          refused("made_ahead", asked.part_span, "'" + part.name + "' is made ahead already: it is a batch", "`sheet --serves` makes it larger"));
    if (part.source != asked.in.formula.source)
      return tl::unexpected(refused("borrowed", asked.part_span, "'" + part.name + "' is borrowed from another file", "ask of that file"));
    for (const formula::Step& step : part.steps)
      if (!can_be_bottled(step.act))
        return tl::unexpected(refused("cannot_be_bottled", asked.part_span,
                                      "'" + part.name + "' has the act `" + std::string(formula::name(step.act)) + "`, which no bottle can stand for",
                                      "parts that are combined, shaken, stirred and strained can be bottled"));
    return p;
  }
  const std::string near = base::nearest(asked.part, names);
  return tl::unexpected(refused("unknown_part", asked.part_span, "no part is called '" + asked.part + "'", near.empty() ? "" : "did you mean '" + near + "'?"));
}

base::Result<const kit::Place*> place_asked(const BatchAsked& asked) {
  const kit::Place* place = asked.place ? asked.in.kit.place(*asked.place) : asked.in.kit.first_place(kit::PlaceKind::still_fridge);
  if (place != nullptr) return place;
  return tl::unexpected(refused("unknown_place", asked.place_span, "\"" + asked.place.value_or("still fridge") + "\" is not a place of the kit",
                                "nearest known: " + base::nearest(asked.place.value_or(""), asked.in.kit.place_names())));
}

class Bottling {
 public:
  Bottling(const BatchAsked& asked, std::size_t part, const kit::Place& place, flow::Flowsheet&& flow)
      : asked_(asked), p_(part), place_(place), flow_(std::move(flow)), batch_(flow_) {
    flow::run<1>(flow_, flow_.nominal, batch_, flow::Until::service);
    book_ = ledger_of(flow_, batch_);
  }

  base::Result<BatchSheet> make() {
    const matter::Composition& strained = batch_.port(flow_.parts[p_].liquid).mass;
    matter::Composition in;
    for (std::size_t t = 0; t < flow_.takes.size(); ++t)
      if (goes_in(t)) in += batch_.port(flow_.takes[t].liquid).mass;
    if (!(but_water(strained) > 0.0) || !(but_water(in) > 0.0))
      return tl::unexpected(refused("nothing_to_bottle", asked_.part_span, "'" + asked_.part + "' holds nothing but water", ""));
    // What sticks in the tin takes of everything alike.
    const double came_through = but_water(strained) / but_water(in);
    const double water_kg = std::max(0.0, strained[Component::water] / came_through - in[Component::water]);
    matter::Composition one = in;
    one[Component::water] += water_kg;

    BatchSheet out;
    out.title = asked_.in.formula.title;
    out.part = flow_.parts[p_].name;
    out.serves = flow_.serves;
    out.water_per_serve_g = water_kg * 1e3;
    out.pour_g = strained.total_kg() * 1e3;
    out.spare_g = std::max(0.0, (one.total_kg() - strained.total_kg()) * flow_.serves * 1e3);
    hold(out, one, strained.total_kg());
    amounts(out, water_kg);
    const Kitchen kitchen{asked_.in, flow_, batch_, book_};
    out.to_order = values_at(kitchen, flow_.parts[p_].liquid, flow_.parts[p_].ice);
    out.bottled = matter::read_all(matter::State{one, matter::equilibrium_enthalpy_j(one, 20.0)});
    const formula::Formula formula = document(water_kg);
    out.formula = formula::write(formula);
    return checked(std::move(out), formula);
  }

 private:
  // Ice is what the water stands for: the water on it, too.
  bool goes_in(std::size_t t) const {
    const flow::TakeInfo& take = flow_.takes[t];
    const bool ice = take.thing && flow_.things[*take.thing].is_ice();
    return take.origin.part == p_ && book_.takes[t].there && take.liquid != flow::no_port && !ice;
  }

  void hold(BatchSheet& out, const matter::Composition& one, double pour_kg) const {
    out.place = place_.name;
    out.place_c = units::in_celsius(place_.temperature);
    out.first_ice_c = units::in_celsius(matter::freezing_point(one));
    const double water_kg = one[Component::water];
    if (out.place_c < out.first_ice_c) out.ice_share = (water_kg - matter::water_bond(one).liquid_water_kg(out.place_c, water_kg)) / one.total_kg();
    out.volume_20c_ml = units::in_millilitres(matter::liquid_volume(one, units::celsius(20.0))) * flow_.serves;
    out.bottle_ml = units::in_millilitres(asked_.bottle);
    out.bottles = static_cast<int>(std::ceil(out.volume_20c_ml / (out.bottle_ml * (out.ice_share > 0.0 ? fill_of_a_freezing_bottle : 1.0)) - 1e-9));
    const units::Temperature poured_at = out.ice_share > 0.0 ? units::celsius(20.0) : place_.temperature;
    out.pour_ml = units::in_millilitres(matter::liquid_volume(one * (pour_kg / one.total_kg()), poured_at));
  }

  void amounts(BatchSheet& out, double water_kg) const {
    const Kitchen kitchen{asked_.in, flow_, batch_, book_};
    for (const TakeLine& line : take_lines(kitchen, p_))
      if (!line.ice && !line.maybe) out.amounts.push_back({line.thing, line.mass_g * flow_.serves, line.volume_ml * flow_.serves});
    out.amounts.push_back({"water", water_kg * 1e3 * flow_.serves, water_kg * 1e3 * flow_.serves / 0.9982});  // g/mL at 20 C
  }

  double kg_of(const flow::Origin& at) const {
    for (std::size_t t = 0; t < flow_.takes.size(); ++t)
      if (flow_.takes[t].origin == at && flow_.takes[t].written.span.known()) return book_.takes[t].kg;
    return 0.0;
  }

  // The author's document with the part made ahead, and poured by weight wherever it is taken.
  formula::Formula document(double water_kg) const {
    formula::Formula out = asked_.in.formula;
    out.serves = flow_.serves;
    formula::Part& part = out.parts[p_];
    formula::Step combine, rest;
    combine.act = Act::combine;
    for (std::size_t s = 0; s < part.steps.size(); ++s)
      for (std::size_t t = 0; t < part.steps[s].takes.size(); ++t) {
        if (part.steps[s].maybe) continue;
        formula::Take take = part.steps[s].takes[t];
        take.amount = for_all(take.amount, kg_of({static_cast<std::uint16_t>(p_), static_cast<std::uint16_t>(s + 1), static_cast<std::uint16_t>(t + 1)}),
                              flow_.serves, out.measures);
        take.of_mark.clear();
        combine.takes.push_back(std::move(take));
      }
    if (water_kg > 0.0) {
      formula::Take water;
      water.amount = grams(water_kg * flow_.serves);
      water.thing = "water";
      combine.takes.push_back(std::move(water));
    }
    rest.act = place_.kind == kit::PlaceKind::freezer ? Act::freeze : Act::rest;
    rest.in = formula::Word{place_.name, {}};
    rest.time_s = text::Range{hold_s, hold_s};
    part.made = formula::Made::ahead;
    part.makes.reset();
    part.steps = {std::move(combine), std::move(rest)};
    const auto pour_by_weight = [&](formula::Step& step, std::size_t p, std::size_t s) {
      for (std::size_t t = 0; t < step.takes.size(); ++t) {
        formula::Take& take = step.takes[t];
        if (take.kind != formula::ThingKind::made || text::fold(take.thing) != text::fold(part.name)) continue;
        take.amount = grams(kg_of({static_cast<std::uint16_t>(p), static_cast<std::uint16_t>(s + 1), static_cast<std::uint16_t>(t + 1)}));
      }
    };
    for (std::size_t p = 0; p < out.parts.size(); ++p)
      if (p != p_)
        for (std::size_t s = 0; s < out.parts[p].steps.size(); ++s) pour_by_weight(out.parts[p].steps[s], p, s);
    if (out.serve)
      for (std::size_t s = 0; s < out.serve->pours.size(); ++s) pour_by_weight(out.serve->pours[s], flow_.parts.size() - 1, s);
    return out;
  }

  // What the new document has to say of itself.
  base::Result<BatchSheet> checked(BatchSheet out, const formula::Formula& formula) const {
    auto sheet = make_sheet({formula, asked_.in.larder, asked_.in.kit, std::nullopt, out.formula});
    if (!sheet) return tl::unexpected(std::move(sheet.error()));
    out.findings = std::move(sheet->findings);
    for (base::Finding& finding : out.findings) finding.where.span = {};  // no text of it stands in a file yet
    out.stop = std::any_of(out.findings.begin(), out.findings.end(), [](const base::Finding& f) { return f.weight == base::Weight::stop; });
    base::Where at;
    at.part = out.part;
    if (out.spare_g > 0.5)
      out.findings.push_back(because(
          "a bottle has no tin to stick to",
          say(base::Code::assumption, at, "the batch holds " + shown(out.spare_g) + " g more than the serves take: what would have stuck in the tins")));
    if (out.ice_share > 0.0)
      out.findings.push_back(because("ice takes 9 % more room than its water",
                                     say(base::Code::assumption, at,
                                         "in the " + out.place + " " + shown(100.0 * out.ice_share) +
                                             " % of it stands as ice: shake the bottle before pouring; bottles are counted as filled to nine tenths")));
    return out;
  }

  const BatchAsked& asked_;
  std::size_t p_;
  const kit::Place& place_;
  flow::Flowsheet flow_;
  flow::Batch<1> batch_;
  Ledger book_;
};

}  // namespace

base::Result<BatchSheet> batch(const BatchAsked& asked) {
  const auto part = part_asked(asked);
  if (!part) return tl::unexpected(part.error());
  const auto place = place_asked(asked);
  if (!place) return tl::unexpected(place.error());
  auto flow = flow::compile(asked.in.formula, asked.in.larder, asked.in.kit, asked.in.serves);
  if (!flow) return tl::unexpected(std::move(flow.error()));
  return Bottling(asked, *part, **place, std::move(*flow)).make();
}

}  // namespace bloomset::sheet
