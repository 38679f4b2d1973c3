#pragma once
/// Where the real data are that are too large for the repository: the folder `shared/data` beside
/// the checkout, or what LODEWAY_SHARED_DATA names.
#include <cstdlib>
#include <filesystem>
#include <string>

#include <gtest/gtest.h>

namespace lodeway::support {

/// With a slash at the end; empty when there is none.
inline std::string lodeway_shared_data() {
  const char* named = std::getenv("LODEWAY_SHARED_DATA");
  const std::filesystem::path folder =
      named != nullptr ? std::filesystem::path(named)
                       : std::filesystem::path(LODEWAY_TESTS_DIR) / ".." / ".." / "shared" / "data";
  return std::filesystem::is_directory(folder) ? folder.string() + "/" : std::string();
}

}  // namespace lodeway::support

/// Inside a test: `path` becomes the file, or the test is skipped and says so.
#define LODEWAY_SHARED_FILE(path, name)                                      \
  const std::string path = lodeway::support::lodeway_shared_data() + (name); \
  if (!std::filesystem::exists(path)) GTEST_SKIP() << "SKIPPED: real data missing: " << (name)
