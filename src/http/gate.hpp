// http/gate.hpp - who may ask at all: this machine's own page, and devices that were paired; everybody else is turned away before anything is read.
//
// A page of another site can make a browser send requests here (by a name that points to 127.0.0.1, by a form, by a script), so the Host must be this
// server's own address, and what changes or computes must come from this server's own page, as JSON. Caller: server.
#pragma once

#include <optional>

#include "http/message.hpp"
#include "http/pairing.hpp"

namespace bloomset::http {

/// The reply to a request that may not pass; nothing for one that may. `pairing`: with --lan only, else nullptr.
std::optional<Reply> turned_away(const Request&, const Pairing* pairing);

/// Below /api/v1: what does not belong to the page's own files.
bool is_call(const Request&);

}  // namespace bloomset::http
