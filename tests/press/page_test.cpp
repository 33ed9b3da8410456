#include "press/page.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace bloomset::press {
namespace {

TEST(Width, CountsColumnsAndNotBytes) {
  EXPECT_EQ(width("purée"), 5U);
  EXPECT_EQ(width("pure\u0301e"), 5U);  // e and a combining acute accent
  EXPECT_EQ(width("抹茶"), 4U);         // wide letters, UAX 11
  EXPECT_EQ(width("−4 °C"), 5U);
}

TEST(Clean, BlanksOutWhatWouldSteerATerminal) {
  EXPECT_EQ(clean("sour\x1b[31m"), "sour [31m");
  EXPECT_EQ(clean("a\u202Eb"), "a b");
  EXPECT_EQ(clean("purée"), "purée");
}

TEST(Cut, MarksWhatIsMissing) {
  EXPECT_EQ(cut("orange juice", 7), "orange…");
  EXPECT_EQ(cut("orange", 6), "orange");
  EXPECT_EQ(cut("抹茶抹茶", 5), "抹茶…");
}

TEST(Wrap, BreaksAtBlanksAndKeepsNumberAndUnitTogether) {
  EXPECT_EQ(wrap("add 12\u00A0g of it", 9), (std::vector<std::string>{"add 12\u00A0g", "of it"}));
  EXPECT_EQ(wrap("add 12\u00A0g of it", 7), (std::vector<std::string>{"add", "12\u00A0g of", "it"}));
}

TEST(Wrap, CutsAWordLongerThanALine) { EXPECT_EQ(wrap("abcdefgh", 3), (std::vector<std::string>{"abc", "def", "gh"})); }

TEST(Wrap, NoLineIsTooWideAndNoWordIsLost) {
  EXPECT_TRUE(rc::check([] {
    const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange<char>('a', 'z'))));
    const auto columns = *rc::gen::inRange<std::size_t>(1, 40);
    std::string text;
    for (const std::string& word : words) text += word + " ";
    const std::vector<std::string> lines = wrap(text, columns);
    std::string joined, expected;
    for (const std::string& line : lines) {
      RC_ASSERT(width(line) <= columns);
      for (const char c : line)
        if (c != ' ') joined += c;
    }
    for (const std::string& word : words) expected += word;
    RC_ASSERT(joined == expected);
  }));
}

TEST(Page, LinesEndWithoutBlanksAndNoBreakBlanksBecomePlain) {
  Page page;
  page.line("12\u00A0g  ");
  page.gap();
  page.gap();
  page.line("end");
  EXPECT_EQ(page.take(), "12 g\n\nend\n");
}

TEST(Page, AHeadingIsAsWideAsThePageWhateverItSays) {
  for (const std::string name :
       {"sour", "Crème brûlée", "抹茶", "a name that is far longer than eighty columns could ever hold, with words and words and more"}) {
    Page page;
    page.heading(name, "to order");
    std::string line = page.take();
    line.pop_back();
    EXPECT_EQ(width(line), page_width) << line;
  }
}

TEST(Page, ALongAsideIsShortenedBeforeTheHeadingIs) {
  Page page;
  page.heading("In the glass", "a vessel whose name is far longer than anybody could ever print beside a heading, 300 mL");
  const std::string line = page.take();
  EXPECT_TRUE(line.starts_with("In the glass ")) << line;
  EXPECT_NE(line.find("…\n"), std::string::npos) << line;
  EXPECT_EQ(width(line.substr(0, line.size() - 1)), page_width) << line;
}

TEST(Page, AParagraphHangsUnderItsLead) {
  Page page;
  page.paragraph("    note  ", std::string(60, 'x') + " " + std::string(60, 'y'));
  EXPECT_EQ(page.take(), "    note  " + std::string(60, 'x') + "\n" + std::string(10, ' ') + std::string(60, 'y') + "\n");
}

}  // namespace
}  // namespace bloomset::press
