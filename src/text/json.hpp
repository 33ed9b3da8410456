// text/json.hpp - JSON documents for the program's answers (RFC 8259).
//
// A value is put together and printed; nothing is read here. Members keep the order in which they were set, so equal
// answers are equal bytes. A number that is not finite is null, as the contract asks of what cannot be given; a double
// is printed with the fewest digits that read back as the same double. Text that is not UTF-8 gets U+FFFD for each bad byte.
#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace bloomset::text {

class Json {
 public:
  Json() = default;  // null
  Json(std::nullptr_t) {}
  Json(bool value) : value_(value) {}
  Json(double value);
  template <std::signed_integral Integer>
  Json(Integer value) : value_(static_cast<std::int64_t>(value)) {}
  template <std::unsigned_integral Integer>
  requires(!std::same_as<Integer, bool>) Json(Integer value) : value_(static_cast<std::uint64_t>(value)) {}
  Json(std::string value) : value_(std::move(value)) {}
  Json(std::string_view value) : value_(std::string(value)) {}
  Json(const char* value) : value_(std::string(value)) {}
  template <class T>
  Json(const std::optional<T>& value) {
    if (value) *this = Json(*value);
  }
  static Json object();
  static Json array();
  /// An array of what `make` makes of each element.
  template <class List, class Make>
  static Json array_of(const List& list, Make make) {
    Json out = array();
    for (const auto& element : list) out.push(make(element));
    return out;
  }

  /// Sets a member of an object, behind the others; a key that is there keeps its place and gets the new value.
  Json& set(std::string key, Json value);
  /// Appends to an array.
  Json& push(Json value);
  bool is_null() const { return std::holds_alternative<std::monostate>(value_); }

  /// On one line, or with `indent` blanks a level. No newline at the end.
  std::string print(int indent = 0) const;

 private:
  using Array = std::vector<Json>;
  using Object = std::vector<std::pair<std::string, Json>>;
  void print_to(std::string& out, int indent, int depth) const;
  std::variant<std::monostate, bool, std::int64_t, std::uint64_t, double, std::string, Array, Object> value_;
};

}  // namespace bloomset::text
