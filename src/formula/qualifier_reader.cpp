// formula/qualifier_reader.cpp - the bracket behind a bought thing: `(40 %vol)`, `(65 brix read, pasteurised)`, `(pH 3.4)`.
//
// The list of words is closed (docs/formula.md); which of them a thing allows is a fact of its larder row. A number
// is one number, since the width of a property belongs to the larder.
#include <array>
#include <cmath>

#include "formula/reading.hpp"
#include "text/fold.hpp"

namespace bloomset::formula {
namespace {

struct QualifierWord {
  std::string_view name;
  bool takes_number;
  double most;  // largest number that can be meant; brackets never hold a negative one
};
constexpr std::array<QualifierWord, 13> qualifier_words = {{{"%vol", true, 100.0},
                                                            {"brix", true, 100.0},
                                                            {"brix read", true, 100.0},
                                                            {"g/L sugar", true, 1000.0},
                                                            {"% acid", true, 100.0},
                                                            {"pH", true, 14.0},
                                                            {"ppm hardness", true, 10000.0},
                                                            {"bloom", true, 400.0},
                                                            {"g a piece", true, 10000.0},
                                                            {"% wet", true, 100.0},
                                                            {"raw", false, 0.0},
                                                            {"pasteurised", false, 0.0},
                                                            {"canned", false, 0.0}}};

const std::vector<std::string>& words() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> names;
    for (const QualifierWord& w : qualifier_words) names.emplace_back(w.name);
    return names;
  }();
  return all;
}

std::string one_blank(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == ' ' && (out.empty() || out.back() == ' ')) continue;
    out += c;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

void fault_word(const std::string& word, base::Span span, Reading& reading) {
  std::string near;
  for (const std::string& known : words())
    if (text::fold(known) == text::fold(word)) near = known;
  if (near.empty()) near = base::nearest(word, words());
  const std::string hint = near.empty() ? std::string(
                                              "a bracket holds: 40 %vol, 50 brix, 50 brix read, 150 g/L sugar, 6 % acid, pH 3.4, 280 ppm hardness, 225 bloom, "
                                              "2 g a piece, 6 % wet, raw, pasteurised, canned")
                                        : text::say({"did you mean ", text::ticked(near), "?"});
  reading.fault(span, "unknown_qualifier", text::say({text::ticked(word), " is not a word for a bracket"}), hint);
}

std::optional<Qualifier> read_one(text::Cursor cursor, Reading& reading) {
  text::skip_blanks(cursor);
  const std::size_t from = cursor.at;
  const base::Span span = cursor.span(from, std::max<std::size_t>(one_blank(cursor.rest()).size(), 1));
  if (cursor.at >= cursor.text.size()) {
    reading.fault(span, "unknown_qualifier", "a word is missing in the bracket");
    return std::nullopt;
  }
  Qualifier q;
  q.span = span;
  std::optional<text::NumberRange> number;
  if (text::accept_word(cursor, "pH")) {
    text::skip_blanks(cursor);
    number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
    if (!number) return std::nullopt;
    q.name = "pH";
    if (cursor.at < cursor.text.size()) q.name = one_blank(cursor.text.substr(from));
  } else {
    const char first = cursor.rest().front();
    if ((first >= '0' && first <= '9') || first == '.' || first == '-' || static_cast<unsigned char>(first) >= 0x80U) {
      number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
      if (!number) return std::nullopt;
    }
    q.name = one_blank(cursor.rest());
    if (q.name.empty()) {
      reading.fault(span, "bad_qualifier", "a word is missing behind the number", "for instance `40 %vol`; the decimal mark is a point");
      return std::nullopt;
    }
  }
  for (const QualifierWord& word : qualifier_words) {
    if (word.name != q.name) continue;
    if (number.has_value() != word.takes_number) {
      reading.fault(span, "bad_qualifier", text::say({text::ticked(q.name), word.takes_number ? " needs a number" : " takes no number"}));
      return std::nullopt;
    }
    if (!number) return q;
    if (number->band) {
      reading.fault(number->span, "bad_qualifier", "a bracket takes one number, not a range");
      return std::nullopt;
    }
    if (number->low.value > word.most) {
      reading.fault(number->span, "too_large", text::say({"more than ", print(Qualifier{q.name, word.most, {}}), " is refused"}));
      return std::nullopt;
    }
    q.value = number->low.value;
    return q;
  }
  fault_word(q.name, span, reading);
  return std::nullopt;
}

}  // namespace

std::vector<Qualifier> read_qualifiers(text::Cursor inside, Reading& reading) {
  std::vector<Qualifier> read;
  while (true) {
    const std::size_t comma = inside.text.find(',', inside.at);
    const std::size_t end = std::min(comma, inside.text.size());
    text::Cursor piece = inside;
    piece.text = inside.text.substr(0, end);
    piece.origin = inside.origin;
    if (piece.origin.length == inside.text.size()) piece.origin.length = static_cast<std::uint32_t>(end);
    if (auto q = read_one(piece, reading)) {
      const auto same = std::find_if(read.begin(), read.end(), [&](const Qualifier& other) { return other.name == q->name; });
      if (same != read.end()) {
        reading.fault_pair(q->span, same->span, "duplicate", text::say({text::ticked(q->name), " stands twice in the bracket"}));
      } else {
        read.push_back(std::move(*q));
      }
    }
    if (comma == std::string_view::npos) return read;
    inside.at = comma + 1;
  }
}

std::string print(const Qualifier& q) {
  if (!q.value) return q.name;
  if (q.name == "pH") return "pH " + text::print_exactly(*q.value);
  return text::print_exactly(*q.value) + " " + q.name;
}

}  // namespace bloomset::formula
