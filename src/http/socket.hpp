// http/socket.hpp - a descriptor of the system that closes itself, and the few calls the server makes with it.
//
// The only place of http, with front.cpp, that speaks to the system's sockets. Nothing here waits, but `wait_to_write`. Callers: front.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace bloomset::http {

class Descriptor {
 public:
  explicit Descriptor(int number = -1) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept;
  ~Descriptor();
  int get() const { return number_; }
  bool there() const { return number_ >= 0; }

 private:
  int number_;
};

/// Listens on `port` (0: any that is free) of the loopback, or of every address of this machine. io: the port is taken, or may not be had.
base::Result<Descriptor> listen_on(bool everywhere, std::uint16_t port);
/// The port it listens on.
std::uint16_t port_of(const Descriptor&);

struct Arrival {
  Descriptor socket;
  bool from_here = false;  // over the loopback
  std::string came_to;     // address and port on this side
};
enum class Accepted : std::uint8_t { one, none, no_room };
/// The next connection, without waiting for one. `no_room`: no more descriptors are to be had.
Accepted accept_from(const Descriptor& listener, Arrival&);

enum class Moved : std::uint8_t { some, would_wait, closed };
/// Appends what has come to `in`.
Moved receive(const Descriptor&, std::string& in);
/// Sends what can be sent of `out` from `at` on, and moves `at`.
Moved send_some(const Descriptor&, const std::string& out, std::size_t& at);
/// Waits until something can be sent. False: it cannot, for so long, or the other side has gone.
bool wait_to_write(const Descriptor&, int milliseconds);
/// Tells the other side that nothing more comes; it can still be heard.
void finish_sending(const Descriptor&);
/// The other side has closed its end.
bool has_closed(const Descriptor&);

/// IPv4 addresses of this machine in its nets, the loopback left out.
std::vector<std::string> own_addresses();

}  // namespace bloomset::http
