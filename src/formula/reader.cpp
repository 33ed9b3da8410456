// formula/reader.cpp - a whole document: its head, its parts, its serve, and what it borrows.
//
// Follow `read`: the text becomes a tree (text/document.hpp), the tree a Formula (one file a question, see reading.hpp),
// borrowed parts are appended, names are checked against each other. Every fault is collected; at most a hundred are
// given back, in the order of the text.
#include <algorithm>

#include "formula/borrow.hpp"
#include "formula/reading.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

constexpr std::int64_t this_version = 1, most_serves = 10000;

void read_head(const text::Fields& fields, Formula& formula, Reading& reading) {
  if (fields.require("bloomset", "write `bloomset = 1` on the first line"))
    if (const Node* version = fields.integer("bloomset"); version && version->integer != this_version)
      reading.fault(version->span, "bad_version", text::say({"version ", std::to_string(version->integer), " of the document is not known"}),
                    "this program reads version 1");
  if (fields.require("title"))
    if (const Node* title = fields.string("title"); title && check_name(title->string, title->inside, "`title`", reading)) {
      formula.title = title->string;
      formula.title_span = title->inside;
    }
  if (const Node* measures = fields.string("measures")) {
    const std::vector<std::string> known = {"metric", "us", "imperial", "au"};
    const auto found = std::find(known.begin(), known.end(), measures->string);
    if (found == known.end()) {
      const std::string near = base::nearest(measures->string, known);
      reading.fault(measures->inside, "unknown_word", text::say({text::ticked(measures->string), " is not a system of measures: metric, us, imperial, au"}),
                    near.empty() ? "" : text::say({"did you mean ", text::ticked(near), "?"}));
    } else {
      formula.measures = static_cast<text::Measures>(found - known.begin());
    }
  }
  reading.measures = formula.measures;
  if (const Node* serves = fields.integer("serves")) {
    formula.serves_span = serves->span;
    if (serves->integer < 1 || serves->integer > most_serves) {
      reading.fault(serves->span, "out_of_range", "`serves` must be from 1 to 10000");
    } else {
      formula.serves = static_cast<int>(serves->integer);
    }
  }
}

void read_borrow(const Node* table, Formula& formula, Reading& reading) {
  if (!table) return;
  if (table->items.size() > most_parts) {
    reading.fault(table->span, "too_many",
                  text::say({std::to_string(table->items.size()), " borrowed parts; a document has at most ", std::to_string(most_parts)}));
    return;
  }
  for (const Node& member : table->items) {
    if (!member.is(NodeKind::string)) {
      text::fault_kind(reading.faults, member, "the name of a file as text");
      continue;
    }
    const bool part_well = check_name(member.key, member.key_span, "a part", reading);
    const bool file_well = check_name(member.string, member.inside, "the name of a file", reading);
    if (part_well && file_well) formula.borrow.push_back({member.key, member.string, member.key_span});
  }
}

void read_targets(const Node* array, Formula& formula, Reading& reading) {
  if (!array) return;
  if (array->items.size() > most_targets) {
    reading.fault(array->span, "too_many", text::say({std::to_string(array->items.size()), " targets; a document has at most ", std::to_string(most_targets)}));
    return;
  }
  for (const Node& element : array->items)
    if (auto target = read_target(element, reading)) formula.targets.push_back(std::move(*target));
}

void read_parts(const Node* array, Formula& formula, Reading& reading) {
  if (!array) return;
  if (array->items.size() > most_parts) {
    reading.fault(array->items[most_parts].span, "too_many",
                  text::say({std::to_string(array->items.size()), " parts; a document has at most ", std::to_string(most_parts)}));
    return;
  }
  for (const Node& element : array->items)
    if (auto part = read_part(element, reading)) formula.parts.push_back(std::move(*part));
}

void check_counts(const Node& root, const Reading& said, Reading& reading) {
  if (said.steps > most_steps)
    reading.fault(root.span, "too_many", text::say({std::to_string(said.steps), " steps; a document has at most ", std::to_string(most_steps)}));
  if (said.takes > most_takes)
    reading.fault(root.span, "too_many", text::say({std::to_string(said.takes), " takes; a document has at most ", std::to_string(most_takes)}));
}

// In the order of the text, the document's own faults first.
void arrange(text::Faults& faults) {
  std::stable_sort(faults.begin(), faults.end(), [](const base::Diagnostic& a, const base::Diagnostic& b) {
    return std::tie(a.span.source, a.span.line, a.span.column) < std::tie(b.span.source, b.span.line, b.span.column);
  });
}

}  // namespace

std::shared_ptr<Formula> read_document(const std::string& name, std::string text, Files& files) {
  const std::uint32_t source = files.sources.add(name, std::move(text));
  auto tree = text::read_toml(source, files.sources);
  if (!tree) {
    files.faults.insert(files.faults.end(), tree.error().diagnostics.begin(), tree.error().diagnostics.end());
    return nullptr;
  }
  auto formula = std::make_shared<Formula>();
  formula->source = source;
  Reading reading{files.faults, source};
  const text::Fields fields(*tree, "a document", {"bloomset", "title", "measures", "serves", "borrow", "targets", "part", "serve"}, files.faults);
  read_head(fields, *formula, reading);
  read_borrow(fields.table("borrow"), *formula, reading);
  read_targets(fields.array("targets"), *formula, reading);
  if (const Node* part = fields.any("part"); part && part->is(NodeKind::table)) {
    text::fault_kind(files.faults, *part, "a list of tables", "write [[part]] with two brackets");
  } else {
    read_parts(fields.array("part"), *formula, reading);
  }
  if (const Node* serve = fields.any("serve")) formula->serve = read_serve(*serve, reading);
  check_counts(*tree, reading, reading);
  if (!fields.any("part") && !fields.any("serve")) reading.fault(tree->span, "empty", "the document has neither a part nor a serve");

  files.open.push_back(name);
  std::vector<Part> borrowed = borrowed_parts(*formula, files);
  files.open.pop_back();
  check_names(formula->parts, formula->serve, borrowed, reading);
  if (formula->parts.size() + borrowed.size() > most_parts) {
    reading.fault(fields.any("borrow")->span, "too_many", text::say({"with the borrowed ones there are more than ", std::to_string(most_parts), " parts"}));
    borrowed.clear();
  }
  std::move(borrowed.begin(), borrowed.end(), std::back_inserter(formula->parts));
  return formula;
}

base::Result<Formula> read(std::string name, std::string text, base::Sources& sources, const Borrower& borrower) {
  text::Faults faults;
  Files files{sources, borrower, faults, {}, {}};
  const auto formula = read_document(name, std::move(text), files);
  if (faults.empty() && formula) return std::move(*formula);
  arrange(faults);
  const std::string count = faults.size() == 1 ? std::string("a fault") : text::say({std::to_string(faults.size()), " faults"});
  return base::fail(base::ErrorKind::bad_input, text::say({name, ": ", count}), std::move(faults));
}

}  // namespace bloomset::formula
