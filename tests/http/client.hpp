// tests/http/client.hpp - a connection to a server of this test, byte by byte; nothing of the server's own reading is used.
#pragma once

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstring>
#include <string>

namespace bloomset::http::test {

class Client {
 public:
  explicit Client(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = connect(socket_, static_cast<sockaddr*>(static_cast<void*>(&address)), sizeof address) == 0;
  }
  Client(Client&& other) noexcept : socket_(other.socket_), connected_(other.connected_) { other.socket_ = -1; }
  Client& operator=(Client&&) = delete;
  ~Client() { close_now(); }

  bool connected() const { return connected_; }
  void close_now() {
    if (socket_ >= 0) close(socket_);
    socket_ = -1;
  }
  bool send(const std::string& bytes) const { return ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(bytes.size()); }
  /// What comes next, at most so long waited for; empty: nothing came, or the end.
  std::string next(int milliseconds = 5000) const {
    pollfd one{socket_, POLLIN, 0};
    std::array<char, 65536> piece{};
    if (poll(&one, 1, milliseconds) <= 0) return {};
    const ssize_t got = recv(socket_, piece.data(), piece.size(), 0);
    return got > 0 ? std::string(piece.data(), static_cast<std::size_t>(got)) : std::string();
  }
  /// One whole reply that says its length: head and body.
  std::string reply() {
    for (;;) {
      const std::size_t end = in_.find("\r\n\r\n"), length = in_.find("Content-Length: ");
      if (end != std::string::npos && length < end) {
        const std::size_t whole = end + 4 + std::stoul(in_.substr(length + 16));
        if (in_.size() >= whole) {
          const std::string out = in_.substr(0, whole);
          in_.erase(0, whole);
          return out;
        }
      }
      const std::string more = next();
      if (more.empty()) return in_;
      in_ += more;
    }
  }
  std::string ask(const std::string& bytes) {
    send(bytes);
    return reply();
  }
  /// Everything until the other side closes.
  std::string rest() {
    std::string all;
    all.swap(in_);
    for (std::string more = next(); !more.empty(); more = next()) all += more;
    return all;
  }

 private:
  int socket_;
  bool connected_ = false;
  std::string in_;
};

inline std::string get(const std::string& target, std::uint16_t port) {
  return "GET " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) + "\r\n\r\n";
}

/// Milliseconds that something takes.
template <class Does>
double milliseconds(Does does) {
  const auto begun = std::chrono::steady_clock::now();
  does();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun).count();
}

}  // namespace bloomset::http::test
