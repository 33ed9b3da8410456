// Who may pass. Host and DNS rebinding, Origin and Sec-Fetch-Site: OWASP Cross-Site Request Forgery Prevention Cheat Sheet; W3C Fetch Metadata.
#include "http/gate.hpp"

#include <gtest/gtest.h>

namespace bloomset::http {
namespace {

Request request(const std::string& method, const std::string& target, std::vector<Field> fields = {}) {
  Request made{method, target, std::move(fields), {}, true, true, "127.0.0.1:8420"};
  if (made.field("host").empty()) made.fields.emplace_back("host", "127.0.0.1:8420");
  if (method != "GET") made.fields.emplace_back("content-type", "application/json; charset=utf-8");
  return made;
}
int status(const Request& asked, const Pairing* pairing = nullptr) {
  const auto refused = turned_away(asked, pairing);
  return refused ? refused->status : 200;
}

TEST(Gate, OnlyOurOwnAddressIsAnswered) {
  EXPECT_EQ(status(request("GET", "/", {{"host", "127.0.0.1:8420"}})), 200);
  EXPECT_EQ(status(request("GET", "/", {{"host", "localhost:8420"}})), 200);
  for (const char* host : {"evil.example", "127.0.0.1", "127.0.0.1:80", "localhost", "127.0.0.1:8420.evil.example", "evil.example:8420", "LOCALHOST:8420 "})
    EXPECT_EQ(status(request("GET", "/", {{"host", host}})), 421) << host;
}

TEST(Gate, WhatWritesComesFromOurPage) {
  for (const char* method : {"POST", "PUT", "DELETE"}) {
    EXPECT_EQ(status(request(method, "/api/v1/x")), 200) << "a program of this machine";
    EXPECT_EQ(status(request(method, "/api/v1/x", {{"origin", "http://127.0.0.1:8420"}, {"sec-fetch-site", "same-origin"}})), 200);
    for (const char* origin : {"http://evil.example", "https://127.0.0.1:8420", "http://localhost:8420", "http://127.0.0.1:8421", "null"})
      EXPECT_EQ(status(request(method, "/api/v1/x", {{"origin", origin}})), 403) << origin;
    for (const char* site : {"cross-site", "same-site"}) EXPECT_EQ(status(request(method, "/api/v1/x", {{"sec-fetch-site", site}})), 403) << site;
  }
}

TEST(Gate, BodiesAreJson) {
  for (const char* type : {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "", "application/jsonp"}) {
    Request asked = request("POST", "/api/v1/x");
    asked.fields.back().second = type;
    EXPECT_EQ(status(asked), 415) << type;
  }
}

TEST(Gate, OtherDevicesMustBePaired) {
  Pairing pairing;
  Request asked = request("GET", "/api/v1/documents", {{"host", "192.168.1.5:8420"}});
  asked.from_here = false;
  asked.came_to = "192.168.1.5:8420";
  EXPECT_EQ(status(asked, &pairing), 401);
  EXPECT_EQ(status(asked, nullptr), 401);
  asked.fields.emplace_back("cookie", "bloomset=0123456789abcdef0123456789abcdef");
  EXPECT_EQ(status(asked, &pairing), 401);
  const std::string cookie = pairing.set_cookie();
  asked.fields.back().second = "other=1; " + cookie.substr(0, cookie.find(';'));
  EXPECT_EQ(status(asked, &pairing), 200);
  EXPECT_NE(cookie.find("HttpOnly"), std::string::npos);
  EXPECT_NE(cookie.find("SameSite=Strict"), std::string::npos);

  asked.fields.clear();
  asked.fields.emplace_back("host", "localhost:8420");
  EXPECT_EQ(status(asked, &pairing), 421) << "localhost is this machine only";
  asked.fields[0].second = "192.168.1.5:8420";
  asked.target = "/bench/Harbour%20Light";
  EXPECT_EQ(status(asked, &pairing), 200) << "the page itself, which asks for the digits";
}

TEST(Gate, GuessingDigitsIsSlow) {
  Pairing pairing;
  EXPECT_EQ(pairing.code().size(), 6U);
  std::string other = pairing.code();
  other[0] = other[0] == '0' ? '1' : '0';
  const std::int64_t begun = 1'000'000;
  for (int i = 0; i < 5; ++i) EXPECT_EQ(pairing.try_code(other, begun + i), Pairing::Tried::wrong);
  EXPECT_EQ(pairing.try_code(pairing.code(), begun + 10), Pairing::Tried::wait) << "even the right ones";
  EXPECT_EQ(pairing.try_code(pairing.code(), begun + 60'005), Pairing::Tried::right);
  EXPECT_NE(Pairing().set_cookie(), pairing.set_cookie());
}

}  // namespace
}  // namespace bloomset::http
