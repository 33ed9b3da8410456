// text/json_reader.hpp - a JSON text (RFC 8259) as the same tree a TOML document becomes.
//
// Objects are tables, `null` is a member that is left out. JSON is what machines hand over, not what a person writes: values carry no place, only
// a text that is no JSON says where it stopped being so. Not UTF-8, too large, deeper than 32, a key twice: refused. Callers: check runners, http.
#pragma once

#include "text/document.hpp"

namespace bloomset::text {

/// Reads text number `source` of `sources`, of at most `most` bytes, as JSON; its root may be an object or an array. The diagnostic stands in the Error.
base::Result<Node> read_json(std::uint32_t source, const base::Sources& sources, std::size_t most = most_bytes);

}  // namespace bloomset::text
