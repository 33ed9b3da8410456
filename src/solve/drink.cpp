#include "solve/drink.hpp"

#include <algorithm>
#include <numeric>

#include "matter/elementary.hpp"
#include "solve/normal.hpp"

namespace bloomset::solve {
namespace {

using matter::Lanes;
using matter::Property;
static_assert(lanes == matter::lane_count);

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

template <class Real>
Real cut(const Real& u) {
  return below_the_cut + u * (1.0 - 2.0 * below_the_cut);
}

template <class Real>
Real stands_at(const flow::Variation& v, double nominal, const Real& z) {
  return matter::clamp(v.law == flow::Law::lognormal ? nominal * matter::exp(v.width * z) : nominal + v.width * z, v.low, v.high);
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

double deviations(double u) { return drawn_normal(cut(u)); }
Lanes deviations(const Lanes& u) { return drawn_normal(cut(u)); }
double at_deviations(const flow::Variation& v, double nominal, double z) { return stands_at(v, nominal, z); }
Lanes at_deviations(const flow::Variation& v, double nominal, const Lanes& z) { return stands_at(v, nominal, z); }

class DrinkWorker final : public Worker {
 public:
  explicit DrinkWorker(const Drink& drink)
      : drink_(drink),
        flow_(drink.flow_),
        batch_(flow_),
        knobs_(flow_.nominal.size() * lanes),
        at_a_(flow_.variation.size()),
        z_(flow_.draws_a_run),
        asked_(asked()) {
    for (std::size_t k = 0; k < knobs_.size(); ++k) knobs_[k] = flow_.nominal[k / lanes];
  }

  void answer(std::uint64_t, std::span<const double> u, bool brief, std::span<double> out) noexcept override {
    const Drink::Reach& reach = brief ? drink_.brief_ : drink_.all_;
    for (const std::uint32_t d : reach.draws) z_[d] = deviations(Lanes::at(&u[d * lanes]));
    for (const std::uint32_t v : reach.variations) put(v, at_a_[v] = turned(v));
    flow::run_units<lanes>(flow_, knobs_, batch_, reach.units);
    for (std::size_t p = 0; p < (brief ? 1 : drink_.places_.size()); ++p) read(drink_.places_[p], out.subspan(p * read_properties.size() * lanes));
  }

  void swap(std::size_t group, std::span<const double> other, std::span<double> out) noexcept override {
    if (group > 0)
      for (const std::uint32_t v : drink_.groups_[group - 1].variations) put(v, at_a_[v]);
    for (const std::uint32_t v : drink_.groups_[group].variations) {
      const std::uint32_t d = flow_.variation[v].draw;
      z_[d] = deviations(Lanes::at(&other[d * lanes]));
      put(v, turned(v));
    }
    flow::run_units<lanes>(flow_, knobs_, batch_, drink_.swap_units_[group]);
    read(drink_.places_.front(), out);
  }

 private:
  Lanes turned(std::size_t v) const { return at_deviations(flow_.variation[v], flow_.nominal[flow_.variation[v].knob], z_[flow_.variation[v].draw]); }
  void put(std::size_t v, const Lanes& at) { at.put(&knobs_[flow_.variation[v].knob * lanes]); }
  void read(const Place& place, std::span<double> out) const {
    matter::StateOf<Lanes> state = flow::state_at(batch_, place.liquid, place.ice);
    for (const flow::Port foam : place.foams) {
      state.liquid += batch_.ports[foam].mass;
      state.enthalpy_j += batch_.ports[foam].enthalpy_j;
    }
    matter::ValuesOf<Lanes> values;
    matter::read(state, asked_, values);
    for (std::size_t p = 0; p < read_properties.size(); ++p) values[read_properties[p]].put(&out[p * lanes]);
  }

  const Drink& drink_;
  const flow::Flowsheet& flow_;
  flow::Batch<lanes> batch_;
  std::vector<double> knobs_;
  std::vector<Lanes> at_a_, z_;  // of variations, of draws
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
