// tests/formula/reading.hpp - small documents around one faulty place, and all that is said about them.
#pragma once

#include <string>

#include "formula/formula.hpp"

namespace bloomset::formula::test {

/// What the command line would print about a document; "" if it is read.
inline std::string said(
    const std::string& text, const Borrower& borrower = [](const std::string&) { return std::nullopt; }) {
  base::Sources sources;
  const auto formula = read("f.toml", text, sources, borrower);
  return formula ? "" : base::render(formula.error().diagnostics, sources);
}

/// A document with these lines behind its head.
inline std::string with_lines(const std::string& lines) { return "bloomset = 1\ntitle = \"T\"\n" + lines; }
/// A document with one step.
inline std::string with_step(const std::string& keys) { return with_lines("[[part]]\nname = \"p\"\nmade = \"ahead\"\nstep = [ { " + keys + " } ]\n"); }
/// A document with one take.
inline std::string with_take(const std::string& take) { return with_step("do = \"combine\", take = [\"" + take + "\"]"); }
/// A document with one target.
inline std::string with_target(const std::string& target) {
  return with_lines("targets = [\"" + target + "\"]\n[serve]\nvessel = \"cup, 240 mL\"\npour = [ { take = [\"60 mL soda\"] } ]\n");
}
/// A document with a part of these lines.
inline std::string with_part(const std::string& lines) { return with_lines("[[part]]\n" + lines); }
/// A document with a serve of these lines.
inline std::string with_serve(const std::string& lines) { return with_lines("[serve]\n" + lines); }
inline const std::string small_serve = "[serve]\nvessel = \"cup\"\npour = [ { take = [\"1 g x\"] } ]\n";

}  // namespace bloomset::formula::test
