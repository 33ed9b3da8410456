// A writer killed in the middle of its work, two hundred times: what it had told is there, and the file is whole.
//
// Killing a process shows that no acknowledged save waits in the program's own memory; it does not show what a disk does when the power goes.
#include <sys/wait.h>

#include <csignal>
#include <map>
#include <random>

#include "place.hpp"

namespace bloomset::store {
namespace {

using test::open;
using test::Place;

struct Told {
  std::int32_t document, size;
  std::int64_t number;
};

std::string text(const Told& told) {
  return std::to_string(told.document) + "/" + std::to_string(told.number) + std::string(static_cast<std::size_t>(told.size), 'x');
}
Key key(std::int32_t document) { return {"formula", "formula " + std::to_string(document)}; }

// Saves until it is killed; each save that was answered is told through the pipe, in one write.
[[noreturn]] void write_on(const std::filesystem::path& path, int pipe_end, std::uint32_t seed) {
  auto shelf = Shelf::open(path);
  std::mt19937 random(seed);
  while (shelf) {
    Told next{static_cast<std::int32_t>(random() % 5), static_cast<std::int32_t>(random() % (random() % 16 == 0 ? 20000 : 1000)), 0};
    const auto last = shelf->read(key(next.document));
    const std::int64_t from = last ? last->number : 0;
    next.number = from + 1;
    if (test::number_of(shelf->save(key(next.document), text(next), from, 1)) != next.number) break;
    if (::write(pipe_end, &next, sizeof next) != sizeof next) break;
  }
  ::_exit(1);
}

TEST(Crash, NoSaveThatWasAnsweredIsLostInTwoHundredKills) {
  const Place place;
  const auto path = place / "a.shelf";
  open(path);
  std::mt19937 random(20261125);
  std::map<std::int32_t, Told> last;
  std::size_t told_in_all = 0;
  for (std::uint32_t round = 0; round < 200; ++round) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(ends[0]);
      write_on(path, ends[1], round);
    }
    ::close(ends[1]);
    // From the first answer on, so that a slow machine kills in the middle of the work too.
    Told told{};
    for (bool killed = false; ::read(ends[0], &told, sizeof told) == sizeof told; ++told_in_all) {
      last[told.document] = told;
      if (killed) continue;
      ::usleep(static_cast<useconds_t>(random() % 8000));
      ::kill(child, SIGKILL);
      killed = true;
    }
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the writer stopped by itself";

    const Shelf shelf = open(path);
    for (const auto& [document, what] : last) {
      const auto found = shelf.read(key(document), what.number);
      ASSERT_TRUE(found) << "round " << round << ": " << found.error().message;
      ASSERT_EQ(found->text, text(what)) << "round " << round;
    }
    ASSERT_TRUE(shelf.check()->empty()) << "round " << round;
  }
  EXPECT_GT(told_in_all, 200U);
}

}  // namespace
}  // namespace bloomset::store
