// sheet/streams.cpp - the flow picture: ribbons from takes through steps into the serve, to what stays and what is lost.
//
// Masses are for all serves and whole batches. Places: `take:P.S.T`, `step:P.S`, `serve`, `stays`, `lost`; parts count
// from 1 in the document's order and the serve's pours are steps of the part behind the last. A part that is drawn from
// sends a ribbon from its last step to the step that takes of it; what is taken beyond its batches comes into its last step
// as `take:P.S.0`, a take that the document does not have. The look of a stream is the larder family that most of its mass
// came from; water and ice show only where there is nothing else.
#include <algorithm>
#include <array>

#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

using larder::Family;

// Kilograms by family.
struct Look {
  std::array<double, static_cast<std::size_t>(Family::other) + 1> kg{};
  double total() const {
    double sum = 0.0;
    for (const double m : kg) sum += m;
    return sum;
  }
  void add(const Look& other, double share) {
    for (std::size_t i = 0; i < kg.size(); ++i) kg[i] += other.kg[i] * share;
  }
  std::string name() const {
    std::size_t best = static_cast<std::size_t>(Family::other);
    double most = 0.0;
    const auto plain = [](std::size_t i) { return i == static_cast<std::size_t>(Family::water) || i == static_cast<std::size_t>(Family::ice); };
    for (const bool plain_too : {false, true})
      for (std::size_t i = 0; i < kg.size(); ++i)
        if (plain(i) == plain_too && kg[i] > most && (!plain_too || most == 0.0)) best = i, most = kg[i];
    return std::string(larder::name(static_cast<Family>(best)));
  }
};

std::string take_place(const flow::Origin& at) { return "take:" + std::to_string(at.part + 1) + "." + std::to_string(at.step) + "." + std::to_string(at.take); }
std::string step_place(std::size_t part, std::uint16_t step) { return "step:" + std::to_string(part + 1) + "." + std::to_string(step); }

class Weaver {
 public:
  explicit Weaver(const Kitchen& k) : k_(k), looks_(k.flow.parts.size()), last_step_(k.flow.parts.size(), 0), last_c_(k.flow.parts.size(), 25.0) {}

  std::vector<Ribbon> weave() {
    for (std::size_t s = 0; s < k_.flow.steps.size(); ++s) weave_step(s);
    for (std::size_t p = 0; p < k_.flow.parts.size(); ++p) end_part(p);
    return std::move(ribbons_);
  }

 private:
  void add(const std::string& from, const std::string& to, double kg, double celsius, std::string look, const std::string& as = {}) {
    if (kg > 0.0) ribbons_.push_back({from + ">" + (as.empty() ? to : as), from, to, kg * 1e3, celsius, std::move(look)});
  }

  void weave_step(std::size_t s) {
    const flow::StepInfo& step = k_.flow.steps[s];
    const std::size_t p = step.origin.part;
    const double times = k_.book.parts[p].times;
    const std::string here = step_place(p, step.origin.step);
    Look& look = looks_[p];
    if (last_step_[p] != 0) add(step_place(p, last_step_[p]), here, in_vessel_kg(s) * times, last_c_[p], look.name());
    for (std::size_t t = 0; t < k_.flow.takes.size(); ++t) {
      const flow::TakeInfo& take = k_.flow.takes[t];
      const TakeLedger& entry = k_.book.takes[t];
      if (take.origin.part != p || take.origin.step != step.origin.step || !entry.there) continue;
      Look its;
      if (take.made) {
        const double from_kg = looks_[*take.made].total();
        if (from_kg > 0.0) its.add(looks_[*take.made], entry.kg / from_kg);
        // One part may be taken twice at one step: two ribbons, two names.
        const std::uint16_t from_step = take.output > 0 ? k_.flow.parts[*take.made].outputs[take.output].step : last_step_[*take.made];
        add(step_place(*take.made, from_step), here, entry.kg * times, entry.celsius, its.name(), take_place(take.origin));
      } else {
        its.kg[static_cast<std::size_t>(k_.flow.things[*take.thing].family)] = entry.kg;
        add(take_place(take.origin), here, entry.kg * times, entry.celsius, its.name());
      }
      look.add(its, 1.0);
    }
    const double now_c = celsius_after(step, last_c_[p]);
    weave_losses(step, here, now_c, look.name());
    const double kept = look.total() > 0.0 ? k_.book.steps[s].kg / look.total() : 0.0;
    for (double& kg : look.kg) kg *= kept;
    last_step_[p] = step.origin.step;
    last_c_[p] = now_c;
  }

  // What was in the vessel before this step.
  double in_vessel_kg(std::size_t s) const { return k_.book.steps[s].kg - k_.book.steps[s].came_kg + k_.book.steps[s].left_kg; }

  double celsius_after(const flow::StepInfo& step, double before_c) const {
    if (step.liquid != flow::no_port) return stream_celsius(k_.batch.port(step.liquid));
    if (step.ice != flow::no_port) return stream_celsius(k_.batch.port(step.ice));
    return before_c;
  }

  // One ribbon a destination: the picture sums what leaves a bar.
  void weave_losses(const flow::StepInfo& step, const std::string& here, double now_c, const std::string& look) {
    double lost_kg = 0.0, stays_kg = 0.0, stays_c = now_c;
    bool only_ice = true;
    for (std::size_t l = 0; l < k_.flow.losses.size(); ++l) {
      const flow::LossInfo& loss = k_.flow.losses[l];
      if (loss.origin.part != step.origin.part || loss.origin.step != step.origin.step) continue;
      const double kg = k_.book.losses_kg[l];
      if (loss.fate != flow::Fate::stays) {
        lost_kg += kg;
        continue;
      }
      stays_kg += kg;
      const flow::Stream& stream = k_.batch.port(loss.port);
      stays_c = kg > 0.0 ? stream_celsius(stream) : stays_c;
      only_ice = only_ice && stream.enthalpy_j < stream.mass.total_kg() * melted_ice_j_kg;
    }
    const double times = k_.book.parts[step.origin.part].times;
    add(here, "stays", stays_kg * times, stays_c, only_ice ? "ice" : look);
    add(here, "lost", lost_kg * times, now_c, look);
  }

  void end_part(std::size_t p) {
    if (last_step_[p] == 0) return;
    const std::string last = step_place(p, last_step_[p]);
    // Taken of what was parted beyond what was there comes into that step; where it is the last one, with what else is short.
    const double short_kg = k_.book.parts[p].short_of_outputs_kg;
    if (short_kg > 0.0) {
      const std::uint16_t step = k_.flow.parts[p].outputs.back().step;
      const double last_short_kg = step == last_step_[p] ? std::max(-k_.book.parts[p].left_kg(), 0.0) : 0.0;
      add(take_place({static_cast<std::uint16_t>(p), step, 0}), step_place(p, step), short_kg + last_short_kg, last_c_[p], looks_[p].name());
      if (last_short_kg > 0.0) return;
    }
    if (k_.is_serve(p))
      add(last, "serve", k_.book.parts[p].finished_kg * k_.book.parts[p].times,
          k_.flow.served_liquid != flow::no_port ? stream_celsius(k_.batch.port(k_.flow.served_liquid)) : last_c_[p], looks_[p].name());
    else if (const double left_kg = k_.book.parts[p].left_kg(); left_kg > 1e-9)
      add(last, "stays", left_kg, last_c_[p], looks_[p].name(), "left over");
    else if (left_kg < -1e-9)
      add(take_place({static_cast<std::uint16_t>(p), last_step_[p], 0}), last, -left_kg, last_c_[p], looks_[p].name());
  }

  static constexpr double melted_ice_j_kg = -300e3;  // ice lies near -440 kJ/kg, cold water above -150 kJ/kg (zero: water at 25 C)

  const Kitchen& k_;
  std::vector<Ribbon> ribbons_;
  std::vector<Look> looks_;
  std::vector<std::uint16_t> last_step_;
  std::vector<double> last_c_;
};

}  // namespace

std::vector<Ribbon> ribbons(const Kitchen& k) { return Weaver(k).weave(); }

}  // namespace bloomset::sheet
