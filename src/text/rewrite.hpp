// text/rewrite.hpp - a TOML text changed in place: what nobody asked to change keeps every byte, comments and order with it.
//
// A `Rewrite` stands on a text and its tree (text/document.hpp), collects changes and gives the changed text at the end. Lists of tables are
// understood in both spellings, `[[part.step]]` sections and `step = [ { … } ]`. A comment behind a value on its line, and comment lines right above a
// section, belong to it and go where it goes. What is written with dotted keys (`bath.in = …`) can be replaced, but nothing is added to it or taken
// out: those changes answer false. Changes of one Rewrite must not overlap. Caller: formula's patches.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "text/document.hpp"
#include "text/layout.hpp"

namespace bloomset::text {

/// A text as TOML writes it, in double quotes, on one line.
std::string toml_string(std::string_view);
/// A key, in quotes only where it needs them.
std::string toml_key(std::string_view);
/// `["a", "b"]`.
std::string toml_list(const std::vector<std::string>& strings);

/// Keys and values as TOML writes them, in order.
using Members = std::vector<std::pair<std::string, std::string>>;
std::string inline_table(const Members&);

class Rewrite {
 public:
  /// Both outlive it; `root` is the tree of `text`.
  Rewrite(std::string_view text, const Node& root);

  /// A text in place of any value, in the spelling of the old text where that can be.
  bool set_string(const Node&, std::string_view value);
  /// Any value's new spelling.
  bool set_value(const Node&, std::string literal);
  /// Behind the member `behind` of the table, else behind its last one.
  bool add_member(const Node& table, std::string_view key, const std::string& literal, std::string_view behind = {});
  bool remove_member(const Node& table, const Node& member);

  /// A value into a list, before item `before` (the list's size: behind the last).
  bool add_item(const Node& list, std::size_t before, const std::string& literal);
  bool remove_item(const Node& list, std::size_t index);
  /// An item and the next one change places.
  bool swap_items(const Node& list, std::size_t index);

  /// A table into a list of tables, in the list's own spelling; the list has at least one table or is written in brackets.
  bool add_table(const Node& list, std::size_t before, const Members&);
  /// Takes out a table written as a section.
  bool remove_sections(const Node& table);
  /// Whole lines: at the byte `at`, which begins a line or ends the text, or in front of the section that begins at `at`.
  void add_lines(std::size_t at, std::string lines);

  /// Whether a value stands between brackets, not below a header or as dotted keys.
  bool bracketed(const Node&) const;
  /// Whether a comment stands inside of the value.
  bool holds_comment(const Node&) const;
  /// Behind the last section of a table; where the comments above its header begin.
  std::size_t end_of_sections(const Node& table) const;
  std::size_t begin_of_sections(const Node& table) const;

  /// The text with every change made.
  std::string done() const;

 private:
  struct Splice {
    std::size_t begin = 0, end = 0;
    std::string text;
  };
  std::size_t offset(const Node& node) const { return offset_of(text_, node.span); }
  Extent value(const Node&) const;
  void splice(std::size_t begin, std::size_t end, std::string text) { splices_.push_back({begin, end, std::move(text)}); }
  const Section* section(const Node& table) const;  // nullptr: the table has no header of its own
  void collect(const Node& table, std::vector<const Section*>& out) const;
  std::vector<const Section*> sections(const Node& table) const;  // its own and those of what it holds, in the order of the text
  std::string indent_at(std::size_t at) const;
  bool alone_on_lines(const Items&, std::size_t index) const;
  bool add_to_section(const Section&, std::string_view key, const std::string& literal, const Node* behind);
  void swap_sections(const std::vector<const Section*>& a, const std::vector<const Section*>& b);

  std::string_view text_, newline_;
  const Node& root_;
  std::vector<Section> sections_;
  std::vector<Splice> splices_;
};

}  // namespace bloomset::text
