#include "http/routes.hpp"

#include <array>

#include "http/answer.hpp"

namespace bloomset::http {
namespace {

constexpr std::string_view root = "/api/v1";

constexpr std::array table = {
    Route{"GET", "/hello", hello},
    Route{"GET", "/documents", documents},
    Route{"GET", "/documents/{kind}/{name}", document},
    Route{"PUT", "/documents/{kind}/{name}", save},
    Route{"DELETE", "/documents/{kind}/{name}", remove},
    Route{"GET", "/documents/{kind}/{name}/revisions", revisions},
    Route{"GET", "/documents/{kind}/{name}/revisions/{number}", revision},
    Route{"GET", "/search", search},
    Route{"POST", "/bench", bench},
    Route{"POST", "/sheet", sheet},
    Route{"POST", "/balance", balance},
    Route{"POST", "/scatter", scatter},
    Route{"POST", "/counter", counter},
    Route{"POST", "/lines", lines},
    Route{"POST", "/compare", compare},
    Route{"GET", "/larder", larder},
    Route{"POST", "/larder/draft", draft},
    Route{"GET", "/kit", kit},
    Route{"POST", "/read", read},
    Route{"GET", "/words", words},
    Route{"GET", "/names", names},
    Route{"POST", "/pair", pair},
};

std::string_view next_piece(std::string_view& path) {
  path.remove_prefix(1);
  const std::string_view piece = path.substr(0, path.find('/'));
  path.remove_prefix(piece.size());
  return piece;
}

// The pieces that stand for braces; nothing if the path is another one. A name is decoded after the path is cut, so that it may hold a slash.
std::optional<std::vector<std::string>> matched(std::string_view pattern, std::string_view path) {
  std::vector<std::string> names;
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = next_piece(pattern), piece = next_piece(path);
    if (!wanted.starts_with('{')) {
      if (wanted != piece) return std::nullopt;
      continue;
    }
    auto name = decoded(piece);
    if (!name || name->empty()) return std::nullopt;
    names.push_back(std::move(*name));
  }
  if (!pattern.empty() || !path.empty()) return std::nullopt;
  return names;
}

}  // namespace

std::span<const Route> routes() { return table; }

Reply route(Call& call) {
  const std::string_view path = call.request.path();
  const std::string_view method = call.request.method == "HEAD" ? "GET" : std::string_view(call.request.method);
  std::string allowed;
  if (path.starts_with(root)) {
    for (const Route& row : table) {
      auto names = matched(row.path, path.substr(root.size()));
      if (!names) continue;
      if (row.method == method) {
        call.names = std::move(*names);
        return row.handler(call);
      }
      allowed.append(allowed.empty() ? "" : ", ").append(row.method);
    }
  }
  if (allowed.empty()) return refusal(404, "not_found", "there is nothing at " + std::string(path));
  Reply reply = refusal(405, "bad_input", std::string(path) + " answers to " + allowed + " only");
  reply.fields.emplace_back("Allow", allowed);
  return reply;
}

}  // namespace bloomset::http
