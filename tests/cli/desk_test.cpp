#include "cli/desk.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace bloomset::cli {
namespace {

namespace fs = std::filesystem;

class DeskFiles : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(::testing::TempDir()) / ("bloomset_desk_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "bar" / "syrups");
  }
  void TearDown() override { fs::remove_all(folder_); }
  void write(const fs::path& name, const std::string& text) { std::ofstream(folder_ / name) << text; }
  std::string borrowing(const std::string& file) const {
    return "bloomset = 1\ntitle = \"t\"\nserves = 1\nborrow = { syrup = \"" + file +
           "\" }\n[serve]\nvessel = \"cup, 240 mL\"\npour = [{ take = [\"20 g 'syrup'\"] }]\n";
  }
  bool reads(const std::string& file) {
    write("bar/drink.toml", borrowing(file));
    base::Sources sources;
    return read_formula(folder_ / "bar" / "drink.toml", sources).has_value();
  }
  static constexpr const char* syrup =
      "bloomset = 1\ntitle = \"s\"\nserves = 1\n[[part]]\nname = \"syrup\"\nmade = \"ahead\"\nstep = [{ do = \"combine\", take = [\"10 g water\", \"10 g "
      "sucrose\"] }]\n";
  fs::path folder_;
};

TEST_F(DeskFiles, APartIsBorrowedFromBesideOrBelow) {
  write("bar/syrup.toml", syrup);
  write("bar/syrups/rich.toml", syrup);
  EXPECT_TRUE(reads("syrup.toml"));
  EXPECT_TRUE(reads("./syrup.toml"));
  EXPECT_TRUE(reads("syrups/rich.toml"));
}

TEST_F(DeskFiles, NothingIsBorrowedFromAboveOrElsewhere) {
  write("secret.toml", syrup);
  fs::create_symlink(folder_ / "secret.toml", folder_ / "bar" / "link.toml");
  EXPECT_FALSE(reads("../secret.toml"));
  EXPECT_FALSE(reads("syrups/../../secret.toml"));
  EXPECT_FALSE(reads((folder_ / "secret.toml").string()));
  EXPECT_FALSE(reads("link.toml"));
  EXPECT_FALSE(reads("syrups"));
  EXPECT_FALSE(reads(""));
}

TEST_F(DeskFiles, WhatCannotBeReadSaysWhy) {
  EXPECT_EQ(read_file(folder_ / "none.toml").error().kind, base::ErrorKind::not_found);
  EXPECT_EQ(read_file(folder_).error().kind, base::ErrorKind::io);
  write("big.toml", std::string((4U << 20U) + 1, ' '));
  EXPECT_NE(read_file(folder_ / "big.toml").error().message.find("over 4 MB"), std::string::npos);
  write("small.toml", "x = 1\n");
  EXPECT_EQ(read_file(folder_ / "small.toml").value(), "x = 1\n");
}

TEST_F(DeskFiles, ACalibrationIsRefused) {
  Common common;
  common.calibration = "any.toml";
  base::Sources sources;
  const auto desk = open_desk(common, sources);
  ASSERT_FALSE(desk);
  EXPECT_NE(desk.error().message.find("--calibration"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::cli
