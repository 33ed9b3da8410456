// tests/text/reading.hpp - reads one text as a cook wrote it, and shows what was said about it, caret and all.
#pragma once

#include <string>

#include "base/diagnostic.hpp"
#include "text/amount.hpp"

namespace bloomset::text::test {

inline base::Span whole(std::string_view text) {
  base::Span span;
  span.line = span.column = 1;
  span.length = static_cast<std::uint32_t>(text.size());
  return span;
}

/// What the command line would print of these faults of `text`.
inline std::string said(std::string_view text, const Faults& faults) {
  base::Sources sources;
  sources.add("t", std::string(text));
  return base::render(faults, sources);
}

inline std::optional<Amount> amount(std::string_view text, Measures measures = Measures::metric) {
  Faults faults;
  Cursor cursor{text, whole(text)};
  return read_amount(cursor, measures, faults);
}

/// The faults of an amount; "" if it was read.
inline std::string amount_fault(std::string_view text, Measures measures = Measures::metric) {
  Faults faults;
  Cursor cursor{text, whole(text)};
  read_amount(cursor, measures, faults);
  return said(text, faults);
}

template <class Reader>
std::string fault_of(Reader reader, std::string_view text) {
  Faults faults;
  reader(text, whole(text), faults);
  return said(text, faults);
}

template <class Reader>
std::optional<Range> value_of(Reader reader, std::string_view text) {
  Faults faults;
  return reader(text, whole(text), faults);
}

}  // namespace bloomset::text::test
