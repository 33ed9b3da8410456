// Every judged value of tests/reference/physical, computed by the functions of the check runner, within the tolerance of checks.csv.
#include <gtest/gtest.h>

#include "judge.hpp"

namespace bloomset::reference {
namespace {

const std::filesystem::path folder = BLOOMSET_SOURCE_DIR "/tests/reference/physical";

std::vector<checks::Subject> all_subjects() {
  std::vector<checks::Subject> found;
  for (const auto& part : {checks::liquid_subjects(), checks::balance_subjects(), checks::gas_subjects()}) found.insert(found.end(), part.begin(), part.end());
  return found;
}

// Of both work lists.
std::vector<Check> all_checks() {
  std::vector<Check> found = checks_of(folder, "matter");
  for (const Check& check : checks_of(folder, "gas")) found.push_back(check);
  return found;
}

class PhysicalTable : public testing::TestWithParam<checks::Subject> {};

TEST_P(PhysicalTable, LiesWithinItsTolerance) {
  const Verdict verdict = judge(folder, GetParam(), all_checks());
  EXPECT_GT(verdict.judged, 0);
  for (const std::string& miss : verdict.misses) ADD_FAILURE() << miss;
}

INSTANTIATE_TEST_SUITE_P(All, PhysicalTable, testing::ValuesIn(all_subjects()), [](const auto& table) { return std::string{table.param.table}; });

TEST(PhysicalTables, AreAllAnswered) {
  std::set<std::string> answered;
  for (const auto& subject : all_subjects()) answered.emplace(subject.table);
  for (const Check& check : all_checks()) EXPECT_TRUE(answered.contains(check.table)) << check.table;
}

TEST(PhysicalTables, AreAnsweredFromTheirInputsAlone) {
  for (const auto& subject : all_subjects())
    for (const Check& check : all_checks()) {
      if (check.table != subject.table) continue;
      for (const auto& column : subject.inputs) EXPECT_NE(column, check.column) << subject.table;
    }
}

TEST(PhysicalTables, StandOddInputsWithoutAFall) {
  for (const auto& subject : all_subjects())
    for (const std::string_view odd : {"", "0", "-1", "1e9", "unobtainium", "100"}) {
      checks::Inputs inputs;
      for (const auto& column : subject.inputs) inputs.cells.emplace(column, odd);
      EXPECT_FALSE(subject.answer(inputs).empty()) << subject.table << " with `" << odd << "`";
    }
}

// The judge itself must be able to say no.
TEST(Judge, NamesAMissWithItsRow) {
  const checks::Subject wrong = {"water_density", {"temperature_C"}, [](const checks::Inputs&) { return checks::Answers{{"density_kg_per_m3", 1.0}}; }};
  const Verdict verdict = judge(folder, wrong, checks_of(folder, "matter"));
  ASSERT_EQ(static_cast<int>(verdict.misses.size()), verdict.judged);
  EXPECT_EQ(verdict.misses.front(), "p001 density_kg_per_m3: computed 1, published 999.8428 within 0.01");
}

}  // namespace
}  // namespace bloomset::reference
