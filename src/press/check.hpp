// press/check.hpp - findings and targets of many formulas, printed as they come.
//
// One formula: all it found. Several: each with its stops, minds and missed targets, notes counted. As JSON the
// documents go out one by one; `findings` and `targets` of all stand again at the end.
#pragma once

#include <string>
#include <string_view>

#include "base/diagnostic.hpp"
#include "sheet/sheet.hpp"

namespace bloomset::press {

class CheckPrinter {
 public:
  enum class Form { text, json };
  /// `files`: how many documents there will be at most.
  CheckPrinter(Form form, std::size_t files) : form_(form), files_(files) {}
  /// What to print for one document.
  std::string document(std::string_view file, const sheet::Sheet&, const base::Sources&);
  /// What to print behind the last one.
  std::string end();

 private:
  std::string document_json(std::string_view file, const sheet::Sheet&, const base::Sources&);
  std::string document_text(std::string_view file, const sheet::Sheet&);

  Form form_;
  std::size_t files_;
  std::size_t documents_ = 0, stops_ = 0, minds_ = 0, notes_ = 0, targets_ = 0, missed_ = 0;
  std::string all_findings_, all_targets_;  // JSON elements, parted by commas
};

}  // namespace bloomset::press
