// sheet/findings.cpp - the table of words: what each finding code says, why, by what source, and what mends it.
//
// One row a code that this version raises; tests hold it against the list of codes. `stop`: this formula must be
// changed. `mind`: it may go wrong. `note`: good to know, or a caution that always holds. `{about}` is what only the
// place that raised it knows; `{value}` and `{limit}` are its numbers. A finding never calls food safe: it says which
// published limit is met or missed.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "sheet/readings.hpp"

namespace bloomset::sheet {
namespace {

using base::Code;
using base::Weight;

constexpr const char* food_code_tables = "US FDA Food Code, 1-201.10, interaction tables of pH and water activity";
constexpr const char* practice = "common practice, no source";
constexpr const char* own_document = "the document";
constexpr const char* gas_balance = "balance of the gas between head space and liquid (Weiss and Price 1980, Weiss 1974)";

constexpr std::array<FindingWords, 44> table = {{
    {Code::range_left, Weight::note, "{about}", "the models were not checked there", "the range that each model states", ""},
    {Code::assumption, Weight::note, "{about}", "the text leaves it open", "the larder, the kit or the act's defaults",
     "say it in the text if it is otherwise"},
    {Code::value_missing, Weight::note, "{about}", "its model does not cover this liquid", own_document, ""},
    {Code::limit_unknown, Weight::mind, "{about}", "only its maker knows what a bottle bears", practice,
     "ask the maker, and do not charge beyond what the bottle says"},
    {Code::over_fill_line, Weight::stop, "{about}: {value} mL of liquid, and its fill line is at {limit} mL",
     "above the line there is too little room for the gas: the pressure is high and soon gone", "the bottle's maker, else common practice",
     "fill it to the line, or take a larger bottle or a second one"},
    {Code::over_charges, Weight::stop, "{about}: {value} charges, and its maker allows {limit}",
     "the maker's count is the limit that binds, whatever the pressure", "the bottle's maker", "take fewer charges, or a bottle that takes more"},
    {Code::over_pressure, Weight::stop, "{about}: {value} bar on the gauge, and it is stated for {limit} bar", "a vessel past its stated pressure may burst",
     "the bottle's maker", "take less gas, or keep it colder"},
    {Code::pressure_if_warm, Weight::note, "{about}: {value} bar on the gauge if it is left until it is at {limit} C",
     "warm liquid holds less gas, and warm gas pushes harder", gas_balance, "keep it cold, away from burners and the sun"},
    {Code::gas_caution, Weight::note, "{about}", "gas under pressure throws a loose head, and gas set free takes the place of air", practice, ""},
    {Code::not_strained, Weight::mind, "{about} goes into the bottle unstrained",
     "a seed or a shred blocks the valve, and a blocked bottle stays under pressure", practice, "strain it through the finest sieve before it is charged"},
    {Code::live_enzyme, Weight::stop, "{about}", "a protease cuts the protein that should set", practice,
     "heat the fruit through to 85 C for 5 min, take it canned, or take an agent that is no protein"},
    {Code::enzyme_contact, Weight::mind, "{about}, which has seen no heat", "where raw fruit touches gelatin its protease melts it, from there inwards",
     practice, "heat the fruit through to 85 C for 5 min, take it canned, or dispense at the last moment"},
    {Code::will_not_set, Weight::stop, "{about}", "the agent lacks what it needs, or meets what it cannot bear", practice, ""},
    {Code::sets_soft, Weight::mind, "{about}", "the agent finds less than it needs, or more than it likes", practice, ""},
    {Code::strings_on_landing, Weight::mind, "{about}", "an agent that is cooled into the zone where it sets gels on contact, before it is mixed in", practice,
     ""},
    {Code::melts_on_hot, Weight::mind, "{about}", "a foam or gel of gelatin melts where what it lies on is warmer than it melts at", practice,
     "serve it on something colder, or take an agent that stands when hot"},
    {Code::too_acid, Weight::mind, "{about}", "acid cuts the agent's chains, or keeps them apart", practice,
     "add the acid last and off the heat, or take an agent that bears it"},
    {Code::too_strong, Weight::mind, "{about}", "ethanol keeps an agent from dissolving, and weakens its gel", practice,
     "dissolve the agent without the spirit and stir the spirit in last, or make it weaker"},
    {Code::too_hard_water, Weight::mind, "{about}", "calcium and magnesium tie the agent up before it has dissolved", practice,
     "dissolve it in soft water first"},
    {Code::curdles, Weight::mind, "{about}", "acid, strong spirit or heat makes milk protein clump and fall out", practice,
     "take less acid or spirit, or milk that bears more (cream, a plant milk made for it); or let it curdle and clarify it"},
    {Code::sinks_or_floats, Weight::mind, "{about}", "what lies on a liquid must be lighter than it", practice,
     "pour the heaviest first and the lightest last, or part them with more sugar below or more spirit above"},
    {Code::dose_below_scale, Weight::mind, "{about}", "one step of the scale is a large share of the dose", practice, "make a stock of it, or a larger batch"},
    {Code::over_legal_limit, Weight::mind, "{about}", "a published rule limits what the food as served may hold", practice,
     "ask which rule holds for your food where you are"},
    {Code::ice_gone, Weight::mind, "{about}: all the ice melts, and the drink ends at {value} C", "with no ice left it gets neither colder nor stays cold",
     "heat balance of this step", "take more ice, or colder"},
    {Code::glass_over, Weight::stop, "{about} {value} mL over the brim ({limit} mL)",
     "liquid, what the ice displaces and what else lies in it are more than the glass holds", "the kit's glass", ""},
    {Code::left_over, Weight::note, "{about}", "nothing is scaled by itself: a batch is made whole", own_document, ""},
    {Code::short_of, Weight::mind, "{about}", "nothing doubles by itself", own_document, ""},
    {Code::target_unmet, Weight::mind, "{about}", "a target is a wish of the document", own_document, ""},
    {Code::pieces_rounded, Weight::mind, "{about}", "half a leaf is not weighed, it is guessed", practice, "weigh it, or write the amount in whole pieces"},
    {Code::flame_near_spirit, Weight::note, "{about}: {value} %vol is heated", "above 40 C spirit gives off vapour that a flame can light", practice,
     "heat it without an open flame, lid at hand, and pour no spirit near a lit burner"},
    {Code::torch_near_bottle, Weight::mind, "{about}",
     "heat raises the pressure in a bottle and in chargers, laughing gas feeds a flame, and a spray of fat or spirit burns", practice,
     "put bottle and chargers away before the torch is lit, and torch on metal or stone"},
    {Code::unrated_vessel, Weight::stop, "{about} is not known to be built for pressure", "a vessel that is not built for it may burst", practice,
     "charge only bottles that are made for it"},
    {Code::hot_sugar, Weight::note, "{about}: {value} C hot sugar sticks and burns deeply", "sugar holds its heat and does not run off the skin", practice,
     "long sleeves, cold water within reach, add liquids slowly"},
    {Code::raw_egg, Weight::mind, "{about} is raw: raw or undercooked egg may make people ill",
     "neither spirit nor acid is a published way of treating raw egg; children, older, pregnant and ill people are at most risk",
     "US FDA Food Code, 3-302.13 and 3-603.11", "take pasteurised egg, the same weight; else tell the guest"},
    {Code::choking, Weight::mind, "{about}", "a firm gel of a bite's size slips, does not melt and closes the airway", practice,
     "cut it small or serve it soft, and not to small children or old people"},
    {Code::keeps_passed, Weight::mind, "{about}",
     "food that needs control of time and temperature is kept 7 days at most, the day of preparation being the first", "US FDA Food Code, 3-501.17",
     "keep it 6 days behind the day it is made, freeze it, or have the product assessed"},
    {Code::cooling_too_slow, Weight::mind, "{about}", "the middle of a batch cools long after its rim, and a full bottle or bowl has much middle for its rim",
     "memory: heat-transfer textbooks, coefficients of air and ice water; within about 40 %",
     "cool it in an ice bath first and stir it, or in shallow or smaller vessels, or give it the time"},
    {Code::time_temperature_control, Weight::note, "{about}",
     "by pH and water activity it falls among foods that need control of time and temperature unless an assessment says otherwise", food_code_tables,
     "hold it at 5 C or below, mark the day, and use it within 7 days, the first being the day it is made"},
    {Code::low_acid_stored, Weight::mind, "{about}",
     "above pH 4.6 and above a water activity of 0.92 spores of Clostridium botulinum may grow, above all in a closed vessel",
     "21 CFR 114.3 (pH 4.6); US FDA Food Code, 1-201.10 (0.92)", "store it at 5 C or below"},
    {Code::allergen, Weight::note, "contains {about}", "guests must be told, and asked about traces from other work",
     "Regulation (EU) 1169/2011, Annex II; FALCPA 2004 and FASTER Act 2021", ""},
    {Code::allergen_unknown, Weight::note, "ask the maker about {about}", "the larder does not know for sure",
     "Regulation (EU) 1169/2011, Annex II; FALCPA 2004 and FASTER Act 2021", "read the label and write the answer into the larder"},
    {Code::alcohol, Weight::note, "contains alcohol: {about}",
     "not for minors, not before driving, and it is best not to drink when pregnant; the figures are an estimate from the recipe, no guide to fitness to drive",
     "27 CFR 16.21 (0.5 %vol); UK Chief Medical Officers 2016", ""},
    {Code::guest_notice, Weight::note, "contains {about}", "guests who must not have it ask for it", practice, ""},
    {Code::defer, Weight::note, "your food law, your inspector and your written plan decide",
     "what is said here of health follows published model rules, not your law", practice, ""},
}};

std::string filled(std::string words, const std::string& about, double value, double limit) {
  const std::array<std::pair<const char*, std::string>, 3> pieces = {{{"{value}", shown(value)}, {"{limit}", shown(limit)}, {"{about}", about}}};
  for (const auto& [mark, text] : pieces)
    if (const auto at = words.find(mark); at != std::string::npos) words.replace(at, std::string(mark).size(), text);
  return words;
}

// Why something does not set is one answer of several codes: it stays in the order in which it was given, the furthest outside first (texture/set.hpp).
Code sorts_as(Code code) {
  switch (code) {
    case Code::sets_soft:
    case Code::too_acid:
    case Code::too_strong:
    case Code::too_hard_water:
      return Code::will_not_set;
    default:
      return code;
  }
}

}  // namespace

std::span<const FindingWords> finding_words() { return table; }

const FindingWords* words_of(Code code) {
  for (const FindingWords& row : table)
    if (row.code == code) return &row;
  return nullptr;
}

base::Finding say(Code code, base::Where at, const std::string& about, double value, double limit) {
  base::Finding finding;
  finding.code = code;
  finding.where = std::move(at);
  const FindingWords* words = words_of(code);
  if (words == nullptr) {
    finding.says = about;
    return finding;
  }
  finding.weight = words->weight;
  finding.says = filled(words->says, about, value, limit);
  finding.why = words->why;
  finding.source = words->source;
  if (words->remedy[0] != '\0') finding.remedies.push_back({words->remedy, std::nullopt});
  return finding;
}

base::Finding because(const char* why, base::Finding finding) {
  finding.why = why;
  return finding;
}

base::Where where(const flow::Flowsheet& sheet, const flow::Origin& origin, base::Span span) {
  base::Where at;
  if (origin.part < sheet.parts.size()) at.part = sheet.parts[origin.part].name;
  at.step = origin.step;
  at.take = origin.take;
  at.span = span;
  return at;
}

// What is said of a take names it: "white sugar: counted as pure sucrose".
base::Finding finding(const flow::Mark& mark, const flow::Flowsheet& sheet) {
  std::string about = mark.about;
  for (const flow::TakeInfo& take : sheet.takes) {
    const bool its = mark.origin.take != 0 && take.origin == mark.origin;
    if (its && about.find(take.label) == std::string::npos) about = take.label + ": " + about;
  }
  return say(mark.code, where(sheet, mark.origin, mark.span), about, mark.value, mark.limit);
}

void tidy(std::vector<base::Finding>& findings) {
  std::vector<base::Finding> kept;
  std::vector<std::size_t> repeats;
  std::map<std::tuple<Code, std::string>, std::size_t> said;
  for (base::Finding& finding : findings) {
    const auto [entry, is_new] = said.emplace(std::tuple(finding.code, finding.says), kept.size());
    if (is_new) {
      kept.push_back(std::move(finding));
      repeats.push_back(0);
    } else {
      ++repeats[entry->second];
    }
  }
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (repeats[i] > 0) kept[i].says += repeats[i] == 1 ? " (and at one more place)" : " (and at " + std::to_string(repeats[i]) + " more places)";
  std::stable_sort(kept.begin(), kept.end(), [](const base::Finding& a, const base::Finding& b) {
    return std::tuple(a.weight, sorts_as(a.code)) < std::tuple(b.weight, sorts_as(b.code));
  });
  findings = std::move(kept);
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

std::string shown(double value) { return std::abs(value) >= 100.0 ? text::print_number(std::round(value), 12) : text::print_number(value, 3); }

}  // namespace bloomset::sheet
