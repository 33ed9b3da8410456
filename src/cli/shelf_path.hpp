// cli/shelf_path.hpp - where the shelf is kept: the file that was named, else one in the user's own data folder.
//
// By the XDG Base Directory Specification: XDG_DATA_HOME, else ~/.local/share. Callers: the commands `shelf` and `open`.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace bloomset::cli {

/// bad_input: no file is named and no home folder is known.
base::Result<std::filesystem::path> shelf_path(const std::optional<std::string>& named);

}  // namespace bloomset::cli
