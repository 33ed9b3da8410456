// http/pages.hpp - the page's own files, as they were built into the program.
//
// Files whose names carry a hash of their content (assets/) never change and may be kept for ever; fonts and pictures a day. Any other path without a dot is a
// view of the page, which finds its way by itself: it gets index.html. Caller: server.
#pragma once

#include "http/message.hpp"

namespace bloomset::http {

/// GET and HEAD only; 404 where there is no such file.
Reply page(const Request&);

}  // namespace bloomset::http
