// http/embedded.hpp - files that are part of the program: the page as built from web/, and the demo's formulas.
//
// The tables are written by cmake/EmbedPage.cmake; the bytes enter through the assembler's .incbin. A program built without the page has no page files, and
// says so in the browser. Callers: pages, house.
#pragma once

#include <span>
#include <string_view>

namespace bloomset::http {

struct EmbeddedFile {
  std::string_view path, text;  // path: below its folder, without a slash before it
};
/// web/dist; empty if the page was not built.
std::span<const EmbeddedFile> page_files();
/// demo/*.toml, by name.
std::span<const EmbeddedFile> demo_files();

}  // namespace bloomset::http
