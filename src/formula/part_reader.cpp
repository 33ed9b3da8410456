// formula/part_reader.cpp - a part, the serve, and what holds between names: parts once each, marks that no part bears.
//
// Whether a quoted part exists is a question for flow, which resolves names; here only what one text can say by itself.
#include <map>

#include "formula/reading.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

constexpr std::size_t longest_name = 120;
constexpr double most_batches = 1000.0;

std::optional<text::Amount> read_makes(const Node* node, Reading& reading) {
  if (!node) return std::nullopt;
  text::Cursor cursor = text::cursor_of(*node);
  const auto amount = text::read_amount(cursor, reading.measures, reading.faults);
  if (!amount) return std::nullopt;
  if (cursor.at < cursor.text.size()) {
    reading.fault(cursor.span(cursor.at, cursor.text.size() - cursor.at), "unexpected_text",
                  text::say({text::ticked(cursor.rest()), " must not stand behind the amount"}));
    return std::nullopt;
  }
  if (amount->kind != text::AmountKind::mass && amount->kind != text::AmountKind::volume && amount->kind != text::AmountKind::pieces) {
    reading.fault(amount->span, "bad_amount", "`makes` is a mass, a volume or pieces", "for instance \"440 g\" or \"60 piece\"");
    return std::nullopt;
  }
  return amount;
}

std::vector<Step> read_steps(const Node* array, bool is_pour, Reading& reading) {
  std::vector<Step> steps;
  if (!array) return steps;
  for (const Node& element : array->items)
    if (auto step = read_step(element, is_pour, reading)) steps.push_back(std::move(*step));
  return steps;
}

// Calls `see(take)` for every take of a step, those of ice and bath too.
template <class See>
void each_take(const Step& step, See see) {
  for (const Take& take : step.takes) see(take);
  if (step.ice) see(*step.ice);
  if (step.bath) see(step.bath->in);
}

void check_marks(const std::vector<Step>& steps, const std::map<std::string, const Part*>& parts, Reading& reading) {
  std::map<std::string, const Take*> marks;
  std::vector<std::string> known;
  for (const Step& step : steps)
    each_take(step, [&](const Take& take) {
      if (take.mark.empty()) return;
      const std::string folded = text::fold(take.mark);
      if (const auto part = parts.find(folded); part != parts.end())
        reading.fault_pair(take.span, part->second->name_span, "mark_is_part", text::say({"a mark may not bear a part's name: ", text::ticked(take.mark)}),
                           "call the mark something else");
      const auto [same, is_new] = marks.emplace(folded, &take);
      if (!is_new) reading.fault_pair(take.span, same->second->span, "duplicate", text::say({"two lines bear the mark ", text::ticked(take.mark)}));
      known.push_back(take.mark);
    });
  for (const Step& step : steps)
    each_take(step, [&](const Take& take) {
      if (take.of_mark.empty() || marks.contains(text::fold(take.of_mark)) || reading.has_enough_faults()) return;
      if (parts.contains(text::fold(take.of_mark))) {
        reading.fault(take.span, "mark_is_part", text::say({text::ticked(take.of_mark), " is a part; a quoted name that a thing follows is a mark"}),
                      "mark a line with { take = \"…\", mark = \"…\" } and name that");
        return;
      }
      const std::string near = base::nearest(take.of_mark, known);
      reading.fault(take.span, "unknown_mark", text::say({"no line here bears the mark ", text::ticked(take.of_mark)}),
                    near.empty() ? "mark a line with { take = \"…\", mark = \"…\" }" : text::say({"did you mean ", text::ticked(near), "?"}));
    });
}

}  // namespace

bool check_name(std::string_view name, base::Span span, std::string_view what, Reading& reading) {
  const auto refuse = [&](const std::string& message, const std::string& hint = {}) {
    reading.fault(span, "bad_name", message, hint);
    return false;
  };
  if (name.empty()) return refuse(text::say({what, " may not be empty"}));
  if (name.front() == ' ' || name.back() == ' ') return refuse(text::say({what, " may not begin or end with a blank"}));
  if (name.size() > longest_name) return refuse(text::say({what, " may have at most ", std::to_string(longest_name), " bytes"}));
  for (const char c : name)
    if (static_cast<unsigned char>(c) < 0x20U || c == 0x7F) return refuse(text::say({what, " may not hold control characters"}));
  if (what != "a part" && what != "a mark" && what != "an output") return true;
  if (name.find_first_of("'/") != std::string_view::npos) return refuse(text::say({what, " may not hold ' or /"}), "these part the names inside a take");
  // Compared without case: `Cup cake` would be read as an amount of cake by people, if not by us.
  const std::string folded = text::fold(name);
  for (const text::Unit& unit : text::units())
    for (const std::string& word : {text::fold(unit.spelling), text::fold(unit.plural)})
      if (!word.empty() && folded.starts_with(word) && (folded.size() == word.size() || folded[word.size()] == ' ')) {
        reading.fault(span, "name_begins_with_unit", text::say({"a name may not begin with the unit word ", text::ticked(name.substr(0, word.size()))}));
        return false;
      }
  return true;
}

std::optional<Part> read_part(const Node& node, Reading& reading) {
  if (!node.is(NodeKind::table)) {
    text::fault_kind(reading.faults, node, "a table", "write parts as [[part]]");
    return std::nullopt;
  }
  const std::size_t faults_before = reading.faults.size();
  const text::Fields fields(node, "a part", {"name", "made", "makes", "batches", "step"}, reading.faults);
  Part part;
  part.span = part.name_span = node.span;
  part.source = reading.source;
  fields.require("name");
  if (const Node* name = fields.string("name")) {
    part.name_span = name->inside;
    if (check_name(name->string, name->inside, "a part", reading)) part.name = name->string;
  }
  fields.require("made", "\"ahead\" (one batch) or \"to order\" (for each serve)");
  if (const Node* made = fields.string("made")) {
    if (made->string == "ahead") {
      part.made = Made::ahead;
    } else if (made->string != "to order") {
      reading.fault(made->inside, "unknown_word", text::say({text::ticked(made->string), " is not a value of `made`"}),
                    "\"ahead\" (one batch) or \"to order\" (for each serve)");
    }
  }
  part.makes = read_makes(fields.string("makes"), reading);
  if (const Node* batches = fields.number("batches")) {
    if (part.made == Made::to_order) {
      reading.fault(batches->span, "ahead_only", "`batches` goes with made = \"ahead\"", "a part to order is made for each serve");
    } else if (batches->number > 0.0 && batches->number <= most_batches) {
      part.batches = batches->number;
    } else {
      reading.fault(batches->span, "out_of_range", "`batches` must be above 0 and at most 1000");
    }
  }
  const Node* steps = fields.array("step");
  if (!fields.any("step") || (steps && steps->items.empty()))
    reading.fault(steps ? steps->span : part.name_span, "no_steps", "a part must have at least one step", "write it as [[part.step]] below the part");
  part.steps = read_steps(steps, false, reading);
  // A faulty part is kept for its name, so that what refers to it is not called unknown as well.
  if (reading.faults.size() != faults_before) part.steps.clear();
  if (part.name.empty()) return std::nullopt;
  return part;
}

std::optional<Serve> read_serve(const Node& node, Reading& reading) {
  if (!node.is(NodeKind::table)) {
    text::fault_kind(reading.faults, node, "a table", "a document has one serve: [serve]");
    return std::nullopt;
  }
  const text::Fields fields(node, "the serve", {"vessel", "pour"}, reading.faults);
  Serve serve;
  serve.span = node.span;
  fields.require("vessel", "for instance vessel = \"tall glass, 400 mL\"");
  if (const Node* vessel = fields.string("vessel"); vessel && check_name(vessel->string, vessel->inside, "`vessel`", reading))
    serve.vessel = {vessel->string, vessel->inside};
  const Node* pours = fields.array("pour");
  if (!fields.any("pour") || (pours && pours->items.empty()))
    reading.fault(pours ? pours->span : node.span, "no_steps", "the serve must have at least one pour", "for instance pour = [ { take = [\"60 mL soda\"] } ]");
  serve.pours = read_steps(pours, true, reading);
  return serve;
}

void check_names(const std::vector<Part>& parts, const std::optional<Serve>& serve, const std::vector<Part>& borrowed, Reading& reading) {
  std::map<std::string, const Part*> known;
  for (const std::vector<Part>* list : {&parts, &borrowed})
    for (const Part& part : *list) {
      const auto [same, is_new] = known.emplace(text::fold(part.name), &part);
      if (!is_new)
        reading.fault_pair(part.name_span, same->second->name_span, "duplicate", text::say({"two parts bear the name ", text::ticked(part.name)}),
                           "case and accents do not part names");
    }
  for (const Part& part : parts) check_marks(part.steps, known, reading);
  if (serve) check_marks(serve->pours, known, reading);
}

}  // namespace bloomset::formula
