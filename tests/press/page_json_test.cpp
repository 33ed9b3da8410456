// The page's documents: their keys are the wire's, in its order, and they say what the program's own structs say.
#include "press/page_json.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "press/demos.hpp"

namespace bloomset::press {
namespace {

using nlohmann::ordered_json;
using test::beside;
using test::demo;
using test::text_of;
using text::Json;

const larder::Larder& larder_in_force() {
  static const larder::Larder larder = larder::Larder::built_in().value();
  return larder;
}
const kit::Kit& kit_in_force() {
  static const kit::Kit kit = kit::Kit::built_in().value();
  return kit;
}

ordered_json parsed(const Json& json) { return ordered_json::parse(json.print()); }
std::string keys(const ordered_json& object) {
  std::string all;
  for (const auto& member : object.items()) all += (all.empty() ? "" : ",") + member.key();
  return all;
}
const ordered_json& named(const ordered_json& rows, const std::string& name) {
  for (const auto& row : rows)
    if (row["name"] == name) return row;
  ADD_FAILURE() << name;
  return rows[0];
}

ordered_json counter_of(const std::string& text) {
  base::Sources sources;
  const auto formula = formula::read("f.toml", text, sources, beside);
  EXPECT_TRUE(formula);
  const auto counter = sheet::make_counter({*formula, larder_in_force(), kit_in_force(), std::nullopt, text});
  EXPECT_TRUE(counter);
  return parsed(counter_json(*counter, *formula, sources));
}

TEST(CounterJson, says_a_make_in_whole_sentences) {
  const ordered_json counter = counter_of(text_of(demo / "08-harbour-light.toml"));
  EXPECT_EQ(keys(counter), "schema,title,serves,courses,findings");
  const ordered_json& cloud = counter["courses"][0];
  EXPECT_EQ(keys(cloud), "part,index,made,batches,rounds,for,steps,ready_after_h,keeps_h");
  EXPECT_EQ(cloud["part"], "orange cloud");
  EXPECT_EQ(cloud["for"], "one batch");
  const ordered_json& infuse = cloud["steps"][0];
  EXPECT_EQ(keys(infuse), "number,do,heading,says,why_window,takes,window,keeps_s,to_c,at_c,after,findings,cautions");
  EXPECT_EQ(infuse["heading"], "Infuse at 70\u00A0°C");
  EXPECT_EQ(infuse["at_c"], 70.0);
  EXPECT_EQ(infuse["window"].dump(), R"({"low_s":600,"high_s":720,"low_hard":false,"high_hard":true})");
  EXPECT_EQ(keys(infuse["takes"][0]), "thing,label,look,mass_g,volume_ml,pieces,written,measure,good_low_g,good_high_g,first_of");
  EXPECT_EQ(infuse["takes"][0]["written"], "230 g");
  EXPECT_EQ(cloud["steps"][8]["keeps_s"].dump(), R"({"low":172800,"high":172800})");
  EXPECT_EQ(cloud["keeps_h"], 48.0);
  // The sentence names the ice of the round that is at hand, as the list beside it does.
  const ordered_json& shake = counter["courses"][2]["steps"][0];
  EXPECT_EQ(counter["courses"][2]["for"], "one round of 2");
  EXPECT_NE(shake["says"].get<std::string>().find("400\u00A0g"), std::string::npos) << shake["says"];
  EXPECT_EQ(shake["takes"][4]["mass_g"], 400.0);
  EXPECT_EQ(counter["courses"][3]["part"], "serve");
  for (const auto& course : counter["courses"])
    for (const auto& step : course["steps"]) {
      std::set<std::string> found;
      for (const auto& f : step["findings"]) found.insert(counter["findings"].at(f.get<std::size_t>())["says"]);
      for (const auto& says : step["cautions"]) EXPECT_TRUE(found.contains(says)) << says;
    }
}

TEST(CounterJson, holds_for_every_demo) {
  for (const auto& entry : std::filesystem::directory_iterator(demo))
    if (entry.path().extension() == ".toml" && entry.path().stem() != "syrups") {
      const ordered_json counter = counter_of(text_of(entry.path()));
      EXPECT_FALSE(counter["courses"].empty()) << entry.path();
      for (const auto& course : counter["courses"])
        for (const auto& step : course["steps"]) EXPECT_TRUE(step["says"].get<std::string>().find('.') != std::string::npos) << step["says"];
    }
}

TEST(PageJson, gives_the_larder_row_by_row) {
  const ordered_json larder = parsed(larder_json(larder_in_force()));
  EXPECT_EQ(larder["things"].size(), larder_in_force().names().size());
  const ordered_json& lime = named(larder["things"], "lime juice");
  EXPECT_EQ(keys(lime), "name,also,family,from,source,solid,numbers,composition,allergens,allergens_known,pack,varies,assumptions,live_enzyme,raw_egg");
  EXPECT_EQ(keys(lime["numbers"]), "brix,acid_percent,ph,strength_percent,density_kg_m3,piece_g,storage_c,yield_percent,co2_g_l,bloom");
  EXPECT_EQ(lime["family"], "juice");
  EXPECT_EQ(lime["from"], nullptr);
  for (const auto& thing : larder["things"]) {
    double sum = 0.0;
    for (const auto& share : thing["composition"]) sum += share["percent"].get<double>();
    EXPECT_NEAR(sum, 100.0, 1e-6) << thing["name"];
    const ordered_json& acid = thing["numbers"]["acid_percent"];
    EXPECT_TRUE(acid.is_null() || acid.get<double>() < 30.0) << thing["name"];
  }
  // Lemon and lime juice hold some 5 to 8 g of acid in 100 g (memory: Penniston et al., Journal of Endourology 22, 567, 2008: 46 to 48 g/L).
  EXPECT_NEAR(lime["numbers"]["acid_percent"].get<double>(), 6.0, 2.0);
}

TEST(PageJson, gives_the_kit_with_its_outlines) {
  const ordered_json kit = parsed(kit_json(kit_in_force()));
  EXPECT_EQ(keys(kit), "schema,room_c,humidity,hands,burners,vessels,places");
  // docs/kit.md: what the built-in kit has.
  const ordered_json& siphon = named(kit["vessels"], "siphon, half litre");
  EXPECT_EQ(keys(siphon), "name,kind,brim_ml,inside_mm,heat_j_k,holds_serves,fill_line_ml,most_charges,most_pressure_bar,hot_rated,pressure_rated,source,from");
  EXPECT_NEAR(siphon["brim_ml"].get<double>(), 750.0, 1e-9);
  EXPECT_NEAR(siphon["fill_line_ml"].get<double>(), 500.0, 1e-9);
  EXPECT_EQ(siphon["most_charges"], 2);
  EXPECT_EQ(siphon["kind"], "siphon");
  EXPECT_GE(named(kit["vessels"], "tall glass, 400 mL")["inside_mm"].size(), 2U);
  const ordered_json& fridge = named(kit["places"], "still fridge");
  EXPECT_EQ(keys(fridge), "name,kind,temperature_c,source,from");
  EXPECT_NEAR(fridge["temperature_c"].get<double>(), 5.0, 1e-9);
}

TEST(PageJson, says_every_word_with_a_meaning) {
  const ordered_json words = parsed(words_json());
  EXPECT_EQ(keys(words), "schema,acts,targets,units,codes");
  EXPECT_EQ(words["acts"].size(), formula::act_count);
  EXPECT_EQ(words["targets"].size(), formula::target_names().size());
  EXPECT_EQ(words["codes"].size(), sheet::finding_words().size());
  for (const char* list : {"acts", "targets", "codes"})
    for (const auto& word : words[list]) EXPECT_FALSE(word["says"].get<std::string>().empty()) << word.dump();
  const auto& shake = named(words["acts"], "shake")["keys"];
  EXPECT_NE(std::find(shake.begin(), shake.end(), "ice"), shake.end());
  EXPECT_EQ(std::find(shake.begin(), shake.end(), "until"), shake.end());
  EXPECT_EQ(named(words["targets"], "acidity_g_l")["unit"], "g/L");
}

TEST(PageJson, completes_names) {
  const ordered_json names = parsed(names_json(larder_in_force(), "lime ju", 3));
  EXPECT_EQ(names["things"][0].dump(), R"({"name":"lime juice","family":"juice"})");
  EXPECT_LE(names["things"].size(), 3U);
  EXPECT_TRUE(parsed(names_json(larder_in_force(), "", 3))["things"].empty());
}

TEST(PageJson, lays_texts_side_by_side) {
  EXPECT_EQ(
      compare_json("a\nb\n", "a\nc\nd\n").print(),
      R"({"schema":1,"rows":[{"kind":"same","before":"a","after":"a"},{"kind":"changed","before":"b","after":"c"},{"kind":"added","before":null,"after":"d"}]})");
}

TEST(PageJson, says_of_pasted_lines_what_was_read) {
  const std::string lines = "200 g lime juice\njuice of 1 lime";
  const ordered_json out = parsed(lines_json(*sheet::read_lines(lines, "", larder_in_force()), lines));
  EXPECT_EQ(out["lines"][0].dump(),
            R"({"written":"200 g lime juice","read":true,"known":true,"amount":"200 g","thing":"lime juice","nearest":[],"fault":null})");
  EXPECT_FALSE(out["lines"][1]["read"]);
  EXPECT_EQ(out["lines"][1]["fault"]["line"], 2);
  EXPECT_EQ(out["lines"][1]["fault"]["code"], "no_amount");
}

TEST(PageJson, drafts_a_thing_and_says_what_is_wrong_with_documents) {
  larder::Draft thing;
  thing.name = "own juice";
  thing.like = "lime juice";
  EXPECT_TRUE(parsed(draft_json(thing, larder_in_force()))["faults"].empty());
  thing.like = "lime juise";
  const ordered_json wrong = parsed(draft_json(thing, larder_in_force()));
  EXPECT_EQ(wrong["faults"][0]["hint"], "did you mean `lime juice`?");
  const auto faults = [](ReadKind kind, const std::string& text) {
    return parsed(read_json(kind, "mine", text, larder_in_force(), kit_in_force(), beside))["faults"];
  };
  EXPECT_TRUE(faults(ReadKind::formula, text_of(demo / "08-harbour-light.toml")).empty());
  EXPECT_EQ(faults(ReadKind::formula,
                   "bloomset = 1\ntitle = \"T\"\n[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [{ do = \"combine\", take = [\"1 g wotar\"] }]\n")[0]["code"],
            "unknown_thing");
  EXPECT_EQ(faults(ReadKind::formula, "title = 3")[0]["line"], 1);
  EXPECT_TRUE(faults(ReadKind::larder, "").empty());
  EXPECT_EQ(faults(ReadKind::larder, "[[thing]]\nname = \"x\"\n").size(), 2U);
  EXPECT_EQ(faults(ReadKind::kit, "hands = 0\n")[0]["code"], "out_of_range");
}

}  // namespace
}  // namespace bloomset::press
