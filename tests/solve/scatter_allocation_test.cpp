// Between the first and the last draw nothing is allocated: ten times the draws, the same number of allocations.
#include <gtest/gtest.h>

#include <cstdlib>
#include <new>

#include "solve/drink.hpp"
#include "solve/kitchen.hpp"

namespace {
long allocations = 0;
}

// Not inlined: the compiler would take malloc and free for a mismatched pair of its own.
__attribute__((noinline)) void* operator new(std::size_t size) {
  ++allocations;
  if (void* p = std::malloc(size == 0 ? 1 : size)) return p;
  throw std::bad_alloc();
}
__attribute__((noinline)) void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++allocations;
  return std::malloc(size == 0 ? 1 : size);
}
__attribute__((noinline)) void operator delete(void* p) noexcept { std::free(p); }
__attribute__((noinline)) void operator delete(void* p, std::size_t) noexcept { std::free(p); }

namespace bloomset::solve {
namespace {

TEST(Allocation, DoesNotGrowWithTheDraws) {
  const auto flow = solve_test::varied(solve_test::demo("08-harbour-light.toml"));
  const Drink drink(flow);
  const auto during = [](auto&& what) {
    const long before = allocations;
    what();
    return allocations - before;
  };
  const auto spread = [&](std::uint64_t draws) { return during([&] { (void)spreads(drink, {.draws = draws}); }); };
  const auto index = [&](std::uint64_t pairs) { return during([&] { (void)indices(drink, {.draws = pairs}); }); };
  EXPECT_GT(spread(1024), 5);
  EXPECT_EQ(spread(1024), spread(8192));
  EXPECT_EQ(spread(20000), spread(40000));
  EXPECT_EQ(index(64), index(512));
}

}  // namespace
}  // namespace bloomset::solve
