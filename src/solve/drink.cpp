#include "solve/drink.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "solve/normal.hpp"

namespace bloomset::solve {
namespace {

using matter::Property;

constexpr std::array<Property, 11> read_properties = {Property::mass_g,        Property::volume_ml,
                                                      Property::ice_g,         Property::temperature_c,
                                                      Property::abv_percent,   Property::brix_percent,
                                                      Property::sugar_percent, Property::sweetness_percent_sucrose,
                                                      Property::ph_25c,        Property::titratable_acidity_g_100g_citric,
                                                      Property::co2_volumes};
constexpr double below_the_cut = 3.167124183311992e-5;  // Phi(-4)

matter::PropertySet asked() {
  matter::PropertySet set;
  for (const Property p : read_properties) set.set(static_cast<std::size_t>(p));
  return set;
}

std::vector<std::uint32_t> both(const std::vector<std::uint32_t>& a, const std::vector<std::uint32_t>& b) {
  std::vector<std::uint32_t> out;
  std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(out));
  return out;
}

std::vector<std::uint32_t> common(const std::vector<std::uint32_t>& a, const std::vector<std::uint32_t>& b) {
  std::vector<std::uint32_t> out;
  std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(out));
  return out;
}

std::vector<Group> groups_of(const flow::Flowsheet& flow) {
  std::vector<Group> groups;
  for (std::uint32_t v = 0; v < flow.variation.size(); ++v) {
    const std::string& words = flow.variation[v].cause;
    auto at = std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.words == words; });
    if (at == groups.end()) at = groups.insert(groups.end(), Group{words, {}});
    at->variations.push_back(v);
  }
  for (std::size_t ground = 0; ground < flow::ground_count; ++ground) {
    Group group;
    for (std::uint32_t v = 0; v < flow.variation.size(); ++v)
      if (static_cast<std::size_t>(flow.variation[v].ground) == ground) group.variations.push_back(v);
    groups.push_back(std::move(group));
  }
  return groups;
}

std::vector<Place> places_of(const flow::Flowsheet& flow) {
  std::vector<Place> places;
  if (flow.has_serve && flow.served_liquid != flow::no_port) {
    places.push_back({"serve", flow.served_liquid, flow.served_ice, {}});
    if (!flow.foams.empty()) places.push_back({"merged", flow.moments.front().liquid, flow.moments.front().ice, flow.moments.front().foams});
  }
  std::vector<Place> parts;
  for (std::size_t p = 0; p + (flow.has_serve ? 1 : 0) < flow.parts.size(); ++p)
    if (flow.parts[p].liquid != flow::no_port) parts.push_back({"'" + flow.parts[p].name + "'", flow.parts[p].liquid, flow.parts[p].ice, {}});
  if (places.empty()) std::reverse(parts.begin(), parts.end());  // the last part is what it all leads to
  places.insert(places.end(), parts.begin(), parts.end());
  return places;
}

}  // namespace

double deviations(double u) { return normal_quantile(below_the_cut + u * (1.0 - 2.0 * below_the_cut)); }

double at_deviations(const flow::Variation& v, double nominal, double z) {
  return std::clamp(v.law == flow::Law::lognormal ? nominal * std::exp(v.width * z) : nominal + v.width * z, v.low, v.high);
}

class DrinkWorker final : public Worker {
 public:
  explicit DrinkWorker(const Drink& drink)
      : drink_(drink),
        flow_(drink.flow_),
        batch_(flow_),
        knobs_(flow_.nominal.size() * lanes),
        at_a_(flow_.variation.size() * lanes),
        z_(flow_.draws_a_run * lanes),
        asked_(asked()) {
    for (std::size_t k = 0; k < knobs_.size(); ++k) knobs_[k] = flow_.nominal[k / lanes];
  }

  void answer(std::uint64_t, std::span<const double> u, bool brief, std::span<double> out) noexcept override {
    const Drink::Reach& reach = brief ? drink_.brief_ : drink_.all_;
    for (const std::uint32_t d : reach.draws)
      for (std::size_t i = d * lanes; i < (d + 1) * lanes; ++i) z_[i] = deviations(u[i]);
    for (const std::uint32_t v : reach.variations) {
      turn(v, &at_a_[v * lanes]);
      put(v, &at_a_[v * lanes]);
    }
    flow::run_units<lanes>(flow_, knobs_, batch_, reach.units);
    for (std::size_t p = 0; p < (brief ? 1 : drink_.places_.size()); ++p) read(drink_.places_[p], out.subspan(p * read_properties.size() * lanes));
  }

  void swap(std::size_t group, std::span<const double> other, std::span<double> out) noexcept override {
    if (group > 0)
      for (const std::uint32_t v : drink_.groups_[group - 1].variations) put(v, &at_a_[v * lanes]);
    for (const std::uint32_t v : drink_.groups_[group].variations) {
      const std::size_t first = flow_.variation[v].draw * lanes;
      for (std::size_t i = first; i < first + lanes; ++i) z_[i] = deviations(other[i]);
      std::array<double, lanes> at{};
      turn(v, at.data());
      put(v, at.data());
    }
    flow::run_units<lanes>(flow_, knobs_, batch_, drink_.swap_units_[group]);
    read(drink_.places_.front(), out);
  }

 private:
  void turn(std::size_t v, double* at) const {
    const flow::Variation& of = flow_.variation[v];
    for (std::size_t lane = 0; lane < lanes; ++lane) at[lane] = at_deviations(of, flow_.nominal[of.knob], z_[of.draw * lanes + lane]);
  }
  void put(std::size_t v, const double* at) { std::copy_n(at, lanes, &knobs_[flow_.variation[v].knob * lanes]); }
  void read(const Place& place, std::span<double> out) const {
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      matter::State state = flow::state_at(batch_, place.liquid, place.ice, static_cast<int>(lane));
      for (const flow::Port foam : place.foams) {
        state.liquid += batch_.port(foam, static_cast<int>(lane)).mass;
        state.enthalpy_j += batch_.port(foam, static_cast<int>(lane)).enthalpy_j;
      }
      matter::Values values;
      matter::read(state, asked_, values);
      for (std::size_t p = 0; p < read_properties.size(); ++p) out[p * lanes + lane] = values[read_properties[p]];
    }
  }

  const Drink& drink_;
  const flow::Flowsheet& flow_;
  flow::Batch<lanes> batch_;
  std::vector<double> knobs_, at_a_, z_;
  matter::PropertySet asked_;
};

std::span<const Property> Drink::properties() { return read_properties; }

Drink::Drink(const flow::Flowsheet& flow) : flow_(flow), places_(places_of(flow)), groups_(solve::groups_of(flow)) {
  numbers = flow.draws_a_run;
  answers = places_.size() * read_properties.size();
  brief = read_properties.size();
  groups = groups_.size();
  if (places_.empty()) return;
  const std::array<flow::Port, 2> ports = {places_.front().liquid, places_.front().ice};
  brief_ = reach_of(flow::units_before(flow, ports));
  std::vector<std::uint32_t> to_service(flow.units_to_service);
  std::iota(to_service.begin(), to_service.end(), 0U);
  all_ = reach_of(std::move(to_service));
  std::vector<std::uint32_t> before;
  for (const Group& group : groups_) {
    std::vector<std::uint32_t> knobs;
    for (const std::uint32_t v : group.variations) knobs.push_back(flow.variation[v].knob);
    const auto changed = common(flow::units_after(flow, knobs), brief_.units);
    swap_units_.push_back(both(before, changed));
    before = changed;
  }
}

Drink::Reach Drink::reach_of(std::vector<std::uint32_t> units) const {
  Reach reach{std::move(units), {}, {}};
  for (std::uint32_t v = 0; v < flow_.variation.size(); ++v) {
    const std::uint32_t knob = flow_.variation[v].knob;
    if (!common(flow::units_after(flow_, std::span(&knob, 1)), reach.units).empty()) reach.variations.push_back(v);
  }
  for (const std::uint32_t v : reach.variations) reach.draws.push_back(flow_.variation[v].draw);
  std::sort(reach.draws.begin(), reach.draws.end());
  reach.draws.erase(std::unique(reach.draws.begin(), reach.draws.end()), reach.draws.end());
  return reach;
}

std::unique_ptr<Worker> Drink::worker() const { return std::make_unique<DrinkWorker>(*this); }

}  // namespace bloomset::solve
