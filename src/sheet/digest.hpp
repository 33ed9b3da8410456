// sheet/digest.hpp - one short text that changes when formula, larder or kit change.
//
// FNV-1a, 64 bit (offset basis 14695981039346656037, prime 1099511628211; the authors' published constants), taken once
// forwards and once backwards over the bytes: 128 bits, 32 hex digits. It tells documents apart; it is no seal.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

#include "base/diagnostic.hpp"

namespace bloomset::sheet {

/// The digest of some texts in their order; where one ends and the next begins counts.
std::string digest(std::initializer_list<std::string_view> texts);

/// All texts that were read for a formula, one behind the other: what stands for it in the digest.
std::string all_texts(const base::Sources&);

}  // namespace bloomset::sheet
