// What is left when work is stopped, or cannot put its files where they should go: nothing.
#include <sys/stat.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>

#include <gtest/gtest.h>

#include "apps/cli/progress_line.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {

TEST(Stopped, BySignalsThatPeopleSend) {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    EXPECT_EXIT(
        {
          cli::ProgressLine progress;
          const bool before = progress.go_on(0, "walking");
          std::raise(signal);
          std::exit(before && !progress.go_on(0, "walking") ? 7 : 1);
        },
        ::testing::ExitedWithCode(7), "")
        << signal;
  }
}

TEST(Stopped, ADeviceOrFolderIsNotReplaced) {
  const support::TemporaryFolder folder;
  const auto pipe = folder / "pipe", inner = folder / "inner";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  std::filesystem::create_directory(inner);
  for (const auto& path : {pipe, inner}) {
    const auto written = io::write_beside(path, "text");
    ASSERT_FALSE(written) << path;
    EXPECT_NE(written.error().what.find(path), std::string::npos);
  }
  EXPECT_TRUE(std::filesystem::is_fifo(pipe));
  EXPECT_EQ(folder.count(), 2);
}

TEST(Stopped, ASetAppearsTogetherOrNotAtAll) {
  const support::TemporaryFolder folder;
  const auto write_both = [&](bool keep) {
    auto set = io::SetBeside::into(folder / "paper");
    ASSERT_TRUE(set) << set.error().what;
    ASSERT_TRUE(io::write_beside(set->temporary() + "/card", "new"));
    ASSERT_TRUE(io::write_beside(set->temporary() + "/sheet", "new"));
    const bool free = !std::filesystem::exists(folder / "paper/card");
    if (keep) {
      EXPECT_EQ(set->keep().has_value(), free);
    }
  };
  write_both(false);
  EXPECT_TRUE(std::filesystem::is_empty(folder / "paper"));
  std::filesystem::create_directory(folder / "paper/card");  // in the way of one of the two
  write_both(true);
  EXPECT_FALSE(std::filesystem::exists(folder / "paper/sheet"));
  std::filesystem::remove(folder / "paper/card");
  write_both(true);
  EXPECT_TRUE(std::filesystem::is_regular_file(folder / "paper/sheet"));
  EXPECT_TRUE(std::filesystem::is_regular_file(folder / "paper/card"));
  EXPECT_FALSE(io::SetBeside::into("/dev/null/paper"));
}

}  // namespace
}  // namespace lodeway
