// formula/borrow.hpp - parts of other files: `borrow = { "house syrup" = "syrups.toml" }`. Internal to formula.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "formula/formula.hpp"

namespace bloomset::formula {

/// What one `read` knows about files: which are open (a file that borrows from itself would never end) and which were read.
struct Files {
  base::Sources& sources;
  const Borrower& borrower;
  text::Faults& faults;
  std::vector<std::string> open;
  std::map<std::string, std::shared_ptr<Formula>> read;  // nullptr: could not be read, and that was said
};

/// Reads one document of `files`, its own borrowed parts included. Faults are appended; what can be read is given.
std::shared_ptr<Formula> read_document(const std::string& name, std::string text, Files&);

/// The parts that `formula.borrow` names, each with the parts it is made of, in the order of their files.
std::vector<Part> borrowed_parts(const Formula&, Files&);

}  // namespace bloomset::formula
