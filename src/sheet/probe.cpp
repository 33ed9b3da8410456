#include "sheet/probe.hpp"

#include <algorithm>
#include <cmath>

#include "sheet/readings.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

struct Place {
  flow::Port liquid = flow::no_port, ice = flow::no_port;
};

// Where a property of the target is read; nothing where only a whole sheet knows it.
std::optional<Place> place_of(const flow::Flowsheet& flow, const formula::Target& target) {
  if (!target.of_serve) {
    for (const flow::PartInfo& part : flow.parts)
      if (text::fold(part.name) == text::fold(target.part)) return Place{part.liquid, part.ice};
    return std::nullopt;
  }
  if (!flow.foams.empty() && formula::target_key(target.property) == matter::key(matter::Property::foam_volume_ml)) return std::nullopt;
  for (const flow::Moment& moment : flow.moments)
    if (std::abs(moment.minute - target.at_minute.value_or(0.0)) < 1e-9) return Place{moment.liquid, moment.ice};
  return Place{flow.served_liquid, flow.served_ice};
}

}  // namespace

Probe::Probe(const Inputs& in, const flow::Flowsheet& flow, std::vector<formula::Target> targets) : in_(in), flow_(flow), targets_(std::move(targets)) {
  for (std::size_t t = 0; t < targets_.size(); ++t) {
    const auto property = property_of(formula::target_key(targets_[t].property));
    const auto place = property ? place_of(flow_, targets_[t]) : std::nullopt;
    if (!place) {
      const bool room = targets_[t].of_serve && flow_.has_serve && formula::target_key(targets_[t].property) == "headroom_ml";
      (room ? headrooms_ : by_sheet_).push_back(t);
      continue;
    }
    auto port = std::find_if(ports_.begin(), ports_.end(), [&](const Port& p) { return p.liquid == place->liquid && p.ice == place->ice; });
    if (port == ports_.end()) port = ports_.insert(ports_.end(), Port{place->liquid, place->ice, {}, {}});
    port->asked.set(static_cast<std::size_t>(*property));
    port->of.emplace_back(t, *property);
  }
}

void Probe::read(const flow::Batch<1>& batch, std::span<double> out) const {
  for (const Port& port : ports_) {
    matter::Values values;
    values.of.fill(matter::cannot_be_given);
    if (port.liquid != flow::no_port && batch.port(port.liquid).mass.total_kg() > 0.0)
      matter::read(flow::state_at(batch, port.liquid, port.ice), port.asked, values);
    for (const auto& [target, property] : port.of) out[target] = values[property];
  }
  if (headrooms_.empty() && by_sheet_.empty()) return;
  const Ledger book = ledger_of(flow_, batch);
  const Kitchen kitchen{in_, flow_, batch, book};
  for (const std::size_t t : headrooms_) out[t] = headroom_ml(kitchen);
  if (by_sheet_.empty()) return;
  Sheet sheet;
  sheet.parts = part_sheets(kitchen);
  if (flow_.has_serve) sheet.serve = serve_sheet(kitchen);
  for (const std::size_t t : by_sheet_) out[t] = value_of(sheet, targets_[t], targets_[t].at_minute.value_or(0.0));
}

}  // namespace bloomset::sheet
