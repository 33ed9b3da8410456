#include "larder/qualify.hpp"

#include <algorithm>

namespace bloomset::larder {
namespace {

struct Word {
  std::string_view name;
  bool has_value;
  double low, high;  // of the value, ends included
  bool name_first;   // printed `pH 3.4`, not `3.4 pH`
};
// Bands: strength to the azeotrope (97.2 %vol, CRC Handbook); Bloom of gelatins of the trade; the others only keep out what cannot be meant.
constexpr std::array<Word, 13> known_words = {{{"%vol", true, 0.0, 97.2, false},
                                               {"brix", true, 0.1, 90.0, false},
                                               {"brix read", true, 0.1, 90.0, false},
                                               {"g/L sugar", true, 0.0, 900.0, false},
                                               {"% acid", true, 0.01, 60.0, false},
                                               {"pH", true, 1.0, 12.0, true},
                                               {"ppm hardness", true, 0.0, 2000.0, false},
                                               {"bloom", true, 50.0, 325.0, false},
                                               {"g a piece", true, 0.001, 5000.0, false},
                                               {"% wet", true, 0.0, 50.0, false},
                                               {"raw", false, 0.0, 0.0, false},
                                               {"pasteurised", false, 0.0, 0.0, false},
                                               {"canned", false, 0.0, 0.0, false}}};
// More than this is no juice or puree but a concentrate past any that is sold.
constexpr double most_brix_of_fruit = 70.0;

constexpr std::array<std::pair<std::string_view, std::string_view>, 3> contradictions = {{{"raw", "pasteurised"}, {"raw", "canned"}, {"brix", "brix read"}}};

std::string allowed(const Row& row) {
  if (row.allows.empty()) return "\"" + row.name + "\" takes no bracket";
  std::string out = "allowed:";
  for (const std::string& word : row.allows) out += (word == row.allows.front() ? " " : ", ") + word;
  return out;
}

std::string shown(const Word& word, const std::optional<double>& value) {
  if (!value) return std::string(word.name);
  const std::string number = text::print_number(*value, 6);
  return word.name_first ? std::string(word.name) + ' ' + number : number + ' ' + std::string(word.name);
}

void fault(text::Faults& faults, base::Span span, std::string code, std::string message, std::string hint, std::optional<base::Span> second = std::nullopt) {
  faults.push_back({base::Severity::error, std::move(code), std::move(message), span, second, std::move(hint)});
}

// The word, if the row allows it with that value; else the fault is said.
const Word* checked(const Row& row, const Qualifier& q, text::Faults& faults) {
  const auto word = std::find_if(known_words.begin(), known_words.end(), [&](const Word& w) { return w.name == q.name; });
  if (word == known_words.end() || std::find(row.allows.begin(), row.allows.end(), q.name) == row.allows.end()) {
    fault(faults, q.span, "qualifier_not_allowed", "\"" + row.name + "\" cannot be told `" + q.name + "`", allowed(row));
    return nullptr;
  }
  if (word->has_value != q.value.has_value()) {
    fault(faults, q.span, "qualifier_value", word->has_value ? "`" + q.name + "` needs a number before it" : "`" + q.name + "` takes no number", allowed(row));
    return nullptr;
  }
  if (!word->has_value) return &*word;
  const bool of_fruit = row.make == Make::fruit && (q.name == "brix" || q.name == "brix read");
  const double high = of_fruit ? most_brix_of_fruit : word->high;
  if (!(*q.value >= word->low && *q.value <= high)) {
    fault(faults, q.span, "qualifier_range", shown(*word, q.value) + " cannot be meant for \"" + row.name + "\"",
          "allowed is " + text::print_number(word->low) + " to " + text::print_number(high));
    return nullptr;
  }
  return &*word;
}

void set_sugar(Row& row, double g_l) {
  double listed = 0.0;
  for (std::size_t i = 0; i < matter::component_count; ++i)
    if (matter::info(static_cast<matter::Component>(i)).kind == matter::Class::sugar) listed += row.listed.kg[i];
  if (listed == 0.0) {
    row.listed[matter::Component::sucrose] = g_l;
    return;
  }
  for (std::size_t i = 0; i < matter::component_count; ++i)
    if (matter::info(static_cast<matter::Component>(i)).kind == matter::Class::sugar) row.listed.kg[i] *= g_l / listed;
}

void apply(Qualified& out, std::string_view name, double value) {
  Row& row = out.row;
  if (name == "raw") {
    out.as_raw = true;
  } else if (name == "pasteurised" || name == "canned") {
    out.heated = true;
  } else if (name == "bloom") {
    row.bloom = value;
  } else if (name == "g a piece") {
    row.piece = value;
  } else if (name == "% wet") {
    row.wet = value;
  } else {
    out.matter_changed = true;
    if (name == "%vol") row.strength = value;
    if (name == "brix") row.brix = value;
    if (name == "brix read") out.brix_read = value;
    if (name == "g/L sugar") set_sugar(row, value);
    if (name == "pH") row.ph = value;
    if (name == "ppm hardness") row.hardness = value;
    if (name == "% acid" && row.make == Make::solution) row.percent = value;
    if (name == "% acid" && row.make != Make::solution) row.acid_percent = value;
  }
}

}  // namespace

Qualified qualify(const Row& row, const std::vector<Qualifier>& qualifiers, text::Faults& faults) {
  Qualified out{row, row.name, std::nullopt};
  std::string bracket;
  for (std::size_t i = 0; i < qualifiers.size(); ++i) {
    const Qualifier& q = qualifiers[i];
    const Word* word = checked(row, q, faults);
    if (word == nullptr) continue;
    for (std::size_t before = 0; before < i; ++before) {
      const Qualifier& other = qualifiers[before];
      if (other.name == q.name) fault(faults, q.span, "qualifier_twice", "`" + q.name + "` stands twice", "say it once", other.span);
      for (const auto& [a, b] : contradictions)
        if ((q.name == a && other.name == b) || (q.name == b && other.name == a))
          fault(faults, q.span, "qualifier_contradiction", "`" + q.name + "` contradicts `" + other.name + "`", "leave one of them out", other.span);
    }
    apply(out, word->name, q.value.value_or(0.0));
    bracket += (bracket.empty() ? "" : ", ") + shown(*word, q.value);
  }
  if (!bracket.empty()) out.label += " (" + bracket + ")";
  return out;
}

}  // namespace bloomset::larder
