#include "http/pages.hpp"

#include <algorithm>
#include <array>

#include "http/answer.hpp"
#include "http/embedded.hpp"

namespace bloomset::http {
namespace {

constexpr std::string_view not_built =
    "<!doctype html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>bloomset</title>\n"
    "<h1>bloomset</h1>\n<p>This program was built without its page: <code>web/dist</code> was not there. Build the page, then the program again.\n"
    "<p>The shelf and the programming interface work: <a href=\"/api/v1/hello\">/api/v1/hello</a>.\n</html>\n";

std::string type_of(std::string_view path) {
  constexpr std::array<std::pair<std::string_view, const char*>, 11> types = {{{".html", "text/html; charset=utf-8"},
                                                                               {".js", "text/javascript; charset=utf-8"},
                                                                               {".css", "text/css; charset=utf-8"},
                                                                               {".svg", "image/svg+xml"},
                                                                               {".woff2", "font/woff2"},
                                                                               {".json", "application/json"},
                                                                               {".webmanifest", "application/manifest+json"},
                                                                               {".png", "image/png"},
                                                                               {".ico", "image/x-icon"},
                                                                               {".txt", "text/plain; charset=utf-8"},
                                                                               {".map", "application/json"}}};
  for (const auto& [ending, type] : types)
    if (path.ends_with(ending)) return type;
  return "application/octet-stream";
}

const EmbeddedFile* file_at(std::string_view path) {
  const auto files = page_files();
  const auto found = std::find_if(files.begin(), files.end(), [&](const EmbeddedFile& file) { return file.path == path; });
  return found != files.end() ? &*found : nullptr;
}

}  // namespace

Reply page(const Request& request) {
  if (request.method != "GET" && request.method != "HEAD") {
    Reply reply = refusal(405, "bad_input", "this is read with GET only");
    reply.fields.emplace_back("Allow", "GET, HEAD");
    return reply;
  }
  const auto path = decoded(request.path().substr(1));
  const EmbeddedFile* file = path ? file_at(*path) : nullptr;
  if (file == nullptr && request.path().find('.') == std::string_view::npos) {
    file = file_at("index.html");
    if (file == nullptr) return {200, "text/html; charset=utf-8", std::string(not_built), {}, {}};
  }
  if (file == nullptr) return refusal(404, "not_found", "there is nothing at " + std::string(request.path()));
  Reply reply{200, type_of(file->path), std::string(file->text), {}, {}};
  if (file->path.starts_with("assets/"))
    reply.fields.emplace_back("Cache-Control", "public, max-age=31536000, immutable");
  else if (file->path != "index.html")
    reply.fields.emplace_back("Cache-Control", "public, max-age=86400");
  return reply;
}

}  // namespace bloomset::http
