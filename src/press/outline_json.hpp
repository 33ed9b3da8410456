// press/outline_json.hpp - what a document says, each thing with the place where it stands: for a page on which a number is edited where it is read.
//
// A pen is a shown text and its place in the document. Written back there by formula's `Do::write`, the shown text gives the same document, another text
// that value. Texts that stand in the document with escapes have one pen, for the whole of them. Borrowed parts have none: they are changed in their own
// document. Nothing is resolved or computed here. Caller: the page's server.
#pragma once

#include "base/diagnostic.hpp"
#include "formula/formula.hpp"
#include "text/json.hpp"

namespace bloomset::press {

/// `formula` was read into these sources. Parts, steps and takes bear the numbers of the flow picture: the ice stands behind a step's takes, the bath behind
/// the ice. Conditions stand as written; of tables one a key (`bath.takes_up`, `out.clear`), of `leave` the names, parted by semicolons.
text::Json outline_json(const formula::Formula& formula, const base::Sources& sources);

}  // namespace bloomset::press
