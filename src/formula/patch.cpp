#include "formula/patch.hpp"

#include <algorithm>
#include <array>

#include "formula/borrow.hpp"
#include "formula/patching.hpp"
#include "text/fold.hpp"
#include "text/units.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

struct DoRow {
  std::string_view name;
  Patched (*patch)(Patch&);
  bool wants_value;
};
constexpr std::array<DoRow, do_count> do_rows = {{{"write", write_at, true},
                                                  {"set_serves", set_serves, true},
                                                  {"set_title", set_title, true},
                                                  {"set_made", set_made, true},
                                                  {"set_vessel", set_vessel, true},
                                                  {"set_name", set_name, true},
                                                  {"add_line", add_line, true},
                                                  {"add_take", add_take, true},
                                                  {"remove_take", remove_take, false},
                                                  {"move_take", move_take, false},
                                                  {"add_step", add_step, true},
                                                  {"remove_step", remove_step, false},
                                                  {"move_step", move_step, false},
                                                  {"set_condition", set_condition, false},
                                                  {"add_part", add_part, true},
                                                  {"remove_part", remove_part, false},
                                                  {"add_target", add_target, true},
                                                  {"set_target", set_target, true},
                                                  {"remove_target", remove_target, false}}};

// What may be written into a document at all. Of quotes and backslashes the writing takes care.
std::optional<std::string> unfit(std::string_view value) {
  if (text::first_not_utf8(value) != std::string_view::npos) return "the value is not UTF-8";
  const bool plain = std::none_of(value.begin(), value.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; });
  if (!plain) return "the value holds a control character, such as a tab or the end of a line: a value stands on one line";
  return std::nullopt;
}

std::size_t borrowed_count(const Patch& patch) {
  if (!patch.root.find("borrow")) return 0;
  base::Sources sources;
  text::Faults faults;
  Files files{sources, patch.borrower, faults, {}, {}};
  const auto formula = read_document("", patch.text, files);
  return formula ? static_cast<std::size_t>(
                       std::count_if(formula->parts.begin(), formula->parts.end(), [&](const Part& part) { return part.source != formula->source; }))
                 : 0;
}

text::Measures measures_of(const Node& root) {
  const Node* measures = root.find("measures");
  for (const auto system : {text::Measures::us, text::Measures::imperial, text::Measures::au})
    if (measures && measures->string == text::name(system)) return system;
  return text::Measures::metric;
}

// A whole number, for `serves`: the one number of the head.
bool is_count(std::string_view value) {
  return !value.empty() && value.size() <= 9 && std::all_of(value.begin(), value.end(), [](char c) { return c >= '0' && c <= '9'; }) &&
         (value.size() == 1 || value.front() != '0');
}

base::Result<const Node*> target_at(const Patch& patch) {
  const Node* targets = patch.root.find("targets");
  const std::size_t count = targets && targets->is(NodeKind::array) ? targets->items.size() : 0;
  if (patch.change.target == 0 || patch.change.target > count)
    return cannot(text::say({"there is no target ", std::to_string(patch.change.target), "; the document has ", std::to_string(count)}));
  return &targets->items[patch.change.target - 1];
}

}  // namespace

std::string_view name(Do what) { return do_rows[static_cast<std::size_t>(what)].name; }

std::optional<Do> do_named(std::string_view written) {
  for (std::size_t i = 0; i < do_count; ++i)
    if (do_rows[i].name == written) return static_cast<Do>(i);
  return std::nullopt;
}

tl::unexpected<base::Error> out_of_reach(std::string_view what) {
  return cannot(text::say({what, " is written with dotted keys or in sections that stand apart: change it in the text"}));
}

const Node* Patch::own_parts() const {
  const Node* parts = root.find("part");
  return parts && parts->is(NodeKind::array) ? parts : nullptr;
}

base::Result<const Node*> Patch::owner(std::uint32_t part) const {
  const Node* parts = own_parts();
  const std::size_t own = parts ? parts->items.size() : 0;
  if (part >= 1 && part <= own) {
    if (parts->items[part - 1].is(NodeKind::table)) return &parts->items[part - 1];
    return cannot(text::say({"part ", std::to_string(part), " is not a table"}));
  }
  const std::size_t all = own + borrowed_count(*this);
  if (part > own && part <= all) return cannot(text::say({"part ", std::to_string(part), " is borrowed: change it in its own document"}));
  const Node* serve = root.find("serve");
  if (part == all + 1 && serve && serve->is(NodeKind::table)) return serve;
  return cannot(text::say({"there is no part ", std::to_string(part), "; the document has ", std::to_string(all), " and ", serve ? "a" : "no", " serve"}));
}

const Node* Patch::steps(const Node& of) const {
  const Node* steps = of.find(is_serve(of) ? "pour" : "step");
  return steps && steps->is(NodeKind::array) ? steps : nullptr;
}

base::Result<const Node*> Patch::step(std::uint32_t part, std::uint32_t number) const {
  const auto of = owner(part);
  if (!of) return tl::unexpected(of.error());
  const Node* list = steps(**of);
  const std::size_t count = list ? list->items.size() : 0;
  if (number == 0 || number > count || !list->items[number - 1].is(NodeKind::table))
    return cannot(text::say({"there is no step ", std::to_string(number), " in part ", std::to_string(part), "; it has ", std::to_string(count)}));
  return &list->items[number - 1];
}

Patched set_serves(Patch& patch) {
  if (!is_count(patch.value())) return cannot("`serves` is a whole number, for instance 6");
  if (const Node* serves = patch.root.find("serves")) return patch.done(patch.rewrite.set_value(*serves, patch.value()), "`serves`");
  return patch.done(patch.rewrite.add_member(patch.root, "serves", patch.value(), patch.root.find("measures") ? "measures" : "title"), "the head");
}

Patched set_title(Patch& patch) {
  if (const Node* title = patch.root.find("title")) return patch.done(patch.rewrite.set_string(*title, patch.value()), "`title`");
  return patch.done(patch.rewrite.add_member(patch.root, "title", text::toml_string(patch.value()), "bloomset"), "the head");
}

Patched add_target(Patch& patch) {
  const std::string literal = text::toml_string(patch.value());
  if (const Node* targets = patch.root.find("targets")) {
    if (!targets->is(NodeKind::array)) return cannot("`targets` is not a list");
    return patch.done(patch.rewrite.add_item(*targets, targets->items.size(), literal), "`targets`");
  }
  return patch.done(patch.rewrite.add_member(patch.root, "targets", "[" + literal + "]"), "the head");
}

Patched set_target(Patch& patch) {
  const auto target = target_at(patch);
  if (!target) return tl::unexpected(target.error());
  return patch.done(patch.rewrite.set_string(**target, patch.value()), "the target");
}

Patched remove_target(Patch& patch) {
  const auto target = target_at(patch);
  if (!target) return tl::unexpected(target.error());
  const Node& targets = *patch.root.find("targets");
  if (targets.items.size() == 1 && !patch.rewrite.holds_comment(targets)) return patch.done(patch.rewrite.remove_member(patch.root, targets), "`targets`");
  return patch.done(patch.rewrite.remove_item(targets, patch.change.target - 1), "`targets`");
}

base::Result<std::string> changed(const std::string& text, const Change& change, const Borrower& borrower) {
  const DoRow& row = do_rows[static_cast<std::size_t>(change.what)];
  if (row.wants_value && !change.value) return cannot(text::say({text::ticked(row.name), " wants a value"}));
  if (change.value)
    if (const auto why = unfit(*change.value)) return cannot(*why);
  if (const auto why = unfit(change.key)) return cannot(*why);
  if (change.by != 1 && change.by != -1) return cannot("`by` is 1 or -1");
  base::Sources sources;
  const auto root = text::read_toml(sources.add("this text", text), sources);
  if (!root) return tl::unexpected(root.error());
  Patch patch{text, *root, change, borrower, text::Rewrite(text, *root), measures_of(*root)};
  auto out = row.patch(patch);
  if (!out) return out;
  // Nobody is handed a text that cannot be read again.
  base::Sources after;
  if (auto again = text::read_toml(after.add("the changed text", *out), after); !again)
    return base::fail(again.error().diagnostics.front().code == "too_large" ? base::ErrorKind::bad_input : base::ErrorKind::internal, again.error().message);
  return out;
}

}  // namespace bloomset::formula
