// formula/patch_write.cpp - a value into the place where a pen stands: inside of a text, a whole text, a number, a list of names.
#include "formula/patching.hpp"

namespace bloomset::formula {
namespace {

using text::Node;
using text::NodeKind;

bool same_place(base::Span a, base::Span b) { return a.line == b.line && a.column == b.column && a.length == b.length; }
bool holds(base::Span whole, base::Span part) {
  return whole.line == part.line && whole.column <= part.column && part.column + part.length <= whole.column + whole.length;
}

// The value at the place or around it. Tables and lists of tables are only gone through.
const Node* node_at(const Node& from, base::Span place) {
  for (const Node& item : from.items) {
    if (!item.is(NodeKind::table) && same_place(item.span, place)) return &item;
    if (item.is(NodeKind::string) && !same_place(item.span, item.inside) && holds(item.inside, place)) return &item;
    if (const Node* inner = node_at(item, place)) return inner;
  }
  return nullptr;
}

bool is_list_of_names(const Node& node) {
  for (const Node& item : node.items)
    if (!item.is(NodeKind::string)) return false;
  return node.is(NodeKind::array);
}

std::string joined(const Node& list) {
  std::string out;
  for (const Node& item : list.items) out.append(&item == list.items.data() ? "" : "; ").append(item.string);
  return out;
}

// A number as TOML writes it.
bool is_number(const std::string& value) {
  if (value.empty() || value.size() > 40 || value.find_first_not_of("0123456789.-") != std::string::npos) return false;
  base::Sources sources;
  const auto tree = text::read_toml(sources.add("", "n = " + value), sources);
  return tree && (tree->items.front().is(NodeKind::integer) || tree->items.front().is(NodeKind::number));
}

}  // namespace

std::vector<std::string> names_of(std::string_view value) {
  std::vector<std::string> names;
  while (!value.empty()) {
    std::string_view name = value.substr(0, value.find(';'));
    value.remove_prefix(std::min(name.size() + 1, value.size()));
    while (name.starts_with(' ')) name.remove_prefix(1);
    while (name.ends_with(' ')) name.remove_suffix(1);
    if (!name.empty()) names.emplace_back(name);
  }
  return names;
}

base::Result<std::string> literal_of(std::string_view key, std::string_view value) {
  if (key == "charges") {
    if (!is_number(std::string(value))) return cannot("`charges` is a whole number, for instance 1");
    return std::string(value);
  }
  if (key == "purged" || key == "maybe") {
    if (value != "true" && value != "false") return cannot(text::say({text::ticked(key), " is true or false"}));
    return std::string(value);
  }
  if (key == "leave") return text::toml_list(names_of(value));
  return text::toml_string(value);
}

Patched write_at(Patch& patch) {
  const Node* node = node_at(patch.root, patch.change.at);
  const std::string& value = patch.value();
  if (!node) return cannot("nothing that can be written into stands at this place: ask for the outline of this text again");
  if (node->is(NodeKind::string)) {
    // Inside of a text the document has the value byte for byte (Node::inside), so the place counts in the value too.
    std::string whole = value;
    if (!same_place(node->span, patch.change.at))
      whole = std::string(node->string).replace(patch.change.at.column - node->inside.column, patch.change.at.length, value);
    if (whole == node->string) return patch.text;
    patch.rewrite.set_string(*node, whole);
  } else if (node->is(NodeKind::boolean)) {
    if (value != "true" && value != "false") return cannot("true or false stands here");
    patch.rewrite.set_value(*node, value);
  } else if (is_list_of_names(*node)) {
    if (value == joined(*node)) return patch.text;
    patch.rewrite.set_value(*node, text::toml_list(names_of(value)));
  } else if (node->is(NodeKind::integer) || node->is(NodeKind::number)) {
    if (!is_number(value)) return cannot("a number stands here, for instance 6");
    patch.rewrite.set_value(*node, value);
  } else {
    return cannot("no text and no number stands here");
  }
  return patch.done();
}

}  // namespace bloomset::formula
