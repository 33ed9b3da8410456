// A kit document adds and overrides, and its faults are all told at once, with their places.
#include "kit/kit_reader.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "kit/kit.hpp"

namespace bloomset::kit {
namespace {

std::string first_toml_of(const std::string& path) {
  std::ifstream file(std::string(BLOOMSET_SOURCE_DIR) + "/" + path);
  std::stringstream text;
  text << file.rdbuf();
  const std::string all = text.str();
  const std::size_t from = all.find("```toml\n"), to = all.find("\n```", from + 8);
  return from == std::string::npos ? "" : all.substr(from + 8, to - from - 7);
}

std::string faults_of(const std::string& text) {
  auto kit = Kit::built_in();
  base::Sources sources;
  const std::string before = kit->fingerprint();
  const auto added = kit->add("kit.toml", text, sources);
  if (added) return "";
  EXPECT_EQ(added.error().kind, base::ErrorKind::bad_input);
  EXPECT_EQ(kit->fingerprint(), before) << "a faulty document must change nothing";
  return base::render(added.error().diagnostics, sources);
}

TEST(KitDocument, TheExampleOfTheDocsIsRead) {
  auto kit = Kit::built_in();
  base::Sources sources;
  const std::string before = kit->fingerprint();
  const auto added = kit->add("docs/kit.md", first_toml_of("docs/kit.md"), sources);
  ASSERT_TRUE(added.has_value()) << base::render(added.error().diagnostics, sources);
  EXPECT_NEAR(units::in_millilitres(kit->vessel("siphon, half litre")->brim), 740.0, 1e-9);
  EXPECT_EQ(kit->first_vessel(VesselKind::siphon)->name, "siphon, half litre");
  // Frusta of 20/45 over 20 mm and 45/48 over 28 mm: pi/3 (20 (400 + 900 + 2025) + 28 (2025 + 2160 + 2304)) mm3 by hand.
  EXPECT_NEAR(units::in_millilitres(kit->vessel("wide bowl")->brim), 259.91, 0.05);
  EXPECT_NEAR(units::in_celsius(kit->place("blast chiller")->temperature), -30.0, 1e-9);
  EXPECT_EQ(kit->hands, 3);
  EXPECT_NEAR(units::in_celsius(kit->room), 23.0, 1e-9);
  EXPECT_NE(kit->fingerprint(), before);
}

TEST(KitDocument, TellsEveryFaultWithItsPlace) {
  EXPECT_EQ(faults_of("[[vessel]]\nname = \"jug\"\nkind = \"glas\"\nbrim_ml = -4\nsource = \"x\"\n"),
            "kit.toml:3:8: error: `glas` is not a kind the kit knows [unknown_kind]\n"
            "  kind = \"glas\"\n"
            "         ^~~~~~\n"
            "  hint: did you mean `glass`?\n"
            "kit.toml:4:11: error: `brim_ml` is -4, allowed is 1 to 200000 [out_of_range]\n"
            "  brim_ml = -4\n"
            "            ^~\n");
}

TEST(KitDocument, RefusesAnOutlineThatDoesNotHoldItsBrim) {
  const std::string said = faults_of("[[vessel]]\nname = \"a\"\nkind = \"glass\"\nbrim_ml = 100\ninside_mm = [[0, 20], [50, 20]]\nsource = \"x\"\n");
  EXPECT_NE(said.find("the outline holds 62.83 mL, `brim_ml` says 100"), std::string::npos) << said;
}

TEST(KitDocument, RefusesWhatCannotBe) {
  const auto code_of = [](const std::string& text) {
    const std::string said = faults_of(text), line = said.substr(0, said.find('\n'));
    const std::size_t from = line.rfind('[');
    return from == std::string::npos ? said : line.substr(from + 1, line.size() - from - 2);
  };
  EXPECT_EQ(code_of("hand = 3\n"), "unknown_key");
  EXPECT_EQ(code_of("hands = 0\n"), "out_of_range");
  EXPECT_EQ(code_of("hands = 2.5\n"), "wrong_type");
  EXPECT_EQ(code_of("vessel = [1]\n"), "wrong_type");
  EXPECT_EQ(code_of("[[vessel]]\nname = \"a\"\nkind = \"glass\"\nsource = \"x\"\n"), "missing_key");
  EXPECT_EQ(code_of("[[vessel]]\nkind = \"glass\"\nbrim_ml = 10\nsource = \"x\"\n"), "missing_key");
  EXPECT_EQ(code_of("[[vessel]]\nname = \" \"\nkind = \"glass\"\nbrim_ml = 10\nsource = \"x\"\n"), "empty_text");
  EXPECT_EQ(code_of("[[vessel]]\nname = \"a\"\nkind = \"glass\"\ninside_mm = [[0, 20], [0, 20]]\nsource = \"x\"\n"), "bad_outline");
  EXPECT_EQ(code_of("[[vessel]]\nname = \"a\"\nkind = \"glass\"\ninside_mm = [[0, \"a\"], [5, 20]]\nsource = \"x\"\n"), "bad_outline");
  EXPECT_EQ(code_of("[[vessel]]\nname = \"a\"\nkind = \"siphon\"\nbrim_ml = 100\nfill_line_ml = 200\nsource = \"x\"\n"), "out_of_range");
  EXPECT_EQ(code_of("[[vessel]]\nname = \"a\"\nkind = \"siphon\"\nbrim_ml = 100\nmost_charges = 0\nsource = \"x\"\n"), "out_of_range");
  EXPECT_EQ(code_of("[[place]]\nname = \"a\"\nkind = \"room\"\nsource = \"x\"\n"), "missing_key");
  EXPECT_EQ(code_of("[[place]]\nname = \"a\"\nkind = \"room\"\ntemperature_c = 400\nsource = \"x\"\n"), "out_of_range");
  const std::string twice = "[[place]]\nname = \"a\"\nkind = \"room\"\ntemperature_c = 4\nsource = \"x\"\n";
  EXPECT_EQ(code_of(twice), "");
  EXPECT_EQ(code_of(twice + twice), "twice");
}

}  // namespace
}  // namespace bloomset::kit
