// larder/catalogue.cpp - the embedded tables made into rows.
//
// things.csv says what there is, numbers.csv and derived.csv hold a number a line, families.csv and variability.csv what
// holds for many. All is read at every start of the program (about 250 things, 1400 numbers), so fields are views into the
// embedded bytes and nothing is copied but what a row keeps; the matter is made up only when a thing is asked for.
#include <algorithm>
#include <charconv>
#include <unordered_map>

#include "larder/row.hpp"

namespace bloomset::larder {

std::string_view embedded(std::string_view path);

namespace {

constexpr std::array<std::string_view, 26> family_names = {
    "water",         "juice", "puree",  "sweetener", "syrup",      "spirit", "liqueur", "wine",  "bitters", "dairy", "egg",      "plant_milk", "acid",
    "acid_solution", "salt",  "saline", "soda",      "tea_coffee", "spice",  "herb",    "fruit", "ice",     "agent", "chemical", "other",      ""};
constexpr std::array<std::string_view, 7> make_names = {"listed", "fruit", "solids", "litre", "solution", "formula", "hard"};

// The fields of one line; a field in double quotes may hold commas but no quote. More fields than expected, or fewer, are a fault.
constexpr std::size_t most_fields = 9;
struct Fields {
  std::array<std::string_view, most_fields> at{};
  std::size_t count = 0;
  std::string_view operator[](std::size_t i) const { return at[i]; }
};

Fields split(std::string_view line) {
  Fields out;
  while (out.count < most_fields) {
    std::string_view field;
    if (line.starts_with('"')) {
      const std::size_t close = line.find('"', 1);
      if (close == std::string_view::npos) return {};
      field = line.substr(1, close - 1);
      line.remove_prefix(close + 1);
    } else {
      field = line.substr(0, line.find(','));
      line.remove_prefix(field.size());
    }
    out.at[out.count++] = field;
    if (line.empty()) return out;
    if (line.front() != ',') return {};
    line.remove_prefix(1);
  }
  return {};
}

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
    out_.rows.reserve(400);
    each("larder/things.csv", 9, &Reader::thing);
    each("larder/families.csv", 6, &Reader::family);
    each("larder/derived.csv", 6, &Reader::one_number);
    each("larder/numbers.csv", 6, &Reader::one_number);
    each("larder/variability.csv", 7, &Reader::variability);
    if (!fault_.empty()) return base::fail(base::ErrorKind::internal, "the built-in larder is at fault: " + fault_);
    return std::move(out_);
  }

 private:
  using Take = void (Reader::*)(const Fields&);

  // Every line below the header, comments left out.
  void each(std::string_view path, std::size_t width, Take take) {
    std::string_view text = embedded(path);
    if (text.empty()) fail(path, "is not embedded");
    out_.fingerprint += text;
    bool header = true;
    while (!text.empty()) {
      const std::string_view line = text.substr(0, text.find('\n'));
      text.remove_prefix(std::min(line.size() + 1, text.size()));
      if (line.empty() || line.front() == '#') continue;
      const Fields fields = split(line);
      if (fields.count != width) fail(line, "has not the fields of its header");
      if (fields.count == width && !header) (this->*take)(fields);
      header = false;
    }
  }
  void fail(std::string_view where, std::string_view what) {
    if (fault_.empty()) fault_ = "\"" + std::string(where) + "\" " + std::string(what);
  }

  void thing(const Fields& f) {
    Row row;
    row.name = f[0];
    row.also = words(f[1]);
    const auto family = family_named(f[2]);
    const auto make = make_named(f[3]);
    if (!family || !make) return fail(f[0], "unknown family or make");
    row.family = *family;
    row.make = *make;
    for (const std::string& flag : words(f[4])) {
      bool* const set = flag == "fresh"     ? &row.fresh
                        : flag == "enzyme"  ? &row.enzyme
                        : flag == "raw_egg" ? &row.raw_egg
                        : flag == "solid"   ? &row.solid
                                            : nullptr;
      if (set == nullptr) return fail(f[0], "unknown flag");
      *set = true;
    }
    row.allows = words(f[5]);
    row.allergens = words(f[6]);
    row.source = f[7];
    row.assumes = words(f[8]);
    if (!by_name_.emplace(f[0], out_.rows.size()).second) return fail(f[0], "stands twice");
    out_.rows.push_back(std::move(row));
  }

  void family(const Fields& f) {
    const auto family = family_named(f[0]);
    const auto storage = number(f[1]), holds = number(f[2]), pack = number(f[3]), density = number(f[4]);
    if (!family || !storage || !holds || !pack || !density) return fail(f[0], "does not read");
    for (Row& row : out_.rows) {
      if (row.family != *family) continue;
      row.storage = storage;
      row.holds = row.solid ? holds : 0.0;
      if (*pack > 0.0) row.pack_volume = pack;
      if (*density > 0.0) row.density = density;
    }
  }

  void one_number(const Fields& f) {
    const auto at = by_name_.find(f[0]);
    const auto value = number(f[2]);
    if (at == by_name_.end() || !value) return fail(f[0], "no such thing, or not a number");
    if (!set_number(out_.rows[at->second], f[1], *value)) fail(f[1], "unknown quantity");
  }

  void variability(const Fields& f) {
    const auto width = number(f[2]);
    if (!width) return fail(f[0], "not a number");
    const Variability varies{std::string(f[1]), *width, f[3] == "1", std::string(f[5])};
    // A word that is both (`spirit`) means the family, whose rows stand before those of things.
    if (const auto family = family_named(f[0])) {
      for (Row& row : out_.rows)
        if (row.family == *family) put(row, varies);
      return;
    }
    const auto at = by_name_.find(f[0]);
    if (at == by_name_.end()) return fail(f[0], "neither a family nor a thing");
    put(out_.rows[at->second], varies);
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
  std::unordered_map<std::string_view, std::size_t> by_name_;
  std::string fault_;
};

}  // namespace

std::optional<Make> make_named(std::string_view name) {
  for (std::size_t i = 0; i < make_names.size(); ++i)
    if (make_names[i] == name) return static_cast<Make>(i);
  return std::nullopt;
}

std::string_view name(Family family) { return family_names[static_cast<std::size_t>(family)]; }

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
