#include "http/message.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace bloomset::http {
namespace {

bool is_token(std::string_view text) {
  constexpr std::string_view others = "!#$%&'*+-.^_`|~";
  return !text.empty() && std::all_of(text.begin(), text.end(), [&](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || others.find(c) != std::string_view::npos;
  });
}

std::string small(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

HeadRead refuse(int status, std::string says) { return {std::nullopt, Refusal{status, std::move(says)}}; }

// `GET /path HTTP/1.1`
std::optional<Refusal> read_request_line(std::string_view line, Request& request) {
  const std::size_t first = line.find(' '), second = line.rfind(' ');
  if (first == std::string_view::npos || first == second) return Refusal{400, "this is not a request of HTTP/1.1"};
  const std::string_view method = line.substr(0, first), target = line.substr(first + 1, second - first - 1), version = line.substr(second + 1);
  if (!is_token(method) || version != "HTTP/1.1") return Refusal{400, "this is not a request of HTTP/1.1"};
  if (target.size() > longest_target) return Refusal{414, "the address is longer than " + std::to_string(longest_target) + " bytes"};
  const bool clean = std::all_of(target.begin(), target.end(), [](char c) { return c > 0x20 && c < 0x7F; });
  if (!clean || target.front() != '/') return Refusal{400, "an address begins with / and is plain ASCII"};
  request.method = method;
  request.target = target;
  return std::nullopt;
}

std::optional<Refusal> read_field(std::string_view line, Request& request) {
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos || !is_token(line.substr(0, colon))) return Refusal{400, "a field of the head is not `name: value`"};
  const std::string_view value = trimmed(line.substr(colon + 1));
  if (std::any_of(value.begin(), value.end(), [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F; }))
    return Refusal{400, "a field of the head holds control characters"};
  if (request.fields.size() == most_fields) return Refusal{431, "the head has more than " + std::to_string(most_fields) + " fields"};
  request.fields.emplace_back(small(line.substr(0, colon)), value);
  return std::nullopt;
}

// What decides where the message ends, and how the connection goes on.
std::optional<Refusal> frame(Head& head) {
  const auto count = [&](std::string_view name) {
    return std::count_if(head.request.fields.begin(), head.request.fields.end(), [&](const Field& f) { return f.first == name; });
  };
  if (count("host") != 1) return Refusal{421, "a request names one Host"};
  if (count("transfer-encoding") != 0) return Refusal{411, "say the length of the body with Content-Length; Transfer-Encoding is not read"};
  if (count("content-length") > 1) return Refusal{400, "Content-Length stands twice"};
  if (const std::string_view length = head.request.field("content-length"); count("content-length") == 1) {
    const auto [end, fault] = std::from_chars(length.data(), length.data() + length.size(), head.body_bytes);
    if (length.empty() || length.front() == '-' || end != length.data() + length.size()) return Refusal{400, "Content-Length is not a number"};
    if (fault != std::errc() || head.body_bytes > largest_body) return Refusal{413, "a body has at most " + std::to_string(largest_body) + " bytes"};
  }
  head.request.keep_alive = small(head.request.field("connection")).find("close") == std::string::npos;
  head.asks_to_go_on = small(head.request.field("expect")) == "100-continue";
  return std::nullopt;
}

int hex(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  const char letter = static_cast<char>(c | 0x20);
  return letter >= 'a' && letter <= 'f' ? letter - 'a' + 10 : -1;
}

const char* reason(int status) {
  constexpr std::array<std::pair<int, const char*>, 16> reasons = {{{200, "OK"},
                                                                    {400, "Bad Request"},
                                                                    {401, "Unauthorized"},
                                                                    {403, "Forbidden"},
                                                                    {404, "Not Found"},
                                                                    {405, "Method Not Allowed"},
                                                                    {411, "Length Required"},
                                                                    {412, "Precondition Failed"},
                                                                    {413, "Content Too Large"},
                                                                    {414, "URI Too Long"},
                                                                    {415, "Unsupported Media Type"},
                                                                    {421, "Misdirected Request"},
                                                                    {428, "Precondition Required"},
                                                                    {429, "Too Many Requests"},
                                                                    {431, "Request Header Fields Too Large"},
                                                                    {507, "Insufficient Storage"}}};
  const auto* row = std::find_if(reasons.begin(), reasons.end(), [&](const auto& r) { return r.first == status; });
  return row != reasons.end() ? row->second : status == 503 ? "Service Unavailable" : "Internal Server Error";
}

}  // namespace

std::string_view Request::field(std::string_view name) const {
  for (const Field& f : fields)
    if (f.first == name) return f.second;
  return {};
}

std::string_view Request::path() const { return std::string_view(target).substr(0, target.find('?')); }

std::string Request::query(std::string_view name) const {
  std::string_view rest = target;
  const std::size_t mark = rest.find('?');
  rest = mark == std::string_view::npos ? std::string_view() : rest.substr(mark + 1);
  while (!rest.empty()) {
    const std::string_view pair = rest.substr(0, rest.find('&'));
    rest.remove_prefix(std::min(rest.size(), pair.size() + 1));
    const std::size_t equals = pair.find('=');
    if (equals == std::string_view::npos || pair.substr(0, equals) != name) continue;
    std::string value(pair.substr(equals + 1));
    std::replace(value.begin(), value.end(), '+', ' ');  // as forms and URLSearchParams write a blank
    return decoded(value).value_or("");
  }
  return {};
}

HeadRead read_head(std::string_view bytes) {
  const std::size_t end = bytes.substr(0, longest_head).find("\r\n\r\n");
  const std::string_view first_line = bytes.substr(0, bytes.find("\r\n"));
  Head head;
  if (end == std::string_view::npos) {
    if (first_line.size() > longest_target + 32) return refuse(414, "the address is longer than " + std::to_string(longest_target) + " bytes");
    if (bytes.size() >= longest_head) return refuse(431, "the head is longer than " + std::to_string(longest_head) + " bytes");
    // What cannot become a request is refused at once, and holds no connection until the time is up.
    const std::string_view start = first_line.substr(0, first_line.find(' '));
    if (!bytes.empty() && (start.size() > 16 || !is_token(start))) return refuse(400, "this is not a request of HTTP/1.1");
    Request begun;
    if (first_line.size() < bytes.size())
      if (auto fault = read_request_line(first_line, begun)) return {std::nullopt, std::move(fault)};
    return {};
  }
  if (auto fault = read_request_line(first_line, head.request)) return {std::nullopt, std::move(fault)};
  for (std::size_t at = first_line.size() + 2; at < end + 2;) {
    const std::string_view line = bytes.substr(at, bytes.find("\r\n", at) - at);
    if (auto fault = read_field(line, head.request)) return {std::nullopt, std::move(fault)};
    at += line.size() + 2;
  }
  head.bytes = end + 4;
  if (auto fault = frame(head)) return {std::nullopt, std::move(fault)};
  return {std::move(head), std::nullopt};
}

std::string head_of(const Reply& reply, std::optional<std::size_t> length, bool keep_alive) {
  std::string out = "HTTP/1.1 " + std::to_string(reply.status) + " " + reason(reply.status) + "\r\n";
  const auto add = [&out](std::string_view name, std::string_view value) { out.append(name).append(": ").append(value).append("\r\n"); };
  add("Content-Type", reply.type);
  for (const Field& field : reply.fields) add(field.first, field.second);
  if (length)
    add("Content-Length", std::to_string(*length));
  else
    add("Transfer-Encoding", "chunked");
  add("Connection", keep_alive ? "keep-alive" : "close");
  // Only this page's own files run, load and are asked; nothing may frame it, and no address of it leaves.
  add("Content-Security-Policy",
      "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; "
      "form-action 'none'; frame-ancestors 'none'; manifest-src 'self'");
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Opener-Policy", "same-origin");
  add("Cross-Origin-Resource-Policy", "same-origin");
  if (std::none_of(reply.fields.begin(), reply.fields.end(), [](const Field& f) { return f.first == "Cache-Control"; })) add("Cache-Control", "no-store");
  return out + "\r\n";
}

std::string chunk(std::string_view piece) {
  std::array<char, 16> size{};
  const auto [end, fault] = std::to_chars(size.data(), size.data() + size.size(), piece.size(), 16);
  std::string out(size.data(), end);
  return out.append("\r\n").append(piece).append("\r\n");
}

std::optional<std::string> decoded(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] != '%') {
      out += text[at];
      continue;
    }
    if (at + 2 >= text.size() || hex(text[at + 1]) < 0 || hex(text[at + 2]) < 0) return std::nullopt;
    out += static_cast<char>(hex(text[at + 1]) * 16 + hex(text[at + 2]));
    at += 2;
  }
  return out;
}

}  // namespace bloomset::http
