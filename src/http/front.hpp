// http/front.hpp - the door: takes connections in, hands whole requests to workers, and sends what they answer.
//
// One thread waits on all connections at once; a worker sees a request only when all of it has come, and gives the connection back when it has answered. So
// a connection that is idle, or sends slowly, or takes its answer slowly, holds a few kilobytes and no thread. A head must be there within `head_time` of
// its first byte, a body must keep coming; when all places are taken, the connection that has waited longest without a whole request makes room.
// Long answers (Reply::stream) hold a worker: whoever gives them limits their number. Caller: server.
#pragma once

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <stop_token>
#include <thread>
#include <unordered_map>
#include <vector>

#include "http/message.hpp"
#include "http/socket.hpp"

namespace bloomset::http {

struct FrontLimits {
  std::size_t connections = 512;
  unsigned workers = 8;
  std::chrono::milliseconds head_time{2000};   // from the first byte of a head to its last
  std::chrono::milliseconds still_time{2000};  // of a body or an answer: without a byte moved
  std::chrono::milliseconds idle_time{30000};  // between requests, and before the first
  std::chrono::milliseconds body_time{30000};  // from the head to the last byte of its body
};

class Front {
 public:
  /// May be called by several threads at once. Must not throw: what it throws is a 500.
  using Answer = std::function<Reply(const Request&)>;
  /// How a request that was refused before it was read is told.
  using Tell = std::function<Reply(const Refusal&)>;

  Front(Descriptor listener, Answer, Tell, FrontLimits = {});
  ~Front();  // stops
  /// Begins to take connections in.
  void start();
  /// Ends what is being answered, and returns when all is still.
  void stop();
  std::size_t connections() const { return count_; }

 private:
  struct Connection;
  class StreamLine;
  using Held = std::unique_ptr<Connection>;

  void watch(std::stop_token);        // the front's own thread
  void work();                        // a worker's
  void take_in();                     // new connections
  void make_room();                   // drops the one that has waited longest
  void moved(Held, unsigned events);  // something can be read or sent
  void go_on(Held);                   // after bytes came, or an answer went
  void rest(Held, bool to_send);      // back to waiting
  void refuse(Held, const Refusal&);  // tells it and closes
  void drain(Held);                   // all is said: waits until the other side closes
  void take_back();                   // connections whose requests were answered
  void drop_late(std::chrono::steady_clock::time_point now);
  Held answer(Held);  // in a worker

  Descriptor listener_, poll_, bell_;  // bell: rung by workers and by stop
  Answer answer_;
  Tell tell_;
  FrontLimits limits_;
  std::unordered_map<int, Held> resting_;  // only the front's thread
  std::atomic<std::size_t> count_ = 0;     // resting and at work

  std::mutex guard_;  // of the next three
  std::condition_variable some_;
  std::deque<Held> whole_, answered_;
  bool ending_ = false;
  std::stop_source end_;  // seen by long answers
  std::vector<std::thread> workers_;
  std::jthread watcher_;
};

}  // namespace bloomset::http
