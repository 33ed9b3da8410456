#include "solve/refit.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "sheet/probe.hpp"
#include "solve/swap.hpp"
#include "text/fold.hpp"

namespace bloomset::solve {
namespace {

using matter::Property;

constexpr double least_told = 0.05;  // of strength, sugar or acid [%] below which nobody tastes it (practice)

struct Kept {
  const char* name;
  Property property;
};

// The original's property as a wish, within `same_within` of it.
std::optional<formula::Target> wish(const std::string& place, const Kept& kept, const matter::Values& original, text::Faults& faults) {
  const double value = original[kept.property];
  if (!(value > least_told)) return std::nullopt;
  const auto text = [](double x) { return text::print_number(x, 4); };
  const std::string written = place + "." + kept.name + " " + text(value * (1.0 - same_within)) + "-" + text(value * (1.0 + same_within)) + " " +
                              std::string(formula::target_unit(kept.name));
  return formula::read_target_text({written, {0, 1, 1, static_cast<std::uint32_t>(written.size())}}, text::Measures::metric, faults);
}

matter::Values values_at(const Cooked& cooked, flow::Port liquid, flow::Port ice) {
  matter::Values none;
  none.of.fill(matter::cannot_be_given);
  if (liquid == flow::no_port || !(cooked.batch.port(liquid).mass.total_kg() > 0.0)) return none;
  return matter::read_all(flow::state_at(cooked.batch, liquid, ice));
}

// Strength, sugar, acidity and size of every place that the swaps touch: a part made ahead by itself, all that is made to order by the serve.
std::vector<formula::Target> same_drink(const Cooked& original, const std::set<std::uint16_t>& parts) {
  std::vector<formula::Target> targets;
  std::set<std::string> said;
  text::Faults faults;
  for (const std::uint16_t p : parts) {
    const flow::PartInfo& part = original.flow.parts[p];
    const bool serve = original.flow.has_serve && part.made == formula::Made::to_order;
    const std::string place = serve ? "serve" : "'" + part.name + "'";
    if (!said.insert(place).second) continue;
    const matter::Values values =
        serve ? values_at(original, original.flow.served_liquid, original.flow.served_ice) : values_at(original, part.liquid, part.ice);
    for (const Kept& kept : {Kept{"abv", Property::abv_percent}, Kept{"sugar", Property::sugar_percent},
                             Kept{"acidity", Property::titratable_acidity_g_100g_citric}, Kept{"volume", Property::volume_ml}})
      if (auto one = wish(place, kept, values, faults)) targets.push_back(std::move(*one));
  }
  return targets;
}

std::vector<double> read(const RefitAsked& asked, const Cooked& cooked, const std::vector<formula::Target>& targets) {
  const Inputs in{cooked.formula, asked.in.larder, asked.in.kit, asked.in.serves, {}};
  std::vector<double> values(targets.size());
  sheet::Probe(in, cooked.flow, targets).read(cooked.batch, values);
  return values;
}

// Balanced towards all of the original; where that cannot be had the swap stays as it was first written, and what is missed is told.
base::Result<BalanceSheet> balanced(const RefitAsked& asked, const Cooked& original, const Cooked& swapped, const std::string& document,
                                    const Changes& changes) {
  std::set<std::uint16_t> parts;
  for (const Swapped& take : changes.takes)
    if (take.balanced) parts.insert(take.at.part);
  BalanceAsked ask{.in = {swapped.formula, asked.in.larder, asked.in.kit, asked.in.serves, {}},
                   .document = document,
                   .targets = same_drink(original, parts),
                   .vary = changes.vary,
                   .besides = true,
                   .aim_at_middle = true,
                   .exact = asked.exact};
  ask.may_change = [&](const flow::Flowsheet& flow, const flow::TakeInfo& take) {
    return parts.contains(take.origin.part) && (!take.thing || shapes(flow.things[*take.thing]));
  };
  if (ask.targets.empty()) return BalanceSheet{true, {}, {}, {}, {}, document, {}, {}, {}};
  auto found = balance(ask);
  if (found && !found->met) {
    ask.aim_at_middle = false;
    found = balance(ask);
  }
  if (!found || found->met) return found;
  const std::vector<double> values = read(asked, swapped, ask.targets);
  for (std::size_t t = 0; t < values.size(); ++t) {
    WishLine& line = found->targets[t];
    line.target.value = line.target.value_as_written = values[t];
    line.target.met = sheet::met(ask.targets[t], values[t]);
    line.held_by = line.target.met ? "" : "what the new things are";
  }
  found->formula = document;
  return found;
}

const flow::TakeInfo* take_at(const Cooked& cooked, std::uint16_t part, std::uint16_t step, std::uint16_t take) {
  for (const flow::TakeInfo& info : cooked.flow.takes)
    if (info.origin == flow::Origin{part, step, take} && info.written.span.known()) return &info;
  return nullptr;
}

double grams(const Cooked& cooked, const flow::TakeInfo& take) {
  double kg = 0.0;
  for (const flow::Port port : {take.liquid, take.ice, take.solid})
    if (port != flow::no_port) kg += cooked.batch.port(port).mass.total_kg();
  return 1e3 * kg;
}

// A line for every amount that is another now, for every thing swapped, and for the water that was put in.
std::vector<AmountLine> amount_lines(const Cooked& original, const Cooked& after, const std::vector<Swapped>& swapped) {
  std::vector<AmountLine> lines;
  const text::Measures measures = original.formula.measures;
  for (const flow::TakeInfo& was : original.flow.takes) {
    if (!was.written.span.known()) continue;
    std::uint16_t moved_by = 0;
    bool water = false;
    for (const Swapped& one : swapped) {
      if (!one.water_before || one.at.part != was.origin.part || one.at.step != was.origin.step || one.at.take > was.origin.take) continue;
      ++moved_by;
      water = water || one.at.take == was.origin.take;
    }
    const auto at = static_cast<std::uint16_t>(was.origin.take + moved_by);
    const flow::TakeInfo* is = take_at(after, was.origin.part, was.origin.step, at);
    if (is == nullptr) continue;
    AmountLine line;
    line.part = original.flow.parts[was.origin.part].name;
    line.step = was.origin.step;
    if (was.label != is->label || !(was.written == is->written)) {
      line.thing = was.label == is->label ? is->label : is->label + ", for " + was.label;
      line.before_g = grams(original, was);
      line.after_g = grams(after, *is);
      line.before = text::print(was.written, measures);
      line.after = text::print(is->written, measures);
      line.whole = is->written.kind == text::AmountKind::pieces;
      lines.push_back(line);
    }
    if (!water) continue;
    const flow::TakeInfo* added = take_at(after, was.origin.part, was.origin.step, static_cast<std::uint16_t>(at - 1U));
    if (added == nullptr) continue;
    line.thing = added->label;
    line.before_g = 0.0;
    line.after_g = grams(after, *added);
    line.before = "";
    line.after = text::print(added->written, measures);
    lines.push_back(line);
  }
  return lines;
}

base::Error refused(std::vector<base::Diagnostic> faults) {
  return {base::ErrorKind::bad_input, "the document cannot be refitted like that", std::move(faults)};
}

}  // namespace

base::Result<BalanceSheet> refit(const RefitAsked& asked) {
  auto original = cook(asked, asked.document);
  if (!original) return tl::unexpected(std::move(original.error()));
  Changes things;
  std::vector<Swap> bottles;
  std::vector<base::Diagnostic> faults;
  for (const Swap& swap : asked.swaps) {
    if (parts_in((*original)->formula, asked.sources.text(swap.from)).empty()) {
      swap_thing(asked, swap, **original, things, faults);
      continue;
    }
    const std::string_view to = asked.sources.text(swap.to);
    const kit::Vessel* vessel = asked.in.kit.vessel(to);  // one that is not there is told when it is filled
    if (vessel != nullptr && vessel->kind != kit::VesselKind::siphon)
      faults.push_back({base::Severity::error,
                        "no_siphon",
                        "\"" + std::string(to) + "\" is no siphon, and the part is charged",
                        {swap.to, 1, 1, static_cast<std::uint32_t>(to.size())},
                        std::nullopt,
                        "name a siphon of the kit"});
    bottles.push_back(swap);
  }
  if (!faults.empty()) return tl::unexpected(refused(std::move(faults)));

  const std::string swapped_text = base::edited(asked.document, things.edits);
  auto swapped = cook(asked, swapped_text);
  if (!swapped) return tl::unexpected(std::move(swapped.error()));
  auto out = balanced(asked, **original, **swapped, swapped_text, things);
  if (!out) return out;
  std::vector<base::Finding> findings = std::move(things.findings);
  for (const Swap& swap : bottles) {
    auto now = cook(asked, out->formula);
    if (!now) return tl::unexpected(std::move(now.error()));
    auto changes = swap_bottle(asked, swap, **now);
    if (!changes) return tl::unexpected(std::move(changes.error()));
    out->formula = base::edited(std::move(out->formula), std::move(changes->edits));
    findings.insert(findings.end(), changes->findings.begin(), changes->findings.end());
  }
  auto after = cook(asked, out->formula);
  if (!after) return tl::unexpected(std::move(after.error()));
  out->exchange.clear();  // nobody asks what a hundredth of a refit would cost
  out->amounts = amount_lines(**original, **after, things.takes);
  for (WishLine& line : out->targets) line.before = 0.0;
  std::vector<formula::Target> targets;
  text::Faults none;
  for (const WishLine& line : out->targets)
    if (auto target = formula::read_target_text({line.target.target, {0, 1, 1, 1}}, text::Measures::metric, none)) targets.push_back(std::move(*target));
  const std::vector<double> before = read(asked, **original, targets);
  for (std::size_t t = 0; t < before.size(); ++t) out->targets[t].before = before[t];
  if ((*original)->flow.has_serve) {
    out->glass_before = values_at(**original, (*original)->flow.served_liquid, (*original)->flow.served_ice);
    out->glass_after = values_at(**after, (*after)->flow.served_liquid, (*after)->flow.served_ice);
  }
  out->findings.insert(out->findings.end(), findings.begin(), findings.end());
  return out;
}

}  // namespace bloomset::solve
