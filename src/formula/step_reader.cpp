// formula/step_reader.cpp - one step: its act, and the keys that the act may carry.
//
// `to` = ends at; `at` = held at, goes with `time`; `until` ends heating or reducing: a step has one end. Which keys an
// act has is the table in acts.cpp. Every key is read even where an earlier one was faulty, so that all faults are said.
#include <array>

#include "formula/acts.hpp"
#include "formula/reading.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"
#include "units/quantity.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

constexpr std::int64_t most_charges = 20;    // above any bottle of the trade: a typing slip
constexpr double most_pressure_bar = 100.0;  // above any table-top vessel: a typing slip
constexpr double most_size_m = 1.0;

const std::vector<std::string> hard_words = {"both", "shorter", "longer", "neither"};
const std::vector<std::string> clarify_words = {"agar", "gelatin", "milk", "spin"};
const std::vector<std::string> gas_words = {"N2O", "CO2"};

// Nothing may stand behind what was read.
bool at_end(const text::Cursor& cursor, Reading& reading, std::string_view what) {
  if (cursor.at >= cursor.text.size()) return true;
  reading.fault(cursor.span(cursor.at, cursor.text.size() - cursor.at), "unexpected_text",
                text::say({text::ticked(cursor.rest()), " must not stand behind ", what}));
  return false;
}

std::optional<Word> read_word(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  if (!check_name(node->string, node->inside, text::ticked(node->key), reading)) return std::nullopt;
  return Word{node->string, node->inside};
}

std::optional<Word> read_choice(const Node* node, const std::vector<std::string>& choices, Reading& reading) {
  if (!node) return std::nullopt;
  for (const std::string& choice : choices)
    if (choice == node->string) return Word{node->string, node->inside};
  std::string list;
  for (const std::string& choice : choices) list.append(list.empty() ? "" : ", ").append(choice);
  const std::string near = base::nearest(node->string, choices);
  reading.fault(node->inside, "unknown_word", text::say({text::ticked(node->string), " is not a value of ", text::ticked(node->key), ": ", list}),
                near.empty() ? "" : text::say({"did you mean ", text::ticked(near), "?"}));
  return std::nullopt;
}

template <class Reader>
std::optional<text::Range> read_with(Reader reader, const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  return reader(node->string, node->inside, reading.faults);
}

// `15 mm`, `1.5 cm` → m.
std::optional<text::Range> read_size(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  text::Cursor cursor = text::cursor_of(*node);
  const auto number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
  if (!number) return std::nullopt;
  std::int64_t over = 0;
  if (text::accept_word(cursor, "mm")) {
    over = 1000;
  } else if (text::accept_word(cursor, "cm")) {
    over = 100;
  } else {
    reading.fault(cursor.span(cursor.at, std::max<std::size_t>(cursor.rest().size(), 1)), "unknown_unit", "a size is written in mm or cm",
                  "for instance `15 mm`");
    return std::nullopt;
  }
  text::skip_blanks(cursor);
  if (!at_end(cursor, reading, "a size")) return std::nullopt;
  const text::Range size = number->times(1, over);
  if (!(size.high <= most_size_m) || !(size.low > 0.0)) {
    reading.fault(number->span, "too_large", "a size must be above 0 and at most 1 m");
    return std::nullopt;
  }
  return size;
}

// `1.5 bar` is what a regulator's gauge shows; `2.5 bar abs` is absolute. → Pa absolute.
std::optional<double> read_pressure(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  text::Cursor cursor = text::cursor_of(*node);
  const auto number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
  if (!number) return std::nullopt;
  if (number->band) {
    reading.fault(number->span, "bad_number", "`pressure` takes one number, not a range");
    return std::nullopt;
  }
  if (!text::accept_word(cursor, "bar")) {
    reading.fault(cursor.span(cursor.at, std::max<std::size_t>(cursor.rest().size(), 1)), "unknown_unit", "a pressure is written in bar",
                  "`1.5 bar` as a gauge shows it, or `2.5 bar abs`");
    return std::nullopt;
  }
  text::skip_blanks(cursor);
  const bool absolute = text::accept_word(cursor, "abs");
  if (!absolute) text::accept_word(cursor, "gauge");
  text::skip_blanks(cursor);
  if (!at_end(cursor, reading, "a pressure")) return std::nullopt;
  if (!(number->low.value <= most_pressure_bar)) {
    reading.fault(number->span, "too_large", "more than 100 bar is refused");
    return std::nullopt;
  }
  return absolute ? number->low.times(100000, 1) : units::bar_gauge(number->low.value).si;
}

// `65 brix`, `pH 4`, `606 g`, `25 %`.
std::optional<Until> read_until(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  text::Cursor cursor = text::cursor_of(*node);
  text::skip_blanks(cursor);
  Until until;
  until.span = node->inside;
  const bool is_ph = text::accept_word(cursor, "pH");
  const auto number = text::read_numbers(cursor, text::Sign::plain_only, reading.faults);
  if (!number) return std::nullopt;
  if (number->band) {
    reading.fault(number->span, "bad_number", "`until` takes one number, not a range");
    return std::nullopt;
  }
  double most = 0.0;
  text::Cursor percent = cursor;
  if (is_ph) {
    until = {Until::What::ph, number->low.value, until.span};
    most = 14.0;
  } else if (text::accept_word(cursor, "brix")) {
    until = {Until::What::brix, number->low.value, until.span};
    most = 100.0;
  } else if (text::accept_word(percent, "%")) {
    cursor = percent;
    until = {Until::What::share_of_start, number->low.times(1, 100), until.span};
    most = 1.0;
  } else {
    text::Cursor ahead = cursor;
    const std::string_view word = text::unit_word_at(ahead);
    const text::Unit* unit = text::unit_named(word, reading.measures);
    if (!unit || unit->kind != text::UnitKind::mass) {
      reading.fault(cursor.span(cursor.at, std::max<std::size_t>(cursor.rest().size(), 1)), "unknown_unit",
                    "`until` is written in brix, pH, a mass or % of the step's start", "for instance `65 brix`, `pH 4`, `606 g` or `25 %`");
      return std::nullopt;
    }
    cursor.at += word.size();
    until = {Until::What::mass, number->low.times(unit->numerator, unit->denominator), until.span};
    most = 1e4;
  }
  text::skip_blanks(cursor);
  if (!at_end(cursor, reading, "`until`")) return std::nullopt;
  if (!(until.value <= most)) {
    reading.fault(number->span, "too_large", "`until` may be at most 100 brix, pH 14, 10,000 kg or 100 %");
    return std::nullopt;
  }
  return until;
}

std::vector<NamedShare> read_out(const Node* table, Reading& reading) {
  std::vector<NamedShare> out;
  if (!table) return out;
  double least = 0.0;
  const Node* rest = nullptr;
  for (const Node& member : table->items) {
    if (!member.is(NodeKind::string)) {
      text::fault_kind(reading.faults, member, "a share as text", "for instance \"74-80 %\" or \"rest\"");
      continue;
    }
    if (!check_name(member.key, member.key_span, "an output", reading)) continue;
    NamedShare share{member.key, std::nullopt, member.span};
    if (member.string == "rest") {
      if (rest) reading.fault_pair(member.span, rest->span, "duplicate", "only one output may be the `rest`");
      rest = &member;
    } else {
      share.share = text::read_share(member.string, member.inside, reading.faults);
      if (!share.share) continue;
      least += share.share->low;
    }
    out.push_back(std::move(share));
  }
  if (table->items.empty()) reading.fault(table->span, "empty", "`out` must name at least one output");
  if (least > 1.0) reading.fault(table->span, "too_large", "the outputs sum to more than 100 %");
  return out;
}

std::optional<Take> read_ice(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  auto ice = read_take_text(*node, reading);
  if (!ice) return std::nullopt;
  const text::AmountKind kind = ice->amount.kind;
  if (kind != text::AmountKind::mass && kind != text::AmountKind::volume && kind != text::AmountKind::pieces) {
    reading.fault(ice->amount.span, "bad_amount", "ice is a mass, a volume or pieces, per serve", "for instance `200 g ice cubes`");
    return std::nullopt;
  }
  return ice;
}

std::optional<Bath> read_bath(const Node* table, Reading& reading) {
  if (!table) return std::nullopt;
  const text::Fields fields(*table, "a bath", {"in", "takes_up"}, reading.faults);
  fields.require("in", "for instance in = \"1 kg 'alginate bath'\"");
  const Node* in = fields.string("in");
  const Node* takes_up = fields.string("takes_up");
  Bath bath;
  const auto take = in ? read_take_text(*in, reading) : std::nullopt;
  bath.takes_up = read_with(text::read_share, takes_up, reading);
  if (!take) return std::nullopt;
  bath.in = *take;
  return bath;
}

std::optional<int> read_charges(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  if (node->integer < 0 || node->integer > most_charges) {
    reading.fault(node->span, "out_of_range", text::say({"`charges` must be from 0 to ", std::to_string(most_charges)}));
    return std::nullopt;
  }
  return static_cast<int>(node->integer);
}

std::optional<Act> read_act(const Node& node, const text::Fields& fields, bool is_pour, Step& step, Reading& reading) {
  step.act_span = node.span;
  if (!fields.any("do")) {
    if (is_pour) return Act::pour;
    reading.fault(node.span, "missing_key", "a step must have `do`", "for instance do = \"combine\"");
    return std::nullopt;
  }
  const Node* written = fields.string("do");
  if (!written) return std::nullopt;
  step.act_span = written->inside;
  const auto act = act_named(written->string);
  if (!act) {
    const std::string near = base::nearest(written->string, all_act_names());
    std::string hint = near.empty() ? "acts:" : text::say({"did you mean ", text::ticked(near), "?"});
    if (near.empty())
      for (const std::string& known : all_act_names()) hint.append(known == all_act_names().front() ? " " : ", ").append(known);
    reading.fault(written->inside, "unknown_act", text::say({text::ticked(written->string), " is not an act"}), hint);
  }
  return act;
}

void check_keys(const Node& node, const Step& step, Reading& reading) {
  const KeySet allowed = keys_of(step.act);
  for (const Node& member : node.items)
    for (std::size_t i = 0; i < key_count; ++i)
      if (name(static_cast<Key>(i)) == member.key && !allowed.test(i))
        reading.fault(member.key_span, "key_not_of_act", text::say({text::ticked(name(step.act)), " takes no ", text::ticked(member.key)}),
                      text::say({"keys of ", text::ticked(name(step.act)), ": ", listed(allowed)}));
}

void check_ends(const text::Fields& fields, Reading& reading) {
  const Node *to = fields.any("to"), *at = fields.any("at"), *until = fields.any("until");
  if (to && until)
    reading.fault_pair(until->key_span, to->key_span, "two_ends", "a step has one end: `to` or `until`", "take one of them out, or write two steps");
  if (to && at)
    reading.fault_pair(to->key_span, at->key_span, "two_ends", "`at` (held at) and `to` (ends at) do not go together",
                       "write two steps: first `to`, then `at` with `time`");
  if (const Node* ice_at = fields.any("ice_at"); ice_at && !fields.any("ice")) reading.fault(ice_at->key_span, "missing_key", "`ice_at` goes with `ice`");
}

}  // namespace

std::optional<Step> read_step(const Node& node, bool is_pour, Reading& reading) {
  if (++reading.steps > most_steps) return std::nullopt;  // said once, by the document
  const std::string what = is_pour ? "a pour" : "a step";
  if (!node.is(NodeKind::table)) {
    text::fault_kind(reading.faults, node, "a table",
                     is_pour ? "for instance { take = [\"60 mL soda\"] }" : "for instance { do = \"combine\", take = [\"60 g water\"] }");
    return std::nullopt;
  }
  const std::size_t faults_before = reading.faults.size();
  const text::Fields fields(node, what, all_step_keys(), reading.faults);
  Step step;
  step.span = node.span;
  const auto act = read_act(node, fields, is_pour, step, reading);
  if (act) {
    step.act = *act;
    check_keys(node, step, reading);
  }
  check_ends(fields, reading);
  if (const Node* takes = fields.array("take"))
    for (const Node& element : takes->items)
      if (auto take = read_take(element, reading)) step.takes.push_back(std::move(*take));
  step.to_c = read_with(text::read_temperature_c, fields.string("to"), reading);
  step.at_c = read_with(text::read_temperature_c, fields.string("at"), reading);
  step.time_s = read_with(text::read_duration_s, fields.string("time"), reading);
  step.keeps_s = read_with(text::read_duration_s, fields.string("keeps"), reading);
  const auto inside = [&fields](std::string_view key) { return fields.any(key) ? fields.any(key)->inside : base::Span{}; };  // `string` would say a fault twice
  step.to_span = inside("to");
  step.at_span = inside("at");
  step.time_span = inside("time");
  step.until = read_until(fields.string("until"), reading);
  step.in = read_word(fields.string("in"), reading);
  step.vessel = read_word(fields.string("vessel"), reading);
  step.with = read_word(fields.string("with"), reading);
  step.hard = read_choice(fields.string("hard"), hard_words, reading);
  step.by = read_choice(fields.string("by"), clarify_words, reading);
  step.gas = read_choice(fields.string("gas"), gas_words, reading);
  if (const Node* leave = fields.array("leave"))
    for (const Node& element : leave->items) {
      if (!element.is(NodeKind::string)) {
        text::fault_kind(reading.faults, element, "the name of a take, as text");
      } else if (check_name(element.string, element.inside, "a thing", reading)) {
        step.leave.push_back({element.string, element.inside});
      }
    }
  step.out = read_out(fields.table("out"), reading);
  step.split = read_with(text::read_share, fields.string("split"), reading);
  step.loss = read_with(text::read_share, fields.string("loss"), reading);
  step.yield_ = read_with(text::read_share, fields.string("yield"), reading);
  step.ice = read_ice(fields.string("ice"), reading);
  step.ice_at_c = read_with(text::read_temperature_c, fields.string("ice_at"), reading);
  step.bath = read_bath(fields.table("bath"), reading);
  step.size_m = read_size(fields.string("size"), reading);
  const Node* charges = fields.integer("charges");
  step.charges = read_charges(charges, reading);
  if (charges) step.charges_span = charges->span;
  step.pressure_pa = read_pressure(fields.string("pressure"), reading);
  if (const Node* purged = fields.boolean("purged")) step.purged = purged->boolean;
  if (const Node* maybe = fields.boolean("maybe")) step.maybe = maybe->boolean;
  if (reading.faults.size() != faults_before) return std::nullopt;
  return step;
}

}  // namespace bloomset::formula
