// checks/texture_answer.cpp - finds the op of an entry and hands it its inputs.
#include <array>
#include <limits>

#include "texture_ops.hpp"

namespace bloomset::checks {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::array<std::span<const Op>, 3> all_ops() { return {gas_ops(), drink_ops(), gelatin_ops()}; }

std::string_view text_of(const text::Node& table, std::string_view key) {
  const text::Node* node = table.find(key);
  return node != nullptr && node->is(text::NodeKind::string) ? std::string_view{node->string} : std::string_view{};
}

}  // namespace

double Given::number(std::string_view key) const {
  const text::Node* node = input_.find(key);
  if (node != nullptr && (node->is(text::NodeKind::number) || node->is(text::NodeKind::integer))) return node->number;
  complete_ = false;
  return unknown;
}

std::string_view Given::text(std::string_view key) const { return text_of(input_, key); }

double answer(const text::Node& entry) {
  const text::Node* input = entry.find("input");
  if (input == nullptr) return unknown;
  const Given given(*input);
  const std::string_view name = text_of(entry, "op");
  for (const auto& ops : all_ops())
    for (const Op& op : ops)
      if (op.name == name) {
        const double value = op.answer(given, text_of(entry, "column"));
        return given.complete() ? value : unknown;
      }
  return unknown;
}

}  // namespace bloomset::checks
