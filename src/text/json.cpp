#include "text/json.hpp"

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>

#include "text/fold.hpp"

namespace bloomset::text {
namespace {

void append_quoted(std::string& out, std::string_view text) {
  constexpr std::string_view hex = "0123456789abcdef";
  out += '"';
  while (!text.empty()) {
    const std::size_t bad = first_not_utf8(text);
    for (const char c : text.substr(0, bad)) {
      const auto byte = static_cast<unsigned char>(c);
      if (c == '"' || c == '\\') {
        out.append(1, '\\').append(1, c);
      } else if (c == '\n') {
        out += "\\n";
      } else if (c == '\t') {
        out += "\\t";
      } else if (byte < 0x20U) {
        out.append("\\u00").append(1, hex[byte >> 4U]).append(1, hex[byte & 0xFU]);
      } else {
        out += c;
      }
    }
    if (bad == std::string_view::npos) break;
    append_utf8(out, U'\uFFFD');
    text.remove_prefix(bad + 1);
  }
  out += '"';
}

template <class Number>
void append_number(std::string& out, Number value) {
  std::array<char, 32> buffer;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  out.append(buffer.data(), end.ptr);
}

void new_line(std::string& out, int indent, int depth) {
  if (indent <= 0) return;
  out += '\n';
  out.append(static_cast<std::size_t>(indent) * static_cast<std::size_t>(depth), ' ');
}

}  // namespace

Json::Json(double value) {
  if (std::isfinite(value)) value_ = value == 0.0 ? 0.0 : value;  // -0 is 0 on paper
}

Json Json::object() {
  Json json;
  json.value_ = Object{};
  return json;
}

Json Json::array() {
  Json json;
  json.value_ = Array{};
  return json;
}

Json& Json::set(std::string key, Json value) {
  assert(std::holds_alternative<Object>(value_));
  auto& members = std::get<Object>(value_);
  for (auto& member : members)
    if (member.first == key) {
      member.second = std::move(value);
      return *this;
    }
  members.emplace_back(std::move(key), std::move(value));
  return *this;
}

Json& Json::push(Json value) {
  assert(std::holds_alternative<Array>(value_));
  std::get<Array>(value_).push_back(std::move(value));
  return *this;
}

void Json::print_to(std::string& out, int indent, int depth) const {
  if (const auto* object = std::get_if<Object>(&value_)) {
    out += '{';
    for (const auto& member : *object) {
      if (&member != object->data()) out += ',';
      new_line(out, indent, depth + 1);
      append_quoted(out, member.first);
      out += indent > 0 ? ": " : ":";
      member.second.print_to(out, indent, depth + 1);
    }
    if (!object->empty()) new_line(out, indent, depth);
    out += '}';
  } else if (const auto* array = std::get_if<Array>(&value_)) {
    out += '[';
    for (const Json& element : *array) {
      if (&element != array->data()) out += ',';
      new_line(out, indent, depth + 1);
      element.print_to(out, indent, depth + 1);
    }
    if (!array->empty()) new_line(out, indent, depth);
    out += ']';
  } else if (const auto* string = std::get_if<std::string>(&value_)) {
    append_quoted(out, *string);
  } else if (const auto* number = std::get_if<double>(&value_)) {
    append_number(out, *number);
  } else if (const auto* integer = std::get_if<std::int64_t>(&value_)) {
    append_number(out, *integer);
  } else if (const auto* natural = std::get_if<std::uint64_t>(&value_)) {
    append_number(out, *natural);
  } else if (const auto* boolean = std::get_if<bool>(&value_)) {
    out += *boolean ? "true" : "false";
  } else {
    out += "null";
  }
}

std::string Json::print(int indent) const {
  std::string out;
  print_to(out, indent, 0);
  return out;
}

}  // namespace bloomset::text
