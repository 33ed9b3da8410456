// formula/take_reader.cpp - one take: `AMOUNT UNIT THING (qualifiers)`.
//
//   330 g orange juice              bought: a bare name, to the end or to a bracket
//   45 mL spirit (40 %vol)          one bracket at the end, of qualifiers
//   15 mL 'house syrup'             made: single quotes; 'part/output' where the part has outputs
//   30 mL 'orange cloud' as foam    of a charged part a volume is either foam or base
//   all 'x', rest 'x', half 'x'     made only
//   2 % 'juice' citric acid         of the marked line: a quoted name that a thing follows is a mark
// A name may hold commas and an apostrophe inside; it may not begin with a unit word (`330 g oz …` is a slip).
#include "formula/reading.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::formula {
namespace {

constexpr double most_percent_unmarked = 1.0;

bool is_whole(text::AmountKind kind) { return kind == text::AmountKind::all || kind == text::AmountKind::rest || kind == text::AmountKind::half; }

// `'name'` at the cursor. Nothing (with a fault) if the quote does not close.
std::optional<std::string_view> read_quoted(text::Cursor& cursor, base::Span& span, Reading& reading) {
  const std::size_t from = cursor.at, end = cursor.text.find('\'', from + 1);
  if (end == std::string_view::npos) {
    reading.fault(cursor.span(from, cursor.text.size() - from), "open_quote", "this single quote is not closed",
                  "a made part stands between two single quotes");
    return std::nullopt;
  }
  cursor.at = end + 1;
  span = cursor.span(from + 1, end - from - 1);
  text::skip_blanks(cursor);
  return cursor.text.substr(from + 1, end - from - 1);
}

bool set_made(std::string_view quoted, base::Span span, Take& take, Reading& reading) {
  take.kind = ThingKind::made;
  take.thing_span = span;
  const auto slash = quoted.find('/');
  take.thing = std::string(quoted.substr(0, slash));
  if (slash != std::string_view::npos) take.output = std::string(quoted.substr(slash + 1));
  bool well = check_name(take.thing, span, "a part", reading);
  if (slash != std::string_view::npos) well = check_name(take.output, span, "an output", reading) && well;
  return well;
}

// `as foam`, `as base`, and nothing else, behind a made part.
bool read_behind_made(text::Cursor& cursor, Take& take, Reading& reading) {
  if (text::accept_word(cursor, "as")) {
    text::skip_blanks(cursor);
    if (text::accept_word(cursor, "foam")) {
      take.charged_as = ChargedAs::foam;
    } else if (text::accept_word(cursor, "base")) {
      take.charged_as = ChargedAs::base;
    } else {
      reading.fault(cursor.span(cursor.at, std::max<std::size_t>(text::word_at(cursor).size(), 1)), "unexpected_text",
                    "`as` must be followed by `foam` or `base`");
      return false;
    }
    text::skip_blanks(cursor);
  }
  if (cursor.at >= cursor.text.size()) return true;
  const std::string hint = cursor.rest().front() == '(' ? "a bracket belongs to bought things; a made part has no qualifiers"
                                                        : "behind a made part only `as foam` or `as base` may stand; a mark needs a percent before it";
  reading.fault(cursor.span(cursor.at, cursor.text.size() - cursor.at), "unexpected_text",
                text::say({text::ticked(cursor.rest()), " must not stand behind a made part"}), hint);
  return false;
}

bool check_bought_name(text::Cursor name, Take& take, Reading& reading) {
  const std::string_view word = text::unit_word_at(name);
  const std::size_t behind = name.at + word.size();
  if (!word.empty() && (behind >= name.text.size() || name.text[behind] == ' ')) {
    reading.fault(name.span(name.at, word.size()), "name_begins_with_unit", text::say({"a name may not begin with the unit word ", text::ticked(word)}),
                  "one amount and one unit, then the thing: `330 g orange juice`");
    return false;
  }
  return check_name(take.thing, take.thing_span, "a thing", reading);
}

bool read_bought(text::Cursor& cursor, Take& take, Reading& reading) {
  std::string_view rest = cursor.rest();
  while (!rest.empty() && rest.back() == ' ') rest.remove_suffix(1);
  const std::size_t from = cursor.at, open = rest.find('(');
  std::string_view thing = rest.substr(0, open);
  while (!thing.empty() && thing.back() == ' ') thing.remove_suffix(1);
  if (thing.empty()) {
    reading.fault(cursor.span(from, 1), "thing_missing", "the thing is missing behind the amount", "write for instance `330 g orange juice`");
    return false;
  }
  take.kind = ThingKind::bought;
  take.thing = std::string(thing);
  take.thing_span = cursor.span(from, thing.size());
  bool well = check_bought_name(text::Cursor{cursor.text.substr(0, from + thing.size()), cursor.origin.length == cursor.text.size() ? [&] {
                                  base::Span cut = cursor.origin;
                                  cut.length = static_cast<std::uint32_t>(from + thing.size());
                                  return cut;
                                }() : cursor.origin, from},
                                take, reading);
  if (open != std::string_view::npos) {
    const std::size_t close = rest.find(')', open);
    if (close != rest.size() - 1) {
      const bool missing = close == std::string_view::npos;
      reading.fault(cursor.span(from + open, rest.size() - open), "bad_bracket",
                    missing ? "this bracket is not closed" : "nothing may stand behind the bracket",
                    "a thing has one bracket, at its end, its words parted by commas");
      return false;
    }
    text::Cursor inside{rest.substr(open + 1, close - open - 1), cursor.span(from + open + 1, close - open - 1)};
    take.qualifiers = read_qualifiers(inside, reading);
    well = well && !take.qualifiers.empty();
  }
  cursor.at = cursor.text.size();
  return well;
}

// What an amount may not be, given the thing that followed.
bool check_amount(const Take& take, Reading& reading) {
  if (is_whole(take.amount.kind) && take.kind == ThingKind::bought) {
    reading.fault(take.amount.span, "made_only", "`all`, `rest` and `half` are for made parts, which stand in single quotes");
    return false;
  }
  if (take.amount.kind == text::AmountKind::percent && take.of_mark.empty() && take.amount.value.high > most_percent_unmarked) {
    reading.fault(take.amount.span, "too_large", "more than 100 % is refused where no line is marked",
                  "mark the line that it is a percent of: `120 % 'juice' water`");
    return false;
  }
  if (take.charged_as != ChargedAs::unsaid && take.amount.kind != text::AmountKind::volume) {
    reading.fault(take.amount.span, "volume_only", "`as foam` and `as base` go with a volume", "grams are always the base");
    return false;
  }
  return true;
}

}  // namespace

std::optional<Take> read_take_text(const text::Node& string, Reading& reading) {
  Take take;
  take.span = string.inside;
  text::Cursor cursor = text::cursor_of(string);
  const auto amount = text::read_amount(cursor, reading.measures, reading.faults);
  if (!amount) return std::nullopt;
  take.amount = *amount;
  if (cursor.rest().starts_with("'")) {
    base::Span span;
    const auto quoted = read_quoted(cursor, span, reading);
    if (!quoted) return std::nullopt;
    text::Cursor ahead = cursor;
    const bool as_follows = text::accept_word(ahead, "as");
    const bool is_mark = take.amount.kind == text::AmountKind::percent && cursor.at < cursor.text.size() && !as_follows && cursor.rest().front() != '(';
    if (!is_mark) {
      if (!set_made(*quoted, span, take, reading) || !read_behind_made(cursor, take, reading) || !check_amount(take, reading)) return std::nullopt;
      return take;
    }
    if (!check_name(*quoted, span, "a mark", reading)) return std::nullopt;
    take.of_mark = std::string(*quoted);
    if (cursor.rest().starts_with("'")) {
      const auto made = read_quoted(cursor, span, reading);
      if (!made || !set_made(*made, span, take, reading) || !read_behind_made(cursor, take, reading)) return std::nullopt;
    } else if (!read_bought(cursor, take, reading)) {
      return std::nullopt;
    }
  } else if (!read_bought(cursor, take, reading)) {
    return std::nullopt;
  }
  if (!check_amount(take, reading)) return std::nullopt;
  return take;
}

std::optional<Take> read_take(const text::Node& node, Reading& reading) {
  if (++reading.takes > most_takes) return std::nullopt;  // said once, by the document
  if (node.is(text::NodeKind::string)) return read_take_text(node, reading);
  if (!node.is(text::NodeKind::table)) {
    text::fault_kind(reading.faults, node, "a text or a table with `take`", "write for instance \"330 g orange juice\"");
    return std::nullopt;
  }
  const text::Fields fields(node, "a take", {"take", "at", "mark"}, reading.faults);
  fields.require("take");
  const text::Node* written = fields.string("take");
  const text::Node* at = fields.string("at");
  const text::Node* mark = fields.string("mark");
  std::optional<Take> take = written ? read_take_text(*written, reading) : std::nullopt;
  std::optional<text::Range> at_c;
  if (at) at_c = text::read_temperature_c(at->string, at->inside, reading.faults);
  const bool mark_well = !mark || check_name(mark->string, mark->inside, "a mark", reading);
  if (!take || (at && !at_c) || !mark_well) return std::nullopt;
  take->at_c = at_c;
  if (mark) take->mark = mark->string;
  return take;
}

std::optional<Take> read_take(std::string_view text, base::Span origin, text::Measures measures, text::Faults& faults) {
  text::Node node;
  node.kind = text::NodeKind::string;
  node.string = std::string(text);
  node.span = node.inside = origin;
  Reading reading{faults, origin.source, measures};
  return read_take_text(node, reading);
}

std::optional<Take> read_thing(std::string_view text, base::Span origin, text::Faults& faults) {
  Reading reading{faults, origin.source, text::Measures::metric};
  Take take;
  take.span = origin;
  text::Cursor cursor{text, origin};
  text::skip_blanks(cursor);
  if (!read_bought(cursor, take, reading)) return std::nullopt;
  return take;
}

std::optional<Take> read_named(std::string_view text, base::Span origin, text::Faults& faults) {
  if (text.size() <= 2 || text.front() != '\'' || text.back() != '\'') return read_thing(text, origin, faults);
  Take take;
  take.kind = ThingKind::made;
  take.thing = std::string(text.substr(1, text.size() - 2));
  return take;
}

}  // namespace bloomset::formula
