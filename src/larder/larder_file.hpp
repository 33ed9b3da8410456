// larder/larder_file.hpp - a `--larder` document (TOML, docs/larder.md) made into rows. Called by Larder::add only.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "larder/row.hpp"
#include "text/document.hpp"

namespace bloomset::larder {

/// The row of a name, or nullptr: for `like`.
using FindRow = std::function<const Row*(std::string_view)>;
/// A row of the document and where its name stands.
struct FileRow {
  Row row;
  base::Span name_span;
};
/// The row's numbers by a document's keys, those it has.
std::vector<std::pair<std::string_view, double>> numbers_of(const Row&);
std::vector<FileRow> read_larder(const text::Node& root, const FindRow&, const std::vector<std::string>& known_names, text::Faults&);

}  // namespace bloomset::larder
