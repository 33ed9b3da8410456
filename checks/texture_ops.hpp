// checks/texture_ops.hpp - what the check runner for texture, gas and drinks shares: one entry in, one number out.
//
// An entry is {id, op, column, input}: the op names a question, `input` its numbers, `column` which of its answers is wanted. One file of
// answers a subject; a module that joins adds its own list of ops here and in `all_ops` of texture_answer.cpp.
#pragma once

#include <span>
#include <string_view>

#include "text/document.hpp"

namespace bloomset::checks {

/// The inputs of one entry. A number that is missing or is none is NaN, and the entry is then not `complete`; a missing text is empty.
class Given {
 public:
  explicit Given(const text::Node& input) : input_(input) {}
  double number(std::string_view key) const;
  std::string_view text(std::string_view key) const;
  bool has(std::string_view key) const { return input_.find(key) != nullptr; }
  /// Whether every number asked for so far was there.
  bool complete() const { return complete_; }

 private:
  const text::Node& input_;
  mutable bool complete_ = true;
};

/// How an op is answered; NaN for a column or an input that it does not know.
struct Op {
  std::string_view name;
  double (*answer)(const Given&, std::string_view column);
};

std::span<const Op> gas_ops();
std::span<const Op> drink_ops();
std::span<const Op> gelatin_ops();

/// The answer to one entry; NaN for an op that nobody answers, and where a number is missing.
double answer(const text::Node& entry);

}  // namespace bloomset::checks
