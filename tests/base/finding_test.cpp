// Names of findings are a contract: documents, pages and scripts of others rely on their spelling.
#include "base/finding.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <string_view>

namespace bloomset::base {
namespace {

TEST(Finding, EveryCodeHasItsContractName) {
  const std::vector<std::pair<Code, std::string_view>> contract = {
      {Code::range_left, "range_left"},
      {Code::assumption, "assumption"},
      {Code::value_missing, "value_missing"},
      {Code::limit_unknown, "limit_unknown"},
      {Code::over_fill_line, "over_fill_line"},
      {Code::over_charges, "over_charges"},
      {Code::over_pressure, "over_pressure"},
      {Code::pressure_if_warm, "pressure_if_warm"},
      {Code::gas_caution, "gas_caution"},
      {Code::not_strained, "not_strained"},
      {Code::live_enzyme, "live_enzyme"},
      {Code::enzyme_contact, "enzyme_contact"},
      {Code::will_not_set, "will_not_set"},
      {Code::sets_soft, "sets_soft"},
      {Code::strings_on_landing, "strings_on_landing"},
      {Code::melts_on_hot, "melts_on_hot"},
      {Code::too_acid, "too_acid"},
      {Code::too_strong, "too_strong"},
      {Code::too_hard_water, "too_hard_water"},
      {Code::curdles, "curdles"},
      {Code::sinks_or_floats, "sinks_or_floats"},
      {Code::dose_below_scale, "dose_below_scale"},
      {Code::over_legal_limit, "over_legal_limit"},
      {Code::ice_gone, "ice_gone"},
      {Code::glass_over, "glass_over"},
      {Code::left_over, "left_over"},
      {Code::short_of, "short"},  // `short` is a word of C++
      {Code::target_unmet, "target_unmet"},
      {Code::pieces_rounded, "pieces_rounded"},
      {Code::flame_near_spirit, "flame_near_spirit"},
      {Code::torch_near_bottle, "torch_near_bottle"},
      {Code::unrated_vessel, "unrated_vessel"},
      {Code::hot_sugar, "hot_sugar"},
      {Code::raw_egg, "raw_egg"},
      {Code::choking, "choking"},
      {Code::keeps_passed, "keeps_passed"},
      {Code::cooling_too_slow, "cooling_too_slow"},
      {Code::time_temperature_control, "time_temperature_control"},
      {Code::low_acid_stored, "low_acid_stored"},
      {Code::allergen, "allergen"},
      {Code::allergen_unknown, "allergen_unknown"},
      {Code::alcohol, "alcohol"},
      {Code::guest_notice, "guest_notice"},
      {Code::defer, "defer"},
  };
  EXPECT_EQ(contract.size(), code_count) << "a code was added or taken away: say its name here too";
  for (const auto& [code, spelled] : contract) EXPECT_EQ(name(code), spelled);
}

TEST(Finding, NoTwoCodesShareAName) {
  std::set<std::string_view> seen;
  for (std::size_t i = 0; i < code_count; ++i) {
    const std::string_view spelled = name(static_cast<Code>(i));
    EXPECT_FALSE(spelled.empty()) << "code " << i;
    EXPECT_TRUE(seen.insert(spelled).second) << spelled;
    EXPECT_EQ(spelled.find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string_view::npos) << spelled;
  }
}

TEST(Finding, TheThreeWeightsHaveNames) {
  EXPECT_EQ(name(Weight::stop), "stop");
  EXPECT_EQ(name(Weight::mind), "mind");
  EXPECT_EQ(name(Weight::note), "note");
}

TEST(Finding, StartsAsANoteFromNowhere) {
  const Finding fresh;
  EXPECT_EQ(fresh.weight, Weight::note);
  EXPECT_FALSE(fresh.where.span.known());
  EXPECT_FALSE(fresh.from_serves.has_value());
}

}  // namespace
}  // namespace bloomset::base
