#include "http/changes.hpp"

#include <array>

#include "http/reading.hpp"
#include "solve/measures.hpp"
#include "text/number.hpp"

namespace bloomset::http {
namespace {

using formula::Do;

// The fields of each act, beside `act`, in the order of Do. On the wire a value is called by what it is: the act of a new step is its `do`, the name of a part
// its `name`.
struct Form {
  Do what;
  std::vector<std::string> fields;
};
const std::array<Form, formula::do_count>& forms() {
  static const std::array<Form, formula::do_count> all = {{{Do::write, {"at", "value"}},
                                                           {Do::set_serves, {"value"}},
                                                           {Do::set_title, {"value"}},
                                                           {Do::set_made, {"part", "value"}},
                                                           {Do::set_vessel, {"value"}},
                                                           {Do::set_name, {"part", "value"}},
                                                           {Do::add_line, {"value"}},
                                                           {Do::add_take, {"part", "step", "value"}},
                                                           {Do::remove_take, {"part", "step", "take"}},
                                                           {Do::move_take, {"part", "step", "take", "by"}},
                                                           {Do::add_step, {"part", "after", "do"}},
                                                           {Do::remove_step, {"part", "step"}},
                                                           {Do::move_step, {"part", "step", "by"}},
                                                           {Do::set_condition, {"part", "step", "key", "value"}},
                                                           {Do::add_part, {"name", "made"}},
                                                           {Do::remove_part, {"part"}},
                                                           {Do::add_target, {"value"}},
                                                           {Do::set_target, {"target", "value"}},
                                                           {Do::remove_target, {"target"}}}};
  return all;
}

// A whole number that must be there.
std::uint32_t count_of(const text::Fields& fields, const char* key, std::int64_t least, text::Faults& faults) {
  fields.require(key);
  const text::Node* node = fields.integer(key);
  if (node == nullptr) return 0;
  if (node->integer < least || node->integer > static_cast<std::int64_t>(text::most_bytes))
    text::fault(faults, node->span, "out_of_range", std::string("`") + key + "` is a number from " + std::to_string(least));
  return static_cast<std::uint32_t>(node->integer);
}

base::Span place_of(const text::Fields& place, text::Faults& faults) {
  return {0, count_of(place, "line", 1, faults), count_of(place, "column", 1, faults), count_of(place, "length", 0, faults)};
}

// What an act puts in: a text, or the number of serves as one. Only a condition may have none, which takes it out.
std::optional<std::string> value_of(const text::Fields& fields, Do what, text::Faults& faults) {
  if (what == Do::set_serves) return std::to_string(count_of(fields, "value", 1, faults));
  const char* key = what == Do::add_step ? "do" : what == Do::add_part ? "name" : "value";
  if (what != Do::set_condition) return text_of(fields, key);
  const text::Node* node = fields.string(key);
  return node != nullptr ? std::optional(node->string) : std::nullopt;
}

void read_act(const text::Node& item, const Form& form, std::vector<formula::Change>& changes, text::Faults& faults) {
  std::vector<std::string> known = form.fields;
  known.emplace_back("act");
  const text::Fields fields(item, "the act `" + std::string(formula::name(form.what)) + "`", known, faults);
  formula::Change change;
  change.what = form.what;
  bool takes_value = false;
  for (const std::string& key : form.fields) {
    if (key == "part") change.part = count_of(fields, "part", 1, faults);
    if (key == "step") change.step = count_of(fields, "step", 1, faults);
    if (key == "after") change.step = count_of(fields, "after", 0, faults);
    if (key == "take") change.take = count_of(fields, "take", 1, faults);
    if (key == "target") change.target = count_of(fields, "target", 1, faults);
    if (key == "key") change.key = text_of(fields, "key");
    if (key == "made") change.made = text_of(fields, "made");
    takes_value = takes_value || key == "value" || key == "do" || key == "name";
    if (key == "by") {
      fields.require("by");
      const text::Node* by = fields.integer("by");
      if (by != nullptr && by->integer != 1 && by->integer != -1) text::fault(faults, by->span, "out_of_range", "`by` is -1 or 1");
      change.by = by != nullptr && by->integer < 0 ? -1 : 1;
    }
    if (key == "at") {
      fields.require("at");
      if (const text::Node* at = fields.table("at")) change.at = place_of(text::Fields(*at, "a place", {"line", "column", "length"}, faults), faults);
    }
  }
  if (takes_value) change.value = value_of(fields, form.what, faults);
  changes.push_back(std::move(change));
}

// Calls `does` with every object of the list `key`.
void each(const text::Fields& fields, const char* key, text::Faults& faults, auto does) {
  const text::Node* list = fields.array(key);
  if (list == nullptr) return;
  for (const text::Node& item : list->items)
    if (item.is(text::NodeKind::table))
      does(item);
    else
      text::fault_kind(faults, item, "an object");
}

void resize(std::vector<base::Edit>& edits, const text::Amount& was, const text::Amount& is, text::Measures measures) {
  if (was == is || !was.span.known()) return;
  constexpr int finest = solve::fineness_levels - 1;
  edits.push_back({was.span, text::print(solve::practical(was, is.value.nominal() / was.value.nominal(), finest, measures), measures)});
}

// Sets a key of a step, if it is another than before.
void put(std::vector<formula::Change>& changes, std::size_t part, std::size_t step, const char* key, std::string value) {
  formula::Change change;
  change.what = Do::set_condition;
  change.part = static_cast<std::uint32_t>(part + 1);
  change.step = static_cast<std::uint32_t>(step + 1);
  change.key = key;
  change.value = std::move(value);
  changes.push_back(std::move(change));
}

}  // namespace

base::Result<std::string> resized(std::string text, const formula::Formula& written, const sheet::Scaled& to, const formula::Borrower& borrower) {
  std::vector<base::Edit> edits;
  std::vector<formula::Change> changes;
  for (std::size_t p = 0; p < written.parts.size() && p < to.formula.parts.size(); ++p) {
    const formula::Part &was = written.parts[p], &is = to.formula.parts[p];
    if (was.source != written.source) continue;
    if (was.makes && is.makes) resize(edits, *was.makes, *is.makes, written.measures);
    for (std::size_t s = 0; s < was.steps.size(); ++s) {
      const formula::Step &before = was.steps[s], &after = is.steps[s];
      for (std::size_t t = 0; t < before.takes.size(); ++t) resize(edits, before.takes[t].amount, after.takes[t].amount, written.measures);
      if (before.bath && after.bath) resize(edits, before.bath->in.amount, after.bath->in.amount, written.measures);
      if (before.until != after.until) put(changes, p, s, "until", text::print_number(1e3 * after.until->value) + " g");
      if (before.vessel != after.vessel) put(changes, p, s, "vessel", after.vessel->text);
      if (before.charges != after.charges) put(changes, p, s, "charges", std::to_string(*after.charges));
    }
  }
  if (to.serves != written.serves) {
    formula::Change change;
    change.what = Do::set_serves;
    change.value = std::to_string(to.serves);
    changes.push_back(std::move(change));
  }
  text = base::edited(std::move(text), std::move(edits));
  for (const formula::Change& change : changes) {
    auto after = formula::changed(text, change, borrower);
    if (!after) return after;
    text = std::move(*after);
  }
  return text;
}

std::vector<base::Edit> edits_of(const text::Fields& fields, text::Faults& faults) {
  std::vector<base::Edit> edits;
  each(fields, "edits", faults, [&](const text::Node& item) {
    const text::Fields edit(item, "an edit", {"line", "column", "length", "text"}, faults);
    edits.push_back({place_of(edit, faults), text_of(edit, "text")});
  });
  return edits;
}

std::vector<formula::Change> acts_of(const text::Fields& fields, text::Faults& faults) {
  std::vector<formula::Change> changes;
  each(fields, "acts", faults, [&](const text::Node& item) {
    const text::Node* word = item.find("act");
    const auto what = formula::do_named(word != nullptr ? std::string_view(word->string) : std::string_view());
    if (what)
      read_act(item, forms()[static_cast<std::size_t>(*what)], changes, faults);
    else
      text::fault(faults, item.span, "unknown_act", "this is no act that a document knows", "`act` is one of the words of api/openapi.json");
  });
  return changes;
}

}  // namespace bloomset::http
