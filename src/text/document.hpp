// text/document.hpp - a TOML 1.0 document as our own tree, every key and value with its place.
//
// Nobody above this module sees the TOML library. Tables keep the order in which they were written. What is not UTF-8,
// is over 4 MB, nests deeper than 32 or is not TOML is one clear fault, found in time proportional to the text.
// `Fields` is how every reader of a document takes a table apart: wrong types and unknown keys become faults by
// themselves. Callers: formula, kit, larder, trial.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "text/amount.hpp"

namespace bloomset::text {

inline constexpr std::size_t most_bytes = 4U << 20U;
inline constexpr std::size_t deepest_nesting = 32;

enum class NodeKind { table, array, string, integer, number, boolean, moment };
/// "a table", "a text", "a whole number" …: for messages.
std::string_view name(NodeKind);

/// One value. Only the field of its kind is set; dates and times (`moment`) carry no value, since no document has one.
struct Node {
  NodeKind kind = NodeKind::table;
  std::string key;  // in a table: its key
  base::Span key_span;
  base::Span span;    // the whole value, quotes included; a table: its header or opening brace
  base::Span inside;  // a string without escapes: the text between the quotes, byte for byte; else `span`
  std::string string;
  std::int64_t integer = 0;
  double number = 0.0;  // also of an integer
  bool boolean = false;
  std::vector<Node> items;  // members of a table in written order, elements of an array

  const Node* find(std::string_view member) const;
  bool is(NodeKind k) const { return kind == k; }
};

/// Reads text number `source` of `sources` as TOML. The diagnostics stand in the Error.
base::Result<Node> read_toml(std::uint32_t source, const base::Sources& sources);

/// Takes a table apart. Unknown keys are faults at once (with the nearest of `known`); each getter answers nullptr where the
/// key is absent, and says so where its value is of a wrong type.
class Fields {
 public:
  /// `what` names the table in messages: "a part", "a step".
  Fields(const Node& table, std::string what, const std::vector<std::string>& known, Faults&);
  const Node* string(std::string_view key) const { return get(key, NodeKind::string); }
  const Node* integer(std::string_view key) const { return get(key, NodeKind::integer); }
  const Node* number(std::string_view key) const;  // whole numbers too; must be finite
  const Node* boolean(std::string_view key) const { return get(key, NodeKind::boolean); }
  const Node* array(std::string_view key) const { return get(key, NodeKind::array); }
  const Node* table(std::string_view key) const { return get(key, NodeKind::table); }
  /// Any kind.
  const Node* any(std::string_view key) const { return node_.find(key); }
  /// Says that `key` must be there, unless it is.
  bool require(std::string_view key, std::string_view hint = {}) const;

 private:
  const Node* get(std::string_view key, NodeKind) const;
  const Node& node_;
  std::string what_;
  Faults& faults_;
};

/// "`time` must be a text, not a whole number", at the value.
void fault_kind(Faults&, const Node&, std::string_view expected, std::string hint = {});
/// A text node's cursor: spans of what is read from it point into the document.
inline Cursor cursor_of(const Node& string) { return {string.string, string.inside}; }

}  // namespace bloomset::text
