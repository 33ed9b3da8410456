#include "http/pairing.hpp"

#include <random>

namespace bloomset::http {
namespace {

constexpr std::string_view cookie = "bloomset=";
constexpr std::size_t most_wrong = 5;
constexpr std::int64_t minute_ms = 60'000;

std::string digits(std::size_t count, unsigned base) {
  std::random_device chance;  // the system's own source
  std::uniform_int_distribution<unsigned> any(0, base - 1);
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += "0123456789abcdef"[any(chance)];
  return out;
}

}  // namespace

Pairing::Pairing() : code_(digits(6, 10)), token_(digits(32, 16)) {}

Pairing::Tried Pairing::try_code(std::string_view code, std::int64_t now_ms) {
  const std::lock_guard lock(guard_);
  while (!wrong_ms_.empty() && wrong_ms_.front() + minute_ms <= now_ms) wrong_ms_.pop_front();
  if (wrong_ms_.size() >= most_wrong) return Tried::wait;
  if (code == code_) return Tried::right;
  wrong_ms_.push_back(now_ms);
  return Tried::wrong;
}

std::string Pairing::set_cookie() const { return std::string(cookie) + token_ + "; Path=/; HttpOnly; SameSite=Strict"; }

bool Pairing::admits(std::string_view cookies) const {
  while (!cookies.empty()) {
    const std::string_view one = cookies.substr(0, cookies.find(';'));
    cookies.remove_prefix(one.size() < cookies.size() ? one.size() + 1 : one.size());
    const std::size_t begin = one.find_first_not_of(' ');
    if (begin != std::string_view::npos && one.substr(begin) == std::string(cookie) + token_) return true;
  }
  return false;
}

}  // namespace bloomset::http
