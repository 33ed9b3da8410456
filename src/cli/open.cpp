// cli/open.cpp - `bloomset open`: the bench in the browser, served from this machine until it is told to end.
#include <malloc.h>
#include <spawn.h>

#include <csignal>
#include <cstdlib>
#include <ostream>

#include "cli/commands.hpp"
#include "cli/shelf_path.hpp"
#include "http/server.hpp"

namespace bloomset::cli {
namespace {

bool has(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

// Starts the desktop's own opener and does not wait for it; a machine without one is no fault.
void show(std::string address) {
  if (!has("DISPLAY") && !has("WAYLAND_DISPLAY")) return;
  std::signal(SIGCHLD, SIG_IGN);  // nobody asks how it ended
  sigset_t all, none;
  sigfillset(&all);
  sigemptyset(&none);
  posix_spawnattr_t plain;  // what this program blocks and ignores is not for the opener
  posix_spawnattr_init(&plain);
  posix_spawnattr_setsigdefault(&plain, &all);
  posix_spawnattr_setsigmask(&plain, &none);
  posix_spawnattr_setflags(&plain, POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK);
  std::string opener = "xdg-open";
  char* const words[] = {opener.data(), address.data(), nullptr};
  pid_t child = 0;
  posix_spawnp(&child, words[0], nullptr, &plain, words, environ);
  posix_spawnattr_destroy(&plain);
}

// The signals that end the program, blocked in this thread and in all that it starts, so that one `sigwait` gets them.
sigset_t held_back() {
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGINT);
  sigaddset(&ends, SIGTERM);
  sigaddset(&ends, SIGHUP);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);
  return ends;
}

void tell_of_net(const http::Server& server, std::ostream& out) {
  const auto addresses = server.addresses();
  if (addresses.empty()) return;
  out << "bloomset: open to every device of these nets, which can then read and change the whole shelf once paired:\n";
  for (const std::string& address : addresses) out << "  " << address << "\n";
  out << "bloomset: pairing code " << server.pairing_code() << "\n";
}

}  // namespace

int run_open(const OpenOptions& options, const Common& common, const Streams& streams) {
  const base::Sources none;
  const auto refuse = [&](std::string message) { return tell({base::ErrorKind::bad_input, std::move(message), {}}, none, streams.err); };
  if (common.larder || common.kit || common.calibration)
    return refuse("open: --larder, --kit and --calibration are for single commands; the bench has its larder and kit on the shelf (`bloomset shelf import`)");
  const auto path = shelf_path(options.shelf);
  if (!path) return tell(path.error(), none, streams.err);
  // A sheet takes and gives back a few megabytes: kept at hand, they need not be asked of the system each time (a quarter of a sheet's time).
  mallopt(M_TRIM_THRESHOLD, 64 << 20);
  mallopt(M_MMAP_THRESHOLD, 16 << 20);
  const sigset_t ends = held_back();  // before any thread is there
  auto server = http::Server::open({*path, static_cast<std::uint16_t>(options.port), options.lan});
  if (!server) return tell(server.error(), none, streams.err);
  server->start();
  const std::string address = "http://127.0.0.1:" + std::to_string(server->port());
  streams.out << "bloomset: " << address << "\n";
  if (options.lan) tell_of_net(*server, streams.out);
  streams.out << std::flush;
  if (options.browser) show(address);
  int signal = 0;
  sigwait(&ends, &signal);
  server->stop();
  return 0;
}

}  // namespace bloomset::cli
