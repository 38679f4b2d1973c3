#pragma once
/// What the fuzzers share: bytes taken one after the other, and a file that readers open by its path.
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace lodeway::fuzz {

/// Takes values off the front; zeros when nothing is left.
class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size)
      : left_(reinterpret_cast<const char*>(data), size) {}
  std::uint8_t byte() {
    if (left_.empty()) return 0;
    const auto out = static_cast<std::uint8_t>(left_.front());
    left_.remove_prefix(1);
    return out;
  }
  /// Of one to eight bytes.
  std::uint64_t number(int bytes) {
    std::uint64_t out = 0;
    for (int i = 0; i < bytes; ++i) out = out << 8U | byte();
    return out;
  }
  /// Up to a zero byte or the end.
  std::string_view text() {
    const auto end = left_.find('\0');
    const auto out = left_.substr(0, end);
    left_.remove_prefix(end == std::string_view::npos ? left_.size() : end + 1);
    return out;
  }
  [[nodiscard]] bool empty() const { return left_.empty(); }
  std::string_view rest() { return left_; }

 private:
  std::string_view left_;
};

/// In memory, gone with the process; one folder for each.
class File {
 public:
  explicit File(const char* name) {
    const std::filesystem::path shared = "/dev/shm";
    std::string folder =
        ((std::filesystem::exists(shared) ? shared : std::filesystem::temp_directory_path()) /
         "lodeway-fuzz-XXXXXX")
            .string();
    if (mkdtemp(folder.data()) == nullptr) std::abort();
    folder_ = folder;
    path_ = folder + "/" + name;
  }
  ~File() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  const std::string& holding(std::string_view bytes) const {
    write(path_, bytes);
    return path_;
  }
  [[nodiscard]] std::string beside(const std::string& name) const { return folder_ + "/" + name; }
  static void write(const std::string& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
  }

 private:
  std::string folder_, path_;
};

/// What must hold whatever came in; the fuzzer keeps the input that breaks it.
inline void must(bool so) {
  if (!so) std::abort();
}
/// A refusal is one line that can be read: no control letters, no novel.
inline void must_be_a_line(const std::string& what) {
  must(!what.empty() && what.size() < 2000);
  must(what.find('\n') == std::string::npos);
}

}  // namespace lodeway::fuzz
