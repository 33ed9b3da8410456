// checks/physical.cpp - answers tables of outside values: `physical DIR` prints `table,row,column,computed` for every judged column.
//
// For each subject the file DIR/<table>.csv is read if it is there. Only input columns are kept; what cannot be computed stays empty.
// It knows no expected value and no tolerance: judging is done elsewhere. Exit 0, or 2 without a folder to read.
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "physical_tables.hpp"

namespace {

void answer(const std::filesystem::path& folder, const bloomset::checks::Subject& subject) {
  std::ifstream file(folder / (std::string{subject.table} + ".csv"));
  if (!file) return;
  std::ostringstream text;
  text << file.rdbuf();
  for (const auto& row : bloomset::checks::rows(text.str(), subject.inputs))
    for (const auto& [column, value] : subject.answer(row.inputs)) {
      std::printf("%s,%s,%s,", std::string{subject.table}.c_str(), row.id.c_str(), std::string{column}.c_str());
      if (std::isfinite(value)) std::printf("%.10g", value);
      std::printf("\n");
    }
}

}  // namespace

int main(int count, char** words) {
  std::error_code none;
  if (count != 2 || !std::filesystem::is_directory(words[1], none)) {
    std::fprintf(stderr, "usage: physical DIR   (a folder of tables)\n");
    return 2;
  }
  std::printf("table,row,column,computed\n");
  for (const auto& subject : bloomset::checks::liquid_subjects()) answer(words[1], subject);
  for (const auto& subject : bloomset::checks::balance_subjects()) answer(words[1], subject);
  for (const auto& subject : bloomset::checks::gas_subjects()) answer(words[1], subject);
  return 0;
}
