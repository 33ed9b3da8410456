// http/message.hpp - what is said over a connection: a request taken from bytes, a reply turned into bytes (HTTP/1.1, RFC 9112).
//
// Pure: bytes in, values out. Strict where two readers could differ on where a message ends: one Content-Length of digits, no Transfer-Encoding, no folded
// lines, no blanks before a colon, one Host. Heads and bodies have limits that are checked before anything is stored. Callers: front, tests.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace bloomset::http {

inline constexpr std::size_t longest_target = 8192, longest_head = 16384, most_fields = 64, largest_body = 8U << 20U;

using Field = std::pair<std::string, std::string>;  // name (of a request: in small letters), value

struct Request {
  std::string method, target;  // the target as sent: `/api/v1/documents/formula/Low%20Tide?words=lime`
  std::vector<Field> fields;
  std::string body;
  bool keep_alive = true;
  bool from_here = true;  // came over the loopback
  std::string came_to;    // the address and port it came to: `127.0.0.1:8420`

  /// The field's value; empty if it is not there.
  std::string_view field(std::string_view name) const;
  /// The target without what stands behind `?`.
  std::string_view path() const;
  /// A value of the query, decoded; empty if it is not there.
  std::string query(std::string_view name) const;
};

/// A connection as a long answer sees it: pieces go out as they come, until the other side has gone.
class Line {
 public:
  virtual ~Line() = default;
  /// Sends a piece of the body. False: nobody listens any more.
  virtual bool send(std::string_view piece) = 0;
  /// The other side has closed, or the program ends.
  virtual bool gone() = 0;
};

struct Reply {
  int status = 200;
  std::string type = "application/json", body;
  std::vector<Field> fields;
  std::function<void(Line&)> stream;  // in place of the body: sent as it comes
};

/// The head of a request, and how many bytes of body follow it.
struct Head {
  Request request;
  std::size_t bytes = 0, body_bytes = 0;
  bool asks_to_go_on = false;  // Expect: 100-continue
};
/// Why a request is not even read.
struct Refusal {
  int status = 400;
  std::string says;
};
/// What stands at the beginning of `bytes`: a head, a refusal, or (neither) not all of a head yet.
struct HeadRead {
  std::optional<Head> head;
  std::optional<Refusal> refusal;
};
HeadRead read_head(std::string_view bytes);

/// Status line and fields. `length`: of the body; nothing: in chunks.
std::string head_of(const Reply&, std::optional<std::size_t> length, bool keep_alive);
/// A piece of a body in chunks; an empty one is the last.
std::string chunk(std::string_view piece);

/// `%C3%A9` to its byte; nothing for a broken escape.
std::optional<std::string> decoded(std::string_view text);

}  // namespace bloomset::http
