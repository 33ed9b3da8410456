#include "text/document.hpp"

#include <algorithm>
#include <cmath>

#include "text/number.hpp"

namespace bloomset::text {

std::string_view name(NodeKind kind) {
  switch (kind) {
    case NodeKind::table:
      return "a table";
    case NodeKind::array:
      return "a list";
    case NodeKind::string:
      return "a text";
    case NodeKind::integer:
      return "a whole number";
    case NodeKind::number:
      return "a decimal number";
    case NodeKind::boolean:
      return "true or false";
    case NodeKind::moment:
      return "a date or time";
  }
  return "a value";
}

const Node* Node::find(std::string_view member) const {
  if (kind != NodeKind::table) return nullptr;
  const auto found = std::find_if(items.begin(), items.end(), [&](const Node& n) { return n.key == member; });
  return found == items.end() ? nullptr : &*found;
}

void fault_kind(Faults& faults, const Node& node, std::string_view expected, std::string hint) {
  const std::string who = node.key.empty() ? "this" : ticked(node.key);
  fault(faults, node.span, "wrong_type", say({who, " must be ", expected, ", not ", name(node.kind)}), std::move(hint));
}

Fields::Fields(const Node& table, std::string what, const std::vector<std::string>& known, Faults& faults)
    : node_(table), what_(std::move(what)), faults_(faults) {
  constexpr std::size_t enough = 100;  // faults of one table; more would only bury them
  std::size_t said = 0;
  for (const Node& member : table.items) {
    if (std::find(known.begin(), known.end(), member.key) != known.end()) continue;
    if (++said > enough || faults.size() >= most_kept_faults) break;
    const std::string near = base::nearest(member.key, known);
    std::string hint = near.empty() ? "" : say({"did you mean ", ticked(near), "?"});
    if (near.empty()) {
      hint = "keys of " + what_ + ":";
      for (const std::string& key : known) hint.append(key == known.front() ? " " : ", ").append(key);
    }
    fault(faults_, member.key_span, "unknown_key", say({ticked(member.key), " is not a key of ", what_}), hint);
  }
}

const Node* Fields::get(std::string_view key, NodeKind kind) const {
  const Node* node = node_.find(key);
  if (!node) return nullptr;
  if (node->kind == kind) return node;
  std::string hint;
  if (kind == NodeKind::array && node->is(NodeKind::string)) hint = "write it in square brackets: " + node->key + " = [\"…\"]";
  if (kind == NodeKind::string && (node->is(NodeKind::integer) || node->is(NodeKind::number))) hint = "write it in quotes, a quantity with its unit";
  fault_kind(faults_, *node, kind == NodeKind::number ? "a number" : name(kind), hint);
  return nullptr;
}

const Node* Fields::number(std::string_view key) const {
  const Node* node = node_.find(key);
  if (!node) return nullptr;
  if (node->is(NodeKind::integer)) return node;
  node = get(key, NodeKind::number);
  if (node && !std::isfinite(node->number)) {
    fault(faults_, node->span, "bad_number", say({ticked(node->key), " must be a finite number"}));
    return nullptr;
  }
  return node;
}

bool Fields::require(std::string_view key, std::string_view hint) const {
  if (node_.find(key)) return true;
  fault(faults_, node_.span, "missing_key", say({what_, " must have ", ticked(key)}), std::string(hint));
  return false;
}

}  // namespace bloomset::text
