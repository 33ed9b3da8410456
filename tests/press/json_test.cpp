#include "press/json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "press/press.hpp"

namespace bloomset::press {
namespace {

using nlohmann::ordered_json;

// The contract's property keys, in its own order (docs/program.md).
const std::vector<std::string> property_keys = {"mass_g",
                                                "volume_ml",
                                                "volume_20c_ml",
                                                "ice_g",
                                                "foam_volume_ml",
                                                "density_kg_m3",
                                                "temperature_c",
                                                "abv_percent",
                                                "abv_percent_all_melted",
                                                "ethanol_g",
                                                "brix_percent",
                                                "brix_read_percent",
                                                "sugars_g",
                                                "sugar_percent",
                                                "sweetness_percent_sucrose",
                                                "ph_25c",
                                                "titratable_acidity_g_100g_citric",
                                                "titratable_acidity_g_l_citric",
                                                "freezing_point_c",
                                                "water_activity",
                                                "heat_capacity_kj_kg_k",
                                                "viscosity_mpa_s",
                                                "refractive_index_20c",
                                                "co2_volumes",
                                                "energy_kcal"};

std::vector<std::string> keys_of(const ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& member : object.items()) keys.push_back(member.key());
  return keys;
}

void expect_keys(const ordered_json& object, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) EXPECT_TRUE(object.contains(key)) << key;
}

sheet::Sheet small_sheet() {
  sheet::Sheet sheet;
  sheet.title = "Small";
  sheet.serves = 2;
  sheet::PartSheet part;
  part.name = "sour";
  part.values.of[0] = 120.5;
  part.values.of[21] = matter::cannot_be_given;
  sheet::TakeLine& take = part.takes.emplace_back();
  take.thing = "lemon juice";
  take.mass_g = 20.0;
  take.volume_ml = matter::cannot_be_given;
  sheet::AgentLine& agar = part.agents.emplace_back();
  agar.thing = "agar";
  agar.mass_g = 1.2;
  agar.percent_of_base = 0.9;
  agar.effect = "soft gel";
  agar.dose_is = "within";
  agar.sets_at_c = 40.0;
  agar.gel_class = "firm";
  agar.verdict = "sets soft";
  part.steps.emplace_back().act = "shake";
  part.losses.push_back({"sticks", 1, 0.5});
  sheet.parts.push_back(part);
  sheet.serve.emplace().vessel = "cup";
  sheet.serve->inside_mm = {{0.0, 10.0}, {50.0, 30.0}};
  sheet.streams.push_back({"r1", "take:1.1.1", "step:1.1", 40.0, 5.0, "juice"});
  sheet.targets.emplace_back().target = "serve.abv 8-11 %";
  sheet.targets.emplace_back().met = true;
  sheet.balance = {10.0, 5.0, 3.0, 1.5, 0.5};
  base::Finding finding;
  finding.code = base::Code::left_over;
  finding.where.part = "sour";
  finding.where.step = 1;
  finding.where.span = {0, 4, 7, 3};
  finding.remedies.push_back({"make less", base::Edit{{0, 4, 7, 3}, "0.5"}});
  sheet.findings.push_back(finding);
  return sheet;
}

ordered_json printed() {
  base::Sources sources;
  sources.add("small.toml", "");
  return ordered_json::parse(sheet_json(small_sheet(), sources));
}

TEST(SheetJson, BeginsWithItsSchemaAndHasTheContractsKeys) {
  const ordered_json sheet = printed();
  EXPECT_EQ(keys_of(sheet).at(0), "schema");
  EXPECT_EQ(sheet["schema"], 1);
  expect_keys(sheet, {"serves", "parts", "streams", "serve", "findings", "targets", "balance", "digest"});
  expect_keys(sheet["parts"][0], {"name", "made", "batch_mass_g", "used_per_serve_g", "batches", "rounds", "left_over_g", "short_g", "losses", "takes", "steps",
                                  "agents", "siphon", "ready_after_h", "keeps_h"});
  expect_keys(sheet["parts"][0]["takes"][0], {"thing", "step", "mass_g", "volume_ml", "pieces", "percent_of_base", "percent_of_total", "measure"});
  expect_keys(sheet["parts"][0]["losses"][0], {"kind", "step", "mass_g"});
  expect_keys(sheet["streams"][0], {"id", "from", "to", "mass_g", "temperature_c", "look"});
  expect_keys(sheet["serve"], {"at_service", "merged", "over_time", "headroom_ml", "cost", "vessel", "standard_drinks", "allergens"});
  EXPECT_EQ(keys_of(sheet["serve"]["standard_drinks"]), (std::vector<std::string>{"us", "uk", "au", "eu"}));
  EXPECT_EQ(keys_of(sheet["balance"]), (std::vector<std::string>{"in_g", "served_g", "stays_g", "lost_g", "gas_g"}));
  EXPECT_EQ(keys_of(sheet["targets"][0]), (std::vector<std::string>{"target", "value", "met", "until_minute"}));
}

TEST(SheetJson, PropertiesStandFlatInPartsStepsAndServe) {
  const ordered_json sheet = printed();
  expect_keys(sheet["parts"][0], property_keys);
  expect_keys(sheet["parts"][0]["steps"][0], property_keys);
  EXPECT_EQ(keys_of(sheet["serve"]["at_service"]), property_keys);
  EXPECT_EQ(keys_of(sheet["serve"]["merged"]), property_keys);
  EXPECT_EQ(sheet["parts"][0]["mass_g"], 120.5);
}

TEST(SheetJson, WhatCannotBeGivenOrIsNotThereIsNull) {
  const ordered_json sheet = printed();
  EXPECT_TRUE(sheet["parts"][0]["viscosity_mpa_s"].is_null());
  EXPECT_TRUE(sheet["parts"][0]["takes"][0]["volume_ml"].is_null());
  EXPECT_TRUE(sheet["parts"][0]["takes"][0]["pieces"].is_null());
  EXPECT_TRUE(sheet["parts"][0]["siphon"].is_null());
  EXPECT_TRUE(sheet["serve"]["cost"].is_null());
  EXPECT_TRUE(sheet["targets"][0]["until_minute"].is_null());
  EXPECT_EQ(sheet["targets"][0]["met"], false);
  EXPECT_EQ(sheet["targets"][1]["met"], true);
}

TEST(SheetJson, AgentsStandWithTheirDoseAndTheirVerdict) {
  const ordered_json agents = printed()["parts"][0]["agents"];
  ASSERT_EQ(agents.size(), 1U);
  EXPECT_EQ(keys_of(agents[0]), (std::vector<std::string>{"agent", "mass_g", "percent_of_base", "percent_of_total", "effect", "dose_is", "sets_at_c",
                                                          "melts_at_c", "gel_class", "verdict"}));
  EXPECT_EQ(agents[0]["agent"], "agar");
  EXPECT_EQ(agents[0]["percent_of_base"], 0.9);
  EXPECT_EQ(agents[0]["dose_is"], "within");
  EXPECT_EQ(agents[0]["sets_at_c"], 40.0);
  EXPECT_TRUE(agents[0]["melts_at_c"].is_null()) << "not known";
  EXPECT_EQ(agents[0]["verdict"], "sets soft");
}

TEST(SheetJson, AFindingSaysWhereAndHowToEdit) {
  const ordered_json finding = printed()["findings"][0];
  EXPECT_EQ(keys_of(finding), (std::vector<std::string>{"code", "severity", "where", "says", "why", "source", "remedies", "from_serves"}));
  EXPECT_EQ(finding["where"], ordered_json::parse(R"({"part":"sour","step":1,"take":null,"property":null,"file":"small.toml","line":4,"column":7})"));
  EXPECT_EQ(finding["remedies"][0], ordered_json::parse(R"({"says":"make less","edit":{"line":4,"column":7,"length":3,"text":"0.5"}})"));
}

TEST(ChillJson, HasPropertiesAndWhatTheIceDid) {
  sheet::ChillSheet chill;
  chill.melted_g = 40.0;
  const ordered_json json = ordered_json::parse(chill_json(chill));
  EXPECT_EQ(json["schema"], 1);
  expect_keys(json, property_keys);
  expect_keys(json, {"melted_g", "ice_left_g", "dilution_percent_of_initial_mass", "dilution_percent_of_initial_volume", "findings"});
  EXPECT_EQ(json["melted_g"], 40.0);
}

TEST(MixtureJson, HasPropertiesAndFindings) {
  const ordered_json json = ordered_json::parse(mixture_json({}));
  EXPECT_EQ(json["schema"], 1);
  expect_keys(json, property_keys);
  EXPECT_TRUE(json["findings"].is_array());
}

TEST(Json, says_a_fault_with_its_place_or_without) {
  base::Sources sources;
  const std::uint32_t source = sources.add("f.toml", "title = 3\n");
  EXPECT_EQ(fault_json({base::Severity::error, "wrong_type", "no text", {source, 1, 9, 1}, std::nullopt, "write it in quotes"}, sources).print(),
            R"({"code":"wrong_type","message":"no text","hint":"write it in quotes","file":"f.toml","line":1,"column":9,"length":1})");
  EXPECT_EQ(fault_json({base::Severity::error, "empty", "nothing", {}, std::nullopt, ""}, sources).print(),
            R"({"code":"empty","message":"nothing","hint":null,"file":null,"line":null,"column":null,"length":null})");
}

}  // namespace
}  // namespace bloomset::press
