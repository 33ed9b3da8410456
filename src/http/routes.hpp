// http/routes.hpp - which handler answers what: the programming interface as one table. Its written form is api/openapi.json, which a test holds against it.
//
// Callers: server, tests.
#pragma once

#include <span>
#include <string_view>

#include "http/call.hpp"

namespace bloomset::http {

struct Route {
  std::string_view method, path;  // below /api/v1; a piece in braces stands for any one piece
  Reply (*handler)(Call&);
};
std::span<const Route> routes();

/// Finds the handler of a call and lets it answer; 404 and 405 where there is none.
Reply route(Call&);

}  // namespace bloomset::http
