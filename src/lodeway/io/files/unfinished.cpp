#include "lodeway/io/files/unfinished.hpp"

#include <fcntl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <charconv>
#include <chrono>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <mutex>
#include <set>
#include <string_view>
#include <vector>

namespace lodeway::io {

namespace {

namespace fs = std::filesystem;
constexpr std::string_view prefix = ".new-";
constexpr auto others_may_take = std::chrono::hours(24);

/// When a process began, in ticks since the machine was started; empty when there is none, or when it
/// is dead and only waits to be asked how it ended (state Z or X).
/// Field 22 of its line, counted behind the name, which may hold anything (proc(5)).
std::string start_of(const std::string& pid) {
  std::ifstream in("/proc/" + pid + "/stat");
  std::string line(std::istreambuf_iterator<char>(in), {});
  const auto name_end = line.rfind(')');
  if (name_end == std::string::npos) return {};
  if (name_end + 2 >= line.size() || line[name_end + 2] == 'Z' || line[name_end + 2] == 'X') return {};
  constexpr int start_field = 22, first_behind = 3;
  std::size_t at = name_end + 2;
  for (int field = first_behind; field < start_field && at != std::string::npos; ++field) {
    at = line.find(' ', at);
    if (at != std::string::npos) ++at;
  }
  if (at == std::string::npos) return {};
  return line.substr(at, line.find(' ', at) - at);
}

std::string boot() {
  std::ifstream in("/proc/sys/kernel/random/boot_id");
  std::string id;
  in >> id;
  constexpr std::size_t letters = 8;
  return id.size() >= letters ? id.substr(0, letters) : "unknown";
}

/// "PID-BOOT-START", and whatever follows. The name of a file of ours; nothing of anybody else's.
bool is_left_behind(const fs::directory_entry& entry) {
  const auto name = entry.path().filename().string();
  std::vector<std::string> parts;
  std::size_t at = prefix.size();
  for (int i = 0; i < 3; ++i) {
    const auto end = std::min(name.find('-', at), name.size());
    parts.push_back(name.substr(at, end - at));
    at = std::min(end + 1, name.size());
  }
  const auto number = [](const std::string& text) {
    unsigned long long value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size();
  };
  if (!number(parts[0]) || !number(parts[2]) || parts[1].size() < 7) return false;
  static const std::string this_boot = boot();
  if (parts[1] == this_boot) return start_of(parts[0]) != parts[2];
  std::error_code error;
  const auto written = fs::last_write_time(entry.path(), error);
  return !error && fs::file_time_type::clock::now() - written > others_may_take;
}

/// A folder with the files in it, by system calls alone: a signal handler may call nothing else.
void remove_flat_folder(const char* path) {
  const int folder = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder < 0) return;
  alignas(std::uint64_t) std::array<char, 4096> entries;
  constexpr int turns = 3;  // another thread may be making one more
  for (int turn = 0; turn < turns; ++turn) {
    lseek(folder, 0, SEEK_SET);
    for (long n; (n = syscall(SYS_getdents64, folder, entries.data(), entries.size())) > 0;) {
      constexpr std::size_t length_at = 16, name_at = 19;  // struct linux_dirent64, getdents(2)
      for (long at = 0; at < n;) {
        const char* entry = entries.data() + at;
        unsigned short length = 0;
        std::memcpy(&length, entry + length_at, sizeof length);
        unlinkat(folder, entry + name_at, 0);
        at += length;
      }
    }
    if (unlinkat(AT_FDCWD, path, AT_REMOVEDIR) == 0) break;
  }
  close(folder);
}

constexpr std::size_t most_slots = 64, most_bytes = 1000;
enum State : int { empty, taken, ready };
struct Slot {
  std::atomic<int> state{empty};
  std::array<char, most_bytes + 1> path{};
};
std::array<Slot, most_slots> slots;  // NOLINT: a signal handler can reach nothing else

}  // namespace

const std::string& own_mark() {
  static const std::string mark = std::string(prefix) + std::to_string(getpid()) + "-" + boot() +
                                  "-" + start_of(std::to_string(getpid()));
  return mark;
}

void clear_left_behind(const std::string& folder) {
  static std::mutex mutex;
  static std::set<std::string> looked_at;
  {
    const std::lock_guard lock(mutex);
    if (!looked_at.insert(folder).second) return;
  }
  std::error_code error;
  std::vector<fs::path> gone;
  for (fs::directory_iterator at(folder.empty() ? "." : folder, error), end; !error && at != end;
       at.increment(error)) {
    if (at->path().filename().native().starts_with(prefix) && is_left_behind(*at))
      gone.push_back(at->path());
  }
  for (const auto& path : gone) fs::remove_all(path, error);
}

Unfinished::Unfinished(const std::string& path) {
  if (path.size() > most_bytes) return;
  for (std::size_t i = 0; i < most_slots; ++i) {
    int expected = empty;
    if (!slots[i].state.compare_exchange_strong(expected, taken)) continue;
    std::memcpy(slots[i].path.data(), path.c_str(), path.size() + 1);
    slots[i].state = ready;
    slot_ = static_cast<int>(i);
    return;
  }
}

Unfinished::~Unfinished() {
  if (slot_ >= 0) slots[static_cast<std::size_t>(slot_)].state = empty;
}

void remove_unfinished() noexcept {
  for (auto& slot : slots) {
    if (slot.state != ready) continue;
    if (unlink(slot.path.data()) != 0 && errno == EISDIR) remove_flat_folder(slot.path.data());
  }
}

}  // namespace lodeway::io
