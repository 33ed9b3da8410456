#include "sheet/dosing.hpp"

#include <algorithm>
#include <cmath>

#include "sheet/charging.hpp"
#include "sheet/cited.hpp"
#include "sheet/readings.hpp"
#include "texture/catalogue.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using texture::Agent;
using texture::Effect;

std::string names_of(const std::vector<Effect>& effects) {
  std::vector<std::string> words;
  for (const Effect one : effects) words.emplace_back(texture::called(one));
  return listed(words);
}

// The same dose in every grade of leaf: what a bare `gelatin leaf` could mean.
base::Result<void> check_grade(const DoseAsk& ask, Effect effect) {
  if (ask.agent.grade_known || !ask.agent.form.leaf) return {};
  std::vector<std::string> words;
  for (const texture::GelatinForm& grade : texture::gelatin_forms()) {
    if (!grade.leaf) continue;
    const auto one = texture::dose({ask.base.masses, std::nullopt, {grade.agent, grade.bloom, grade.leaf}, effect, std::nullopt});
    if (one) words.push_back(std::string(grade.name) + " " + shown(one->mass_g.nominal) + " g (" + shown(one->pieces->nominal) + " leaves)");
  }
  return base::fail(base::ErrorKind::bad_input, "which leaf this is is not said, and leaves differ in mass and Bloom. By grade: " + listed(words) +
                                                    ". Name the grade, or read mass and Bloom off the packet: `gelatin leaf (2 g a piece, 200 bloom)`");
}

// What is in the bottle, for its fill line: the base as poured, and the dose by its mass.
units::Volume batch_volume(const Mixture& base, const texture::Dose& dose) {
  return base.poured * (1.0 + dose.mass_g.nominal / units::in_grams(base.masses.mass()));
}

void add_siphon(DoseSheet& sheet, const kit::Kit& kit) {
  const bool hot = sheet.dose.effect == Effect::hot_foam;
  if (!hot && sheet.dose.effect != Effect::cold_foam) return;
  sheet.siphon = choose_siphon(kit, batch_volume(sheet.base, sheet.dose), hot);
  if (!sheet.siphon) {
    base::Where where;
    where.property = "vessel";
    sheet.findings.push_back(because(
        "--kit adds one", say(Code::value_missing, std::move(where), std::string("the kit has no siphon rated for ") + (hot ? "hot foams" : "pressure"))));
    return;
  }
  const kit::Vessel* vessel = kit.vessel(sheet.siphon->vessel);
  if (!vessel->most_charges) sheet.findings.push_back(say(Code::limit_unknown, {}, "limit unknown: how many charges " + vessel->name + " takes is not said"));
  if (vessel->source == "invented")
    sheet.findings.push_back(
        say(Code::assumption, {}, vessel->name + ": the figures of the built-in kit are invented; read your bottle's and give them by --kit"));
  for (base::Finding& one : gas_cautions(gas::Gas::nitrous_oxide)) sheet.findings.push_back(std::move(one));
}

void add_enzyme(DoseSheet& sheet) {
  if (sheet.base.live_enzymes.empty() || !(texture::is_gelatin(sheet.dose.agent) || sheet.dose.agent == Agent::caseinate)) return;
  sheet.findings.push_back(
      say(Code::live_enzyme, {},
          listed(sheet.base.live_enzymes) + ": raw, its protease cuts " + std::string(texture::info(sheet.dose.agent).name) + ", and no dose sets"));
}

void add_leaves(DoseSheet& sheet) {
  if (!sheet.dose.leaves || !sheet.dose.leaves->half.firmness.mind()) return;
  const texture::LeafCount& half = sheet.dose.leaves->half;
  const std::string about = shown(half.pieces) + (half.pieces <= 1.0 ? " leaf is " : " leaves are ");
  const std::string how_firm =
      half.firmness.at_the_limit ? "at the limit of gelling" : "about " + text::print_number(half.firmness.ratio, 2) + " times as firm as the dose wanted";
  sheet.findings.push_back(say(Code::pieces_rounded, {}, about + how_firm + ": " + shown(sheet.dose.leaves->exact) + " would be exact"));
}

}  // namespace

std::optional<SiphonChoice> choose_siphon(const kit::Kit& kit, units::Volume liquid, bool hot) {
  std::optional<SiphonChoice> best;
  for (const std::string& name : kit.vessel_names()) {
    const kit::Vessel& vessel = *kit.vessel(name);
    if (vessel.kind != kit::VesselKind::siphon || !vessel.pressure_rated || (hot && !vessel.hot_rated)) continue;
    const units::Volume line = gas::fill_limit(vessel.brim, std::nullopt, vessel.fill_line);
    SiphonChoice one;
    one.vessel = name;
    one.bottles = std::max(static_cast<int>(std::ceil(liquid / line - line_read_within)), 1);
    one.liquid_ml = units::in_millilitres(liquid) / one.bottles;
    one.fill_fraction = liquid / line / one.bottles;
    one.most_charges = vessel.most_charges;
    one.charges = usual_charges(liquid / one.bottles, vessel.most_charges);
    const bool better = !best || one.bottles < best->bottles || (one.bottles == best->bottles && one.fill_fraction > best->fill_fraction);
    if (better) best = one;
  }
  return best;
}

base::Result<DoseSheet> dose(const DoseAsk& ask) {
  const Agent agent = ask.agent.form.agent;
  const std::vector<Effect> effects = texture::effects_of(agent);
  if (!ask.effect && effects.empty()) return base::fail(base::ErrorKind::not_found, ask.agent.label + " has no dose for any effect");
  const Effect effect = ask.effect.value_or(effects.empty() ? Effect::soft_gel : effects.front());
  if (auto grade = check_grade(ask, effect); !grade) return tl::unexpected<base::Error>(std::move(grade.error()));
  auto made = texture::dose({ask.base.masses, std::nullopt, ask.agent.form, effect, ask.scale_step});
  if (!made) return tl::unexpected<base::Error>(std::move(made.error()));

  DoseSheet sheet{ask.base, ask.agent, std::move(*made), ask.scale_step, std::nullopt, {}};
  for (const texture::Cause& cause : sheet.dose.causes) sheet.findings.push_back(finding(cause));
  add_enzyme(sheet);
  add_leaves(sheet);
  add_siphon(sheet, ask.kit);
  if (ask.agent.thing.raw_egg) sheet.findings.push_back(say(Code::raw_egg, {}, ask.agent.label));
  for (const std::string& one : ask.base.assumptions) sheet.findings.push_back(say(Code::assumption, {}, one));
  for (const std::string& one : ask.agent.assumptions) sheet.findings.push_back(say(Code::assumption, {}, one));
  if (!ask.effect)
    sheet.findings.push_back(say(Code::assumption, {},
                                 "no effect was asked for: this is for " + std::string(texture::called(effect)) + "; " +
                                     std::string(texture::info(agent).name) + " gives " + names_of(effects)));
  tidy(sheet.findings);
  return sheet;
}

}  // namespace bloomset::sheet
