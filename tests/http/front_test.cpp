// The door under good and bad manners. Times are bounds that a shared machine keeps, ten times what an idle one shows.
#include "http/front.hpp"

#include <gtest/gtest.h>

#include "http/client.hpp"

namespace bloomset::http {
namespace {

using test::Client;
using test::get;
using test::milliseconds;

class FrontTest : public ::testing::Test {
 protected:
  void open(FrontLimits limits = {}) {
    auto listener = listen_on(false, 0);
    ASSERT_TRUE(listener) << listener.error().message;
    port = port_of(*listener);
    front = std::make_unique<Front>(
        std::move(*listener), [this](const Request& request) { return handler(request); },
        [](const Refusal& refused) {
          return Reply{refused.status, "text/plain", refused.says, {}, {}};
        },
        limits);
    front->start();
  }
  bool answers() {
    Client client(port);
    return client.ask(get("/", port)).ends_with("\r\n\r\nGET / ");
  }

  std::function<Reply(const Request&)> handler = [](const Request& r) { return Reply{200, "text/plain", r.method + " " + r.target + " " + r.body, {}, {}}; };
  std::uint16_t port = 0;
  std::unique_ptr<Front> front;
};

TEST_F(FrontTest, ManyRequestsGoOverOneConnectionInOrder) {
  open();
  Client client(port);
  std::string together;
  for (int i = 0; i < 50; ++i) together += get("/" + std::to_string(i), port);
  client.send(together);
  for (int i = 0; i < 50; ++i) EXPECT_TRUE(client.reply().ends_with("GET /" + std::to_string(i) + " "));
  EXPECT_EQ(front->connections(), 1U);
}

TEST_F(FrontTest, ABodyMayComeInPieces) {
  open();
  Client client(port);
  const std::string body(300000, 'b');
  const std::string bytes = "POST /p HTTP/1.1\r\nHost: a\r\nContent-Length: 300000\r\n\r\n" + body;
  for (std::size_t at = 0; at < bytes.size(); at += 37001) client.send(bytes.substr(at, 37001));
  EXPECT_TRUE(client.reply().ends_with("POST /p " + body));
}

TEST_F(FrontTest, ItSaysGoOnWhereThatIsAsked) {
  open();
  Client client(port);
  client.send("POST /p HTTP/1.1\r\nHost: a\r\nContent-Length: 2\r\nExpect: 100-continue\r\n\r\n");
  EXPECT_EQ(client.next(), "HTTP/1.1 100 Continue\r\n\r\n");
  EXPECT_TRUE(client.ask("ok").ends_with("POST /p ok"));
}

TEST_F(FrontTest, HalfOpenConnectionsDoNotStopAWorkingOne) {
  open();
  std::vector<Client> idle, stuck, slow;
  for (int i = 0; i < 70; ++i) idle.emplace_back(port);
  for (int i = 0; i < 70; ++i) stuck.emplace_back(port).send("GET / HTTP/1.1\r\nHost: a\r\nX-");
  for (int i = 0; i < 60; ++i) slow.emplace_back(port).send("POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 100\r\n\r\nfirst");
  double worst = 0.0;
  for (int i = 0; i < 20; ++i) worst = std::max(worst, milliseconds([&] { EXPECT_TRUE(answers()); }));
  std::printf("200 half-open connections: slowest of 20 answers %.2f ms\n", worst);
  EXPECT_LT(worst, 100.0);
}

TEST_F(FrontTest, WhenAllPlacesAreTakenTheOneThatWaitedLongestMakesRoom) {
  FrontLimits limits;
  limits.connections = 20;
  open(limits);
  std::vector<Client> idle;
  for (int i = 0; i < 60; ++i) {
    idle.emplace_back(port);
    if (i % 20 == 19) {
      EXPECT_TRUE(answers());
    }
  }
  EXPECT_LE(front->connections(), 20U);
  EXPECT_TRUE(idle.front().rest().empty());
}

TEST_F(FrontTest, AHeadThatDripsIsDropped) {
  FrontLimits limits;
  limits.head_time = std::chrono::milliseconds(300);
  open(limits);
  Client client(port);
  bool open_still = true;
  const double took = milliseconds([&] {
    client.send("GET / HTTP/1.1\r\nHost: a\r\n");
    for (int i = 0; i < 50 && open_still; ++i) {
      open_still = client.send("x");
      client.next(50);
    }
  });
  EXPECT_FALSE(open_still) << "a byte now and then must not keep it open";
  EXPECT_LT(took, 2000.0);
}

TEST_F(FrontTest, WhatIsRefusedIsToldThoughMoreIsBeingSent) {
  open();
  Client client(port);
  client.send("POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 100000000\r\n\r\n");
  for (int i = 0; i < 20; ++i) client.send(std::string(100000, 'x'));
  EXPECT_TRUE(client.rest().starts_with("HTTP/1.1 413 "));
}

TEST_F(FrontTest, OneWhoReadsSlowlyHoldsNoWorker) {
  FrontLimits limits;
  limits.workers = 1;
  open(limits);
  handler = [](const Request& request) { return Reply{200, "text/plain", request.target == "/large" ? std::string(12U << 20U, 'l') : "GET / ", {}, {}}; };
  std::vector<Client> slow;
  for (int i = 0; i < 4; ++i) slow.emplace_back(port).send(get("/large", port));
  EXPECT_TRUE(answers());  // behind the four, which are made first
  for (int i = 0; i < 5; ++i) EXPECT_LT(milliseconds([&] { EXPECT_TRUE(answers()); }), 1900.0) << "a stuck worker would wait two seconds for room";
  EXPECT_TRUE(slow[3].reply().ends_with(std::string(1000, 'l')));
}

TEST_F(FrontTest, AFaultOfTheProgramIsA500) {
  open();
  handler = [](const Request& request) -> Reply {
    if (request.target == "/throws") throw std::runtime_error("so it is");
    return {200, "text/plain", "GET / ", {}, {}};
  };
  Client client(port);
  EXPECT_TRUE(client.ask(get("/throws", port)).starts_with("HTTP/1.1 500 "));
  EXPECT_TRUE(answers());
}

TEST_F(FrontTest, ALongAnswerComesPieceByPieceAndEndsWhenNobodyListens) {
  open();
  std::atomic<bool> ended = false;
  handler = [&](const Request&) {
    Reply reply{200, "application/x-ndjson", {}, {}, {}};
    reply.stream = [&](Line& line) {
      while (!line.gone() && line.send("{}\n")) std::this_thread::sleep_for(std::chrono::milliseconds(5));
      ended = true;
    };
    return reply;
  };
  Client client(port);
  client.send(get("/", port));
  std::string heard;
  while (heard.find("3\r\n{}\n\r\n3\r\n{}\n\r\n") == std::string::npos) {
    const std::string more = client.next();
    ASSERT_FALSE(more.empty());
    heard += more;
  }
  EXPECT_FALSE(ended);
  client.close_now();
  for (int i = 0; i < 400 && !ended; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  EXPECT_TRUE(ended);
}

TEST_F(FrontTest, StoppingEndsLongAnswersAndIdleConnections) {
  open();
  handler = [](const Request&) {
    Reply reply{200, "text/plain", {}, {}, {}};
    reply.stream = [](Line& line) {
      while (!line.gone()) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    };
    return reply;
  };
  Client idle(port), asking(port);
  asking.send(get("/", port));
  EXPECT_TRUE(asking.next().starts_with("HTTP/1.1 200 "));
  EXPECT_LT(milliseconds([&] { front->stop(); }), 1000.0);
  EXPECT_EQ(front->connections(), 0U);
  EXPECT_FALSE(Client(port).ask(get("/", port)).starts_with("HTTP")) << "nobody answers any more";
}

TEST_F(FrontTest, APortIsHadByOneOnly) {
  open();
  const auto second = listen_on(false, port);
  ASSERT_FALSE(second);
  EXPECT_NE(second.error().message.find("--port"), std::string::npos);
}

}  // namespace
}  // namespace bloomset::http
