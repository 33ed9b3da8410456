// base/diagnostic.hpp - faults of a text, each with its place.
//
// A value read from a document keeps its `Span` from the reader to the last check, so a fault found late still
// points at the text. Diagnostics are collected, never thrown: the reader is told every fault at once.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace bloomset::base {

/// A place in a text: `source` indexes `Sources`, `line` and `column` count from 1 (0: no place known),
/// `column` and `length` count bytes of UTF-8.
struct Span {
  std::uint32_t source = 0, line = 0, column = 0, length = 0;
  bool known() const { return line != 0; }
  friend bool operator==(const Span&, const Span&) = default;
};

/// The texts that spans point into, in the order they were read. Index 0 is the first text read.
class Sources {
 public:
  /// Takes a text in and returns its index.
  std::uint32_t add(std::string name, std::string text);
  std::string_view name(std::uint32_t source) const;
  std::string_view text(std::uint32_t source) const;
  /// The line's text without its end of line; empty if there is no such line.
  std::string_view line(std::uint32_t source, std::uint32_t line) const;
  std::size_t size() const { return texts_.size(); }

 private:
  struct Text {
    std::string name, text;
  };
  std::vector<Text> texts_;
};

enum class Severity { error, warning };

/// One fault: `code` is stable and for machines, `message` says what was read and what was expected,
/// `hint` what to do (often the nearest known name). `second` points at the other half of a contradiction.
struct Diagnostic {
  Severity severity = Severity::error;
  std::string code;
  std::string message;
  Span span;
  std::optional<Span> second;
  std::string hint;
};

/// `file:line:column: error: message [code]`, the line itself, a caret under the span, and the hint.
/// Ends with a newline. The only place that lays out a diagnostic.
std::string render(const Diagnostic&, const Sources&);
/// One after the other; of more than 50 the first 50, and how many more there are.
std::string render(const std::vector<Diagnostic>&, const Sources&);

/// The known name nearest to `read` (edit distance with swaps, at most a third of its length), or empty.
std::string nearest(std::string_view read, const std::vector<std::string>& known);

}  // namespace bloomset::base
