#include "press/finding_text.hpp"

#include <gtest/gtest.h>

namespace bloomset::press {
namespace {

base::Finding finding(base::Weight weight, const std::string& says, const std::string& part = {}) {
  base::Finding f;
  f.code = base::Code::left_over;
  f.weight = weight;
  f.says = says;
  f.where.part = part;
  return f;
}

TEST(FindingText, SaysWhatWhyRemedyAndSource) {
  base::Finding f = finding(base::Weight::mind, "the ice is gone");
  f.why = "too little of it";
  f.source = "heat balance";
  f.remedies.push_back({"take 50 g more", std::nullopt});
  Page page;
  print_finding(page, 2, f);
  EXPECT_EQ(page.take(), "  mind  The ice is gone. Too little of it. What to do: Take 50 g more. [heat\n        balance]\n");
}

TEST(FindingText, WhatWasTakenForGrantedIsSaidInOneBreath) {
  base::Finding f = finding(base::Weight::note, "no place is named");
  f.code = base::Code::assumption;
  f.why = "the text leaves it open";
  Page page;
  print_finding(page, 0, f);
  EXPECT_EQ(page.take(), "note  Taken for granted: no place is named.\n");
}

TEST(FindingDesk, PrintsEachFindingOnceHeaviestFirst) {
  const std::vector<base::Finding> findings = {finding(base::Weight::note, "a", "sour"), finding(base::Weight::stop, "b", "sour"),
                                               finding(base::Weight::note, "c")};
  FindingDesk desk(findings);
  Page page;
  const auto of_sour = [](const base::Finding& f) { return f.where.part == "sour"; };
  EXPECT_EQ(desk.say(page, 0, of_sour), 2U);
  EXPECT_EQ(desk.say(page, 0, of_sour), 0U);
  EXPECT_EQ(desk.waiting(), 1U);
  EXPECT_EQ(page.take(), "stop  B.\nnote  A.\n");
}

}  // namespace
}  // namespace bloomset::press
