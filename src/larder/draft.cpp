#include "larder/draft.hpp"

#include "text/number.hpp"
#include "text/rewrite.hpp"

namespace bloomset::larder {

std::string draft(const Draft& thing) {
  text::Members lines = {{"name", text::toml_string(thing.name)}};
  if (!thing.like.empty()) lines.emplace_back("like", text::toml_string(thing.like));
  if (!thing.also.empty()) lines.emplace_back("also", text::toml_list(thing.also));
  for (const auto& [key, value] : thing.numbers) lines.emplace_back(key, text::print_exactly(value));
  if (!thing.currency.empty()) lines.emplace_back("currency", text::toml_string(thing.currency));
  lines.emplace_back("source", text::toml_string(thing.source));
  std::string out = "[[thing]]\n";
  for (const auto& [key, value] : lines) out.append(text::toml_key(key)).append(" = ").append(value).append("\n");
  return out;
}

}  // namespace bloomset::larder
