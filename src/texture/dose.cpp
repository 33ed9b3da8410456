#include "texture/dose.hpp"

#include <algorithm>

#include "texture/words.hpp"

namespace bloomset::texture {
namespace {

using base::ErrorKind;

Triple times(const DoseBand& band, double k) { return {k * band.low, k * band.nominal, k * band.high}; }

std::string effect_words(Agent agent) {
  std::vector<std::string> words;
  for (const Effect effect : effects_of(agent)) words.emplace_back(called(effect));
  return words.empty() ? "no effect" : joined(words);
}

std::string agents_for(Effect effect) {
  std::vector<std::string> words;
  for (const DoseBand& d : dose_bands()) {
    const std::string word(info(d.agent).name);
    if (d.effect == effect && std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  return joined(words);
}

std::string temperature_of(const Limit* l) { return l == nullptr ? "" : shown(l->nominal.value_or(l->low.value_or(l->high.value_or(0.0)))) + " C"; }

void add_setting(std::vector<std::string>& out, Agent agent, Effect effect) {
  const Limit* sets = limit(agent, Quantity::set);
  switch (effect) {
    case Effect::cold_foam:
      if (is_gelatin(agent)) out.push_back("chill to 8 C or below and give it an hour more, at rest; full strength takes 5 to 20 h");
      out.push_back("strain through the finest sieve, fill to the bottle's line, charge and shake");
      return;
    case Effect::hot_foam:
      out.push_back("strain through the finest sieve, fill to the bottle's line and charge");
      out.push_back(agent == Agent::egg_white ? "hold the bottle at 55 to 60 C and never above 62 C"
                                              : "hold the bottle at 55 to 65 C, within the pressure its maker allows");
      return;
    case Effect::fluid_gel:
      out.push_back("let it set without stirring, then blitz it smooth and strain");
      return;
    case Effect::froth:
      out.push_back("beat or blend at the surface so that air gets in, wait a minute and skim the froth");
      return;
    case Effect::clarify:
      out.push_back("let it set, break it gently and let the clear liquid run through a cloth; do not press");
      return;
    case Effect::sphere:
      out.push_back(agent == Agent::agar ? "drop it at 50 to 60 C into deep cold oil, lift the pearls out and rinse them"
                                         : "drop or spoon it into the bath, lift out after 1 to 3 minutes and rinse");
      return;
    case Effect::hot_gel:
      out.push_back("warm above " + temperature_of(limit(agent, Quantity::gels_above)) + " to set it; it thins again as it cools");
      return;
    case Effect::soft_gel:
    case Effect::firm_gel:
      if (is_gelatin(agent))
        out.push_back("chill below 15 C; full strength takes 5 to 8 h at 5 C and 15 to 20 h at 10 C");
      else if (sets != nullptr)
        out.push_back("let it stand: it sets near " + temperature_of(sets));
      return;
    case Effect::thickened:
      return;
  }
}

}  // namespace

std::vector<Effect> effects_of(Agent agent) {
  std::vector<Effect> out;
  for (const DoseBand& band : dose_bands())
    if (band.agent == agent && std::find(out.begin(), out.end(), band.effect) == out.end()) out.push_back(band.effect);
  return out;
}

std::vector<std::string> method(Agent agent, Effect effect, const Liquor& liquor, double nominal_g, bool leaf) {
  const AgentInfo& a = info(agent);
  std::vector<std::string> out;
  if (is_gelatin(agent)) {
    const BloomingWater water = blooming_water(units::grams(nominal_g), leaf);
    out.push_back(leaf ? "bloom the leaves 5 to 10 min in plenty of cold water and press them out; about " + grams_shown(units::in_grams(water.usual)) +
                             " of water stay in them"
                       : "bloom " + grams_shown(nominal_g) + " 5 to 20 min in " + grams_shown(units::in_grams(water.usual)) +
                             " of cold water, taken out of the recipe");
    out.push_back("warm a part of the base to 50 to 60 C, dissolve the gelatin in it; never boil");
    out.push_back("stir it into the rest of the base, which is at 20 C or warmer, so that the mix lands above 25 C and no strings form");
    if (liquor.abv_percent > 0.5) out.push_back("dissolve it in what holds no spirit, cool it below 40 C, then stir the spirit in at room temperature");
  } else {
    out.push_back(grams_shown(nominal_g) + ": " + std::string(a.disperse));
    const Limit* heat = limit(agent, Quantity::hydrate);
    std::string second(a.hydrate);
    if (heat != nullptr && heat->beyond == Bearing::stops) second += " (" + temperature_of(heat) + ")";
    out.push_back(second);
    const Limit* hot = limit(agent, Quantity::ph_hot);
    if (hot != nullptr && hot->low && liquor.ph < *hot->low)
      out.push_back("cook it in the water and sugar first and add the sour part off the heat" +
                    (agent == Agent::agar ? std::string(", warm enough that the mix lands at 45 C or above") : std::string()));
    if (const Limit* calcium = limit(agent, Quantity::calcium); calcium != nullptr && calcium->nominal) {
      const double missing_mg = *calcium->nominal * nominal_g - liquor.calcium_mg;
      if (missing_mg > 0.0) out.push_back("with it goes calcium, " + shown(missing_mg) + " mg as lactate gluconate, stirred in last");
    }
    if (liquor.abv_percent > 10.0 && heat != nullptr) out.push_back("stir the spirit in after it has dissolved, off the heat");
  }
  add_setting(out, agent, effect);
  for (std::string& line : out) line = sentence(line);
  return out;
}

std::optional<Cause> odd_dose(Agent agent, Effect effect, BaseKind kind, units::MassFraction of_base, double bloom) {
  const DoseBand* band = dose_band(agent, effect, kind);
  if (band == nullptr) return std::nullopt;
  const double percent = units::in_percent(is_gelatin(agent) ? equivalent_200(of_base, bloom) : of_base);
  if (percent >= 0.5 * band->low && percent <= 1.5 * band->high) return std::nullopt;
  const bool high = percent > band->high;
  const double tenfold = percent / (10.0 * band->nominal), tenth = percent / (0.1 * band->nominal);
  const bool slip = (tenfold > 0.6 && tenfold < 1.6) || (tenth > 0.6 && tenth < 1.6);
  std::string words = shown(percent) + " % of " + std::string(info(agent).name) + " for a " + std::string(name(effect)) + " is far " +
                      (high ? "above" : "below") + " the usual " + shown(band->low) + " to " + shown(band->high) + " %";
  if (slip) words += ": probably a slip of ten for " + shown(band->nominal) + " %";
  return Cause{base::Code::assumption, agent, Bearing::weakens, percent, high ? band->high : band->low, std::move(words), band->cited};
}

base::Result<Dose> dose(const DoseAsked& asked) {
  const Agent agent = asked.form.agent;
  const double base_g = units::in_grams(asked.base.mass());
  if (!(base_g > 0.0)) return base::fail(ErrorKind::bad_input, "the base has no mass");
  if (is_gelatin(agent) && !(asked.form.bloom > 0.0)) return base::fail(ErrorKind::bad_input, "a Bloom strength is above 0");
  if (asked.form.leaf && !(asked.form.leaf->si > 0.0)) return base::fail(ErrorKind::bad_input, "a leaf has a mass above 0 g");

  const Liquor liquor = read(asked.base);
  Dose out;
  out.agent = agent;
  out.effect = asked.effect;
  out.kind = base_kind(liquor);
  if (asked.kind) out.kind = {*asked.kind, "as told", false};
  const DoseBand* band = dose_band(agent, asked.effect, out.kind.kind);
  if (band == nullptr)
    return base::fail(ErrorKind::not_found, std::string(info(agent).name) + " is not taken for " + std::string(called(asked.effect)) + ", but for " +
                                                effect_words(agent) + "; " + std::string(called(asked.effect)) + " comes from " + agents_for(asked.effect));

  const double of_bloom = is_gelatin(agent) ? from_200({1.0}, asked.form.bloom).si : 1.0;
  out.percent_of_base = times(*band, of_bloom);
  out.mass_g = times(*band, of_bloom * base_g / 100.0);
  const auto of_total = [base_g](double g) { return 100.0 * g / (base_g + g); };
  out.percent_of_total = {of_total(out.mass_g.low), of_total(out.mass_g.nominal), of_total(out.mass_g.high)};
  out.cited = band->cited;

  const units::Mass nominal = units::grams(out.mass_g.nominal);
  if (asked.form.leaf) {
    const double leaf_g = units::in_grams(*asked.form.leaf);
    out.pieces = Triple{out.mass_g.low / leaf_g, out.mass_g.nominal / leaf_g, out.mass_g.high / leaf_g};
    out.leaves = leaves(asked.base.mass(), nominal, asked.form);
  }
  if (is_gelatin(agent)) out.blooming = blooming_water(nominal, asked.form.leaf.has_value());
  if (asked.scale_step) out.weighing = weighing(agent, nominal, *asked.scale_step);
  out.method = method(agent, asked.effect, liquor, out.mass_g.nominal, asked.form.leaf.has_value());

  if (const auto component = info(agent).component) {
    GelState state;
    state.liquid = asked.base;
    state.liquid[*component] += nominal.si;
    state.bloom = asked.form.bloom;
    state.kind = out.kind.kind;
    state.wanted = asked.effect;
    state.seen.ph_hot = 7.0;  // the method above keeps acid off the heat, and sugar until it has dissolved
    state.seen.solids_hydrating_percent = 0.0;
    if (info(agent).way == Way::heating) state.rest.at = units::celsius(70.0);
    state.scale_step = asked.scale_step;
    std::vector<Cause> causes;
    Liquor mixed = read(state.liquid);
    // The method adds what calcium is missing.
    if (const Limit* calcium = limit(agent, Quantity::calcium); calcium != nullptr && calcium->nominal)
      mixed.calcium_mg = std::max(mixed.calcium_mg, *calcium->nominal * out.mass_g.nominal);
    agent_sets(agent, state, mixed, causes);
    for (Cause& c : causes)
      if (c.code != base::Code::assumption && !(c.code == base::Code::too_acid && c.bearing == Bearing::tells)) out.causes.push_back(std::move(c));
    rank(out.causes);
  }
  if (!band->note.empty()) out.notes.push_back({std::string(band->note), band->cited});
  if (band->cited.confidence == Confidence::low)
    out.notes.push_back({"this dose is " + std::string(band->cited.from_memory() ? "from memory" : "common practice without a source") +
                             ", of low confidence: make a small trial first",
                         band->cited});
  if (out.kind.near_border)
    out.notes.push_back(
        {"the base lies near the border of its kind (" + std::string(name(out.kind.kind)) + ": " + out.kind.why + "): the neighbouring dose may fit as well",
         {"practice", Confidence::low}});
  return out;
}

}  // namespace bloomset::texture
