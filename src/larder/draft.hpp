// larder/draft.hpp - the text of a larder document (docs/larder.md) with one new thing in it: an own bottle, like one that is known, with its own numbers.
//
// Nothing is checked: what is wrong with it, Larder::add says of the text. Caller: the page.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace bloomset::larder {

struct Draft {
  std::string name;
  std::string like;  // empty: like nothing
  std::vector<std::string> also;
  std::vector<std::pair<std::string, double>> numbers;  // keys of the document: brix, acid_g_l, ph, strength, pack_g, price …
  std::string currency;                                 // of the price; empty: none
  std::string source = "own figures";
};
std::string draft(const Draft&);

}  // namespace bloomset::larder
