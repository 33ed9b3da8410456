// http/call.hpp - one call of the programming interface as a handler sees it, and the handlers, one group a file.
//
// A handler takes the request apart, asks the module that knows, and prints what that says: no physics, no words about drinks here. Caller: routes.
#pragma once

#include <string>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "http/house.hpp"
#include "http/long_works.hpp"
#include "http/message.hpp"
#include "http/pairing.hpp"
#include "text/document.hpp"

namespace bloomset::http {

struct Call {
  const Request& request;
  House& house;
  LongWorks& works;
  Pairing* pairing;                // with --lan only
  std::vector<std::string> names;  // what stands in the path for {…}, decoded
};

/// The body as a JSON object. Its diagnostics stand in the Error.
base::Result<text::Node> body_of(const Request&);

// The shelf (shelf_calls.cpp).
Reply hello(Call&);
Reply documents(Call&);
Reply document(Call&);
Reply save(Call&);
Reply remove(Call&);
Reply revisions(Call&);
Reply revision(Call&);
Reply search(Call&);
// The bench (bench_calls.cpp).
Reply bench(Call&);
Reply sheet(Call&);
// Long works (long_calls.cpp).
Reply balance(Call&);
Reply scatter(Call&);
// What the page asks beside the bench (page_calls.cpp).
Reply counter(Call&);
Reply lines(Call&);
Reply compare(Call&);
Reply larder(Call&);
Reply draft(Call&);
Reply kit(Call&);
Reply read(Call&);
Reply words(Call&);
Reply names(Call&);
// Devices of the local net (server.cpp).
Reply pair(Call&);

}  // namespace bloomset::http
