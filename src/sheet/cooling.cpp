// sheet/cooling.cpp - how long what is chilled, frozen, rested or set takes to come to the temperature of its place, and whether it has the time.
//
//   dt = dH / (h A (T - T_place)), slice by slice of T (matter/cooling.hpp), dH from the balance with ice: freezing is in it.
// One temperature for batch and vessel; h by the kind of place (data/matter/cooling.csv), in water the standing one for what may gel. The batch counts as a
// cylinder as wide as high, wetted all round, A = 6 pi (V/2 pi)^(2/3) = 5.54 V^(2/3); on a tray as a layer of 20 mm, at best 10; a bottle's steel is left out
// where the kit does not know its heat. So a time holds within about 40 %. A batch never quite comes to its place: it is there within 1 K. Where the text gives
// a time it stands, and a finding says what it does not do even at the quick end of h. Food that calls for control of time and temperature is held against the
// cooling times of the US FDA Food Code, 3-501.14, at the usual h.
#include "matter/cooling.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "matter/density.hpp"
#include "matter/freezing.hpp"
#include "sheet/readings.hpp"
#include "sheet/tcs.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using flow::no_port;
using formula::Act;
using matter::Property;

constexpr double there_within_k = 1.0;                   // practice
constexpr double late_from_k = 2.0;                      // warmer than that: more than a thermometer in a fridge swings (practice)
constexpr double layer_m = 0.020, thin_layer_m = 0.010;  // on a tray, and at best: practice
constexpr double hair_k = 1e-6;
constexpr double never_s = std::numeric_limits<double>::infinity();
// US FDA Food Code 3-501.14: (A) from 57 C to 21 C within 2 h, to 5 C within 6 h in all; (B) from ambient to 5 C within 4 h.
constexpr double hot_c = 57.0, warm_c = 21.0, cold_c = 5.0, first_stage_h = 2.0, in_all_h = 6.0, from_ambient_h = 4.0;
constexpr const char* cooling_rule = "US FDA Food Code, 3-501.14";
// Reheating: US FDA Food Code 3-403.11, all parts to 74 C for 15 s, within 2 h; depth of the pan: Washington Administrative Code 246-215-03515, 2 inches.
constexpr const char* start_again = "before the limit is over reheat it to 74 C and start again, in an ice bath and in pans of 5 cm at most";
constexpr double no_class_from_percent = 20.0;  // the tables of pH and water activity do not know spirit: rules.cpp

bool cools(Act act) { return act == Act::chill || act == Act::freeze || act == Act::rest || act == Act::set; }

const formula::Step& written(const Kitchen& k, const flow::Origin& at) {
  return (k.is_serve(at.part) ? k.in.formula.serve->pours : k.in.formula.parts[at.part].steps)[at.step - 1U];
}

/// A batch in its place.
struct Batch {
  matter::Composition mass;
  double vessel_j_k = 0.0, area_m2 = 0.0, around_c = 0.0;
  matter::Film film{};
  std::string place;

  /// Seconds from one temperature to another; never where the place does not lead there.
  double seconds(double from_c, double to_c, double h_w_m2_k) const {
    double sum = 0.0;
    walk(from_c, to_c, h_w_m2_k, [&](double slice_s, const matter::Cooling&, double) {
      sum += slice_s;
      return true;
    });
    return sum;
  }
  /// Where it stands after some seconds.
  double after(double from_c, double seconds_, double h_w_m2_k) const {
    const double end_c = around_c + std::copysign(0.01, from_c - around_c);
    if (std::abs(from_c - around_c) <= 0.01) return from_c;
    double left_s = seconds_, at_c = end_c;
    walk(from_c, end_c, h_w_m2_k, [&](double slice_s, const matter::Cooling& slice, double slice_from_c) {
      if (slice_s > left_s) {
        at_c = units::in_celsius(matter::cooled(slice, units::celsius(slice_from_c), units::seconds(left_s)));
        return false;
      }
      left_s -= slice_s;
      return true;
    });
    return at_c;
  }

 private:
  // Slice by slice while `keep_on(seconds of the slice, the slice, where it begins)`.
  template <class KeepOn>
  void walk(double from_c, double to_c, double h_w_m2_k, KeepOn keep_on) const {
    constexpr int slices = 32;
    double h_j = matter::equilibrium_enthalpy_j(mass, from_c), at_c = from_c;
    for (int i = 1; i <= slices; ++i) {
      const double next_c = from_c + (to_c - from_c) * i / slices, next_j = matter::equilibrium_enthalpy_j(mass, next_c);
      if (next_c == at_c) return;
      const matter::Cooling slice{{(next_j - h_j) / (next_c - at_c) + vessel_j_k}, area_m2, h_w_m2_k, units::celsius(around_c)};
      const double slice_s = matter::cool_time(slice, units::celsius(at_c), units::celsius(next_c)).si;
      if (!keep_on(slice_s, slice, at_c)) return;
      at_c = next_c;
      h_j = next_j;
    }
  }
};

const flow::Unit* cooling_unit(const Kitchen& k, const flow::StepInfo& step) {
  for (std::size_t u = 0; u < k.flow.units.size(); ++u)
    if (k.flow.units[u].op == flow::Op::cool && k.flow.unit_origin[u].part == step.origin.part && k.flow.unit_origin[u].step == step.origin.step)
      return &k.flow.units[u];
  return nullptr;
}

// The place the text names, else the one a cook would take for that cold.
const kit::Place* place_of(const Kitchen& k, const formula::Step& step) {
  if (step.in) return k.in.kit.place(step.in->text);
  const kit::Place* fridge = k.in.kit.first_place(kit::PlaceKind::still_fridge);
  const double wanted_c = step.to_c ? step.to_c->nominal() : step.at_c ? step.at_c->nominal() : std::numeric_limits<double>::quiet_NaN();
  const bool too_warm = step.act == Act::freeze || (fridge != nullptr && wanted_c < units::in_celsius(fridge->temperature));
  return too_warm && !step.at_c ? k.in.kit.first_place(kit::PlaceKind::freezer) : fridge;
}

bool may_gel(const matter::Composition& mass) {
  for (std::size_t i = 0; i < texture::agent_count; ++i)
    if (could_gel(static_cast<texture::Agent>(i), mass)) return true;
  return false;
}

matter::Film film_of(kit::PlaceKind kind, bool gels) {
  switch (kind) {
    case kit::PlaceKind::fan_fridge:
      return matter::film(matter::Surrounding::moving_air);
    case kit::PlaceKind::ice_bath:
    case kit::PlaceKind::water_bath:
      return matter::film(gels ? matter::Surrounding::ice_water_standing : matter::Surrounding::ice_water_turned);
    default:
      return matter::film(matter::Surrounding::still_air);
  }
}

std::string lasts(double seconds) {
  const double minutes = std::max(1.0, std::round(seconds / 60.0));
  if (minutes < 90.0) return shown(minutes) + " min";
  return shown(std::round(seconds / 360.0) / 10.0) + " h";
}

struct Cold {
  Batch batch;
  double start_c = 0.0, target_c = 0.0, asked_c = 0.0;
  bool out_of_reach = false;  // the place is warmer than what is asked for
};

std::optional<Cold> cold_of(const Kitchen& k, const flow::StepInfo& step) {
  if (!cools(step.act)) return std::nullopt;
  const flow::Unit* unit = cooling_unit(k, step);
  if (unit == nullptr) return std::nullopt;
  flow::Stream all;
  for (std::uint32_t i = 0; i < static_cast<std::uint32_t>(unit->liquids_in) + unit->ices_in; ++i) all += k.batch.port(k.flow.links[unit->in.first + i]);
  if (!(all.mass.total_kg() > 0.0)) return std::nullopt;
  const formula::Step& text = written(k, step.origin);
  const kit::Place* place = place_of(k, text);
  Cold out;
  out.start_c = stream_celsius(all);
  out.batch.mass = all.mass;
  const double m3 = matter::liquid_volume(all.mass, units::celsius(out.start_c)).si;
  const kit::Vessel* vessel = text.vessel ? k.in.kit.vessel(text.vessel->text) : nullptr;
  const bool on_tray = vessel != nullptr && vessel->kind == kit::VesselKind::tray;
  out.batch.area_m2 = on_tray ? 2.0 * m3 / layer_m : 6.0 * std::numbers::pi * std::pow(m3 / (2.0 * std::numbers::pi), 2.0 / 3.0);
  if (vessel != nullptr) out.batch.vessel_j_k = vessel->heat.si;
  out.batch.around_c = text.at_c ? text.at_c->nominal() : units::in_celsius(place != nullptr ? place->temperature : k.in.kit.room);
  out.batch.film = film_of(place != nullptr ? place->kind : kit::PlaceKind::room, may_gel(all.mass));
  if (on_tray) out.batch.film.most *= layer_m / thin_layer_m;  // h A is what counts
  out.batch.place = place != nullptr ? "the " + place->name : "the room";
  out.asked_c = text.to_c ? text.to_c->nominal() : out.batch.around_c;
  const double around_c = out.batch.around_c;
  if (out.start_c > around_c) {
    out.out_of_reach = out.asked_c < around_c - hair_k;
    out.target_c = std::min(out.start_c, std::max(out.asked_c, around_c + there_within_k));
  } else {
    out.target_c = std::max(out.start_c, std::min(out.asked_c, around_c - there_within_k));
  }
  return out;
}

/// A part that is stored: how its cooling stands against the published times.
class FoodCooling {
 public:
  FoodCooling(const Kitchen& k, std::size_t part) : k_(k), part_(part) {
    for (const flow::StepInfo& step : k.flow.steps)
      if (step.origin.part == part && step.liquid != no_port) steps_.push_back(&step);
    for (std::size_t s = 0; s < steps_.size(); ++s)
      if (!cools(steps_[s]->act) && celsius(s) >= hot_c - hair_k) from_ = s + 1, was_hot_ = true;
    last_cold_ = steps_.size();
    for (std::size_t s = from_; s < steps_.size(); ++s)
      if (cools(steps_[s]->act)) last_cold_ = s;
  }

  void judge(std::vector<base::Finding>& findings) {
    if (last_cold_ == steps_.size()) return;
    follow();
    const base::Where at = where(k_.flow, steps_[last_cold_]->origin, steps_[last_cold_]->span);
    const auto missed = [&](double reached_s, double limit_h, const std::string& span, const std::string& in_time) {
      if (!(reached_s > limit_h * 3600.0)) return;
      base::Finding& said = findings.emplace_back(say(
          Code::cooling_too_slow, at,
          "'" + k_.flow.parts[part_].name + "' takes about " + lasts(reached_s) + " " + span + ": the published limit of " + shown(limit_h) + " h is missed",
          reached_s / 3600.0, limit_h));
      said.why = "what can grow in it grows fastest between those temperatures";
      said.source = cooling_rule;
      said.remedies = {{in_time, std::nullopt}, {"past the limit discard it: boiling again does not take toxins away", std::nullopt}};
    };
    if (was_hot_) {
      missed(warm_s_, first_stage_h, "from 57 to 21 C", start_again);
      missed(cold_s_, in_all_h, "from 57 to 5 C", start_again);
    } else {
      missed(cold_s_, from_ambient_h, "from where it is mixed to 5 C", "cool it in an ice bath or in pans of 5 cm at most, or mix it from cold things");
    }
  }

 private:
  double celsius(std::size_t s) const { return stream_celsius(k_.batch.port(steps_[s]->liquid)); }

  // Its own temperature, step by step: cooled as far as the time goes, moved by what is added as flow says. The last place keeps it.
  void follow() {
    double t_c = from_ > 0 ? celsius(from_ - 1) : std::numeric_limits<double>::quiet_NaN();
    for (std::size_t s = from_; s <= last_cold_; ++s) {
      const auto cold = cold_of(k_, *steps_[s]);
      if (!cold) {
        if (s > 0) t_c += celsius(s) - celsius(s - 1);
        clock_s_ += steps_[s]->seconds;
        continue;
      }
      t_c = std::isnan(t_c) ? cold->start_c : s > 0 ? t_c + cold->start_c - celsius(s - 1) : t_c;
      const Batch& batch = cold->batch;
      const double h = batch.film.usual, stays_s = s == last_cold_ ? never_s : step_seconds(k_, *steps_[s]);
      const double above_s = was_hot_ && t_c > hot_c && batch.around_c < hot_c ? std::min(batch.seconds(t_c, hot_c, h), stays_s) : 0.0;
      reach(warm_s_, t_c, warm_c, batch, h, above_s, stays_s);
      // A place at the limit itself is met as near as anything comes to its place; a warmer one misses cold holding, which rules.cpp says.
      reach(cold_s_, t_c, std::max(cold_c, batch.around_c + (batch.around_c <= cold_c ? there_within_k : 0.0)), batch, h, above_s, stays_s);
      if (s == last_cold_) break;
      t_c = batch.after(t_c, stays_s, h);
      clock_s_ += stays_s - above_s;
    }
  }
  void reach(double& reached_s, double from_c, double to_c, const Batch& batch, double h, double above_s, double stays_s) const {
    if (!std::isnan(reached_s)) return;
    const double seconds = from_c <= to_c ? 0.0 : batch.around_c < to_c ? batch.seconds(from_c, to_c, h) : never_s;
    if (seconds <= stays_s && std::isfinite(seconds)) reached_s = clock_s_ + std::max(seconds - above_s, 0.0);
  }

  const Kitchen& k_;
  std::size_t part_;
  std::vector<const flow::StepInfo*> steps_;
  std::size_t from_ = 0, last_cold_ = 0;  // steps behind the hottest one; the one whose place keeps it
  bool was_hot_ = false;
  double clock_s_ = 0.0;
  double warm_s_ = matter::cannot_be_given, cold_s_ = matter::cannot_be_given;
};

// The step as written against the cold of its place.
void judge_step(const Kitchen& k, const flow::StepInfo& step, std::vector<base::Finding>& findings) {
  const auto cold = cold_of(k, step);
  if (!cold || !(cold->start_c > cold->target_c + hair_k)) return;
  const Batch& batch = cold->batch;
  const base::Where at = where(k.flow, step.origin, step.span);
  const std::string of = "`" + std::string(formula::name(step.act)) + "` of '" + k.flow.parts[step.origin.part].name + "': ";
  if (cold->out_of_reach)
    findings.push_back(say(Code::cooling_too_slow, at,
                           of + batch.place + " at " + shown(batch.around_c) + " C never brings it to " + shown(cold->asked_c) + " C", batch.around_c,
                           cold->asked_c));
  const double needed_s = batch.seconds(cold->start_c, cold->target_c, batch.film.usual);
  if (!written(k, step.origin).time_s) {
    findings.push_back(say(Code::assumption, at,
                           "where no time is given, cooling takes what a batch as wide as it is high takes (a layer of 20 mm on a tray), within about 40 %"));
    return;
  }
  const double at_best_c = batch.after(cold->start_c, step.seconds, batch.film.most);
  if (at_best_c <= cold->target_c + late_from_k) return;
  const double usual_c = batch.after(cold->start_c, step.seconds, batch.film.usual);
  base::Finding& said =
      findings.emplace_back(say(Code::cooling_too_slow, at,
                                of + "after " + lasts(step.seconds) + " in " + batch.place + " it is still at about " + shown(std::round(usual_c)) +
                                    " C, at best " + shown(std::round(at_best_c)) + " C; to " + shown(cold->target_c) + " C it takes about " + lasts(needed_s),
                                usual_c, cold->target_c));
  if (step.act == Act::set) said.weight = base::Weight::note;  // what sets need not be cold through: setting.cpp asks at this temperature
}

}  // namespace

bool calls_for_control(const PartSheet& part) {
  if (part.values[Property::abv_percent_all_melted] >= no_class_from_percent || std::isnan(part.values[Property::temperature_c])) return false;
  return tcs_class(part.values[Property::ph_25c], part.values[Property::water_activity], TcsTable::anything_else) != TcsClass::non_tcs;
}

double step_seconds(const Kitchen& k, const flow::StepInfo& step) {
  if (!cools(step.act) || written(k, step.origin).time_s) return step.seconds;
  const auto cold = cold_of(k, step);
  const double needed_s = cold ? cold->batch.seconds(cold->start_c, cold->target_c, cold->batch.film.usual) : 0.0;
  return needed_s > 0.0 ? needed_s : step.seconds;
}

std::optional<double> celsius_at_best(const Kitchen& k, const flow::StepInfo& step) {
  const auto cold = cold_of(k, step);
  if (!cold || !(cold->start_c > cold->target_c + hair_k)) return std::nullopt;
  return std::max(cold->batch.after(cold->start_c, step_seconds(k, step), cold->batch.film.most), cold->asked_c);
}

void cooling_rules(const Kitchen& k, const Sheet& sheet, std::vector<base::Finding>& findings) {
  for (const flow::StepInfo& step : k.flow.steps)
    if (k.book.parts[step.origin.part].in_use) judge_step(k, step, findings);
  for (std::size_t p = 0; p < sheet.parts.size(); ++p)
    if (sheet.parts[p].ahead && k.book.parts[p].in_use && is_stored(k, p) && calls_for_control(sheet.parts[p])) FoodCooling(k, p).judge(findings);
}

}  // namespace bloomset::sheet
