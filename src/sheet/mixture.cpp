#include "sheet/mixture.hpp"

#include <algorithm>
#include <cmath>

#include "flow/compile.hpp"
#include "formula/formula.hpp"
#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "sheet/readings.hpp"
#include "text/units.hpp"

namespace bloomset::sheet {
namespace {

using matter::Component;
using matter::Property;

constexpr std::string_view plus = " + ";
constexpr double reached_within_k = 0.05;  // what a kitchen thermometer shows as the same

void fault(text::Faults& faults, base::Span span, std::string code, std::string message, std::string hint) {
  faults.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
}

// A bare cup, pint, spoon or ounce of volume is as large as the document says, and a mixture has no document.
bool needs_a_system(const text::Amount& amount) {
  const text::Unit* unit = text::unit_named(amount.unit, text::Measures::metric);
  return unit != nullptr && unit->measures.has_value();
}

// Mass of a take [kg]; nothing, with a fault, where the amount says no mass.
std::optional<double> mass_kg(const formula::Take& take, const larder::Thing& thing, text::Faults& faults) {
  const double amount = take.amount.value.nominal();
  if (needs_a_system(take.amount)) {
    fault(faults, take.amount.span, "which_measure", "`" + take.amount.unit + "` differs from land to land, and nothing here says which is meant",
          "give millilitres or grams");
    return std::nullopt;
  }
  switch (take.amount.kind) {
    case text::AmountKind::mass:
      return amount;
    case text::AmountKind::volume:
      return amount * thing.density_20c.si;
    case text::AmountKind::pieces:
      if (thing.piece) return amount * thing.piece->si;
      fault(faults, take.amount.span, "no_piece_mass", "the larder knows no mass of one piece of `" + thing.name + "`", "give grams or millilitres");
      return std::nullopt;
    default:
      fault(faults, take.amount.span, "amount_needed", "a mixture is made of masses, volumes and pieces", "write for instance `40 g ethanol + 60 g water`");
      return std::nullopt;
  }
}

std::optional<larder::Thing> thing_of(const formula::Take& take, const larder::Larder& larder, text::Faults& faults) {
  if (take.kind == formula::ThingKind::made) {
    fault(faults, take.thing_span, "bought_only", "'" + take.thing + "' is a made part; a mixture knows bought things only",
          "take the quotes away, or write a formula");
    return std::nullopt;
  }
  auto thing = larder.resolve(take.thing, flow::bracket_of(take), take.thing_span);
  if (!thing) {
    faults.insert(faults.end(), thing.error().diagnostics.begin(), thing.error().diagnostics.end());
    if (thing.error().diagnostics.empty()) fault(faults, take.thing_span, "unknown_thing", thing.error().message, "");
    return std::nullopt;
  }
  if (thing->is_ice()) {
    fault(faults, take.thing_span, "no_ice_here", "ice is no part of a mixture", "`chill` takes it as --ice");
    return std::nullopt;
  }
  return std::move(*thing);
}

void add(Mixture& mixture, const larder::Thing& thing, double kg, bool by_volume) {
  mixture.masses += thing.per_kg * kg;
  mixture.lines.push_back({thing.label, kg * 1e3});
  mixture.poured += units::volume(units::kilograms(kg), thing.density_20c);
  if (thing.live_enzyme) mixture.live_enzymes.push_back(thing.label);
  std::vector<std::string> assumed;
  for (const std::string& one : thing.assumptions) assumed.push_back(thing.name + ": " + one);
  const bool pours = thing.density_measured || thing.per_kg[Component::water] + thing.per_kg[Component::ethanol] + thing.per_kg[Component::glycerol] > 0.1;
  if (by_volume && !pours) assumed.push_back(thing.name + ": its volume is taken without the air between the grains; weigh it");
  for (std::string& one : assumed)
    if (std::find(mixture.assumptions.begin(), mixture.assumptions.end(), one) == mixture.assumptions.end()) mixture.assumptions.push_back(std::move(one));
}

void add_notes(const Mixture& mixture, const matter::State& state, const matter::Values& values, std::vector<base::Finding>& findings) {
  for (const std::string& one : mixture.assumptions) findings.push_back(say(base::Code::assumption, {}, one));
  const auto bits = matter::range_notes(state);
  for (std::size_t b = 0; b < range_words().size(); ++b) {
    if (!bits.test(b)) continue;
    base::Where where;
    where.property = range_words()[b].property;
    findings.push_back(because(range_words()[b].why, say(base::Code::range_left, std::move(where), range_words()[b].says)));
  }
  for (std::size_t i = 0; i < matter::property_count; ++i) {
    const auto property = static_cast<Property>(i);
    if (!std::isnan(values[property])) continue;
    base::Where where;
    where.property = matter::key(property);
    findings.push_back(say(base::Code::value_missing, std::move(where), "the " + std::string(label(property)) + " cannot be given"));
  }
  tidy(findings);
}

matter::State in_equilibrium(const matter::Composition& masses, units::Temperature at) {
  matter::State state;
  state.liquid = masses;
  state.enthalpy_j = matter::equilibrium_enthalpy_j(masses, units::in_celsius(at));
  return state;
}

matter::IceOutcome meet_ice(const matter::IceContact& contact, const Chilling& how) {
  if (how.to) return matter::melt_to(contact, units::in_celsius(*how.to));
  if (how.time) return matter::melt_for(contact, how.time->si, how.time_constant.si);
  return matter::melt_to_equilibrium(contact);
}

}  // namespace

base::Result<Mixture> read_mixture(std::uint32_t source, const base::Sources& sources, const larder::Larder& larder) {
  const std::string_view text = sources.text(source);
  text::Faults faults;
  Mixture mixture;
  for (std::size_t from = 0;;) {
    const std::size_t end = std::min(text.find(plus, from), text.size());
    const base::Span span{source, 1, static_cast<std::uint32_t>(from + 1), static_cast<std::uint32_t>(end - from)};
    if (const auto take = formula::read_take(text.substr(from, end - from), span, text::Measures::metric, faults)) {
      const auto thing = thing_of(*take, larder, faults);
      const auto kg = thing ? mass_kg(*take, *thing, faults) : std::nullopt;
      if (kg) add(mixture, *thing, *kg, take->amount.kind == text::AmountKind::volume);
    }
    if (end == text.size()) break;
    from = end + plus.size();
  }
  if (faults.empty() && !(mixture.masses.total_kg() > 0.0))
    fault(faults, {source, 1, 1, static_cast<std::uint32_t>(text.size())}, "nothing_there", "this mixture weighs nothing",
          "give at least one amount above zero");
  if (!faults.empty()) return base::fail(base::ErrorKind::bad_input, "the mixture cannot be read", std::move(faults));
  return mixture;
}

MixtureSheet mix(const Mixture& mixture, units::Temperature at) {
  MixtureSheet sheet;
  sheet.mixture = mixture;
  const matter::State state = in_equilibrium(mixture.masses, at);
  sheet.values = matter::read_all(state);
  add_notes(mixture, state, sheet.values, sheet.findings);
  return sheet;
}

ChillSheet chill(const Mixture& mixture, const Chilling& how) {
  ChillSheet sheet;
  sheet.mixture = mixture;
  if (how.to) sheet.asked_c = units::in_celsius(*how.to);
  const matter::State start = in_equilibrium(mixture.masses, how.at);
  sheet.before = matter::read_all(start);

  matter::IceContact contact;
  contact.liquid = mixture.masses;
  contact.liquid_enthalpy_j = start.enthalpy_j;
  contact.ice_kg = how.ice.si - how.surface_water.si;
  contact.surface_water_kg = how.surface_water.si;
  contact.ice_c = units::in_celsius(how.ice_at);
  contact.vessel_j_k = how.vessel.si;
  contact.vessel_c = units::in_celsius(how.vessel_at);
  contact.leftover = how.leftover;
  const matter::IceOutcome outcome = meet_ice(contact, how);

  matter::State end;
  end.liquid = outcome.liquid;
  end.enthalpy_j = outcome.liquid_enthalpy_j;
  end.floating_ice_kg = outcome.ice_left_kg;
  sheet.values = matter::read_all(end);
  sheet.melted_g = outcome.melted_kg * 1e3;
  sheet.ice_left_g = outcome.ice_left_kg * 1e3;
  sheet.dilution_percent_of_initial_mass = outcome.melted_kg / mixture.masses.total_kg() * 100.0;
  const double water_m3 = outcome.melted_kg / matter::water_density(units::celsius(20.0)).si;
  sheet.dilution_percent_of_initial_volume = water_m3 / matter::liquid_volume(mixture.masses, units::celsius(20.0)).si * 100.0;
  if (outcome.ice_gone) sheet.findings.push_back(say(base::Code::ice_gone, {}, "the mixture", outcome.t_c));
  if (how.to && outcome.t_c > units::in_celsius(*how.to) + reached_within_k) {
    base::Where where;
    where.property = matter::key(Property::temperature_c);
    sheet.findings.push_back(
        because("heat balance: there is too little ice, or it is not cold enough",
                say(base::Code::range_left, std::move(where), "this ice cannot make the mixture that cold: it ends at " + shown(outcome.t_c) + " C")));
    sheet.findings.back().weight = base::Weight::mind;
  }
  add_notes(mixture, end, sheet.values, sheet.findings);
  return sheet;
}

}  // namespace bloomset::sheet
