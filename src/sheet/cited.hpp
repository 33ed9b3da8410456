// sheet/cited.hpp - where a figure of the texture tables comes from, in words, and what a cause of theirs says as a finding.
//
// The tables name keys of data/sources.bib, `practice`, or `memory: …`; a reader wants the title. A cause that stops the set is a `stop`, one
// that weakens it a `mind`; what is merely told is a `note`, but for doses that a scale or a law does not bear, which keep the weight of the table of words.
// Called by the commands of the bench (dosing.hpp, replacing.hpp) and by the rules of the sheet.
#pragma once

#include <string>
#include <string_view>

#include "base/finding.hpp"
#include "texture/set.hpp"

namespace bloomset::sheet {

/// Titles and years of the keys, parted by `; `; `common practice, no source`; a `memory: …` as it stands. A key that is not there stays a key.
std::string source_words(std::string_view source);

/// A cause with the words of its code, its own source and the weight of its bearing; what would mend it where it says that something does not set, or sets
/// soft.
base::Finding finding(const texture::Cause&, base::Where = {});

}  // namespace bloomset::sheet
