#include <cstddef>
#include <cstdint>

#include "fuzz/entry.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  bloomset::fuzz::words({reinterpret_cast<const char*>(data), size});
  return 0;
}
