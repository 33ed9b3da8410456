// tests/reference/judge.hpp - holds computed values against a folder of tables and its checks.csv.
//
// A line of checks.csv: table, judged column, tolerance, and conditions on the row (`solute=sucrose;solute_mass_percent<=70`, alternatives parted
// by `|`). The first line that fits a row and column counts. A value passes if |error| <= max(abs_tol, rel_tol |expected|).
#pragma once

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "physical_tables.hpp"

namespace bloomset::reference {

struct Condition {
  std::string column, op, right;
  bool holds(const checks::Inputs& row) const {
    if (op == "=" || op == "!=") {
      bool found = false;
      std::istringstream words(right);
      for (std::string word; std::getline(words, word, '|');) found = found || word == row.text(column);
      return found == (op == "=");
    }
    const double left = row.number(column), limit = std::stod(right);
    if (op == "<=") return left <= limit;
    if (op == ">=") return left >= limit;
    return op == "<" ? left < limit : left > limit;
  }
};

struct Check {
  std::string table, column;
  double abs_tol = 0.0, rel_tol = 0.0;
  std::vector<Condition> conditions;
  bool fits(const checks::Inputs& row) const {
    return std::all_of(conditions.begin(), conditions.end(), [&row](const Condition& c) { return c.holds(row); });
  }
};

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The rows of a table with every column kept.
inline std::vector<checks::Row> whole_table(const std::filesystem::path& path) {
  const std::string text = text_of(path);
  std::vector<std::string> names;
  std::istringstream header(text.substr(0, text.find('\n')));
  for (std::string name; std::getline(header, name, ',');) names.push_back(name);
  const std::vector<std::string_view> views(names.begin(), names.end());
  return checks::rows(text, views);
}

inline std::vector<Condition> conditions_of(const std::string& text) {
  std::vector<Condition> found;
  std::istringstream parts(text);
  for (std::string part; std::getline(parts, part, ';');) {
    const std::size_t at = part.find_first_of("<>=!"), width = at + 1 < part.size() && part[at + 1] == '=' ? 2 : 1;
    found.push_back({part.substr(0, at), part.substr(at, width), part.substr(at + width)});
  }
  return found;
}

/// The checks of one work list ("matter"). checks.csv has no ids, so one is put before each line.
inline std::vector<Check> checks_of(const std::filesystem::path& folder, std::string_view work) {
  std::istringstream lines(text_of(folder / "checks.csv"));
  std::string line, numbered;
  std::getline(lines, line);
  numbered = "row," + line + "\n";
  for (int n = 1; std::getline(lines, line); ++n) numbered += std::to_string(n) + "," + line + "\n";
  const std::vector<std::string_view> columns = {"work", "table", "judged_column", "abs_tol", "rel_tol", "valid_range"};
  std::vector<Check> found;
  for (const auto& row : checks::rows(numbered, columns))
    if (row.inputs.text("work") == work)
      found.push_back({std::string{row.inputs.text("table")}, std::string{row.inputs.text("judged_column")}, row.inputs.number("abs_tol"),
                       row.inputs.number("rel_tol"), conditions_of(std::string{row.inputs.text("valid_range")})});
  return found;
}

/// The verdict on one table: how many values were judged, and a sentence for every miss.
struct Verdict {
  int judged = 0;
  std::vector<std::string> misses;
};
inline Verdict judge(const std::filesystem::path& folder, const checks::Subject& subject, const std::vector<Check>& checks) {
  Verdict verdict;
  for (const auto& row : whole_table(folder / (std::string{subject.table} + ".csv"))) {
    if (row.inputs.text("judged") != "yes") continue;
    checks::Inputs inputs;  // what the runner would see
    for (const auto& column : subject.inputs) inputs.cells.emplace(column, row.inputs.text(column));
    const checks::Answers answers = subject.answer(inputs);
    std::set<std::string> done;
    for (const Check& check : checks) {
      if (check.table != subject.table || done.contains(check.column) || !check.fits(row.inputs)) continue;
      done.insert(check.column);
      ++verdict.judged;
      const double expected = row.inputs.number(check.column), tolerance = std::max(check.abs_tol, check.rel_tol * std::abs(expected));
      const auto answer = std::find_if(answers.begin(), answers.end(), [&check](const checks::Answer& a) { return a.column == check.column; });
      const double computed = answer == answers.end() ? std::nan("") : answer->value;
      if (std::abs(computed - expected) <= tolerance * (1.0 + 1e-9)) continue;
      std::ostringstream miss;
      miss.precision(8);
      miss << row.id << ' ' << check.column << ": computed " << computed << ", published " << expected << " within " << tolerance;
      verdict.misses.push_back(miss.str());
    }
  }
  return verdict;
}

}  // namespace bloomset::reference
