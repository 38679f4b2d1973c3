// What becomes of an answer that cannot be written, and of a reader that stops reading.
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "support/support.hpp"

namespace lodeway {
namespace {

/// The program with its answer going to a file descriptor; its status and what it complained of.
support::Outcome run_into(int answer, std::vector<std::string> words, bool heed_pipes = true) {
  const support::TemporaryFolder folder;
  const auto err = folder / "err";
  words.insert(words.begin(), LODEWAY_PROGRAM);
  const pid_t child = fork();
  if (child == 0) {
    std::vector<char*> argv;
    for (auto& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    dup2(answer, STDOUT_FILENO);
    dup2(open(err.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600), STDERR_FILENO);
    if (!heed_pipes) std::signal(SIGPIPE, SIG_IGN);
    execv(argv[0], argv.data());
    _exit(127);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), "",
          support::read_text(err)};
}

const std::vector<std::vector<std::string>> commands{
    {"sun", "--at", "54.6 -9.3", "--date", "2026-10-25", "--zone", "Europe/Dublin"},
    {"north", "--at", "54.6 -9.3", "--date", "2026-10-25", "--json"},
    {"--help"},
    {"ground", "--help"}};

TEST(Output, AFullDiskIsAFault) {
  const int full = open("/dev/full", O_WRONLY | O_CLOEXEC);
  ASSERT_GE(full, 0);
  for (const auto& words : commands) {
    const auto o = run_into(full, words);
    EXPECT_EQ(o.status, 2) << words[0];
    EXPECT_NE(o.err.find("standard output: could not be written"), std::string::npos) << o.err;
  }
  close(full);
}

// As in `lodeway sun ... | head -0`: ended by the signal, or by the status of an answer cut short;
// nobody is told anything.
TEST(Output, AReaderThatHasHeardEnoughIsToldNothing) {
  for (const bool heeded : {true, false}) {
    for (const auto& words : commands) {
      int ends[2];
      ASSERT_EQ(pipe(ends), 0);
      close(ends[0]);
      const auto o = run_into(ends[1], words, heeded);
      close(ends[1]);
      EXPECT_EQ(o.status, heeded ? 128 + SIGPIPE : 2) << words[0];
      EXPECT_EQ(o.err, "");
    }
  }
}

}  // namespace
}  // namespace lodeway
