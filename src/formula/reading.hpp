// formula/reading.hpp - what the parts of the reader share: where faults go, the document's measures, and the counts
// that keep a document bounded. Each question has its file: take, qualifier, step, part, target, borrow. Internal to formula.
#pragma once

#include "formula/formula.hpp"
#include "text/document.hpp"
#include "text/number.hpp"

namespace bloomset::formula {

inline constexpr std::size_t most_parts = 512, most_steps = 4096, most_takes = 16384, most_targets = 256;

struct Reading {
  text::Faults& faults;
  std::uint32_t source = 0;
  text::Measures measures = text::Measures::metric;
  std::size_t steps = 0, takes = 0;
  bool has_enough_faults() const { return faults.size() >= text::most_kept_faults; }

  void fault(base::Span span, std::string code, std::string message, std::string hint = {}) {
    text::fault(faults, span, std::move(code), std::move(message), std::move(hint));
  }
  /// The same with a second place.
  void fault_pair(base::Span span, base::Span second, std::string code, std::string message, std::string hint = {}) {
    const std::size_t before = faults.size();
    fault(span, std::move(code), std::move(message), std::move(hint));
    if (faults.size() > before) faults.back().second = second;
  }
};

/// A take as a text (`330 g orange juice`) or as a table with `take`, `at`, `mark`.
std::optional<Take> read_take(const text::Node&, Reading&);
/// A take as a text only, for `ice` and a bath.
std::optional<Take> read_take_text(const text::Node& string, Reading&);
/// The words of a bracket; the cursor's text is what stands between the brackets.
std::vector<Qualifier> read_qualifiers(text::Cursor, Reading&);
std::string print(const Qualifier&);

/// One step; a pour's act defaults to `pour`.
std::optional<Step> read_step(const text::Node&, bool is_pour, Reading&);
std::optional<Part> read_part(const text::Node&, Reading&);
std::optional<Serve> read_serve(const text::Node&, Reading&);
std::optional<Target> read_target(const text::Node&, Reading&);

/// Says what is wrong with a name of a part, mark or output; true if it is well.
bool check_name(std::string_view name, base::Span, std::string_view what, Reading&);
/// Part names once each, marks that clash with parts, marks that are not there. `parts` are the document's own.
void check_names(const std::vector<Part>& parts, const std::optional<Serve>&, const std::vector<Part>& borrowed, Reading&);

}  // namespace bloomset::formula
