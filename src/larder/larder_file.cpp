#include "larder/larder_file.hpp"

#include <algorithm>

#include "text/fold.hpp"

namespace bloomset::larder {
namespace {

using Member = std::optional<double> Row::*;
struct NumberKey {
  std::string_view key;
  Member value;
};
// The keys of numbers; the band each may lie in stands in row_numbers.
constexpr std::array<NumberKey, 18> document_numbers = {{{"brix", &Row::brix},
                                                         {"acid_g_l", &Row::acid},
                                                         {"ph", &Row::ph},
                                                         {"strength", &Row::strength},
                                                         {"percent", &Row::percent},
                                                         {"hardness", &Row::hardness},
                                                         {"co2_g_l", &Row::co2},
                                                         {"density", &Row::density},
                                                         {"piece_g", &Row::piece},
                                                         {"bought_piece_g", &Row::bought_piece},
                                                         {"pack_g", &Row::pack},
                                                         {"pack_ml", &Row::pack_volume},
                                                         {"yield", &Row::yield},
                                                         {"wet", &Row::wet},
                                                         {"ice_c", &Row::at},
                                                         {"holds", &Row::holds},
                                                         {"storage_c", &Row::storage},
                                                         {"bloom", &Row::bloom}}};
constexpr std::array<std::string_view, 6> variable = {"brix", "acid", "ph", "strength", "mass_a_piece", "bloom"};

std::vector<std::string> thing_keys() {
  std::vector<std::string> keys = {"name",  "like",    "also",   "family",    "make",    "per_100g", "per_litre", "fresh",  "enzyme",
                                   "solid", "raw_egg", "allows", "allergens", "assumes", "price",    "currency",  "varies", "source"};
  for (const NumberKey& k : document_numbers) keys.emplace_back(k.key);
  return keys;
}

class ThingReader {
 public:
  ThingReader(const text::Node& node, const FindRow& find, const std::vector<std::string>& names, text::Faults& faults)
      : node_(node), find_(find), names_(names), faults_(faults), fields_(node, "a thing", keys(), faults) {}

  std::optional<FileRow> read() {
    const std::size_t before = faults_.size();
    FileRow out;
    like();
    fields_.require("name", "as formulas will write it");
    if (const text::Node* name = fields_.string("name")) {
      if (text::fold(name->string).empty()) fault(name->span, "empty_text", "`name` may not be empty");
      row_.name = name->string;
      out.name_span = name->span;
    }
    fields_.require("source", "say where its numbers come from: a label, own weighing, a book");
    if (const text::Node* source = fields_.string("source")) row_.source = source->string;
    if (const text::Node* also = fields_.array("also")) row_.also = texts(*also);
    if (const text::Node* assumes = fields_.array("assumes")) row_.assumes = texts(*assumes);
    kind();
    composition();
    numbers();
    flags();
    allows_and_allergens();
    price();
    varies();
    if (faults_.size() != before) return std::nullopt;
    out.row = std::move(row_);
    return out;
  }

 private:
  static const std::vector<std::string>& keys() {
    static const std::vector<std::string> all = thing_keys();
    return all;
  }
  void fault(base::Span span, std::string code, std::string message, std::string hint = {}) {
    faults_.push_back({base::Severity::error, std::move(code), std::move(message), span, std::nullopt, std::move(hint)});
  }
  std::vector<std::string> texts(const text::Node& list) {
    std::vector<std::string> out;
    for (const text::Node& item : list.items) {
      if (item.is(text::NodeKind::string)) {
        out.push_back(item.string);
      } else {
        text::fault_kind(faults_, item, "a text");
      }
    }
    return out;
  }

  void like() {
    const text::Node* base = fields_.string("like");
    if (base == nullptr) return;
    if (const Row* row = find_(base->string)) {
      row_ = *row;
      row_.also.clear();
      return;
    }
    const std::string near = base::nearest(base->string, names_);
    fault(base->span, "unknown_thing", "the larder has no \"" + base->string + "\"", near.empty() ? "" : "did you mean `" + near + "`?");
  }

  void kind() {
    if (const text::Node* family = fields_.string("family")) {
      const auto known = family_named(family->string);
      if (known) row_.family = *known;
      if (!known)
        fault(family->span, "unknown_family", "`" + family->string + "` is not a family of the larder", "for example juice, syrup, spirit, liqueur, other");
    } else if (node_.find("like") == nullptr) {
      fields_.require("family", "or `like`, a thing it resembles");
    }
    if (const text::Node* make = fields_.string("make")) {
      const auto known = make_named(make->string);
      if (known) row_.make = *known;
      if (!known || *known == Make::formula) fault(make->span, "unknown_make", "`make` is one of listed, fruit, solids, litre, solution, hard");
    } else if (node_.find("per_litre") != nullptr) {
      row_.make = Make::litre;
    } else if (node_.find("per_100g") != nullptr && (row_.make == Make::litre || row_.make == Make::formula || row_.make == Make::hard)) {
      row_.make = Make::listed;
    }
    // New contents by another measure: a density measured on the old ones says nothing about them.
    if (node_.find("per_100g") != nullptr || node_.find("per_litre") != nullptr) row_.density.reset();
  }

  void composition() {
    const text::Node* by_mass = fields_.table("per_100g");
    const text::Node* by_litre = fields_.table("per_litre");
    if (by_mass != nullptr && by_litre != nullptr) fault(by_litre->key_span, "two_measures", "give `per_100g` or `per_litre`, not both");
    const text::Node* table = by_mass != nullptr ? by_mass : by_litre;
    if (table == nullptr) return;
    if ((by_litre != nullptr) != (row_.make == Make::litre))
      fault(table->key_span, "two_measures", "`make = \"litre\"` goes with `per_litre`, every other with `per_100g`");
    row_.listed = {};
    double sum = 0.0;
    for (const text::Node& item : table->items) {
      const auto component = matter::component_named(item.key);
      if (!component || *component == matter::Component::salt_hydrogen) {
        fault(item.key_span, "unknown_component", "`" + item.key + "` is not a component of matter", near_component(item.key));
      } else if (!(item.is(text::NodeKind::number) || item.is(text::NodeKind::integer)) || !(item.number >= 0.0 && item.number <= 2000.0)) {
        fault(item.span, "out_of_range", "`" + item.key + "` must be a number of grams, 0 to 2000");
      } else {
        row_.listed[*component] = item.number;
        sum += item.number;
      }
    }
    if (by_mass != nullptr && sum > 100.0 + 1e-9) fault(table->key_span, "over_hundred", "`per_100g` adds up to " + text::print_number(sum) + " g");
  }
  static std::string near_component(const std::string& read) {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < matter::component_count; ++i) all.emplace_back(matter::info(static_cast<matter::Component>(i)).name);
    const std::string near = base::nearest(read, all);
    return near.empty() ? "for example sucrose, \"citric acid\", protein, \"other solids\"" : "did you mean `" + near + "`?";
  }

  void numbers() {
    for (const NumberKey& k : document_numbers) {
      const text::Node* value = fields_.number(k.key);
      if (value == nullptr) continue;
      const auto band = std::find_if(row_numbers.begin(), row_numbers.end(), [&](const RowNumber& n) { return n.value == k.value; });
      if (value->number >= band->low && value->number <= band->high) {
        row_.*k.value = value->number;
        continue;
      }
      fault(value->span, "out_of_range",
            "`" + value->key + "` is " + text::print_number(value->number) + ", allowed is " + text::print_number(band->low) + " to " +
                text::print_number(band->high));
    }
  }

  void flags() {
    const std::array<std::pair<std::string_view, bool*>, 4> all = {
        {{"fresh", &row_.fresh}, {"enzyme", &row_.enzyme}, {"solid", &row_.solid}, {"raw_egg", &row_.raw_egg}}};
    for (const auto& [key, flag] : all)
      if (const text::Node* value = fields_.boolean(key)) *flag = value->boolean;
  }

  void allows_and_allergens() {
    if (const text::Node* allows = fields_.array("allows")) row_.allows = texts(*allows);
    if (const text::Node* allergens = fields_.array("allergens")) {
      row_.allergens = texts(*allergens);
      row_.allergens_known = true;
    } else if (node_.find("like") == nullptr) {
      row_.allergens_known = false;
    }
  }

  void price() {
    if (const text::Node* value = fields_.number("price")) {
      row_.price = value->number;
      if (!(value->number >= 0.0 && value->number <= 1e6)) fault(value->span, "out_of_range", "`price` must be 0 to 1000000, of one pack");
      fields_.require("currency", "the code of the currency, for example \"EUR\"");
    }
    if (const text::Node* currency = fields_.string("currency")) row_.currency = currency->string;
  }

  void varies() {
    const text::Node* table = fields_.table("varies");
    if (table == nullptr) return;
    for (const text::Node& item : table->items) {
      const bool known = std::find(variable.begin(), variable.end(), item.key) != variable.end();
      const bool number = item.is(text::NodeKind::number) || item.is(text::NodeKind::integer);
      if (!known || !number || !(item.number >= 0.0 && item.number <= 1.0)) {
        fault(item.key_span, "bad_variability",
              "`varies` holds brix, acid, ph, strength, mass_a_piece, bloom, each 0 to 1 (one standard deviation; a share, pH in its unit)");
        continue;
      }
      const Variability v{item.key, item.number, item.key != "ph", row_.source};
      std::erase_if(row_.varies, [&](const Variability& other) { return other.property == v.property; });
      row_.varies.push_back(v);
    }
  }

  const text::Node& node_;
  const FindRow& find_;
  const std::vector<std::string>& names_;
  text::Faults& faults_;
  text::Fields fields_;
  Row row_;
};

}  // namespace

std::vector<std::string_view> number_keys() {
  std::vector<std::string_view> keys;
  for (const NumberKey& k : document_numbers) keys.push_back(k.key);
  return keys;
}

std::vector<std::pair<std::string_view, double>> numbers_of(const Row& row) {
  std::vector<std::pair<std::string_view, double>> numbers;
  for (const NumberKey& k : document_numbers)
    if (const auto& value = row.*k.value) numbers.emplace_back(k.key, *value);
  return numbers;
}

std::vector<FileRow> read_larder(const text::Node& root, const FindRow& find, const std::vector<std::string>& known_names, text::Faults& faults) {
  static const std::vector<std::string> keys = {"thing"};
  const text::Fields fields(root, "a larder", keys, faults);
  std::vector<FileRow> out;
  const text::Node* list = fields.array("thing");
  if (list == nullptr) return out;
  // A thing may be `like` one that stands before it in the same document.
  const FindRow find_here = [&](std::string_view name) -> const Row* {
    const std::string folded = text::fold(name);
    for (auto row = out.rbegin(); row != out.rend(); ++row)
      if (text::fold(row->row.name) == folded) return &row->row;
    return find(name);
  };
  for (const text::Node& node : list->items) {
    if (!node.is(text::NodeKind::table)) {
      text::fault_kind(faults, node, "a table", "write it as [[thing]]");
      continue;
    }
    auto read = ThingReader(node, find_here, known_names, faults).read();
    if (!read) continue;
    for (const FileRow& other : out)
      if (text::fold(other.row.name) == text::fold(read->row.name))
        faults.push_back({base::Severity::error, "twice", "\"" + read->row.name + "\" stands twice in this larder", read->name_span, other.name_span, ""});
    out.push_back(std::move(*read));
  }
  return out;
}

}  // namespace bloomset::larder
