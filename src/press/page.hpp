// press/page.hpp - lines of at most 80 columns: widths as a terminal shows them, wrapping, padding, and a page that grows.
//
// Widths follow Unicode's East Asian Width (UAX 11) in its broad ranges: marks that combine take no column, wide
// letters and pictures take two. Text of a document may hold anything, so what would steer a terminal is blanked out.
// A no-break blank keeps a number and its unit on one line; on the page it is a plain blank.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace bloomset::press {

inline constexpr std::size_t page_width = 80;

/// Columns that a text takes.
std::size_t width(std::string_view utf8);
/// The text with control characters and writing-direction switches as blanks.
std::string clean(std::string_view utf8);
/// The first `columns` columns, ending in `…` where something was cut.
std::string cut(std::string_view utf8, std::size_t columns);
/// Filled with blanks behind (left) or before (right); a text that is too long stays as it is.
std::string left(std::string_view utf8, std::size_t columns);
std::string right(std::string_view utf8, std::size_t columns);
/// Lines of at most `columns`, broken at blanks; a word longer than a line is cut into pieces. At least one line.
std::vector<std::string> wrap(std::string_view utf8, std::size_t columns);

/// A printed page in the making.
class Page {
 public:
  /// Ends the line; blanks at its end are dropped, no-break blanks become plain ones.
  void line(std::string_view text = {});
  /// An empty line, unless there is one already or the page is empty.
  void gap();
  /// `name ───────── aside`, on one line: a long aside is shortened first, then a long name.
  void heading(std::string_view name, std::string_view aside = {});
  /// `lead` stands before the first line; further lines hang under its end.
  void paragraph(std::string_view lead, std::string_view text);
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

}  // namespace bloomset::press
