#include "http/long_works.hpp"

#include <chrono>
#include <utility>

namespace bloomset::http {

LongWorks::Place LongWorks::take() {
  const std::lock_guard lock(guard_);
  if (there_ == at_most) return Place(nullptr);
  ++there_;
  return Place(this);
}

LongWorks::Place::Place(Place&& other) noexcept : of_(std::exchange(other.of_, nullptr)), computing_(std::exchange(other.computing_, false)) {}

LongWorks::Place::~Place() {
  if (of_ == nullptr) return;
  {
    const std::lock_guard lock(of_->guard_);
    --of_->there_;
    if (computing_) --of_->computing_;
  }
  of_->turn_.notify_all();
}

bool LongWorks::Place::wait_for_turn(const std::function<bool()>& given_up) {
  std::unique_lock lock(of_->guard_);
  while (!of_->turn_.wait_for(lock, std::chrono::milliseconds(100), [this] { return of_->computing_ < at_once; }))
    if (given_up()) return false;
  ++of_->computing_;
  computing_ = true;
  return true;
}

}  // namespace bloomset::http
