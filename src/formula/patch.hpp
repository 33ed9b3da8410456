// formula/patch.hpp - one change of a document's text, as one makes it at the bench: an amount, a step more, another name.
//
// A change is a patch of the text, laid where the value stands: comments, order and spelling of all the rest survive byte for byte
// (text/rewrite.hpp). The text need only be TOML: a document that has faults can be mended this way, and a value that the reader will not like is
// written all the same, so that it says what is wrong where it stands. What cannot be done (no such step, a control character) is an error and
// changes nothing. Both spellings of steps, takes as texts and as tables are understood. Callers: the page's server, through press; tests.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "formula/formula.hpp"

namespace bloomset::formula {

enum class Do : std::uint8_t {
  write,          // at, value            into a text or a number where a pen stands
  set_serves,     // value
  set_title,      // value
  set_made,       // part, value          "ahead" or "to order"
  set_vessel,     // value                of the serve
  set_name,       // part, value          and every quoted use of it, in targets too
  add_line,       // value                into the last own part's last step that takes something; see below
  add_take,       // part, step, value    behind the step's other takes
  remove_take,    // part, step, take     behind the takes stands the ice, then the bath
  move_take,      // part, step, take, by
  add_step,       // part, step, value    an act behind this step; 0: as the first
  remove_step,    // part, step
  move_step,      // part, step, by
  set_condition,  // part, step, key, value   adds or replaces; without a value takes it out
  add_part,       // value, made          behind the last own part, with one step that combines
  remove_part,    // part                 the serve too
  add_target,     // value
  set_target,     // target, value
  remove_target   // target
};
inline constexpr std::size_t do_count = static_cast<std::size_t>(Do::remove_target) + 1;
std::string_view name(Do);
std::optional<Do> do_named(std::string_view);

/// What to do, and the fields that it speaks of (beside each `Do`). Parts, steps, takes and targets count from 1; borrowed parts stand behind the
/// document's own, and the serve is the part behind the last, as in the ids of the flow picture.
struct Change {
  Do what = Do::write;
  base::Span at;  // as an outline's pen gives it; its source does not matter
  std::uint32_t part = 0, step = 0, take = 0, target = 0;
  int by = 1;                        // -1 or 1
  std::string key;                   // of a step; "bath.in", "bath.takes_up" and "out.NAME" reach into its tables
  std::optional<std::string> value;  // of `leave` and its like: names parted by semicolons
  std::string made = "to order";
};

/// The text with the change made. Bad input if the text is not TOML, if there is nothing of that kind, if the value holds control characters or is no
/// number where one stands, or if the place is written with dotted keys that the change cannot reach. `borrower` is asked only to count the parts that
/// stand before the serve. `add_line` to a document without parts and serve makes a part "mix" (to order, combined) and a serve, "low glass, 300 mL",
/// that pours all of it, and the head of a document where that is missing too; the longest text is text::most_bytes.
base::Result<std::string> changed(const std::string& text, const Change&, const Borrower& borrower);

}  // namespace bloomset::formula
