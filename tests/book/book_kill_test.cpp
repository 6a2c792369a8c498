#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book/book.hpp"
#include "book/keep.hpp"
#include "support.hpp"

/// Killed at any moment, a book is whole and holds every change that was acknowledged.
using namespace exworks;
using namespace exworks::test;

namespace {

/// Writes entries for ever, and tells the pipe of each once it is in the book.
[[noreturn]] void write_for_ever(const fs::path& path, int pipe, int round) {
  Book book(path, system_environment());
  for (std::int32_t i = 0;; ++i) {
    const std::string name = "r" + std::to_string(round) + "-" + std::to_string(i);
    book.record(1, {{"observed", name, Fields{{"value", "seen"}, {"note", "words that search has to follow"}}, "", "", false, false, 0}}, "x");
    if (write(pipe, &i, sizeof i) != sizeof i) _exit(1);
  }
}

/// The last entry that the writer acknowledged before it was killed, or -1.
std::int32_t acknowledged(int pipe) {
  std::int32_t last = -1, one = 0;
  while (read(pipe, &one, sizeof one) == sizeof one) last = one;
  return last;
}

}  // namespace

TEST_CASE("Killed two hundred times while writing, a book is whole and nothing acknowledged is lost", "[book][slow]") {
  const TemporaryFolder folder;
  const fs::path path = folder.path() / "book.db";
  Book(path, system_environment()).new_job({}, "x", std::nullopt);
  std::uint64_t state = 20261120;
  std::size_t written = 0, interrupted = 0;
  for (int round = 0; round < 200; ++round) {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    const pid_t child = fork();
    if (child == 0) {
      close(ends[0]);
      write_for_ever(path, ends[1], round);
    }
    close(ends[1]);
    state = state * 6364136223846793005u + 1442695040888963407u;
    usleep(static_cast<useconds_t>(500 + (state >> 33) % 25'000));
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    const std::int32_t last = acknowledged(ends[0]);
    close(ends[0]);
    interrupted += fs::exists(path.string() + "-journal") ? 1 : 0;

    const auto wrong = verify_book(path);
    INFO("round " << round << (wrong.empty() ? "" : ": " + wrong.front()));
    REQUIRE(wrong.empty());
    Book book(path, system_environment());
    std::size_t of_round = 0;
    const std::string prefix = "r" + std::to_string(round) + "-";
    const auto entries = book.entries(1);
    for (const Entry& e : entries) of_round += e.name.rfind(prefix, 0) == 0 ? 1 : 0;
    // One more may have been written than the pipe heard of.
    REQUIRE(of_round >= static_cast<std::size_t>(last + 1));
    REQUIRE(of_round <= static_cast<std::size_t>(last + 2));
    REQUIRE(entries.size() == written + of_round);
    written += of_round;
  }
  // The test means something only when kills did fall into transactions.
  CHECK(written > 0);
  CHECK(interrupted > 0);
}
