#include "sheet/names.hpp"

#include <algorithm>
#include <optional>
#include <tuple>

#include "base/diagnostic.hpp"
#include "text/fold.hpp"

namespace bloomset::sheet {
namespace {

std::vector<std::string_view> words_in(std::string_view folded) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < folded.size();) {
    const std::size_t end = std::min(folded.find_first_of(" ,", at), folded.size());
    if (end > at) words.push_back(folded.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

// 0 is the same name; nothing: no match.
std::optional<int> distance(const std::string& asked, const std::string& name) {
  if (name == asked) return 0;
  if (name.starts_with(asked)) return 1;
  const auto parts = words_in(name);
  const auto begins_one = [&](std::string_view word) {
    return std::any_of(parts.begin(), parts.end(), [word](std::string_view part) { return part.starts_with(word); });
  };
  const auto words = words_in(asked);
  if (std::all_of(words.begin(), words.end(), begins_one)) return 2;
  if (name.find(asked) != std::string::npos) return 3;
  if (!base::nearest(asked, {name}).empty()) return 4;
  return std::nullopt;
}

}  // namespace

std::vector<std::size_t> best_names(std::string_view words, const std::vector<std::string>& names, std::size_t most) {
  const std::string asked = text::fold(words);
  std::vector<std::tuple<int, std::size_t, std::size_t>> found;  // distance, length, index
  if (asked.empty()) return {};
  for (std::size_t i = 0; i < names.size(); ++i)
    if (const auto far = distance(asked, text::fold(names[i]))) found.emplace_back(*far, names[i].size(), i);
  std::sort(found.begin(), found.end());
  std::vector<std::size_t> best;
  for (std::size_t i = 0; i < found.size() && i < most; ++i) best.push_back(std::get<2>(found[i]));
  return best;
}

}  // namespace bloomset::sheet
