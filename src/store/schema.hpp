// store/schema.hpp - the tables of a shelf, by version, and how an older file becomes one of today. Private to store.
//
// `document`: one a name and kind. `revision`: every text it ever had, numbered from 1, never changed; `gone` marks a removal. `found`: the words of the
// last texts. A file says its own version (`user_version`) and that it is a shelf (`application_id`).
#pragma once

#include "store/database.hpp"

namespace bloomset::store {

/// The version this program writes.
inline constexpr std::int64_t schema_version = 1;

/// Makes an empty file a shelf, or brings an older one up, whole or not at all. Refuses a file of another program and one of a later version.
base::Result<void> bring_up(const Database&);

}  // namespace bloomset::store
