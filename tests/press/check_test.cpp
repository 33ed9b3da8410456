#include "press/check.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace bloomset::press {
namespace {

sheet::Sheet found(base::Weight weight, bool met) {
  sheet::Sheet sheet;
  sheet.title = "Sour";
  base::Finding finding;
  finding.code = base::Code::left_over;
  finding.weight = weight;
  finding.says = "something";
  sheet.findings.push_back(finding);
  sheet::TargetLine& target = sheet.targets.emplace_back();
  target.target = "serve.abv 8-11 %";
  target.value = 9.0;
  target.met = met;
  return sheet;
}

TEST(CheckPrinter, GivesOneJsonDocumentForSeveralFormulas) {
  CheckPrinter printer(CheckPrinter::Form::json, 2);
  std::string out = printer.document("a.toml", found(base::Weight::note, true), {});
  out += printer.document("b.toml", found(base::Weight::stop, false), {});
  out += printer.end();
  const auto json = nlohmann::ordered_json::parse(out);
  EXPECT_EQ(json["schema"], 1);
  ASSERT_EQ(json["documents"].size(), 2U);
  EXPECT_EQ(json["documents"][1]["file"], "b.toml");
  EXPECT_EQ(json["documents"][1]["findings"][0]["severity"], "stop");
  EXPECT_EQ(json["findings"].size(), 2U);
  EXPECT_EQ(json["targets"][1]["met"], false);
}

TEST(CheckPrinter, GivesADocumentForNoFormulaAtAll) {
  CheckPrinter printer(CheckPrinter::Form::json, 0);
  EXPECT_EQ(nlohmann::json::parse(printer.end())["documents"].size(), 0U);
}

TEST(CheckPrinter, CountsNotesOfManyAndPrintsThemOfOne) {
  CheckPrinter many(CheckPrinter::Form::text, 2);
  std::string of_many = many.document("a.toml", found(base::Weight::note, true), {});
  of_many += many.end();
  EXPECT_EQ(of_many.find("Something."), std::string::npos) << of_many;
  EXPECT_NE(of_many.find("1 note\n"), std::string::npos) << of_many;
  EXPECT_NE(of_many.find("1 formula: 0 stop, 0 mind, 1 note; 1 of 1 target met\n"), std::string::npos) << of_many;
  CheckPrinter one(CheckPrinter::Form::text, 1);
  EXPECT_NE(one.document("a.toml", found(base::Weight::note, true), {}).find("Something."), std::string::npos);
}

}  // namespace
}  // namespace bloomset::press
