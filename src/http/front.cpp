#include "http/front.hpp"

#include <sys/epoll.h>
#include <sys/eventfd.h>
#include <unistd.h>

#include <array>
#include <exception>

namespace bloomset::http {

using Clock = std::chrono::steady_clock;

struct Front::Connection {
  explicit Connection(std::atomic<std::size_t>& all) : count(all) { ++count; }
  ~Connection() { --count; }
  Connection(const Connection&) = delete;
  std::atomic<std::size_t>& count;
  Arrival side;
  std::string in, out;
  std::size_t sent = 0;  // of `out`
  std::optional<Head> head;
  bool closing = false;                       // when `out` is sent
  bool draining = false;                      // all is said; what still comes is thrown away, so that the other side hears it to the end
  Clock::time_point since, latest, whole_by;  // waiting since; dropped after; a body must be whole
  bool waits_for_bytes() const { return out.empty(); }
};

// A long answer's way out: each piece goes at once, or waits `still_time` for room.
class Front::StreamLine : public Line {
 public:
  StreamLine(Connection& to, std::stop_token end, std::chrono::milliseconds still) : to_(to), end_(std::move(end)), still_(still) {}
  bool send(std::string_view piece) override { return piece.empty() || send_bytes(chunk(piece)); }
  bool gone() override { return lost_ || end_.stop_requested() || has_closed(to_.side.socket); }
  bool send_bytes(const std::string& bytes) {
    for (std::size_t at = 0; !lost_ && at < bytes.size();) {
      const Moved moved = send_some(to_.side.socket, bytes, at);
      lost_ = moved == Moved::closed || (moved == Moved::would_wait && !wait_to_write(to_.side.socket, static_cast<int>(still_.count())));
    }
    return !lost_;
  }

 private:
  Connection& to_;
  std::stop_token end_;
  std::chrono::milliseconds still_;
  bool lost_ = false;
};

Front::Front(Descriptor listener, Answer answer, Tell tell, FrontLimits limits)
    : listener_(std::move(listener)),
      poll_(epoll_create1(EPOLL_CLOEXEC)),
      bell_(eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC)),
      answer_(std::move(answer)),
      tell_(std::move(tell)),
      limits_(limits) {}

Front::~Front() { stop(); }

void Front::start() {
  for (const Descriptor* one : {&listener_, &bell_}) {
    epoll_event event{};
    event.events = EPOLLIN;
    event.data.fd = one->get();
    epoll_ctl(poll_.get(), EPOLL_CTL_ADD, one->get(), &event);
  }
  for (unsigned i = 0; i < limits_.workers; ++i) workers_.emplace_back([this] { work(); });
  watcher_ = std::jthread([this](std::stop_token end) { watch(std::move(end)); });
}

void Front::stop() {
  end_.request_stop();
  if (watcher_.joinable()) {
    watcher_.request_stop();
    eventfd_write(bell_.get(), 1);
    watcher_.join();
  }
  {
    const std::lock_guard lock(guard_);
    ending_ = true;
  }
  some_.notify_all();
  for (std::thread& worker : workers_) worker.join();
  workers_.clear();
  resting_.clear();
  answered_.clear();
}

void Front::watch(std::stop_token end) {
  std::array<epoll_event, 64> events{};
  Clock::time_point looked = Clock::now();
  while (!end.stop_requested()) {
    const int count = epoll_wait(poll_.get(), events.data(), static_cast<int>(events.size()), resting_.empty() ? -1 : 250);
    for (int i = 0; i < count; ++i) {
      const epoll_event& event = events[static_cast<std::size_t>(i)];
      if (event.data.fd == listener_.get()) {
        take_in();
      } else if (event.data.fd == bell_.get()) {
        eventfd_t rings = 0;
        eventfd_read(bell_.get(), &rings);
        take_back();
      } else if (const auto found = resting_.find(event.data.fd); found != resting_.end()) {
        Held held = std::move(found->second);
        resting_.erase(found);
        moved(std::move(held), event.events);
      }
    }
    if (const auto now = Clock::now(); now - looked > std::chrono::milliseconds(200)) {
      drop_late(now);
      looked = now;
    }
  }
}

void Front::take_in() {
  for (int turn = 0; turn < 64; ++turn) {  // then those that are here already
    auto held = std::make_unique<Connection>(count_);
    const Accepted accepted = accept_from(listener_, held->side);
    if (accepted == Accepted::none) return;
    if (accepted == Accepted::no_room || count_ > limits_.connections) make_room();
    if (accepted == Accepted::no_room) return;   // the listener is looked at again at once
    if (count_ > limits_.connections) continue;  // all others are being answered: this one is closed
    epoll_event event{};
    event.data.fd = held->side.socket.get();
    epoll_ctl(poll_.get(), EPOLL_CTL_ADD, event.data.fd, &event);
    held->since = Clock::now();
    held->latest = held->since + limits_.idle_time;
    rest(std::move(held), false);
  }
}

void Front::make_room() {
  auto longest = resting_.end();
  for (auto at = resting_.begin(); at != resting_.end(); ++at)
    if (at->second->waits_for_bytes() && (longest == resting_.end() || at->second->since < longest->second->since)) longest = at;
  if (longest != resting_.end()) resting_.erase(longest);
}

void Front::rest(Held held, bool to_send) {
  epoll_event event{};
  event.events = (to_send ? EPOLLOUT : EPOLLIN) | EPOLLONESHOT;
  const int socket = event.data.fd = held->side.socket.get();
  epoll_ctl(poll_.get(), EPOLL_CTL_MOD, socket, &event);
  resting_.emplace(socket, std::move(held));
}

void Front::moved(Held held, unsigned events) {
  const auto now = Clock::now();
  if (!held->waits_for_bytes()) {
    if ((events & (EPOLLERR | EPOLLHUP)) != 0) return;
    held->latest = now + limits_.still_time;
    return go_on(std::move(held));
  }
  const bool first = held->in.empty();
  const Moved got = receive(held->side.socket, held->in);
  if (got == Moved::closed) return;
  if (held->draining) held->in.clear();
  if (got == Moved::would_wait || held->draining) return rest(std::move(held), false);
  if (first) held->latest = now + limits_.head_time;
  if (held->head) held->latest = std::min(now + limits_.still_time, held->whole_by);
  go_on(std::move(held));
}

void Front::go_on(Held held) {
  if (!held->out.empty()) {
    const Moved went = send_some(held->side.socket, held->out, held->sent);
    if (went == Moved::would_wait) return rest(std::move(held), true);
    if (went == Moved::closed) return;
    held->out.clear();
    held->sent = 0;
    if (held->closing) return drain(std::move(held));
  }
  if (!held->head) {
    HeadRead read = read_head(held->in);
    if (read.refusal) return refuse(std::move(held), *read.refusal);
    if (!read.head) return rest(std::move(held), false);
    held->head = std::move(read.head);
    const auto now = Clock::now();
    held->whole_by = now + limits_.body_time;
    held->latest = now + limits_.still_time;
    if (held->head->asks_to_go_on && held->in.size() == held->head->bytes) {
      std::size_t at = 0;
      send_some(held->side.socket, "HTTP/1.1 100 Continue\r\n\r\n", at);
    }
  }
  const std::size_t all = held->head->bytes + held->head->body_bytes;
  if (held->in.size() < all) return rest(std::move(held), false);
  held->head->request.body = held->in.substr(held->head->bytes, held->head->body_bytes);
  held->head->request.from_here = held->side.from_here;
  held->head->request.came_to = held->side.came_to;
  held->in.erase(0, all);
  {
    const std::lock_guard lock(guard_);
    whole_.push_back(std::move(held));
  }
  some_.notify_one();
}

void Front::drain(Held held) {
  finish_sending(held->side.socket);
  held->draining = true;
  held->in.clear();
  rest(std::move(held), false);
}

void Front::refuse(Held held, const Refusal& refusal) {
  const Reply reply = tell_(refusal);
  held->out = head_of(reply, reply.body.size(), false) + reply.body;
  held->closing = true;
  held->in.clear();
  held->latest = Clock::now() + limits_.still_time;
  go_on(std::move(held));
}

void Front::take_back() {
  std::deque<Held> back;
  {
    const std::lock_guard lock(guard_);
    back.swap(answered_);
  }
  for (Held& held : back) {
    if (held->out.empty() && held->closing) continue;
    held->since = Clock::now();
    held->latest = held->since + (!held->out.empty() ? limits_.still_time : held->in.empty() ? limits_.idle_time : limits_.head_time);
    go_on(std::move(held));
  }
}

void Front::drop_late(Clock::time_point now) {
  for (auto at = resting_.begin(); at != resting_.end();) {
    if (at->second->latest > now) {
      ++at;
      continue;
    }
    at = resting_.erase(at);
  }
}

void Front::work() {
  for (;;) {
    Held held;
    {
      std::unique_lock lock(guard_);
      some_.wait(lock, [this] { return ending_ || !whole_.empty(); });
      if (whole_.empty()) return;
      held = std::move(whole_.front());
      whole_.pop_front();
    }
    held = answer(std::move(held));
    {
      const std::lock_guard lock(guard_);
      answered_.push_back(std::move(held));
    }
    eventfd_write(bell_.get(), 1);
  }
}

Front::Held Front::answer(Held held) {
  const Request& request = held->head->request;
  Reply reply;
  try {
    reply = answer_(request);
  } catch (const std::exception& fault) {
    reply = tell_({500, std::string("a fault of the program itself: ") + fault.what()});
  }
  const bool keep = request.keep_alive && !end_.stop_requested();
  held->closing = !keep;
  if (reply.stream) {
    StreamLine line(*held, end_.get_token(), limits_.still_time);
    held->closing = true;  // a long answer is the last of its connection: its end is plain to see
    if (line.send_bytes(head_of(reply, std::nullopt, false))) {
      reply.stream(line);
      line.send_bytes(chunk({}));
    }
  } else {
    held->out = head_of(reply, reply.body.size(), keep);
    if (request.method != "HEAD") held->out += reply.body;
    // Most answers go out in one piece; what does not fit waits with the front.
    if (send_some(held->side.socket, held->out, held->sent) == Moved::some) {
      held->out.clear();
      held->sent = 0;
    }
  }
  held->head.reset();
  return held;
}

}  // namespace bloomset::http
