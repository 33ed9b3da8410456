// `run` and `read` must not allocate: counted by replacing operator new while they work, over every demo formula.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <new>
#include <sstream>

#include "flow/compile.hpp"
#include "flow/run.hpp"

namespace {
bool counting = false;
long allocations = 0;
}  // namespace

// Not inlined: the compiler would take malloc and free for a mismatched pair of its own.
__attribute__((noinline)) void* operator new(std::size_t size) {
  if (counting) ++allocations;
  if (void* p = std::malloc(size == 0 ? 1 : size)) return p;
  throw std::bad_alloc();
}
__attribute__((noinline)) void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  if (counting) ++allocations;
  return std::malloc(size == 0 ? 1 : size);
}
__attribute__((noinline)) void operator delete(void* p) noexcept { std::free(p); }
__attribute__((noinline)) void operator delete(void* p, std::size_t) noexcept { std::free(p); }

namespace bloomset::flow {
namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::stringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

TEST(Allocation, TheCounterCounts) {
  counting = true;
  void* volatile block = ::operator new(8);  // a plain new and delete would be optimised away
  counting = false;
  ::operator delete(block);
  EXPECT_GE(allocations, 1);
}

TEST(Allocation, RunAndReadAllocateNothingOnAnyDemo) {
  const auto larder = larder::Larder::built_in().value();
  const auto kit = kit::Kit::built_in().value();
  const std::filesystem::path demo = BLOOMSET_SOURCE_DIR "/demo";
  int seen = 0;
  for (const auto& entry : std::filesystem::directory_iterator(demo)) {
    if (entry.path().extension() != ".toml") continue;
    base::Sources sources;
    auto formula =
        formula::read(entry.path().string(), text_of(entry.path()), sources, [&](const std::string& file) { return std::optional(text_of(demo / file)); });
    ASSERT_TRUE(formula.has_value()) << entry.path();
    auto sheet = compile(*formula, larder, kit);
    ASSERT_TRUE(sheet.has_value()) << entry.path();
    Batch<1> one(*sheet);
    Batch<8> eight(*sheet);
    std::vector<double> wide(sheet->nominal.size() * 8);
    for (std::size_t k = 0; k < wide.size(); ++k) wide[k] = sheet->nominal[k / 8];
    allocations = 0;
    counting = true;
    run<1>(*sheet, sheet->nominal, one);
    run<8>(*sheet, wide, eight);
    for (const StepInfo& step : sheet->steps)
      if (step.liquid != no_port) (void)matter::read_all(state_at(one, step.liquid, step.ice));
    counting = false;
    EXPECT_EQ(allocations, 0) << entry.path();
    ++seen;
  }
  EXPECT_GE(seen, 8);
}

}  // namespace
}  // namespace bloomset::flow
