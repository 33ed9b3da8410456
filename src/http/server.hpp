// http/server.hpp - the bench over HTTP: opens the shelf, listens, and answers until it is stopped.
//
// On the loopback only; with `lan` on every address of this machine, where devices must be paired first. The way of a request: front (bytes to a whole
// request) -> gate (may it pass) -> routes (one handler) or pages. Caller: the command `open`.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace bloomset::http {

struct ServerOptions {
  std::filesystem::path shelf;
  std::uint16_t port = 8420;  // 0: any that is free
  bool lan = false;
};

class Server {
 public:
  /// Opens the shelf and listens; nothing is answered yet. io: the port is taken. Else the shelf's errors.
  static base::Result<Server> open(const ServerOptions&);
  Server(Server&&) noexcept;
  ~Server();  // stops

  void start();
  /// Ends what is being answered, and returns when all is still.
  void stop();

  std::uint16_t port() const;
  /// With `lan`: where other devices find it, and the digits that pair them.
  std::vector<std::string> addresses() const;
  std::string pairing_code() const;

 private:
  struct Parts;
  explicit Server(std::unique_ptr<Parts>);
  std::unique_ptr<Parts> parts_;
};

}  // namespace bloomset::http
