#include "sheet/ledger.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "flow/modes.hpp"
#include "matter/enthalpy.hpp"
#include "matter/freezing.hpp"

namespace bloomset::sheet {
namespace {

using flow::Batch;
using flow::Fate;
using flow::Flowsheet;
using flow::no_port;
using flow::Op;
using flow::Port;

double kg_at(const Batch<1>& batch, Port port) { return port == no_port ? 0.0 : batch.port(port).mass.total_kg(); }

std::tuple<int, int, int> place(const flow::Origin& at) { return {at.part, at.step, at.take}; }

// A take's unit says more than its info does: a draw of a part with several solids has a port for each.
void enter_takes(const Flowsheet& sheet, const Batch<1>& batch, Ledger& book) {
  book.takes.resize(sheet.takes.size());
  std::map<std::tuple<int, int, int>, std::size_t> at;
  for (std::size_t t = 0; t < sheet.takes.size(); ++t) at.emplace(place(sheet.takes[t].origin), t);
  for (std::size_t u = 0; u < sheet.units.size(); ++u) {
    const flow::Unit& unit = sheet.units[u];
    if (unit.op != Op::take && unit.op != Op::take_ice && unit.op != Op::draw) continue;
    const auto found = at.find(place(sheet.unit_origin[u]));
    if (found == at.end()) continue;
    const flow::TakeInfo& take = sheet.takes[found->second];
    TakeLedger& entry = book.takes[found->second];
    entry.there = true;
    for (std::uint32_t i = 0; i < unit.out.count; ++i) entry.kg += kg_at(batch, sheet.links[unit.out.first + i]);
    entry.liquid_kg = kg_at(batch, take.liquid);
    if (unit.op != Op::draw)
      entry.celsius = sheet.nominal[unit.knobs.first + flow::take_knob::celsius];
    else if (take.liquid != no_port)
      entry.celsius = stream_celsius(batch.port(take.liquid));
  }
}

void enter_steps(const Flowsheet& sheet, Ledger& book) {
  book.steps.resize(sheet.steps.size());
  std::vector<double> in_vessel_kg(sheet.parts.size(), 0.0);
  for (std::size_t s = 0; s < sheet.steps.size(); ++s) {
    const flow::Origin& at = sheet.steps[s].origin;
    StepLedger& entry = book.steps[s];
    for (std::size_t t = 0; t < sheet.takes.size(); ++t)
      if (sheet.takes[t].origin.part == at.part && sheet.takes[t].origin.step == at.step) entry.came_kg += book.takes[t].kg;
    for (std::size_t l = 0; l < sheet.losses.size(); ++l)
      if (sheet.losses[l].origin.part == at.part && sheet.losses[l].origin.step == at.step) entry.left_kg += book.losses_kg[l];
    entry.kg = in_vessel_kg[at.part] += entry.came_kg - entry.left_kg;
  }
}

void enter_parts(const Flowsheet& sheet, const Batch<1>& batch, Ledger& book) {
  book.parts.resize(sheet.parts.size());
  for (std::size_t p = 0; p < sheet.parts.size(); ++p) {
    const flow::PartInfo& part = sheet.parts[p];
    PartLedger& entry = book.parts[p];
    entry.times = part.times;
    for (const Port port : part.solids) entry.solids_kg += kg_at(batch, port);
    for (const Port port : part.asides) entry.asides_kg += kg_at(batch, port);
    entry.finished_kg = kg_at(batch, part.liquid) + kg_at(batch, part.ice) + entry.solids_kg + entry.asides_kg;
    if (sheet.has_serve && p + 1 == sheet.parts.size() && !sheet.moments.empty())
      for (const Port foam : sheet.moments.front().foams) entry.finished_kg += kg_at(batch, foam);
  }
  for (std::size_t t = 0; t < sheet.takes.size(); ++t) {
    const flow::TakeInfo& take = sheet.takes[t];
    const flow::PartInfo& by = sheet.parts[take.origin.part];
    if (take.in_base) book.parts[take.origin.part].base_kg += book.takes[t].kg;
    if (!take.made) continue;
    PartLedger& from = book.parts[*take.made];
    const bool by_batch = by.made == formula::Made::ahead;
    from.drawn = true;
    if (take.output > 0) {  // what was parted stays in the kitchen, but for what is taken of it
      for (std::size_t l = 0; l < sheet.losses.size(); ++l) {
        if (sheet.losses[l].port != sheet.parts[*take.made].outputs[take.output].liquid) continue;
        book.losses_kg[l] -= book.takes[t].kg * by.times / from.times;
        from.short_of_outputs_kg += std::max(-book.losses_kg[l], 0.0) * from.times;
        book.losses_kg[l] = std::max(book.losses_kg[l], 0.0);
      }
      continue;
    }
    from.drawn_kg += book.takes[t].kg * by.times;
    if (by_batch) from.drawn_by_batches_kg += book.takes[t].kg * by.times;
  }
}

// From the serve back through what it is made of; without a serve every part is what the document is about.
void enter_use(const Flowsheet& sheet, Ledger& book) {
  if (!sheet.has_serve) {
    for (PartLedger& part : book.parts) part.in_use = true;
    return;
  }
  book.parts.back().in_use = true;
  for (bool more = true; more;) {
    more = false;
    for (const flow::TakeInfo& take : sheet.takes)
      if (take.made && book.parts[take.origin.part].in_use && !book.parts[*take.made].in_use) more = book.parts[*take.made].in_use = true;
  }
}

void close_balance(const Flowsheet& sheet, Ledger& book) {
  Balance kg;
  for (std::size_t t = 0; t < sheet.takes.size(); ++t)
    if (!sheet.takes[t].made) kg.in_g += book.takes[t].kg * book.parts[sheet.takes[t].origin.part].times;
  for (std::size_t l = 0; l < sheet.losses.size(); ++l) {
    const double all = book.losses_kg[l] * book.parts[sheet.losses[l].origin.part].times;
    switch (sheet.losses[l].fate) {
      case Fate::stays:
        kg.stays_g += all;
        break;
      case Fate::gas:
        kg.gas_g += all;
        break;
      default:
        kg.lost_g += all;
        break;
    }
  }
  for (std::size_t p = 0; p < sheet.parts.size(); ++p) {
    const bool served = sheet.has_serve && p + 1 == sheet.parts.size();
    const double left_kg = book.parts[p].left_kg();
    (served ? kg.served_g : kg.stays_g) += std::max(left_kg, 0.0);
    kg.in_g += std::max(-left_kg, 0.0) + book.parts[p].short_of_outputs_kg;  // taken beyond what the batches give: `short_g` of the part
  }
  book.balance = {kg.in_g * 1e3, kg.served_g * 1e3, kg.stays_g * 1e3, kg.lost_g * 1e3, kg.gas_g * 1e3};
}

}  // namespace

double stream_celsius(const flow::Stream& stream) {
  const double kg = stream.mass.total_kg(), water_kg = stream.mass[matter::Component::water];
  const bool is_ice = water_kg > 0.0 && kg - water_kg <= 1e-12 * kg && stream.enthalpy_j <= water_kg * matter::ice_enthalpy_j_kg(0.0) * (1.0 - 1e-9);
  if (!is_ice) return matter::thermal_state(stream.mass, stream.enthalpy_j).t_c;
  return matter::ice_celsius_at(stream.enthalpy_j / water_kg);
}

Ledger ledger_of(const flow::Flowsheet& sheet, const flow::Batch<1>& batch) {
  Ledger book;
  for (const flow::LossInfo& loss : sheet.losses) book.losses_kg.push_back(kg_at(batch, loss.port));
  enter_takes(sheet, batch, book);
  enter_steps(sheet, book);
  enter_parts(sheet, batch, book);
  enter_use(sheet, book);
  close_balance(sheet, book);
  return book;
}

}  // namespace bloomset::sheet
