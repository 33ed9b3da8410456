// Pasted lines: usual spellings are read, what is no amount is refused, and the document made of them reads and computes.
#include "sheet/lines.hpp"

#include <set>

#include "made.hpp"
#include "sheet/names.hpp"
#include "text/table.hpp"
#include "text/units.hpp"

namespace bloomset::sheet {
namespace {

using sheet_test::house;

LinesRead read(const std::string& lines, const std::string& document = "") {
  auto out = read_lines(lines, document, house().larder);
  EXPECT_TRUE(out) << (out ? "" : out.error().message);
  return out ? std::move(*out) : LinesRead{};
}
// What one line becomes: its take, or the code and message of its fault.
std::string one(const std::string& line) {
  const LinesRead out = read(line);
  EXPECT_EQ(out.lines.size(), 1U) << line;
  if (out.lines.empty()) return "";
  const LineRead& got = out.lines[0];
  return got.fault ? got.fault->code + ": " + got.fault->message : got.take + (got.known ? "" : " ?");
}

TEST(Lines, reads_units_as_people_spell_them) {
  EXPECT_EQ(one("200 g lime juice"), "200 g lime juice");
  EXPECT_EQ(one("200g Lime Juice"), "200 g Lime Juice");
  EXPECT_EQ(one("- 3 tablespoons of honey"), "3 tbsp honey");
  EXPECT_EQ(one("\u2022\t2 Tbsp. honey"), "2 tbsp honey");
  EXPECT_EQ(one("1 1/2 cups water"), "1.5 cup water");
  EXPECT_EQ(one("½ cup of water"), "0.5 cup water");
  EXPECT_EQ(one("250 ml whole milk"), "250 mL whole milk");
  EXPECT_EQ(one("1 litre water"), "1 L water");
  EXPECT_EQ(one("2 leaves gelatin, gold leaf"), "2 piece gelatin, gold leaf");
  EXPECT_EQ(one("4 cardamom pods"), "4 piece cardamom pod");
  EXPECT_EQ(one("A dash of bitters"), "1 dash bitters");
  EXPECT_EQ(one("45 mL spirit (40 %vol)"), "45 mL spirit (40 %vol)");
  EXPECT_EQ(one("60 g lime juice, strained"), "60 g lime juice");
  EXPECT_EQ(one("20-25 g honey"), "20-25 g honey");
}

TEST(Lines, refuses_what_is_no_amount_and_says_what_to_write) {
  EXPECT_EQ(one("juice of 1 lime"), "no_amount: the juice of a fruit is no amount: fruits differ");
  EXPECT_EQ(one("a pinch of salt"), "no_amount: a pinch is no amount: every hand has its own");
  EXPECT_EQ(one("lime juice"), "amount_missing: this line begins with no amount");
  EXPECT_EQ(one("salt to taste"), "amount_missing: this line begins with no amount");
  EXPECT_EQ(one("200 g"), "thing_missing: the thing is missing behind the amount");
  EXPECT_EQ(one("1 fl oz lime juice").substr(0, 8), "unit_not");
  EXPECT_EQ(one("40 g water (40 %vol)").substr(0, 9), "qualifier");
}

TEST(Lines, counts_lines_and_names_the_nearest_things) {
  const LinesRead out = read("200 g lime juise\n\n  \n10 g blue plutonium\nnonsense");
  ASSERT_EQ(out.lines.size(), 3U);
  EXPECT_FALSE(out.lines[0].known);
  ASSERT_FALSE(out.lines[0].nearest.empty());
  EXPECT_EQ(out.lines[0].nearest[0], "lime juice");
  EXPECT_EQ(out.lines[0].amount, "200 g");
  EXPECT_EQ(out.lines[0].thing, "lime juise");
  EXPECT_TRUE(out.lines[1].nearest.empty());
  ASSERT_TRUE(out.lines[2].fault);
  EXPECT_EQ(out.lines[2].fault->span, (base::Span{0, 5, 1, 8}));
}

TEST(Lines, make_a_document_that_computes) {
  const LinesRead out = read("200 g lime juice\n3 tbsp honey\nnonsense\n60 mL spirit (40 %vol)\n");
  EXPECT_EQ(out.text,
            "bloomset = 1\ntitle = \"Untitled\"\n\n[[part]]\nname = \"mix\"\nmade = \"to order\"\n  [[part.step]]\n  do   = \"combine\"\n"
            "  take = [\"200 g lime juice\", \"3 tbsp honey\", \"60 mL spirit (40 %vol)\"]\n\n"
            "[serve]\nvessel = \"low glass, 300 mL\"\npour = [\n  { take = [\"all 'mix'\"] },\n]\n");
  const Sheet sheet = sheet_test::made(out.text);
  // 200 g, three metric tablespoons of 15 mL, 60 mL: what goes in comes out.
  EXPECT_NEAR(sheet.serve->at_service[matter::Property::mass_g], sheet.balance.in_g, 1e-6);
  EXPECT_EQ(read("").text, "");
  EXPECT_EQ(read("1 fl oz water", "bloomset = 1\ntitle = \"T\"\nmeasures = \"us\"\n").lines[0].take, "1 fl oz water");
  EXPECT_FALSE(read_lines("1 g water\n", "title = ", house().larder));
  std::string many;
  for (std::size_t i = 0; i <= most_lines; ++i) many += "x\n";
  EXPECT_FALSE(read_lines(many, "", house().larder));
}

TEST(Lines, knows_only_units_that_a_document_knows_each_written_once) {
  std::set<std::string> seen;
  for (const auto& row : text::table_rows(sheet_test::text_of(BLOOMSET_SOURCE_DIR "/data/sheet/line_words.csv"))) {
    EXPECT_TRUE(seen.insert(row[0]).second) << row[0];
    const auto& units = text::units();
    EXPECT_TRUE(std::any_of(units.begin(), units.end(), [&](const text::Unit& unit) { return unit.spelling == row[1]; })) << row[1];
    EXPECT_TRUE(row[2] == "practice" || row[2] == "definition") << row[0];
  }
}

TEST(Names, put_the_nearest_first) {
  const std::vector<std::string> names = {"orange juice", "lime juice", "lime", "limoncello", "key lime peel", "Crème fraîche", "slime mould"};
  const auto best = [&](const std::string& words, std::size_t most = 9) {
    std::string out;
    for (const std::size_t i : best_names(words, names, most)) out += names[i] + "; ";
    return out;
  };
  EXPECT_EQ(best("lim"), "lime; lime juice; limoncello; key lime peel; slime mould; ");
  EXPECT_EQ(best("lime"), "lime; lime juice; key lime peel; slime mould; ");
  EXPECT_EQ(best("lim", 2), "lime; lime juice; ");
  EXPECT_EQ(best("ju li"), "lime juice; ");
  EXPECT_EQ(best("CREME"), "Crème fraîche; ");
  EXPECT_EQ(best("orange juise"), "orange juice; ");
  EXPECT_EQ(best(""), "");
}

}  // namespace
}  // namespace bloomset::sheet
