// http/reading.hpp - what a computing call carries, taken apart: the document's text, for how many serves, and what it shall be scaled to.
//
// The request's own faults (a key that is not known, a text where a number belongs) are collected as those of a document are. Callers: bench_calls,
// long_calls.
#pragma once

#include <optional>
#include <string>

#include "http/call.hpp"
#include "sheet/scaling.hpp"

namespace bloomset::http {

/// What faults call a text that came without a name.
inline constexpr const char* unnamed = "formula";

/// The faults of a request as an error.
base::Error unread(text::Faults);

/// The number of serves asked for, 1 to 10,000; nothing where it is not said.
std::optional<int> serves_of(const text::Fields&, text::Faults&);
/// A text that must be there, empty where it is not.
std::string text_of(const text::Fields&, std::string_view key);
/// A list of texts; empty where it is not there.
std::vector<std::string> texts_of(const text::Fields&, std::string_view key, text::Faults&);

/// Takes a text of the request in among `words`: all of it, as one place.
base::Span whole(base::Sources& words, const char* name, const std::string& written);

/// What to scale to, beside the number of serves.
struct Size {
  std::optional<int> serves;
  std::optional<sheet::Fit> fit;
  std::optional<std::string> have;
};
Size size_of(const text::Fields&, text::Faults&);

/// A formula that was read, with larder and kit in force.
struct Document {
  base::Sources sources;
  std::shared_ptr<const Stock> stock;
  base::Result<formula::Formula> formula;

  sheet::Inputs inputs(std::optional<int> serves) const;
};
/// Reads a text called `name`. The Error: the shelf could not be read.
base::Result<Document> read_document(House&, const std::string& name, std::string text);

/// An error, and the texts that its places point into.
struct Untold {
  base::Error error;
  base::Sources sources;
};
/// The document's formula at that size. Its text must have been read.
tl::expected<sheet::Scaled, Untold> scaled(const Document&, const Size&);

}  // namespace bloomset::http
