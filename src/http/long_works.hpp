// http/long_works.hpp - how many works of seconds may go on at a time, so that quick ones never wait for them.
//
// Two compute; two more wait for their turn; who comes then is told to come again. Callers: long_calls, bench_calls.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>

namespace bloomset::http {

class LongWorks {
 public:
  static constexpr int at_once = 2, at_most = 4;

  /// A place among the works, given back when it ends.
  class Place {
   public:
    explicit Place(LongWorks* of) : of_(of) {}
    Place(Place&& other) noexcept;
    Place& operator=(Place&&) = delete;
    ~Place();
    bool there() const { return of_ != nullptr; }
    /// Waits for this work's turn. False: `given_up` said so.
    bool wait_for_turn(const std::function<bool()>& given_up);

   private:
    LongWorks* of_;
    bool computing_ = false;
  };
  /// `there()` is false where all places are taken.
  Place take();

 private:
  std::mutex guard_;
  std::condition_variable turn_;
  int there_ = 0, computing_ = 0;
};

}  // namespace bloomset::http
