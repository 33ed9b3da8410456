// press/words_json.cpp - the closed lists of words that a document may use, each with what it means in a line: for completion on the page.
//
// The words themselves stand where they are read (formula/acts.hpp, formula's targets, data/text/units.csv, the table of findings); here is only what they
// say to a cook. A test walks both lists.
#include <algorithm>
#include <array>

#include "formula/acts.hpp"
#include "press/json.hpp"
#include "press/page_json.hpp"
#include "text/units.hpp"

namespace bloomset::press {
namespace {

using formula::Act;
using text::Json;

constexpr const char* meaning(Act act) {
  switch (act) {
    case Act::combine:
      return "puts things together and mixes them";
    case Act::dissolve:
      return "stirs something in until it is dissolved";
    case Act::dilute:
      return "thins with something";
    case Act::pour:
      return "pours into what is there";
    case Act::float_on:
      return "lays something light on top";
    case Act::layer:
      return "lays one liquid on another without mixing";
    case Act::top:
      return "tops up the glass";
    case Act::garnish:
      return "lays on the glass what is not in the drink";
    case Act::rim:
      return "coats the rim of the glass";
    case Act::roll:
      return "rolls in something that clings";
    case Act::rinse:
      return "wets the glass and tips the rest out";
    case Act::warm:
      return "warms, below boiling";
    case Act::boil:
      return "brings to the boil and keeps it there";
    case Act::reduce:
      return "boils water away until an end is reached";
    case Act::chill:
      return "makes cold without freezing";
    case Act::freeze:
      return "freezes hard";
    case Act::rest:
      return "lets it stand";
    case Act::degas:
      return "lets gas or air out";
    case Act::infuse:
      return "draws taste out of solids";
    case Act::strain:
      return "keeps solids, pulp or ice back";
    case Act::torch:
      return "burns the surface";
    case Act::shake:
      return "shakes with ice";
    case Act::dry_shake:
      return "shakes without ice, for foam";
    case Act::stir:
      return "stirs with ice";
    case Act::blend:
      return "cuts up with ice in a blender";
    case Act::bloom:
      return "soaks gelatin in cold water, apart";
    case Act::disperse:
      return "spreads a powder so that it cannot clump, apart";
    case Act::hydrate:
      return "gives a powder time to take up water, apart";
    case Act::set:
      return "lets a gel form";
    case Act::unmould:
      return "takes a gel out of its form";
    case Act::cut:
      return "cuts into pieces of a size";
    case Act::blitz:
      return "breaks a gel with a blade until it flows";
    case Act::froth:
      return "beats air in";
    case Act::sphere:
      return "drops into a bath that gives a skin";
    case Act::clarify:
      return "parts what runs clear from what does not";
    case Act::charge:
      return "puts gas into a closed bottle";
    case Act::dispense:
      return "lets out of a bottle under pressure";
    case Act::carbonate:
      return "dissolves carbon dioxide under pressure";
  }
  return "";
}

struct TargetMeaning {
  std::string_view name;
  const char* says;
};
constexpr std::array<TargetMeaning, 28> target_meanings = {{{"abv", "strength: ethanol by volume at 20 °C"},
                                                            {"abv_all_melted", "strength once all ice has melted"},
                                                            {"ethanol", "grams of ethanol"},
                                                            {"sugar", "sugars in the liquid, of its mass"},
                                                            {"sugars", "grams of sugars"},
                                                            {"brix", "all dissolved matter, of the mass"},
                                                            {"brix_read", "what a refractometer shows"},
                                                            {"sweetness", "as sweet as so much sucrose"},
                                                            {"acidity", "titratable acidity as citric acid, g in 100 g"},
                                                            {"acidity_g_l", "titratable acidity as citric acid, g in a litre"},
                                                            {"ph", "pH at 25 °C"},
                                                            {"temperature", "how cold or warm it is"},
                                                            {"freezing_point", "where the first ice forms"},
                                                            {"water_activity", "how freely water leaves it, 0 to 1"},
                                                            {"density", "mass of a volume"},
                                                            {"viscosity", "how thick it runs"},
                                                            {"co2", "carbon dioxide dissolved, volumes"},
                                                            {"mass", "grams of liquid"},
                                                            {"volume", "millilitres of liquid"},
                                                            {"ice", "grams of ice"},
                                                            {"foam", "millilitres of foam"},
                                                            {"overrun", "how much a foam has grown"},
                                                            {"headroom", "room left below the brim"},
                                                            {"energy", "kilocalories"},
                                                            {"cost", "what a serve costs"},
                                                            {"fill", "how full a bottle is, of its fill line"},
                                                            {"pressure", "in the bottle at service, on the gauge"},
                                                            {"ready_after", "time from the first step to the last"}}};

const char* target_meaning(std::string_view name) {
  for (const TargetMeaning& row : target_meanings)
    if (row.name == name) return row.says;
  return "";
}

Json act_json(Act act) {
  Json keys = Json::array(), out = Json::object();
  for (std::size_t k = 0; k < formula::key_count; ++k)
    if (formula::has(formula::keys_of(act), static_cast<formula::Key>(k))) keys.push(formula::name(static_cast<formula::Key>(k)));
  out.set("name", formula::name(act)).set("says", meaning(act)).set("keys", std::move(keys));
  return out;
}

}  // namespace

Json words_json() {
  Json acts = Json::array(), units = Json::array(), out = document();
  for (std::size_t a = 0; a < formula::act_count; ++a) acts.push(act_json(static_cast<Act>(a)));
  std::vector<std::string> seen;
  for (const text::Unit& unit : text::units())
    if (std::find(seen.begin(), seen.end(), unit.spelling) == seen.end()) {
      seen.push_back(unit.spelling);
      units.push(unit.spelling);
    }
  out.set("acts", std::move(acts))
      .set("targets", Json::array_of(formula::target_names(), [](const std::string& name) {
             Json target = Json::object();
             target.set("name", name).set("key", formula::target_key(name)).set("unit", formula::target_unit(name)).set("says", target_meaning(name));
             return target;
           }));
  out.set("units", std::move(units)).set("codes", Json::array_of(sheet::finding_words(), [](const sheet::FindingWords& words) {
                                           Json code = Json::object();
                                           code.set("code", base::name(words.code)).set("says", words.why);
                                           return code;
                                         }));
  return out;
}

}  // namespace bloomset::press
