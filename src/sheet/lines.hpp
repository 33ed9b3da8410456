// sheet/lines.hpp - a list of things as people paste it, read line by line into takes of a document.
//
// `- 3 tablespoons of honey`, `200g lime juice`, `½ cup water`, `4 cardamom pods`: the usual spellings of units are put into the document's one
// (data/sheet/line_words.csv), a number without a unit counts pieces. What says no amount ("juice of a lime", "a pinch of salt") is refused with what to write
// instead, and nothing is made of it. `oz` is mass, as everywhere in a document. Caller: the page.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "formula/formula.hpp"
#include "larder/larder.hpp"

namespace bloomset::sheet {

inline constexpr std::size_t most_lines = 400;

struct LineRead {
  std::string written;
  std::string take;                       // as the document writes it; empty: not read
  std::string amount, thing;              // of the take; thing with its bracket
  bool known = false;                     // the larder has it, and it may bear its bracket
  std::vector<std::string> nearest;       // known names, where it is not
  std::optional<base::Diagnostic> fault;  // where it was not read; its line counts in `lines`
};

struct LinesRead {
  std::vector<LineRead> lines;  // empty ones are left out
  std::string text;             // the document with every line that was read
};

/// `document`: the text that the lines are added to, whose measures count; empty: a new one. The Error: more than `most_lines`, or a document that
/// takes none of them (formula/patch.hpp).
base::Result<LinesRead> read_lines(const std::string& lines, const std::string& document, const larder::Larder&);

}  // namespace bloomset::sheet
