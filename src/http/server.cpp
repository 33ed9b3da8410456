#include "http/server.hpp"

#include "http/answer.hpp"
#include "http/front.hpp"
#include "http/gate.hpp"
#include "http/pages.hpp"
#include "http/reading.hpp"
#include "http/routes.hpp"
#include "press/json.hpp"

namespace bloomset::http {
namespace {

// How what is refused before it is read is called on the wire.
Reply told(const Refusal& refused) {
  const char* kind = refused.status == 413 || refused.status == 414 || refused.status == 431 ? "too_large"
                     : refused.status == 421                                                 ? "refused"
                     : refused.status == 500                                                 ? "internal"
                                                                                             : "bad_input";
  return refusal(refused.status, kind, refused.says);
}

}  // namespace

struct Server::Parts {
  std::unique_ptr<House> house;
  std::unique_ptr<Pairing> pairing;
  LongWorks works;
  std::uint16_t port = 0;
  std::unique_ptr<Front> front;

  Reply reply(const Request& request) {
    if (auto refused = turned_away(request, pairing.get())) return std::move(*refused);
    if (!is_call(request)) return page(request);
    Call call{request, *house, works, pairing.get(), {}};
    return route(call);
  }
};

base::Result<Server> Server::open(const ServerOptions& options) {
  auto listener = listen_on(options.lan, options.port);  // before the shelf: a second start must not touch anything
  if (!listener) return tl::unexpected(std::move(listener.error()));
  auto house = House::open(options.shelf);
  if (!house) return tl::unexpected(std::move(house.error()));
  auto parts = std::make_unique<Parts>();
  parts->house = std::move(*house);
  if (options.lan) parts->pairing = std::make_unique<Pairing>();
  parts->port = port_of(*listener);
  parts->front = std::make_unique<Front>(
      std::move(*listener), [all = parts.get()](const Request& request) { return all->reply(request); }, told);
  return Server(std::move(parts));
}

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Server::Server(Server&&) noexcept = default;
Server::~Server() = default;

void Server::start() { parts_->front->start(); }
void Server::stop() { parts_->front->stop(); }
std::uint16_t Server::port() const { return parts_->port; }

std::vector<std::string> Server::addresses() const {
  std::vector<std::string> all;
  if (parts_->pairing)
    for (const std::string& address : own_addresses()) all.push_back("http://" + address + ":" + std::to_string(parts_->port));
  return all;
}

std::string Server::pairing_code() const { return parts_->pairing ? parts_->pairing->code() : ""; }

Reply pair(Call& call) {
  if (call.pairing == nullptr) return refusal(404, "not_found", "devices are paired only with --lan");
  const auto body = body_of(call.request);
  if (!body) return refusal(body.error());
  text::Faults faults;
  const text::Fields fields(*body, "the request", {"code"}, faults);
  fields.require("code");
  const text::Node* code = fields.string("code");
  if (!faults.empty()) return refusal(unread(std::move(faults)));
  switch (call.pairing->try_code(code->string, now_ms())) {
    case Pairing::Tried::wait:
      return refusal(429, "unpaired", "too many wrong tries: wait a minute");
    case Pairing::Tried::wrong:
      return refusal(401, "unpaired", "these are not the six digits that the program printed");
    case Pairing::Tried::right:
      break;
  }
  text::Json out = press::document();
  Reply reply = answer(out.set("paired", true));
  reply.fields.emplace_back("Set-Cookie", call.pairing->set_cookie());
  return reply;
}

}  // namespace bloomset::http
