// text/table.hpp - rows of an embedded CSV table: comment lines begin with #, the first other line is the header.
//
// Fields with a comma stand in double quotes, a quote in them is doubled (RFC 4180). Tables are data of the program and
// checked by tests; a short row is filled with empty fields. Also of use to kit and larder for their catalogues.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace bloomset::text {

/// All rows below the header, each with as many fields as the header has.
std::vector<std::vector<std::string>> table_rows(std::string_view csv);
/// The header's names.
std::vector<std::string> table_header(std::string_view csv);

}  // namespace bloomset::text
