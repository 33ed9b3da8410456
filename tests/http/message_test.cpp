// Bytes to requests. What must be refused: RFC 9112 (HTTP/1.1) sections 2.2, 3, 5.1, 6.3 and RFC 9110 sections 7.2, 15.5.
#include "http/message.hpp"

#include <gtest/gtest.h>

#include <array>
#include <random>

namespace bloomset::http {
namespace {

constexpr const char* host = "Host: 127.0.0.1:8420\r\n";

HeadRead head(const std::string& fields, const std::string& line = "GET / HTTP/1.1") { return read_head(line + "\r\n" + host + fields + "\r\n"); }
int status(const HeadRead& read) { return read.refusal ? read.refusal->status : read.head ? 200 : 0; }

TEST(Message, AWholeHeadIsARequest) {
  const HeadRead read = read_head("PUT /api/v1/x?words=lime+juice&most=%3A HTTP/1.1\r\nHost: a\r\nIF-Match:  \"7\" \r\ncontent-length: 2\r\n\r\n{}rest");
  ASSERT_TRUE(read.head);
  const Request& request = read.head->request;
  EXPECT_EQ(request.method, "PUT");
  EXPECT_EQ(request.path(), "/api/v1/x");
  EXPECT_EQ(request.query("words"), "lime juice");
  EXPECT_EQ(request.query("most"), ":");
  EXPECT_EQ(request.query("none"), "");
  EXPECT_EQ(request.field("if-match"), "\"7\"");
  EXPECT_EQ(read.head->body_bytes, 2U);
  EXPECT_TRUE(request.keep_alive);
}

TEST(Message, EveryBeginningOfAHeadIsNoHeadYet) {
  const std::string whole = "POST /a HTTP/1.1\r\nHost: a\r\nContent-Length: 12\r\n\r\n";
  for (std::size_t size = 0; size < whole.size(); ++size) EXPECT_EQ(status(read_head(whole.substr(0, size))), 0) << size;
  EXPECT_EQ(status(read_head(whole)), 200);
}

TEST(Message, WhatTwoReadersCouldReadDifferentlyIsRefused) {
  EXPECT_EQ(status(head("Host: 127.0.0.1:8420\r\n")), 421) << "two Hosts";
  EXPECT_EQ(status(read_head("GET / HTTP/1.1\r\nAccept: */*\r\n\r\n")), 421) << "no Host";
  EXPECT_EQ(status(head("Transfer-Encoding: chunked\r\n")), 411);
  EXPECT_EQ(status(head("Transfer-Encoding: identity\r\nContent-Length: 3\r\n")), 411);
  EXPECT_EQ(status(head("Content-Length: 3\r\nContent-Length: 3\r\n")), 400);
  for (const char* length : {"-5", "+5", "5 5", "0x5", "5,5", "", "five"})
    EXPECT_EQ(status(head("Content-Length: " + std::string(length) + "\r\n")), 400) << length;
  EXPECT_EQ(status(head("Content-Length : 3\r\n")), 400) << "a blank before the colon";
  EXPECT_EQ(status(head(" folded: 3\r\n")), 400);
  EXPECT_EQ(status(head("a: b\r\n c\r\n")), 400);
  EXPECT_EQ(status(head("no colon\r\n")), 400);
  EXPECT_EQ(status(head(std::string("a: b\0c\r\n", 8))), 400);
}

TEST(Message, TheRequestLineIsStrict) {
  for (const char* line : {"GET /", "GET / HTTP/1.0", "GET / HTTP/2", "GET  HTTP/1.1", "GET http://evil.example/ HTTP/1.1", "G\"T / HTTP/1.1",
                           "GET /a b HTTP/1.1", "GET /\x80 HTTP/1.1"})
    EXPECT_EQ(status(head("", line)), 400) << line;
}

TEST(Message, SizesHaveLimits) {
  EXPECT_EQ(status(head("Content-Length: " + std::to_string(largest_body) + "\r\n")), 200);
  EXPECT_EQ(status(head("Content-Length: " + std::to_string(largest_body + 1) + "\r\n")), 413);
  EXPECT_EQ(status(head("Content-Length: 99999999999999999999999\r\n")), 413);
  std::string many;
  for (std::size_t i = 0; i < most_fields; ++i) many += "a: b\r\n";
  EXPECT_EQ(status(head(many)), 431) << "with the Host one too many";
  EXPECT_EQ(status(head("a: " + std::string(longest_head, 'x') + "\r\n")), 431);
  EXPECT_EQ(status(read_head("GET / HTTP/1.1\r\na: " + std::string(longest_head, 'x'))), 431) << "though its end has not come";
  EXPECT_EQ(status(head("", "GET /" + std::string(longest_target, 'x') + " HTTP/1.1")), 414);
  EXPECT_EQ(status(read_head("GET /" + std::string(2 * longest_target, 'x'))), 414);
}

TEST(Message, WhatCanBeNoRequestIsRefusedAtOnce) {
  EXPECT_EQ(status(read_head("\x16\x03\x01\x02")), 400) << "a greeting of TLS";
  EXPECT_EQ(status(read_head("\r\n")), 400);
  EXPECT_EQ(status(read_head("SSH-2.0-x\r\n")), 400);
  EXPECT_EQ(status(read_head(std::string(64, 'A'))), 400);
}

// Heads with bytes changed, lost and doubled: each is a head, a refusal, or not all there yet, and a head lies inside of what came.
TEST(Message, AnyBytesHaveExactlyOneReading) {
  const std::string sound =
      "PUT /api/v1/documents/formula/a%20b?x=1 HTTP/1.1\r\nHost: 127.0.0.1:1\r\nContent-Length: 12\r\nIf-Match: \"1\"\r\n\r\nabcdefghijkl";
  std::mt19937 chance(1);
  const auto below = [&chance](std::size_t end) { return std::uniform_int_distribution<std::size_t>(0, end - 1)(chance); };
  std::array<int, 3> seen{};
  for (int turn = 0; turn < 20000; ++turn) {
    std::string bytes = sound;
    for (std::size_t changes = below(4); changes > 0; --changes) {
      const std::size_t at = below(bytes.size());
      switch (below(4)) {
        case 0:
          bytes[at] = static_cast<char>(below(256));
          break;
        case 1:
          bytes.erase(at, below(8));
          break;
        case 2:
          bytes.insert(at, bytes.substr(below(bytes.size()), below(40)));
          break;
        default:
          bytes[at] = "\r\n :%?/"[below(7)];
          break;
      }
      if (bytes.empty()) bytes = "x";
    }
    const HeadRead read = read_head(bytes);
    ASSERT_FALSE(read.head && read.refusal);
    ++seen[read.head ? 0 : read.refusal ? 1 : 2];
    if (!read.head) continue;
    ASSERT_LE(read.head->bytes, bytes.size());
    ASSERT_LE(read.head->body_bytes, largest_body);
    ASSERT_EQ(bytes.substr(read.head->bytes - 4, 4), "\r\n\r\n");
    read.head->request.query("x");
  }
  for (const int count : seen) EXPECT_GT(count, 100);
}

TEST(Message, AReplySaysItsLengthOrComesInChunks) {
  Reply reply{404, "text/plain", "gone", {{"ETag", "\"3\""}}, {}};
  const std::string told = head_of(reply, 4, true);
  EXPECT_TRUE(told.starts_with("HTTP/1.1 404 Not Found\r\n"));
  EXPECT_NE(told.find("\r\nContent-Length: 4\r\n"), std::string::npos);
  EXPECT_NE(told.find("\r\nETag: \"3\"\r\n"), std::string::npos);
  EXPECT_NE(told.find("\r\nCache-Control: no-store\r\n"), std::string::npos);
  EXPECT_TRUE(told.ends_with("\r\n\r\n"));
  EXPECT_NE(head_of(reply, std::nullopt, false).find("\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n"), std::string::npos);
  EXPECT_EQ(chunk("abcdefghijklmnopq"), "11\r\nabcdefghijklmnopq\r\n");
  EXPECT_EQ(chunk(""), "0\r\n\r\n");
}

TEST(Message, EscapesAreDecodedOrRefused) {
  EXPECT_EQ(decoded("cr%C3%A8me%2Ffra%c3%aeche"), "crème/fraîche");
  EXPECT_EQ(decoded("100%"), std::nullopt);
  EXPECT_EQ(decoded("%4"), std::nullopt);
  EXPECT_EQ(decoded("%g1"), std::nullopt);
}

}  // namespace
}  // namespace bloomset::http
