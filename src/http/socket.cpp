#include "http/socket.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <system_error>

namespace bloomset::http {
namespace {

// The socket calls take any family's address through a pointer to their common beginning.
sockaddr* any(sockaddr_in& address) { return static_cast<sockaddr*>(static_cast<void*>(&address)); }

bool is_loopback(const sockaddr_in& address) { return (ntohl(address.sin_addr.s_addr) >> 24U) == 127; }

std::string written(const in_addr& address) {
  std::array<char, INET_ADDRSTRLEN> text{};
  return inet_ntop(AF_INET, &address, text.data(), text.size()) != nullptr ? text.data() : "";
}

sockaddr_in own_side(int socket) {
  sockaddr_in address{};
  socklen_t size = sizeof address;
  getsockname(socket, any(address), &size);
  return address;
}

}  // namespace

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
  std::swap(number_, other.number_);
  return *this;
}
Descriptor::~Descriptor() {
  if (number_ >= 0) close(number_);
}

base::Result<Descriptor> listen_on(bool everywhere, std::uint16_t port) {
  Descriptor socket(::socket(AF_INET, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0));
  // A port whose last connections are still dying out may be had again; one on which another program listens may not.
  const int yes = 1;
  setsockopt(socket.get(), SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(everywhere ? INADDR_ANY : INADDR_LOOPBACK);
  if (socket.there() && bind(socket.get(), any(address), sizeof address) == 0 && listen(socket.get(), 512) == 0) return socket;
  const int fault = errno;
  const std::string where = "port " + std::to_string(port);
  if (fault == EADDRINUSE) return base::fail(base::ErrorKind::io, where + " is taken by another program, perhaps another bloomset: name another with --port");
  if (fault == EACCES) return base::fail(base::ErrorKind::io, where + " may not be had by this user: name one above 1023 with --port");
  return base::fail(base::ErrorKind::io, where + " cannot be listened on (" + std::generic_category().message(fault) + "): name another with --port");
}

std::uint16_t port_of(const Descriptor& listener) { return ntohs(own_side(listener.get()).sin_port); }

Accepted accept_from(const Descriptor& listener, Arrival& arrival) {
  for (;;) {
    sockaddr_in there{};
    socklen_t size = sizeof there;
    Descriptor socket(accept4(listener.get(), any(there), &size, SOCK_NONBLOCK | SOCK_CLOEXEC));
    if (!socket.there()) {
      if (errno == EINTR || errno == ECONNABORTED || errno == EPROTO) continue;
      return errno == EMFILE || errno == ENFILE || errno == ENOBUFS || errno == ENOMEM ? Accepted::no_room : Accepted::none;
    }
    const int yes = 1;
    setsockopt(socket.get(), IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
    const sockaddr_in here = own_side(socket.get());
    arrival.from_here = is_loopback(there) && is_loopback(here);
    arrival.came_to = written(here.sin_addr) + ":" + std::to_string(ntohs(here.sin_port));
    arrival.socket = std::move(socket);
    return Accepted::one;
  }
}

Moved receive(const Descriptor& socket, std::string& in) {
  std::array<char, 65536> piece;  // not zeroed: recv says how much of it counts
  const ssize_t got = recv(socket.get(), piece.data(), piece.size(), 0);
  if (got > 0) {
    in.append(piece.data(), static_cast<std::size_t>(got));
    return Moved::some;
  }
  return got < 0 && (errno == EAGAIN || errno == EINTR) ? Moved::would_wait : Moved::closed;
}

Moved send_some(const Descriptor& socket, const std::string& out, std::size_t& at) {
  while (at < out.size()) {
    const ssize_t sent = send(socket.get(), out.data() + at, out.size() - at, MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent < 0) return errno == EAGAIN ? Moved::would_wait : Moved::closed;
    at += static_cast<std::size_t>(sent);
  }
  return Moved::some;
}

bool wait_to_write(const Descriptor& socket, int milliseconds) {
  pollfd one{socket.get(), POLLOUT, 0};
  return poll(&one, 1, milliseconds) > 0 && (one.revents & POLLOUT) != 0;
}

void finish_sending(const Descriptor& socket) { shutdown(socket.get(), SHUT_WR); }

bool has_closed(const Descriptor& socket) {
  pollfd one{socket.get(), POLLRDHUP, 0};
  return poll(&one, 1, 0) > 0 && (one.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
}

std::vector<std::string> own_addresses() {
  std::vector<std::string> all;
  ifaddrs* first = nullptr;
  if (getifaddrs(&first) != 0) return all;
  for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
    sockaddr_in address{};
    std::memcpy(&address, one->ifa_addr, sizeof address);
    all.push_back(written(address.sin_addr));
  }
  freeifaddrs(first);
  return all;
}

}  // namespace bloomset::http
