// sheet/names.hpp - the names nearest to what somebody typed: for completion, and for a line whose thing is not known.
//
// Case and accents do not count. First what begins with the words, then names in which each word begins one of theirs, then what holds them inside, then
// what one or two slips of the fingers away (base::nearest). Shorter names before longer ones. Callers: sheet/lines.cpp, the page's names.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace bloomset::sheet {

/// Indices into `names`, the best first, at most `most`; without words none.
std::vector<std::size_t> best_names(std::string_view words, const std::vector<std::string>& names, std::size_t most);

}  // namespace bloomset::sheet
