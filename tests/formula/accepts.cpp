// accepts FILE… - says of each document whether the reader takes it: "yes FILE", or "no FILE: code …" with the codes of its faults.
//
// A helper of tests/end_to_end/schema_test.py, which holds the schema against the reader.
#include <fstream>
#include <iostream>
#include <sstream>

#include "formula/formula.hpp"

int main(int count, char** names) {
  for (int i = 1; i < count; ++i) {
    std::stringstream text;
    text << std::ifstream(names[i]).rdbuf();
    bloomset::base::Sources sources;
    const auto formula = bloomset::formula::read(names[i], text.str(), sources, [](const std::string&) { return std::nullopt; });
    std::cout << (formula ? "yes " : "no ") << names[i];
    if (!formula)
      for (const auto& fault : formula.error().diagnostics) std::cout << (&fault == formula.error().diagnostics.data() ? ": " : " ") << fault.code;
    std::cout << "\n";
  }
}
