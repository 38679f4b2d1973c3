#pragma once
/// What tests share: published tables, real data where it is there, running the program.
#include <optional>
#include <string>
#include <vector>

namespace lodeway::support {

/// The folder that holds the tests, absolute: one place, so that a compiled test does not depend on
/// it.
[[nodiscard]] std::string tests_folder();

/// Folder of real data: $LODEWAY_SHARED_DATA, or ../shared/data beside the checkout; nothing when
/// absent.
[[nodiscard]] std::optional<std::string> shared_data();

/// Numbers of a published table: lines that start with '#' or are empty are passed over; columns
/// are parted by spaces, tabs or commas; what is no number becomes NaN. Fails the test when
/// unreadable.
[[nodiscard]] std::vector<std::vector<double>> read_table(const std::string& name);
/// The same as texts, parted by commas only.
[[nodiscard]] std::vector<std::vector<std::string>> read_csv(const std::string& name);

/// How large a study is: `whole` when LODEWAY_STUDY=whole is set, as docs/results.md has it; else
/// `part`, which the suite can afford.
[[nodiscard]] int of_study(int whole, int part);

struct Outcome {
  int status = -1;
  std::string out, err;
};
/// Runs `lodeway` with these words, no shell in between.
[[nodiscard]] Outcome run_lodeway(const std::vector<std::string>& words);

/// Puts the demo ground at `path`: a copy of the one that the suite made ($LODEWAY_SKARROW; making it
/// takes seconds and is not what most tests prove), or one of its own where there is none.
[[nodiscard]] Outcome skarrow_ground(const std::string& path);

/// A folder of its own, removed again with all that is in it.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + "/" + name; }
  [[nodiscard]] const std::string& path() const { return path_; }
  /// How many entries it has: nothing may be left half-written.
  [[nodiscard]] long count() const;
  /// Writes a file into it and gives its path.
  std::string write(const std::string& name, const std::string& text) const;

 private:
  std::string path_;
};

[[nodiscard]] std::string read_text(const std::string& path);
void write_text(const std::string& path, const std::string& text);

}  // namespace lodeway::support

/// First line of a test that needs real data: `LODEWAY_NEEDS_SHARED(data);`
#define LODEWAY_NEEDS_SHARED(name)                                                   \
  const auto name##_found = lodeway::support::shared_data();                         \
  if (!name##_found) GTEST_SKIP() << "SKIPPED: the folder of real data is not here"; \
  const std::string& name = *name##_found
