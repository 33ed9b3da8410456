// sheet/serve.cpp - the glass: what is in it half a minute after the last pour, what room is left, whom it must not surprise.
//
// Headroom is brim - liquid - foam - what the ice displaces, at the fullest moment: after any pour, at service, or later.
// Floating ice displaces its own mass of the liquid; it never takes more room than it has itself. Fruit, leaves and the
// like in the drink are taken as sunk, at the density of water, at every moment: a larder's density of a leaf or a powder
// is one of the heap, with air in it, and says nothing of what it displaces. What is on the rim takes no room.
#include <algorithm>
#include <cmath>
#include <set>

#include "flow/foam.hpp"
#include "matter/density.hpp"
#include "sheet/ratio.hpp"
#include "sheet/standard_drinks.hpp"

namespace bloomset::sheet {

using matter::Property;

namespace {
constexpr double fruit_g_ml = 1.0;  // fruit is mostly water: practice

// Solids that were poured or built in; a garnish and a rim lie on the glass.
double solids_in_the_drink_kg(const Kitchen& k, std::size_t serve) {
  const auto in_the_drink = [&](const flow::Origin& at) {
    if (at.part != serve) return false;
    for (const flow::StepInfo& step : k.flow.steps)
      if (step.origin.part == at.part && step.origin.step == at.step) return step.act != formula::Act::garnish && step.act != formula::Act::rim;
    return false;
  };
  double kg = 0.0;
  for (std::size_t t = 0; t < k.flow.takes.size(); ++t) {
    const flow::TakeInfo& take = k.flow.takes[t];
    if (take.thing && take.solid != flow::no_port && k.book.takes[t].there && in_the_drink(take.origin)) kg += k.batch.port(take.solid).mass.total_kg();
  }
  for (const flow::DrawInfo& draw : k.flow.draws)
    if (in_the_drink(draw.origin))
      for (const flow::Port solid : draw.solids) kg += k.batch.port(solid).mass.total_kg();
  return kg;
}
}  // namespace

std::vector<std::string> allergens(const Kitchen& k) {
  std::set<std::string> codes;
  for (const flow::TakeInfo& take : k.flow.takes) {
    if (!take.thing || !k.book.parts[take.origin.part].in_use) continue;
    const larder::Thing& thing = k.flow.things[*take.thing];
    codes.insert(thing.allergens.begin(), thing.allergens.end());
  }
  std::vector<std::string> out;
  for (const std::string& code : codes)
    if (code.front() != '?' || !codes.contains(code.substr(1))) out.push_back(code);
  return out;
}

namespace {

double foam_ml(const Kitchen& k, const flow::Moment& moment, const std::vector<double>& overruns) {
  double ml = 0.0;
  for (std::size_t i = 0; i < moment.foams.size(); ++i) {
    const flow::Stream& foam = k.batch.port(moment.foams[i]);
    if (!(foam.mass.total_kg() > 0.0)) continue;
    ml += units::in_millilitres(matter::liquid_volume(foam.mass, units::celsius(stream_celsius(foam)))) * (1.0 + overruns[i]);
  }
  return ml;
}

std::vector<double> standing_overruns(const Kitchen& k) {
  std::vector<double> overruns;
  for (const flow::FoamInfo& foam : k.flow.foams) overruns.push_back(flow::standing_overrun(k.flow, k.batch, foam.from));
  return overruns;
}

// What a drink and its ice take up; NaN where no drink is there.
double drink_ml(const Kitchen& k, flow::Port liquid, flow::Port ice) {
  static const matter::PropertySet asked = [] {
    matter::PropertySet set;
    for (const Property property : {Property::ice_g, Property::density_kg_m3, Property::volume_ml}) set.set(static_cast<std::size_t>(property));
    return set;
  }();
  const matter::Values drink = values_at(k, liquid, ice, asked);
  const double ice_g = drink[Property::ice_g], density_g_ml = drink[Property::density_kg_m3] * 1e-3;
  const double own_ml = ice_g / (matter::ice_density(units::celsius(0.0)).si * 1e-3);
  return drink[Property::volume_ml] + std::min(ice_g / density_g_ml, own_ml);
}

// The drink at each moment with its foam, and once with all foam collapsed into it.
void glass_over_time(const Kitchen& k, ServeSheet& serve) {
  const std::vector<double> overruns = standing_overruns(k);
  for (const flow::Moment& moment : k.flow.moments) {
    GlassAt at{moment.minute, values_at(k, moment.liquid, moment.ice)};
    at.values.of[static_cast<std::size_t>(Property::foam_volume_ml)] = foam_ml(k, moment, overruns);
    serve.over_time.push_back(at);
  }
  const flow::Moment& service = k.flow.moments.front();
  matter::State merged = flow::state_at(k.batch, service.liquid, service.ice);
  for (const flow::Port foam : service.foams) {
    merged.liquid += k.batch.port(foam).mass;
    merged.enthalpy_j += k.batch.port(foam).enthalpy_j;
  }
  serve.merged = matter::read_all(merged);
  serve.at_service = serve.over_time.front().values;
  serve.over_time.erase(serve.over_time.begin());
}

}  // namespace

double headroom_ml(const Kitchen& k) {
  if (!k.flow.glass) return matter::cannot_be_given;
  const std::size_t p = k.flow.parts.size() - 1;
  double fullest_ml = drink_ml(k, k.flow.served_liquid, k.flow.served_ice);
  const auto fuller = [&](double ml) {
    if (ml > fullest_ml) fullest_ml = ml;
  };
  if (!k.flow.moments.empty()) {
    const std::vector<double> overruns = standing_overruns(k);
    fullest_ml = drink_ml(k, k.flow.moments.front().liquid, k.flow.moments.front().ice) + foam_ml(k, k.flow.moments.front(), overruns);
    for (const flow::Moment& moment : k.flow.moments) fuller(drink_ml(k, moment.liquid, moment.ice) + foam_ml(k, moment, overruns));
  }
  for (const flow::StepInfo& step : k.flow.steps)
    if (step.origin.part == p) fuller(drink_ml(k, step.liquid, step.ice));
  const double beside_g = (k.book.parts[p].asides_kg + k.book.parts[p].solids_kg) * 1e3;
  return units::in_millilitres(k.flow.glass->brim) - fullest_ml - std::min(solids_in_the_drink_kg(k, p) * 1e3, beside_g) / fruit_g_ml;
}

ServeSheet serve_sheet(const Kitchen& k) {
  const std::size_t p = k.flow.parts.size() - 1;
  ServeSheet serve;
  if (k.flow.moments.empty()) {
    serve.at_service = serve.merged = values_at(k, k.flow.served_liquid, k.flow.served_ice);
  } else {
    glass_over_time(k, serve);
  }
  serve.takes = take_lines(k, p);
  serve.ratio = ratio_of(k, p, serve.takes);
  serve.steps = step_lines(k, p);
  serve.losses = loss_lines(k, p);
  serve.beside_g = (k.book.parts[p].asides_kg + k.book.parts[p].solids_kg) * 1e3;
  serve.solids_g = std::min(solids_in_the_drink_kg(k, p) * 1e3, serve.beside_g);
  if (k.flow.glass) {
    serve.vessel = k.flow.glass->name;
    serve.brim_ml = units::in_millilitres(k.flow.glass->brim);
    for (const kit::Outline& at : k.flow.glass->inside) serve.inside_mm.emplace_back(at.height.si * 1e3, at.radius.si * 1e3);
    serve.headroom_ml = headroom_ml(k);
  }
  const double ethanol_g = serve.merged[Property::ethanol_g];
  if (!std::isnan(ethanol_g)) serve.standard_drinks = standard_drinks(ethanol_g);
  serve.ready_after_h = ready_after_h(k)[p];
  serve.allergens = allergens(k);
  const Cost cost = cost_of_serve(k);
  serve.cost = cost.per_serve;
  serve.currency = cost.currency;
  return serve;
}

}  // namespace bloomset::sheet
