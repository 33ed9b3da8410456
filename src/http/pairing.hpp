// http/pairing.hpp - which devices of the local net may use the shelf: six digits read off the program's own terminal.
//
// Only with --lan. Who says the digits gets a cookie that holds until the program ends; nothing is stored. Five wrong tries in a minute close the door to
// all until that minute is over, so that guessing a million codes takes months. Callers: gate, the route /pair.
#pragma once

#include <cstdint>
#include <deque>
#include <mutex>
#include <string>
#include <string_view>

namespace bloomset::http {

class Pairing {
 public:
  Pairing();
  const std::string& code() const { return code_; }
  enum class Tried : std::uint8_t { right, wrong, wait };
  Tried try_code(std::string_view code, std::int64_t now_ms);
  /// The field Set-Cookie for a device that said the code.
  std::string set_cookie() const;
  /// Whether the field Cookie holds it.
  bool admits(std::string_view cookies) const;

 private:
  std::string code_, token_;
  std::mutex guard_;
  std::deque<std::int64_t> wrong_ms_;
};

}  // namespace bloomset::http
