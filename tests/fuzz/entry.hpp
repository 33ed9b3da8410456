// fuzz/entry.hpp - what the readers promise about any bytes at all, as functions that abort where a promise is broken.
//
// libFuzzer calls them with input it makes up (preset fuzz), fuzz_replay_test with the corpus and its mutations in every
// test run. A crash that was found is kept as a file in the corpus.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "formula/formula.hpp"
#include "text/amount.hpp"

namespace bloomset::fuzz {

inline void promise(bool kept, const char* what, std::string_view input) {
  if (kept) return;
  std::fprintf(stderr, "broken promise: %s, on %zu bytes:\n%.*s\n", what, input.size(), static_cast<int>(input.size()), input.data());
  std::abort();
}

inline base::Result<formula::Formula> read_formula(const std::string& text, base::Sources& sources) {
  return formula::read("formula.toml", text, sources, [&](const std::string& file) -> std::optional<std::string> {
    if (file == "self.toml") return text;  // a document may try to borrow from itself
    return std::nullopt;
  });
}

/// A document is read, or refused with at least one fault that can be shown. What is read is printed so that it reads back the same.
inline void formula_document(std::string_view input) {
  base::Sources sources;
  const std::string text(input);
  const auto read = read_formula(text, sources);
  if (!read) {
    promise(!read.error().message.empty() && !read.error().diagnostics.empty(), "a refused document has a fault", input);
    promise(!base::render(read.error().diagnostics, sources).empty(), "faults can be shown", input);
    return;
  }
  if (!read->borrow.empty()) return;  // borrowed parts are not printed
  const std::string printed = formula::write(*read);
  base::Sources again;
  const auto back = read_formula(printed, again);
  promise(back.has_value(), "what is printed can be read", printed);
  promise(*back == *read, "what is printed reads back the same", input);
}

/// Amounts, temperatures, times and shares: each answers or says a fault; what an amount's print gives reads back the same.
inline void words(std::string_view input) {
  using namespace text;
  base::Span origin;
  origin.line = origin.column = 1;
  origin.length = static_cast<std::uint32_t>(input.size());
  for (const Measures measures : {Measures::metric, Measures::us, Measures::imperial, Measures::au}) {
    Faults faults;
    Cursor cursor{input, origin};
    const auto amount = read_amount(cursor, measures, faults);
    promise(amount.has_value() != !faults.empty(), "an amount or a fault", input);
    promise(cursor.at <= input.size(), "the cursor stays inside", input);
    if (!amount) continue;
    const std::string printed = print(*amount, measures);
    Cursor again{printed, origin};
    const auto back = read_amount(again, measures, faults);
    promise(back.has_value() && back->kind == amount->kind && back->value == amount->value, "a printed amount reads back the same", input);
  }
  for (const auto reader : {read_temperature_c, read_duration_s, read_share}) {
    Faults faults;
    const auto range = reader(input, origin, faults);
    promise(range.has_value() != !faults.empty(), "a range or a fault", input);
    if (range) promise(range->low <= range->high, "a range runs forwards", input);
  }
}

}  // namespace bloomset::fuzz
