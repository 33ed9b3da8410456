#include "sheet/digest.hpp"

#include <cstdint>

namespace bloomset::sheet {
namespace {

constexpr std::uint64_t offset_basis = 14695981039346656037ULL, prime = 1099511628211ULL;

std::uint64_t eaten(std::uint64_t hash, char c) { return (hash ^ static_cast<unsigned char>(c)) * prime; }

void print_hex(std::string& out, std::uint64_t value) {
  for (int shift = 60; shift >= 0; shift -= 4) out += "0123456789abcdef"[(value >> shift) & 15U];
}

}  // namespace

std::string digest(std::initializer_list<std::string_view> texts) {
  std::string whole;
  for (const std::string_view text : texts) whole.append(std::to_string(text.size())).append(":").append(text);
  std::uint64_t forwards = offset_basis, backwards = offset_basis;
  for (const char c : whole) forwards = eaten(forwards, c);
  for (auto c = whole.rbegin(); c != whole.rend(); ++c) backwards = eaten(backwards, *c);
  std::string out;
  print_hex(out, forwards);
  print_hex(out, backwards);
  return out;
}

std::string all_texts(const base::Sources& sources) {
  std::string all;
  for (std::uint32_t i = 0; i < sources.size(); ++i) all.append(sources.text(i)).append("\n");
  return all;
}

}  // namespace bloomset::sheet
