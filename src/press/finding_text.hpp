// press/finding_text.hpp - findings on the page: each directly below what it speaks of, none lost, none twice.
//
// A desk holds the findings of a sheet; each place of the page takes those that are its own. What no place took stands
// at the end of the sheet.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.hpp"
#include "press/page.hpp"

namespace bloomset::press {

class FindingDesk {
 public:
  explicit FindingDesk(const std::vector<base::Finding>& findings) : findings_(findings), said_(findings.size(), false) {}
  /// Prints what is not yet said and belongs here, `stop` first; answers how many.
  std::size_t say(Page&, std::size_t indent, const std::function<bool(const base::Finding&)>& here);
  /// Counts as said what another line of the page already says: a missed target, say.
  void told(const std::function<bool(const base::Finding&)>& here);
  std::size_t waiting() const;

 private:
  const std::vector<base::Finding>& findings_;
  std::vector<bool> said_;
};

/// Words of a table as a sentence: begun large, ended with a stop and a blank.
std::string sentence(std::string_view words);
/// One finding as a paragraph: weight, what, why, what to do, source.
void print_finding(Page&, std::size_t indent, const base::Finding&);

}  // namespace bloomset::press
