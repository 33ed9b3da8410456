// larder/catalogue.cpp - the embedded tables made into rows.
//
// things.csv says what there is, numbers.csv and derived.csv hold a number a line, families.csv and variability.csv what
// holds for many. All is read at start (about 250 things, 1400 numbers); the matter is made up only when a thing is asked for.
#include <charconv>
#include <unordered_map>

#include "larder/row.hpp"
#include "text/fold.hpp"
#include "text/table.hpp"

namespace bloomset::larder {

std::string_view embedded(std::string_view path);

namespace {

constexpr std::array<std::string_view, 26> family_names = {"water", "juice", "puree",      "sweetener",     "syrup",  "spirit", "liqueur", "wine", "bitters",
                                                           "dairy", "egg",   "plant_milk", "acid",          "acid_solution", "salt", "saline", "soda", "tea_coffee",
                                                           "spice", "herb",  "fruit",      "ice",           "agent",  "chemical", "other", ""};
constexpr std::array<std::string_view, 7> make_names = {"listed", "fruit", "solids", "litre", "solution", "formula", "hard"};

using Fields = std::vector<std::string>;

std::vector<std::string> words(std::string_view list) {
  std::vector<std::string> out;
  while (!list.empty()) {
    const std::size_t end = list.find(';');
    if (const std::string_view word = list.substr(0, end); !word.empty()) out.emplace_back(word);
    list.remove_prefix(end == std::string_view::npos ? list.size() : end + 1);
  }
  return out;
}

std::optional<double> number(std::string_view text) {
  double value = 0.0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
  return value;
}

// Reads the tables; the first fault stays and ends it.
class Reader {
 public:
  base::Result<Catalogue> read() {
    for (const Fields& f : rows_of("larder/things.csv")) thing(f);
    for (const Fields& f : rows_of("larder/families.csv")) family(f);
    for (const std::string_view table : {"larder/derived.csv", "larder/numbers.csv"})
      for (const Fields& f : rows_of(table)) one_number(table, f);
    for (const Fields& f : rows_of("larder/variability.csv")) variability(f);
    if (!fault_.empty()) return base::fail(base::ErrorKind::internal, "the built-in larder is at fault: " + fault_);
    return std::move(out_);
  }

 private:
  std::vector<Fields> rows_of(std::string_view path) {
    const std::string_view text = embedded(path);
    if (text.empty()) fail(path, "", "is not embedded");
    out_.fingerprint += text;
    return text::table_rows(text);
  }
  void fail(std::string_view table, std::string_view row, std::string_view what) {
    if (fault_.empty()) fault_ = std::string(table) + ", \"" + std::string(row) + "\": " + std::string(what);
  }

  void thing(const Fields& f) {
    Row row;
    row.name = f[0];
    row.also = words(f[1]);
    const auto family = family_named(f[2]);
    const auto make = make_named(f[3]);
    if (!family || !make) return fail("things.csv", f[0], "unknown family or make");
    row.family = *family;
    row.make = *make;
    for (const std::string& flag : words(f[4])) {
      bool* const set = flag == "fresh" ? &row.fresh : flag == "enzyme" ? &row.enzyme : flag == "raw_egg" ? &row.raw_egg : flag == "solid" ? &row.solid : nullptr;
      if (set == nullptr) return fail("things.csv", f[0], "unknown flag");
      *set = true;
    }
    row.allows = words(f[5]);
    row.allergens = words(f[6]);
    row.source = f[7];
    row.assumes = words(f[8]);
    if (!by_name_.emplace(row.name, out_.rows.size()).second) return fail("things.csv", f[0], "stands twice");
    out_.rows.push_back(std::move(row));
  }

  void family(const Fields& f) {
    const auto family = family_named(f[0]);
    const auto storage = number(f[1]), holds = number(f[2]), pack = number(f[3]);
    if (!family || !storage || !holds || !pack) return fail("families.csv", f[0], "does not read");
    for (Row& row : out_.rows) {
      if (row.family != *family) continue;
      row.storage = storage;
      row.holds = row.solid ? holds : 0.0;
      if (*pack > 0.0) row.pack_volume = pack;
    }
  }

  void one_number(std::string_view table, const Fields& f) {
    const auto at = by_name_.find(f[0]);
    const auto value = number(f[2]);
    if (at == by_name_.end() || !value) return fail(table, f[0], "no such thing, or not a number");
    if (!set_number(out_.rows[at->second], f[1], *value)) fail(table, f[0], "unknown quantity " + f[1]);
  }

  void variability(const Fields& f) {
    const auto width = number(f[2]);
    if (!width) return fail("variability.csv", f[0], "not a number");
    const Variability varies{f[1], *width, f[3] == "1", f[5]};
    if (const auto at = by_name_.find(f[0]); at != by_name_.end()) return put(out_.rows[at->second], varies);
    const auto family = family_named(f[0]);
    if (!family) return fail("variability.csv", f[0], "neither a family nor a thing");
    for (Row& row : out_.rows)
      if (row.family == *family) put(row, varies);
  }
  static void put(Row& row, const Variability& varies) {
    for (Variability& v : row.varies) {
      if (v.property == varies.property) {
        v = varies;
        return;
      }
    }
    row.varies.push_back(varies);
  }

  Catalogue out_;
  std::unordered_map<std::string, std::size_t> by_name_;
  std::string fault_;
};

}  // namespace

std::optional<Make> make_named(std::string_view name) {
  for (std::size_t i = 0; i < make_names.size(); ++i)
    if (make_names[i] == name) return static_cast<Make>(i);
  return std::nullopt;
}

std::optional<Family> family_named(std::string_view name) {
  for (std::size_t i = 0; i + 1 < family_names.size(); ++i)
    if (family_names[i] == name) return static_cast<Family>(i);
  return std::nullopt;
}

bool set_number(Row& row, std::string_view quantity, double value) {
  for (const RowNumber& n : row_numbers) {
    if (n.name != quantity) continue;
    row.*n.value = value;
    return true;
  }
  const bool by_litre = quantity.starts_with("g/L "), by_mole = quantity.starts_with("mol ");
  if (by_litre != (row.make == Make::litre) || by_mole != (row.make == Make::formula)) return false;
  const auto component = matter::component_named(by_litre || by_mole ? quantity.substr(4) : quantity);
  if (!component || *component == matter::Component::salt_hydrogen) return false;
  row.listed[*component] = value;
  return true;
}

base::Result<Catalogue> read_catalogue() { return Reader().read(); }

}  // namespace bloomset::larder
