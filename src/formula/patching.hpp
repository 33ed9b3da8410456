// formula/patching.hpp - what the patches of a document share: its tree, the places in it by number, and how they refuse. Internal to formula.
//
// One file a question: patch.cpp (which change; the head), patch_write.cpp (a pen's place), patch_part.cpp (parts and names), patch_step.cpp (steps,
// takes, conditions).
#pragma once

#include "formula/patch.hpp"
#include "formula/reading.hpp"
#include "text/rewrite.hpp"

namespace bloomset::formula {

using Patched = base::Result<std::string>;
inline tl::unexpected<base::Error> cannot(std::string why) { return base::fail(base::ErrorKind::bad_input, std::move(why)); }
/// Of a place that is written with dotted keys, or as sections that stand apart.
tl::unexpected<base::Error> out_of_reach(std::string_view what);

/// The text, its tree, what is to be done, and the changes laid on so far.
struct Patch {
  const std::string& text;
  const text::Node& root;
  const Change& change;
  const Borrower& borrower;
  text::Rewrite rewrite;
  text::Measures measures;

  Patched done() const { return rewrite.done(); }
  Patched done(bool reached, std::string_view what) const { return reached ? Patched(rewrite.done()) : Patched(out_of_reach(what)); }
  const std::string& value() const { return *change.value; }

  const text::Node* own_parts() const;  // nullptr: none
  /// The part or serve of that number, or why not.
  base::Result<const text::Node*> owner(std::uint32_t part) const;
  bool is_serve(const text::Node& owner) const { return owner.key == "serve"; }
  /// Its list of steps or pours; nullptr where it has none.
  const text::Node* steps(const text::Node& owner) const;
  base::Result<const text::Node*> step(std::uint32_t part, std::uint32_t step) const;
};

Patched write_at(Patch&);
Patched set_serves(Patch&);
Patched set_title(Patch&);
Patched add_target(Patch&);
Patched set_target(Patch&);
Patched remove_target(Patch&);
Patched set_made(Patch&);
Patched set_vessel(Patch&);
Patched set_name(Patch&);
Patched add_line(Patch&);
Patched add_part(Patch&);
Patched remove_part(Patch&);
Patched add_take(Patch&);
Patched remove_take(Patch&);
Patched move_take(Patch&);
Patched add_step(Patch&);
Patched remove_step(Patch&);
Patched move_step(Patch&);
Patched set_condition(Patch&);

/// `value` as the key of a step is written: a number, true or false, a list, else a text. An error where it is none.
base::Result<std::string> literal_of(std::string_view key, std::string_view value);
/// A list's value taken apart at its semicolons.
std::vector<std::string> names_of(std::string_view value);

}  // namespace bloomset::formula
