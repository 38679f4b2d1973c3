#pragma once
/// Files that are being written, and what killed runs left of theirs. Such a file is called
/// ".new-PID-BOOT-START-NAME", a folder ".new-PID-BOOT-START": by number and start of its process
/// and the first eight letters of the machine's boot, so that nobody takes another's for left over.
#include <string>

namespace lodeway::io {

/// ".new-PID-BOOT-START" of this process.
[[nodiscard]] const std::string& own_mark();

/// Removes from the folder what no living process is writing: at once when it was begun on this
/// machine since it was started, else after a day (it may be another machine's). Looks once at a
/// folder in each run.
void clear_left_behind(const std::string& folder);

/// While it lives the file, or the folder with the files in it, goes when `remove_unfinished` is
/// called. Only the first 64 at a time and
/// paths of up to 1 000 bytes; what is not held is cleared by a later run.
class Unfinished {
 public:
  explicit Unfinished(const std::string& path);
  ~Unfinished();
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;

 private:
  int slot_ = -1;
};

/// Removes the unfinished files of this process. Safe in a signal handler that then ends it.
void remove_unfinished() noexcept;

}  // namespace lodeway::io
