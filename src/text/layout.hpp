// text/layout.hpp - where the pieces of a TOML text begin and end, byte by byte.
//
// A `Node` says where a value begins, and its span ends with the value's first line. Who changes a text in place must also know where a value of
// several lines ends, which comma follows it, and which comments stand with it. The text was read as TOML before: nothing is checked here, and what is
// asked of a text that is none is answered with places inside of it. Caller: text/rewrite.cpp.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"

namespace bloomset::text {

/// Bytes of a text, `end` behind the last.
struct Extent {
  std::size_t begin = 0, end = 0;
  std::string_view of(std::string_view text) const { return text.substr(begin, end - begin); }
};

/// What stands between the brackets of a list or an inline table: items as written, and the comma behind each (npos behind the last: none).
struct Items {
  std::size_t open = 0, close = 0;  // the brackets
  std::vector<Extent> items;        // of a table: key and value
  std::vector<std::size_t> commas;
};

/// A header with the statements below it. The first section of a text has none: its header is empty.
struct Section {
  std::size_t lead = 0;            // where comment lines that stand right above the header begin; without them the header's line
  Extent header;                   // `[[part.step]]`
  std::vector<Extent> statements;  // each from its key to the end of its value
  std::size_t end = 0;             // behind the line of the last statement
};

/// The byte at which a span begins; the text's size if there is no such place.
std::size_t offset_of(std::string_view text, base::Span);
/// Behind the value that begins at `begin`: a text of any spelling, a list, an inline table, a number, a word.
std::size_t value_end(std::string_view text, std::size_t begin);
/// The list or inline table whose bracket is at `open`.
Items items_at(std::string_view text, std::size_t open);
std::vector<Section> sections_of(std::string_view text);

/// The beginning of the line of a byte, and the end of it before its end of line.
std::size_t line_begin(std::string_view text, std::size_t at);
std::size_t line_end(std::string_view text, std::size_t at);
/// Behind the end of line.
std::size_t next_line(std::string_view text, std::size_t at);
/// Whether only blanks stand between two places.
bool blank_between(std::string_view text, std::size_t from, std::size_t to);

}  // namespace bloomset::text
