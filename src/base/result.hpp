// base/result.hpp - how an operation says that it could not do its work.
//
// Anything that can fail on input returns `Result<T>`; nothing throws across a module's border and nothing
// prints. g++ 12 has no std::expected, so `Result` is tl::expected, named here and nowhere else.
#pragma once

#include <string>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

#include "base/diagnostic.hpp"

namespace bloomset::base {

/// The closed list of ways to fail. The command line maps `internal` to exit code 3, the others to 2.
enum class ErrorKind { bad_input, not_found, io, conflict, internal };

/// Why an operation failed: a sentence for a person, and every fault of the text that led to it.
struct Error {
  ErrorKind kind = ErrorKind::bad_input;
  std::string message;
  std::vector<Diagnostic> diagnostics;
};

template <class T>
using Result = tl::expected<T, Error>;

/// `return fail(ErrorKind::io, "cannot read …")` in a function that returns a Result.
inline tl::unexpected<Error> fail(ErrorKind kind, std::string message, std::vector<Diagnostic> diagnostics = {}) {
  return tl::unexpected<Error>(Error{kind, std::move(message), std::move(diagnostics)});
}

}  // namespace bloomset::base
