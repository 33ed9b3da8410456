// tools/tabulate.cpp - turns a table of constants in data/ into a C++ header at build time.
//
//   tabulate IN.csv sources.bib NAMESPACE OUT.hpp
//
// Constants live as rows with a source, not as numbers in code; kernels still get `constexpr` arrays. The format:
//   # lines that begin with a hash are comment: what the numbers mean, their range, their error, how a fit was made;
//   quantity,of,index,value,unit,origin,source        the header line, exactly so;
//   apparent_volume,citric acid,0,0.59598,cm3/g,fit,crc2021
// `quantity` and `of` make the name: apparent_volume_citric_acid (`of` may be empty; blanks and hyphens become
// underscores). Rows with index 0, 1, 2 … in order make `inline constexpr std::array<double, N>`; a row with an
// empty index makes one `inline constexpr double`. `unit` is text and carried into a comment; write 1 for none.
// `origin`: fit (our own least squares; counted by a test against the rows it serves) | published (read there) |
// memory (not seen; the source column starts with `memory: ` and names the publication) | practice (common practice, no source).
// `source`: keys of data/sources.bib, parted by blanks; or `memory: …`; or `practice`. A field with a comma stands in quotes.
// Anything else is an error with file and line, and the build stops.
//
// In CMake: `include(Tabulate)` and `bloomset_table(matter density)`: data/matter/density.csv becomes
// `#include "matter/density_table.hpp"`, namespace bloomset::matter::table.
#include <array>
#include <cctype>
#include <charconv>
#include <fstream>
#include <iostream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

struct Row {
  std::string name, index, value, unit, origin, source;
};

std::string where;  // "file:line", for messages

[[noreturn]] void stop(const std::string& message) {
  std::cerr << where << ": " << message << '\n';
  std::exit(2);
}

std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> found(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      found.emplace_back();
    else if (c != '\r')
      found.back() += c;
  }
  if (quoted) stop("a quoted field does not end");
  return found;
}

std::string identifier(const std::string& quantity, const std::string& of) {
  std::string name = of.empty() ? quantity : quantity + "_" + of;
  for (char& c : name) {
    if (c == ' ' || c == '-') c = '_';
    if (!std::isalnum(static_cast<unsigned char>(c)) && c != '_') stop("`" + name + "` cannot be a name");
  }
  if (name.empty() || std::isdigit(static_cast<unsigned char>(name[0]))) stop("a row without a quantity");
  return name;
}

std::set<std::string> bibliography(const std::string& path) {
  std::ifstream in(path);
  if (!in) {
    where = path;
    stop("cannot be read");
  }
  std::set<std::string> keys;
  for (std::string line; std::getline(in, line);)
    if (!line.empty() && line[0] == '@') {
      const auto from = line.find('{'), to = line.find(',');
      if (from != std::string::npos && to != std::string::npos) keys.insert(line.substr(from + 1, to - from - 1));
    }
  return keys;
}

void check_source(const Row& row, const std::set<std::string>& keys) {
  static const std::set<std::string> origins = {"fit", "published", "memory", "practice"};
  if (!origins.contains(row.origin)) stop("origin `" + row.origin + "` is none of fit, published, memory, practice");
  if (row.source.empty()) stop("no source");
  if ((row.origin == "practice") != (row.source == "practice")) stop("origin practice and source practice go together");
  if ((row.origin == "memory") != row.source.starts_with("memory: ")) stop("origin memory and a source `memory: …` go together");
  if (row.origin == "practice" || row.origin == "memory") return;
  std::istringstream words(row.source);
  for (std::string key; words >> key;)
    if (!keys.contains(key)) stop("source `" + key + "` is not in the bibliography");
}

std::vector<Row> read(const std::string& path, const std::set<std::string>& keys) {
  std::ifstream in(path);
  where = path;
  if (!in) stop("cannot be read");
  std::vector<Row> rows;
  bool header = false;
  int number = 0;
  for (std::string line; std::getline(in, line);) {
    where = path + ":" + std::to_string(++number);
    if (line.empty() || line[0] == '#') continue;
    if (!header) {
      if (line != "quantity,of,index,value,unit,origin,source") stop("the header must be quantity,of,index,value,unit,origin,source");
      header = true;
      continue;
    }
    const auto f = fields(line);
    if (f.size() != 7) stop("seven fields wanted, " + std::to_string(f.size()) + " found");
    Row row{identifier(f[0], f[1]), f[2], f[3], f[4], f[5], f[6]};
    double value = 0.0;
    const auto [end, fault] = std::from_chars(row.value.data(), row.value.data() + row.value.size(), value);
    if (fault != std::errc{} || end != row.value.data() + row.value.size()) stop("`" + row.value + "` is not a number");
    if (row.unit.empty()) stop("no unit (write 1 for none)");
    check_source(row, keys);
    rows.push_back(row);
  }
  if (!header) stop("no rows");
  return rows;
}

std::string literal(const std::string& value) { return value.find_first_of(".eE") == std::string::npos ? value + ".0" : value; }

void print(const std::vector<Row>& rows, const std::string& from, const std::string& space, std::ostream& out) {
  out << "// Made from " << from << " by tools/tabulate.cpp. Do not edit.\n#pragma once\n\n#include <array>\n\nnamespace " << space << " {\n\n";
  std::set<std::string> done;
  for (std::size_t i = 0; i < rows.size();) {
    const Row& first = rows[i];
    where = from;
    if (!done.insert(first.name).second) stop("`" + first.name + "` stands twice, or its rows are not together");
    if (first.index.empty()) {
      out << "inline constexpr double " << first.name << " = " << literal(first.value) << ";  // " << first.unit << "; " << first.origin << ": " << first.source
          << '\n';
      ++i;
      continue;
    }
    std::string values;
    std::size_t n = 0;
    for (; i < rows.size() && rows[i].name == first.name; ++i, ++n) {
      if (rows[i].index != std::to_string(n)) stop("`" + first.name + "`: index " + std::to_string(n) + " wanted, " + rows[i].index + " found");
      values += (n ? ", " : "") + literal(rows[i].value);
    }
    out << "inline constexpr std::array<double, " << n << "> " << first.name << " = {" << values << "};  // " << first.unit << "; " << first.origin << ": "
        << first.source << '\n';
  }
  out << "\n}  // namespace " << space << '\n';
}

}  // namespace

int main(int count, char** words) {
  where = "tabulate";
  if (count != 5) stop("usage: tabulate IN.csv sources.bib NAMESPACE OUT.hpp");
  const std::string in = words[1], out = words[4];
  std::ostringstream text;
  const auto data = in.rfind("data/");
  print(read(in, bibliography(words[2])), data == std::string::npos ? in : in.substr(data), words[3], text);
  // An unchanged header keeps its time, so that nothing is compiled again for a new line in the bibliography.
  std::ostringstream before;
  if (std::ifstream old(out); old) before << old.rdbuf();
  if (before.str() != text.str()) std::ofstream(out) << text.str();
  return 0;
}
