#include "cli/options.hpp"

#include <gtest/gtest.h>

namespace bloomset::cli {
namespace {

Reading read(std::vector<const char*> words) {
  words.insert(words.begin(), "bloomset");
  return read_command_line(static_cast<int>(words.size()), words.data());
}

TEST(CommandLine, ANegativeValueIsNoOption) {
  const Reading reading = read({"mix", "20 g water", "--at", "-18C"});
  ASSERT_TRUE(reading.request) << reading.err;
  EXPECT_EQ(std::get<MixOptions>(reading.request->command).at, "-18C");
  const Reading chill = read({"chill", "20 g water", "--ice", "200g", "--ice-at", "-18 C", "--to", "-2C"});
  ASSERT_TRUE(chill.request) << chill.err;
  EXPECT_EQ(std::get<ChillOptions>(chill.request->command).ice_at, "-18 C");
  EXPECT_EQ(std::get<ChillOptions>(chill.request->command).to, "-2C");
  const Reading mixture = read({"mix", "-1 g water"});
  ASSERT_TRUE(mixture.request) << mixture.err;
  EXPECT_EQ(std::get<MixOptions>(mixture.request->command).mixture, "-1 g water");
}

TEST(CommandLine, CommonOptionsStandBeforeOrBehindTheCommand) {
  for (const auto& reading : {read({"--json", "mix", "20 g water"}), read({"mix", "20 g water", "--json"})}) {
    ASSERT_TRUE(reading.request) << reading.err;
    EXPECT_TRUE(reading.request->common.json);
  }
}

TEST(CommandLine, ToAndForExcludeEachOtherAndByNeedsFor) {
  EXPECT_EQ(read({"chill", "20 g water", "--ice", "9g", "--to", "0C", "--for", "9s"}).exit_code, 2);
  EXPECT_EQ(read({"chill", "20 g water", "--ice", "9g", "--by", "stir"}).exit_code, 2);
  EXPECT_TRUE(read({"chill", "20 g water", "--ice", "9g", "--by", "stir", "--for", "9s"}).request);
}

TEST(CommandLine, TheBenchIsRead) {
  const Reading dose = read({"dose", "730 g orange juice", "--with", "gelatin, gold leaf", "--for", "cold foam"});
  ASSERT_TRUE(dose.request) << dose.err;
  EXPECT_EQ(std::get<DoseOptions>(dose.request->command).effect, "cold foam");
  const Reading gelatin = read({"gelatin", "-4 g", "--from", "a", "--to", "b", "--json"});
  ASSERT_TRUE(gelatin.request) << gelatin.err;
  EXPECT_EQ(std::get<GelatinOptions>(gelatin.request->command).amount, "-4 g");
  const Reading charge = read({"charge", "--bottle", "0.75L", "--liquid", "450 g water", "--charges", "-2", "--at", "-1C", "--purged"});
  ASSERT_TRUE(charge.request) << charge.err;
  EXPECT_EQ(std::get<ChargeOptions>(charge.request->command).charges, -2);
  EXPECT_TRUE(std::get<ChargeOptions>(charge.request->command).purged);
  const Reading other = read({"substitute", "a.toml", "--agent", "gelatin", "--for", "agar", "--vegan"});
  ASSERT_TRUE(other.request) << other.err;
  EXPECT_TRUE(std::get<SubstituteOptions>(other.request->command).vegan);
  for (const auto& reading : {read({"dose", "1 g water"}), read({"gelatin", "4 g", "--from", "a"}), read({"charge", "--liquid", "1 g water", "--charges", "1"}),
                              read({"charge", "--bottle", "1L", "--liquid", "1 g water", "--charges", "two"}), read({"substitute", "a.toml"})})
    EXPECT_EQ(reading.exit_code, 2);
}

TEST(CommandLine, SwapsBatchesAndRatiosAreRead) {
  const Reading refit = read({"refit", "a.toml", "--swap", "spirit (40 %vol)=spirit (50 %vol)", "--swap", "'syrup'=honey", "--exact"});
  ASSERT_TRUE(refit.request) << refit.err;
  EXPECT_EQ(std::get<RefitOptions>(refit.request->command).swaps, (std::vector<std::string>{"spirit (40 %vol)=spirit (50 %vol)", "'syrup'=honey"}));
  const Reading batch = read({"batch", "a.toml", "--part", "'shaken rum'", "--serves", "40"});
  ASSERT_TRUE(batch.request) << batch.err;
  EXPECT_EQ(std::get<BatchOptions>(batch.request->command).bottle, "700 mL");
  const Reading ratio = read({"ratio", "2 : 1 : 0.75", "spirit", "syrup", "lime juice", "--target", "abv 20 %", "--json"});
  ASSERT_TRUE(ratio.request) << ratio.err;
  EXPECT_EQ(std::get<RatioOptions>(ratio.request->command).things, (std::vector<std::string>{"spirit", "syrup", "lime juice"}));
  for (const auto& reading : {read({"refit", "a.toml"}), read({"refit", "--swap", "a=b"}), read({"batch", "a.toml"}), read({"ratio", "2:1"}),
                              read({"batch", "a.toml", "--part", "x", "--serves", "0"})})
    EXPECT_EQ(reading.exit_code, 2);
}

TEST(CommandLine, AFaultIsTwoAndHelpAndVersionAreNone) {
  for (const auto& reading : {read({}), read({"brew"}), read({"mix"}), read({"sheet", "a.toml", "--serves", "0"}),
                              read({"sheet", "a.toml", "--serves", "10001"}), read({"mix", "1 g water", "--shaken"})}) {
    EXPECT_FALSE(reading.request);
    EXPECT_EQ(reading.exit_code, 2);
    EXPECT_TRUE(reading.out.empty());
    EXPECT_FALSE(reading.err.empty());
  }
  for (const auto& reading : {read({"--help"}), read({"mix", "--help"}), read({"--version"})}) {
    EXPECT_EQ(reading.exit_code, 0);
    EXPECT_FALSE(reading.out.empty());
  }
  EXPECT_NE(read({"chill", "--help"}).out.find("bloomset chill \""), std::string::npos);
}

}  // namespace
}  // namespace bloomset::cli
