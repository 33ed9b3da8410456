// formula/patch_step.cpp - steps, their takes and their conditions.
//
// A take that was the only one goes with its key, unless a comment stands in the list. The ice is the take behind the others, the bath the one behind
// the ice: they can be taken out, not moved.
#include <algorithm>

#include "formula/acts.hpp"
#include "formula/patching.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

std::string numbered(std::string_view what, std::uint32_t number) { return text::say({what, " ", std::to_string(number)}); }

Patched remove_key(Patch& patch, const Node& step, std::string_view key) {
  const Node* member = step.find(key);
  if (!member) return cannot(text::say({"the step has no ", text::ticked(key)}));
  return patch.done(patch.rewrite.remove_member(step, *member), text::ticked(key));
}

// The list that the moved thing stands in, checked against both ends.
base::Result<std::size_t> lower_of(std::uint32_t number, int by, std::size_t count, std::string_view what) {
  if (by < 0 && number == 1) return cannot(text::say({"there is no ", what, " above the first"}));
  if (by > 0 && number == count) return cannot(text::say({"there is no ", what, " below the last"}));
  return by < 0 ? number - 2U : number - 1U;
}

}  // namespace

Patched add_take(Patch& patch) {
  const auto step = patch.step(patch.change.part, patch.change.step);
  if (!step) return tl::unexpected(step.error());
  const std::string literal = text::toml_string(patch.value());
  const Node* takes = (*step)->find("take");
  if (!takes) return patch.done(patch.rewrite.add_member(**step, "take", "[" + literal + "]", "do"), "the step");
  if (!takes->is(NodeKind::array)) return cannot("`take` is not a list: write it in square brackets");
  return patch.done(patch.rewrite.add_item(*takes, takes->items.size(), literal), "`take`");
}

Patched remove_take(Patch& patch) {
  const auto step = patch.step(patch.change.part, patch.change.step);
  if (!step) return tl::unexpected(step.error());
  const Node* takes = (*step)->find("take");
  const std::size_t count = takes && takes->is(NodeKind::array) ? takes->items.size() : 0;
  const std::uint32_t number = patch.change.take;
  if (number == count + 1 && (*step)->find("ice")) return remove_key(patch, **step, "ice");
  if (number == count + 2 && (*step)->find("bath")) return remove_key(patch, **step, "bath");
  if (number == 0 || number > count) return cannot(text::say({"there is no ", numbered("take", number), "; the step has ", std::to_string(count)}));
  if (count == 1 && !patch.rewrite.holds_comment(*takes)) return remove_key(patch, **step, "take");
  return patch.done(patch.rewrite.remove_item(*takes, number - 1), "`take`");
}

Patched move_take(Patch& patch) {
  const auto step = patch.step(patch.change.part, patch.change.step);
  if (!step) return tl::unexpected(step.error());
  const Node* takes = (*step)->find("take");
  const std::size_t count = takes && takes->is(NodeKind::array) ? takes->items.size() : 0;
  if (patch.change.take == 0 || patch.change.take > count)
    return cannot(text::say({"there is no ", numbered("take", patch.change.take), " to move; the step has ", std::to_string(count)}));
  const auto lower = lower_of(patch.change.take, patch.change.by, count, "take");
  if (!lower) return tl::unexpected(lower.error());
  return patch.done(patch.rewrite.swap_items(*takes, *lower), "`take`");
}

Patched add_step(Patch& patch) {
  const auto owner = patch.owner(patch.change.part);
  if (!owner) return tl::unexpected(owner.error());
  const text::Members members = {{"do", text::toml_string(patch.value())}};
  const Node* steps = patch.steps(**owner);
  const std::size_t count = steps ? steps->items.size() : 0;
  if (patch.change.step > count)
    return cannot(text::say({"there is no ", numbered("step", patch.change.step), " to stand behind; there are ", std::to_string(count)}));
  if (!steps)
    return patch.done(patch.rewrite.add_member(**owner, patch.is_serve(**owner) ? "pour" : "step", "[" + text::inline_table(members) + "]"), "the part");
  return patch.done(patch.rewrite.add_table(*steps, patch.change.step, members), "the list of steps");
}

Patched remove_step(Patch& patch) {
  const auto step = patch.step(patch.change.part, patch.change.step);
  if (!step) return tl::unexpected(step.error());
  const Node& steps = *patch.steps(**patch.owner(patch.change.part));
  if (steps.items.size() == 1) return cannot("a part has at least one step, the serve one pour: take out the whole of it instead");
  return patch.done(patch.rewrite.remove_item(steps, patch.change.step - 1), "the list of steps");
}

Patched move_step(Patch& patch) {
  const auto step = patch.step(patch.change.part, patch.change.step);
  if (!step) return tl::unexpected(step.error());
  const Node& steps = *patch.steps(**patch.owner(patch.change.part));
  const auto lower = lower_of(patch.change.step, patch.change.by, steps.items.size(), "step");
  if (!lower) return tl::unexpected(lower.error());
  return patch.done(patch.rewrite.swap_items(steps, *lower), "the list of steps");
}

Patched set_condition(Patch& patch) {
  const auto found = patch.step(patch.change.part, patch.change.step);
  if (!found) return tl::unexpected(found.error());
  const Node& step = **found;
  const std::string& key = patch.change.key;
  const auto dot = key.find('.');
  const std::string outer = key.substr(0, dot), inner = dot == std::string::npos ? "" : key.substr(dot + 1);
  const bool nests = outer == "bath" || outer == "out";
  if (const auto& known = all_step_keys(); std::find(known.begin(), known.end(), outer) == known.end()) {
    const std::string near = base::nearest(outer, known);
    return cannot(text::say({text::ticked(key), " is not a key of a step", near.empty() ? "" : "; did you mean ", near.empty() ? "" : near}));
  }
  if (key == "take") return cannot("takes are added and taken out one by one");
  if (nests && patch.change.value && inner.empty())
    return cannot(text::say({text::ticked(outer), " is set key by key, for instance ", outer, outer == "bath" ? ".in" : ".clear"}));
  if (!nests && !inner.empty()) return cannot(text::say({text::ticked(outer), " holds no keys of its own"}));

  const Node* table = step.find(outer);
  if (nests && !inner.empty() && table && !table->is(NodeKind::table)) return cannot(text::say({text::ticked(outer), " is not a table"}));
  const Node* member = inner.empty() || !table ? table : table->find(inner);
  const Node& holder = inner.empty() ? step : table ? *table : step;
  if (!patch.change.value) {
    if (!member) return cannot(text::say({"the step has no ", text::ticked(key)}));
    // With its last key a table goes as a whole.
    if (!inner.empty() && table->items.size() == 1) return patch.done(patch.rewrite.remove_member(step, *table), text::ticked(outer));
    return patch.done(patch.rewrite.remove_member(holder, *member), text::ticked(key));
  }
  const auto literal = literal_of(inner.empty() ? outer : inner == "in" ? "in" : "share", patch.value());
  if (!literal) return tl::unexpected(literal.error());
  if (member) {
    const bool as_text = member->is(NodeKind::string) && literal->starts_with('"');
    return patch.done(as_text ? patch.rewrite.set_string(*member, patch.value()) : patch.rewrite.set_value(*member, *literal), text::ticked(key));
  }
  if (!inner.empty() && !table) return patch.done(patch.rewrite.add_member(step, outer, text::inline_table({{inner, *literal}})), "the step");
  return patch.done(patch.rewrite.add_member(holder, inner.empty() ? outer : inner, *literal), text::ticked(outer));
}

}  // namespace bloomset::formula
