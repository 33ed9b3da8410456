#include <gtest/gtest.h>

#include <sstream>

#include "kit/kit.hpp"
#include "larder/larder.hpp"
#include "press/page.hpp"
#include "press/press.hpp"
#include "press/work_text.hpp"

namespace bloomset::press {
namespace {

constexpr const char* formula_text = R"doc(bloomset = 1
title = "Crème 抹茶"
serves = 3
targets = ["serve.abv 60-70 %", "serve.headroom >= 10 mL"]
[[part]]
name = "a part whose name is so long that it will not fit beside anything else on a line of eighty"
made = "ahead"
  [[part.step]]
  do = "combine"
  take = ["330 g orange juice", "36 g honey", "45 mL spirit (40 %vol)"]
  [[part.step]]
  do = "infuse"
  take = ["4 piece cardamom pod"]
  at = "70 C"
  time = "10-12 min"
  [[part.step]]
  do = "strain"
  leave = ["cardamom pod"]
  keeps = "2 d"
[serve]
vessel = "tall glass, 400 mL"
pour = [ { take = ["100 g ice cubes", "60 g 'a part whose name is so long that it will not fit beside anything else on a line of eighty'"] } ]
)doc";

std::string printed_sheet(sheet::Sheet& made) {
  base::Sources sources;
  const auto larder = larder::Larder::built_in();
  const auto kit = kit::Kit::built_in();
  const auto formula = formula::read("long.toml", formula_text, sources, {});
  if (!larder || !kit || !formula) {
    ADD_FAILURE() << (formula ? "larder or kit" : base::render(formula.error().diagnostics, sources));
    return {};
  }
  auto sheet = sheet::make_sheet({*formula, *larder, *kit, std::nullopt, formula_text});
  if (!sheet) {
    ADD_FAILURE() << base::render(sheet.error().diagnostics, sources);
    return {};
  }
  made = std::move(*sheet);
  return sheet_text(made, *formula);
}

TEST(SheetText, StaysWithinEightyColumns) {
  sheet::Sheet made;
  std::istringstream text(printed_sheet(made));
  for (std::string line; std::getline(text, line);) {
    EXPECT_LE(width(line), page_width) << line;
    EXPECT_EQ(line.find('\x1b'), std::string::npos) << line;
    EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
  }
}

// The widest that a table can be: an hour's work for ten thousand, every column filled. Its head is a line like any other.
TEST(SheetText, FullTablesStayWithinEightyColumnsAndKeepBlanksBetweenColumns) {
  sheet::Sheet made;
  const std::string text = printed_sheet(made);
  const auto head = text.find("of base"), end = text.find('\n', head);
  const auto from = text.rfind('\n', head) + 1;
  ASSERT_NE(head, std::string::npos);
  EXPECT_EQ(width(std::string_view(text).substr(from, end - from)), 79U);
  sheet::TakeLine take;
  take.thing = "a thing whose name fills its column";
  take.step = 12;
  take.mass_g = 9999.0;
  take.volume_ml = 9999.0;
  take.percent_of_base = take.percent_of_total = 123.4;
  take.measure = "42 1/3 cup";
  Page page;
  FindingDesk desk(made.findings);
  print_takes(page, desk, "nowhere", {take});
  std::istringstream lines(page.take());
  for (std::string line; std::getline(lines, line);) EXPECT_LE(width(line), page_width) << line;
}

TEST(SheetText, PrintsEveryFindingAndTarget) {
  sheet::Sheet made;
  std::string text = printed_sheet(made);
  std::string squeezed;
  for (const char c : text)
    if (c != ' ' && c != '\n') squeezed += c;
  ASSERT_FALSE(made.findings.empty());
  for (const base::Finding& finding : made.findings) {
    if (finding.code == base::Code::target_unmet) continue;  // said by the list of targets
    std::string says;
    for (const char c : clean(finding.says))
      if (c != ' ') says += c;
    EXPECT_NE(squeezed.find(says.substr(1)), std::string::npos) << finding.says;
  }
  EXPECT_NE(text.find("MISSED"), std::string::npos);
  EXPECT_NE(text.find("met "), std::string::npos);
}

}  // namespace
}  // namespace bloomset::press
